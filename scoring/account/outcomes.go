package account

import (
	"rillkey/scoring/chance"
	"rillkey/scoring/scheme"
)

// Outcomes are what the animals of a record may be to a scheme; the chances sum to
// 1. Animals named too broadly for the scheme may be any of the kinds that the
// name leaves open, in equal parts; where that is one alone, it or none. The value
// leaves them out all the same, since nobody knows which they are.
func (a *Account) Outcomes(c scheme.Counting, r *BoundRecord) (out []chance.Outcome) {
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
		kinds := mayBe(placeChance(c.Kinds, r, ch.Taxon))
		for _, k := range kinds {
			add(k, ch.Probability/float64(len(kinds)))
		}
	}
	if len(out) == 0 {
		add(scheme.None, 1)
	}
	return out
}

// mayBe are the kinds that animals at a place may be of, all as likely: one, or those that
// their name leaves open. Where that is a single one, and the name holds what the scheme
// has no kind for, it may as well be none.
func mayBe(p scheme.Placement) []int {
	switch {
	case len(p.Open) == 0:
		return []int{p.Kind}
	case len(p.Open) == 1 && !p.Sole:
		return []int{p.Open[0], scheme.None}
	}
	return p.Open
}

// placeChance is the place of one taxon that a record believes in: what its own
// name may be, it says itself.
func placeChance(kinds *scheme.KindSet, r *BoundRecord, taxon string) scheme.Placement {
	if taxon == r.Taxon {
		return kinds.PlaceNamed(taxon, r.Possible)
	}
	return kinds.Place(taxon)
}
