package trial

import (
	"math/rand/v2"
	"slices"

	"rillkey/taxa"
)

// part is traits that are lost together, with what is then seen of them; empty for
// what nobody can tell any more.
type part map[string]string

// parts are what animals lose in a net (common practice). Traits and states that a
// vocabulary does not have are passed over.
var parts = []part{
	{"tails": "none", "tail-length": "none", "tail-middle": "none", "tail-hair": "none"},
	{"gills": "none", "gill-form": "none", "gill-row": "none", "gill-mark": "none", "lids": "none"},
	{"antennae": "none", "feelers": "none"},
	{"legs": "", "claws": "", "leg-length": "", "forelegs": "", "hindlegs": "", "reach": "", "foot": ""},
	{"oars": "none", "hind": "plain"},
	{"side-arms": "none"},
	{"case": "none", "case-stuff": "none", "case-shape": "none", "case-bend": "none", "case-lay": "none", "case-face": "none"},
	{"hooks": "none", "hook-stalk": "none", "hook-size": "none", "end-plate": "none"},
}

// notYet is what half-grown animals do not have yet: always wing flaps, and the
// rest in half of them (common practice).
var (
	notYet     = part{"wings": "none", "pads": "none"}
	notYetHalf = []part{
		{"gills": "none", "gill-form": "none", "gill-row": "none", "gill-mark": "none", "lids": "none"},
		{"pattern": "plain", "colour": "pale"},
		{"side-arms": "none"},
	}
)

// seenLost is how often somebody sees that a part has been there, and leaves open
// what it was like (memory).
const seenLost = 0.3

// wound takes one part from an animal that has several traits to lose.
func (d *draws) wound(a *animal, r *rand.Rand) {
	var open []part
	for _, p := range parts {
		if a.has(p) {
			open = append(open, p)
		}
	}
	which, noticed := r.Float64(), r.Float64() < seenLost
	if len(open) > 0 {
		d.without(a, open[int(which*float64(len(open)))], noticed)
	}
}

// has reports whether there is anything of a part to lose.
func (a *animal) has(p part) bool {
	for trait, left := range p {
		if s, ok := a.is[trait]; ok && s != left && s != "none" {
			return true
		}
	}
	return false
}

// without takes what a part shows from an animal. What is not noticed is seen as
// if it had never been there.
func (d *draws) without(a *animal, p part, noticed bool) {
	for trait, left := range p {
		t := d.vocabulary.Trait(trait)
		if s, ok := a.is[trait]; t == nil || !ok || s == "none" {
			continue
		}
		if noticed || left == "" {
			delete(a.is, trait)
		} else if t.State(left) >= 0 {
			a.is[trait] = left
		}
	}
}

// unripe makes an animal a half-grown one.
func (d *draws) unripe(a *animal, r *rand.Rand) {
	if a.kind == nil || a.kind.Stage == "adult" {
		return // a beetle that has wing covers is grown
	}
	if s := a.is["wings"]; s == "pads" {
		d.without(a, notYet, false)
	}
	for _, p := range notYetHalf {
		if r.Float64() < 0.5 && a.has(p) {
			d.without(a, p, false)
		}
	}
}

// expect makes a person see now and then what another animal would show.
func (d *draws) expect(a *animal, r *rand.Rand) {
	which := r.Float64()
	if a.kind == nil || len(a.kind.Mistaken) == 0 {
		return
	}
	other := d.catalog.Taxon(a.kind.Mistaken[int(which*float64(len(a.kind.Mistaken)))].Taxon)
	for _, t := range d.traits {
		seen := r.Float64() < expectedSeen
		shown := other.States(t.ID)
		if _, known := a.is[t.ID]; !seen || !known || len(shown) == 0 {
			continue
		}
		if !slices.ContainsFunc(shown, func(w taxa.Weight) bool { return w.State == a.is[t.ID] }) {
			a.expected[t.ID] = mostly(shown)
		}
	}
}

// mostly is the state with the largest share.
func mostly(shown []taxa.Weight) string {
	best := shown[0]
	for _, w := range shown {
		if w.Share > best.Share {
			best = w
		}
	}
	return best.State
}
