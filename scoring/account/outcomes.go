package account

import (
	"rillkey/scoring/chance"
	"rillkey/scoring/scheme"
)

// Outcomes are what the animals of a record may be to a scheme; the chances sum to
// 1. Animals named too broadly for the scheme may be any of the kinds that the
// name leaves open, in equal parts. The value leaves them out all the same, since
// nobody knows which they are.
func (a *Account) Outcomes(c scheme.Counting, r *Record) (out []chance.Outcome) {
	add := func(kind int, p float64) {
		for i := range out {
			if out[i].Kind == kind {
				out[i].Chance += p
				return
			}
		}
		out = append(out, chance.Outcome{Kind: kind, Chance: p})
	}
	for _, ch := range a.Belief(r) {
		p := placeChance(c.Kinds, r, ch.Taxon)
		for _, k := range p.Open {
			add(k, ch.Probability/float64(len(p.Open)))
		}
		if len(p.Open) == 0 {
			add(p.Kind, ch.Probability)
		}
	}
	if len(out) == 0 {
		add(scheme.None, 1)
	}
	return out
}

// placeChance is the place of one taxon that a record believes in: what its own
// name may be, it says itself.
func placeChance(kinds *scheme.KindSet, r *Record, taxon string) scheme.Placement {
	if taxon == r.Taxon {
		return kinds.PlaceNamed(taxon, r.Possible)
	}
	return kinds.Place(taxon)
}
