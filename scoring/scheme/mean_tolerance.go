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
type meanTolerance struct{}

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
	return meanTolerance{}
}

func (meanTolerance) value(s *Scheme, found []KindCount) (terms []Term, mean chance.Ratio) {
	for _, f := range found {
		w := s.weight[f.Kind.Group]
		terms = append(terms, s.term(f, "", w, f.Count*w))
		mean.Num += f.Count * w
		mean.Den += f.Count
	}
	return terms, mean
}

func (meanTolerance) accrue(s *Scheme) chance.Accrual {
	w := s.weigh()
	return chance.Accrual{Part: func(kind int, n int64) (int64, int64) { return n * w(kind), n }, Mean: true}
}

// bounds of a mean over animals: for the low one, every name that can pull the
// mean down takes its lowest value, the lowest of all first, until none can.
func (m meanTolerance) bounds(s *Scheme, found []KindCount, open []OpenCount) (low, high chance.Ratio) {
	_, value := m.value(s, found)
	return meanBounds(value, open, func(kind int) int64 { return s.weight[s.Kinds[kind].Group] })
}

func (meanTolerance) worth(s *Scheme, group string) string { return s.Plain(s.weight[group]) }
