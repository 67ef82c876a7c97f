package scoring

import (
	"fmt"

	"rillkey/taxa/authored"
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
		if s.weight[g.ID] > mostTolerant*s.one() {
			at.Fail(key, "bad-figure", fmt.Sprintf("the weight of the group %s is no tolerance value, which lies from 0 to %d", authored.Quote(g.ID), mostTolerant), "")
			s.weight[g.ID] = 0
		}
	}
	return meanTolerance{}
}

func (meanTolerance) value(s *Scheme, found []kindCount) (terms []Term, mean ratio) {
	for _, f := range found {
		w := s.weight[f.kind.Group]
		terms = append(terms, s.term(f, "", w, f.count*w))
		mean.num += f.count * w
		mean.den += f.count
	}
	return terms, mean
}

func (meanTolerance) worth(s *Scheme, group string) string { return s.plain(s.weight[group]) }
