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
		usual, careless := chancesOf(t.readings, seen), chancesOf(rates.believed(t.Trait), seen)
		for i := range m.kinds {
			as[i] += math.Log(seenAs(t.truth[i], usual))
			other[i] += math.Log(seenAs(t.truth[i], careless))
		}
	}
	fit := math.Exp(logSum(other) - logSum(as))
	return math.Round(fit*1e4) / 1e4
}

// seenAs is the chance that an animal is read as one of the states seen, of which chances
// are those of [chancesOf].
func seenAs(truth []float64, chances [][]float64) (p float64) {
	for s, share := range truth {
		if share > 0 {
			for _, chance := range chances[s] {
				p += share * chance
			}
		}
	}
	return p
}

// chancesOf are, by true state, the chances of the states seen, as bits.
func chancesOf(readings [][]float64, seen uint64) [][]float64 {
	out := make([][]float64, len(readings))
	all := make([]float64, 0, len(readings)*bits.OnesCount64(seen))
	for s, row := range readings {
		from := len(all)
		for r := seen; r != 0; r &= r - 1 {
			all = append(all, row[bits.TrailingZeros64(r)])
		}
		out[s] = all[from:]
	}
	return out
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
