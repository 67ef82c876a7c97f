package practice

import (
	"cmp"
	"slices"
	"time"

	"rillkey/taxa"
)

// Known is the chance that the person names a kind rightly on sight at a moment.
func (l *Learner) Known(kind string, at time.Time) float64 {
	i, ok := l.course.kindPlace[kind]
	if !ok {
		return 0
	}
	right, _ := l.sights[i].now(at, l.firsts.prior())
	return right
}

// Usual are the kinds, the commonest first.
func (c *Course) Usual() []*taxa.Taxon {
	byCommonness := func(a, b *taxa.Taxon) int { return cmp.Compare(c.Common(b.ID), c.Common(a.ID)) }
	return slices.SortedStableFunc(slices.Values(c.kinds), byCommonness)
}
