package figure

import (
	"slices"

	"rillkey/taxa"
)

// Traits are one state for each trait that is known of an animal. A trait that
// is missing is unknown.
type Traits map[string]string

// traitsOf are a taxon's most usual states; of equal ones the first.
func traitsOf(t *taxa.Taxon, v *taxa.Vocabulary) Traits {
	out := Traits{}
	for _, trait := range v.Asked() {
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
	return known && !absence(s)
}

func (t Traits) or(trait, state string) string {
	if s, ok := t[trait]; ok {
		return s
	}
	return state
}

// needs says what else must be there when a part is, and what becomes of that
// when the part is not: who has tails has tails of some length, and who has
// tails of no length has none. Where the part can go with several states, one
// stands for all.
var needs = []struct{ part, trait, state, gone string }{
	{"tail-length", "tails", "3", "none"}, {"tail-middle", "tails", "3", "2"}, {"tail-hair", "tails", "2", "none"},
	{"gill-mark", "gill-form", "plates", ""}, {"lids", "gill-form", "lids", "plates"},
	{"gill-row", "gills", "sides", "none"}, {"gill-form", "gills", "sides", "none"},
	{"hook-stalk", "hooks", "two", "none"}, {"hook-size", "hooks", "two", "none"}, {"end-plate", "hooks", "two", ""},
	{"oars", "hind", "plates", "plain"}, {"tube", "hind", "tube", "plain"}, {"point-length", "hind", "points", "plain"},
	{"pads", "wings", "pads", "none"}, {"mask", "mouth", "mask", "small"}, {"tusks", "mouth", "tusks", "small"},
	{"feelers", "antennae", "pairs", ""},
	{"case-stuff", "case", "carried", "none"}, {"case-shape", "case", "carried", "none"},
	{"case-bend", "case", "carried", "none"}, {"case-lay", "case", "carried", "none"},
	{"case-side", "case", "carried", "none"}, {"case-held", "case", "carried", "none"},
	{"retreat", "case", "fixed", ""},
	{"valves", "shell", "two", "none"}, {"spire", "shell", "coil", "none"},
	{"opening", "shell", "coil", "none"}, {"door", "shell", "coil", ""},
	{"leg-place", "legs", "6", "0"}, {"leg-length", "legs", "6", "0"}, {"forelegs", "legs", "6", "0"}, {"hindlegs", "legs", "6", "0"},
	{"tails", "tail-length", "long", ""}, {"gills", "gill-form", "plates", ""},
	{"legs", "leg-length", "medium", ""}, {"legs", "leg-place", "front", ""},
}

// coherent adds what the parts that are there need.
func (t Traits) coherent() Traits {
	for _, n := range needs {
		if t.has(n.part) && t.lacks(n.trait, n.part, n.state) {
			t[n.trait] = n.state
		}
	}
	if t.is("gill-form", "lids") {
		t["gills"] = "back"
	}
	return t
}

// lacks reports whether the trait is not in a state that the part can go with.
func (t Traits) lacks(trait, part, state string) bool {
	if trait != "hooks" && wants(part, trait) {
		return t[trait] != state
	}
	return !t.has(trait)
}

// wants reports whether a part goes with one state of the trait alone.
func wants(part, trait string) bool {
	switch trait {
	case "hind", "wings", "mouth", "antennae", "case", "shell", "hooks":
		return true
	}
	return part == "lids" || part == "gill-mark"
}
