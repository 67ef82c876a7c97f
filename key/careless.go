package key

import (
	"math"
	"math/bits"
)

// careless is how many times as likely all that was said is from people who misread
// so many times as often as the model has it, whatever the animal is.
func (q *Inquiry) careless(times float64) float64 {
	m := q.model
	rates := m.rates.Times(times)
	as, other := make([]float64, len(m.kinds)), make([]float64, len(m.kinds))
	for i := range m.kinds {
		as[i] = math.Log(m.prior[i])
		if q.other != nil {
			as[i] += q.other[i]
		}
		other[i] = as[i]
	}
	for n, t := range m.traits {
		seen := q.belief.Seen(n)
		if seen == 0 {
			continue
		}
		readings := rates.believed(t.Trait)
		for i := range m.kinds {
			as[i] += math.Log(seenAs(t.truth[i], t.readings, seen))
			other[i] += math.Log(seenAs(t.truth[i], readings, seen))
		}
	}
	fit := math.Exp(logSum(other) - logSum(as))
	return math.Round(fit*1e4) / 1e4
}

// seenAs is the chance that an animal is read as one of the states seen, as bits.
func seenAs(truth []float64, readings [][]float64, seen uint64) (p float64) {
	for s, share := range truth {
		for r := seen; r != 0 && share > 0; r &= r - 1 {
			p += share * readings[s][bits.TrailingZeros64(r)]
		}
	}
	return p
}

// logSum is the logarithm of the sum of what some logarithms are of.
func logSum(logs []float64) float64 {
	top, sum := math.Inf(-1), 0.0
	for _, l := range logs {
		top = max(top, l)
	}
	for _, l := range logs {
		sum += math.Exp(l - top)
	}
	return top + math.Log(sum)
}
