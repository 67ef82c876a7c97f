package scheme

import (
	"rillkey/scoring/chance"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// meanTolerance is the mean tolerance value of the animals: sum(n x t) / N,
// n the animals of a kind, t its tolerance value from 0 to 10, N the animals
// of all kinds that have one. Source: Hilsenhoff 1988, J. N. Am. Benthol.
// Soc. 7(1):65-68.
type meanTolerance struct{ mean }

// mostTolerant is the highest tolerance value of the scale.
const mostTolerant = 10

func readMeanTolerance(s *Scheme, f schemeFile) formula {
	s.readWeights(f.groups)
	at, key := f.head, "kinds_from"
	for i, g := range s.Groups {
		if s.KindsFrom == "" {
			at, key = f.groups[i].Table, "weight"
		}
		if s.weight[g.ID] > mostTolerant*s.One() {
			at.Fail(key, "bad-figure", wording.Sprintf(
				"the weight of the group %s is no tolerance value, which lies from 0 to %d", plain.Quote(g.ID), mostTolerant),
				wording.Text("correct it, or choose another form"))
			s.weight[g.ID] = 0
		}
	}
	return meanTolerance{mean{s.weightOf, 1}}
}

func (meanTolerance) worth(s *Scheme, group string) string { return s.Plain(s.weight[group]) }

// mean is a mean over animals, weight being what one of a kind is worth in steps, of
// which people are told a part of so many.
type mean struct {
	weight func(kind int) int64
	parts  int64
}

func (m mean) value(s *Scheme, found []KindCount) (terms []Term, value chance.Ratio) {
	for _, f := range found {
		w := m.weight(f.Index)
		terms = append(terms, s.term(f, "", w/m.parts, f.Count*w/m.parts))
		value.Num += f.Count * w
		value.Den += f.Count
	}
	return terms, value
}

func (m mean) accrue(s *Scheme) chance.Accrual {
	w := s.weights(m.weight)
	return chance.Accrual{Part: func(kind int, n int64) (int64, int64) { return n * w[kind], n }, Mean: true}
}
