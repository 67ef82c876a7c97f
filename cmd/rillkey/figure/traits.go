package figure

import (
	"slices"

	"rillkey/taxa"
)

// Traits are one state for each trait that is known of an animal. A trait that
// is missing is unknown.
type Traits map[string]string

// TraitsOf are a taxon's most usual states; of equal ones the first.
func TraitsOf(t *taxa.Taxon, v *taxa.Vocabulary) Traits {
	out := Traits{}
	for _, trait := range v.Traits() {
		best := 0.0
		for _, w := range t.States(trait.ID) {
			if w.Share > best+1e-9 {
				out[trait.ID], best = w.State, w.Share
			}
		}
	}
	return out.coherent()
}

// is reports whether the trait has one of the states.
func (t Traits) is(trait string, states ...string) bool {
	return slices.Contains(states, t[trait])
}

// has reports whether the part that a trait speaks of is known to be there.
func (t Traits) has(trait string) bool {
	s, known := t[trait]
	return known && s != "none" && s != "no"
}

func (t Traits) or(trait, state string) string {
	if s, ok := t[trait]; ok {
		return s
	}
	return state
}

// needs says what else must be there when a part is: who has tails has tails of
// some length. Any other state of that trait serves.
var needs = []struct{ part, trait, state string }{
	{"tail-length", "tails", "3"}, {"tail-middle", "tails", "3"}, {"tail-hair", "tails", "2"},
	{"gill-mark", "gill-form", "plates"}, {"lids", "gill-form", "lids"}, {"gill-row", "gills", "sides"}, {"gill-form", "gills", "sides"},
	{"hook-stalk", "hooks", "two"}, {"hook-size", "hooks", "two"}, {"end-plate", "hooks", "two"},
	{"oars", "hind", "plates"}, {"tube", "hind", "tube"}, {"point-length", "hind", "points"},
	{"pads", "wings", "pads"}, {"mask", "mouth", "mask"}, {"tusks", "mouth", "tusks"}, {"feelers", "antennae", "pairs"},
	{"case-stuff", "case", "carried"}, {"case-shape", "case", "carried"}, {"case-bend", "case", "carried"}, {"case-lay", "case", "carried"},
	{"retreat", "case", "fixed"},
	{"valves", "shell", "two"}, {"spire", "shell", "coil"}, {"opening", "shell", "coil"}, {"door", "shell", "coil"},
	{"tails", "tail-length", "long"}, {"gills", "gill-form", "plates"},
	{"legs", "leg-length", "medium"}, {"legs", "leg-place", "front"},
}

// coherent adds what the parts that are there need.
func (t Traits) coherent() Traits {
	for _, n := range needs {
		if n.part == "legs" {
			if t.has("legs") && t["legs"] != "0" && !t.has(n.trait) {
				t[n.trait] = n.state
			}
			continue
		}
		if t.has(n.part) && !t.has(n.trait) {
			t[n.trait] = n.state
		}
	}
	if t.is("gill-form", "lids") {
		t["gills"] = "back"
	}
	return t
}

// with is a copy in which some traits are set; what spoke of a part that is now
// gone goes with it.
func (t Traits) with(set Traits) Traits {
	out := Traits{}
	for trait, s := range t {
		out[trait] = s
	}
	for trait, s := range set {
		out[trait] = s
	}
	for _, n := range needs {
		s, isSet := set[n.trait]
		if _, own := set[n.part]; own || !isSet || !out.has(n.part) {
			continue
		}
		if n.part == n.trait || s != "none" && (s == n.state || !wants(n.part, n.trait)) {
			continue
		}
		if n.part != "legs" && n.part != "tails" && n.part != "gills" {
			delete(out, n.part)
		} else if s == "none" {
			delete(out, n.part)
		}
	}
	return out.coherent()
}

// wants reports whether a part goes with one state of the trait alone.
func wants(part, trait string) bool {
	switch trait {
	case "hind", "wings", "mouth", "antennae", "case", "shell", "hooks":
		return true
	}
	return part == "lids" || part == "gill-mark"
}
