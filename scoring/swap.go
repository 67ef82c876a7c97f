package scoring

import (
	"math"

	"rillkey/scoring/chance"
	"rillkey/scoring/scheme"
)

// Swap is what it does to the main scheme of a protocol when an animal of one kind is
// recorded as another: the difference of the values of a tally that holds nothing but
// the one and one that holds nothing but the other, as a part of the largest such
// difference, 0 to 1. What the scheme does not count differs from what it counts by
// half of the largest. It is nil where no difference is ever made, and the error says
// that there is no such protocol.
func (r *Rules) Swap(protocol string) (func(a, b string) float64, error) {
	p, err := r.Protocol(protocol)
	if err != nil {
		return nil, err
	}
	s := r.Scheme(p.Schemes[0])
	kinds := s.Counting().Kinds
	values := make([]float64, len(kinds.Kinds))
	least, most := math.Inf(1), math.Inf(-1)
	for i := range values {
		counts := make([]int64, len(values))
		counts[i] = 1
		values[i] = ratio(s.ValueOf(counts))
		if !math.IsNaN(values[i]) {
			least, most = min(least, values[i]), max(most, values[i])
		}
	}
	if !(most > least) {
		return nil, nil
	}
	return func(a, b string) float64 {
		i, j := kinds.Place(a).Kind, kinds.Place(b).Kind
		switch {
		case i == j:
			return 0
		case i == scheme.None || j == scheme.None || math.IsNaN(values[i]) || math.IsNaN(values[j]):
			return 0.5
		}
		return math.Abs(values[i]-values[j]) / (most - least)
	}, nil
}

func ratio(r chance.Ratio) float64 {
	if !r.Defined() {
		return math.NaN()
	}
	return float64(r.Num) / float64(r.Den)
}
