package trial

import (
	"math/rand/v2"
	"slices"

	"rillkey/key/harm"
	"rillkey/taxa"
)

// seenLost is how often somebody sees that a part has been there, and leaves open
// what it was like (memory).
const seenLost = 0.3

// wound takes one part from an animal that has several traits to lose.
func (d *draws) wound(a *animal, r *rand.Rand) {
	var open []harm.Loss
	for _, p := range harm.LostParts {
		if p.Shown(a.is) {
			open = append(open, p)
		}
	}
	which, noticed := r.Float64(), r.Float64() < seenLost
	if len(open) > 0 {
		open[int(which*float64(len(open)))].Take(a.is, noticed, d.vocabulary)
	}
}

// unripe makes an animal a half-grown one.
func (d *draws) unripe(a *animal, r *rand.Rand) {
	if a.kind == nil || a.kind.Stage == "adult" {
		return // a beetle that has wing covers is grown
	}
	if s := a.is["wings"]; s == "pads" {
		harm.HalfGrown[0].Take(a.is, false, d.vocabulary)
	}
	for _, p := range harm.HalfGrown[1:] {
		if r.Float64() < 0.5 && p.Shown(a.is) {
			p.Take(a.is, false, d.vocabulary)
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
			a.expected[t.ID] = taxa.Usual(shown)
		}
	}
}
