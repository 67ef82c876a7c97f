package key

import (
	"math"

	"rillkey/taxa"
)

// What a measured length says (memory; see [lengthLikelihood]).
const (
	lengthJunk  = 0.03 // share of measurements that are worth nothing
	lengthYoung = 0.5  // what is left to a kind of which the animal is very young
	lengthTail  = 0.15 // how fast lengths above the range grow unlikely, in logarithms
)

// lengthLikelihood is how well a length in mm fits a range, 0.03 to 1. Within
// the range it fits. An animal shorter than the range may be young: the fit
// falls gently, at most to a half. Above the range it falls as the tail of a
// log-normal curve: 15 % too long is one standard deviation. As a few
// measurements are worth nothing, no length rules a kind out.
func lengthLikelihood(mm float64, r taxa.Range) float64 {
	return lengthJunk + (1-lengthJunk)*lengthFit(mm, r)
}

func lengthFit(mm float64, r taxa.Range) float64 {
	switch {
	case mm > r.Max:
		z := math.Log(mm/r.Max) / lengthTail
		return math.Exp(-z * z / 2)
	case mm < r.Min:
		return lengthYoung + (1-lengthYoung)*mm/r.Min
	}
	return 1
}

// lengthLikelihoods is by kind; one of unknown length gets the mean of the
// others, weighted by the prior, so that the length neither favours nor
// disfavours it.
func (m *Model) lengthLikelihoods(mm float64) []float64 {
	out := make([]float64, len(m.kinds))
	sum, weight := 0.0, 0.0
	for i, t := range m.kinds {
		if t != nil && t.Length.Known() {
			out[i] = lengthLikelihood(mm, t.Length)
			sum += m.prior[i] * out[i]
			weight += m.prior[i]
		}
	}
	for i, t := range m.kinds {
		if t == nil || !t.Length.Known() {
			out[i] = 1
			if weight > 0 {
				out[i] = sum / weight
			}
		}
	}
	return out
}

// Length is the length in mm that was said last, 0 where none was.
func (q *Inquiry) Length() float64 {
	for i := len(q.given) - 1; i >= 0; i-- {
		if q.given[i].length > 0 {
			return q.given[i].length
		}
	}
	return 0
}
