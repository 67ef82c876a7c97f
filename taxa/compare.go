package taxa

import (
	"cmp"
	"slices"

	"rillkey/taxa/sorting"
)

// looks are the ways of looking, easiest first.
var looks = []Look{Eye, Patience, Lens}

// TellApart are the traits that separate two taxa for certain: both state them,
// and they share no state. The easiest to see come first, and among those the
// ones least often misread.
func (c *Catalog) TellApart(a, b *Taxon) []*Trait {
	var out []*Trait
	for _, trait := range c.vocabulary.Asked() {
		if apart(a.States(trait.ID), b.States(trait.ID)) {
			out = append(out, trait)
		}
	}
	sorting.Stable(out, func(x, y *Trait) int {
		return cmp.Or(cmp.Compare(slices.Index(looks, x.Look), slices.Index(looks, y.Look)), cmp.Compare(x.Misread, y.Misread))
	})
	return out
}

// Usual is the state that most animals show of those of a trait, the first of equals; shown
// holds at least one.
func Usual(shown []Weight) string {
	return slices.MaxFunc(shown, func(a, b Weight) int { return cmp.Compare(a.Share, b.Share) }).State
}

func apart(a, b []Weight) bool {
	if a == nil || b == nil {
		return false
	}
	return !slices.ContainsFunc(a, func(x Weight) bool {
		return slices.ContainsFunc(b, func(y Weight) bool { return x.State == y.State })
	})
}
