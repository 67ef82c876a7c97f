package key

import (
	"math"

	"rillkey/taxa"
)

// What a measured length says (memory; see [lengthLikelihood]).
const (
	lengthJunk  = 0.03 // share of measurements that are worth nothing
	lengthYoung = 0.5  // how fast lengths below the range grow rare: with this power of the length
	lengthTail  = 0.15 // how fast lengths above the range grow unlikely, in logarithms
	// lengthSpread is over how much of the logarithm the lengths of all animals lie, from
	// half a millimetre to 200: so rare is each where a measurement is worth nothing.
	lengthSpread = 6
)

// lengthLikelihood is how common a length in mm is in animals of a kind, by the
// logarithm of the length: alike within its range, rarer below it, where an animal is
// young, and above it as in the tail of a log-normal curve, of which 15 % too long is one
// standard deviation. So a length says more of a kind with a narrow range. What grows no
// more is too short as it is too long, and no likelier for it within its range: else every
// length of a few millimetres would speak for beetles. As a few measurements are worth
// nothing, no length rules a kind out.
func lengthLikelihood(mm float64, t *taxa.Taxon) float64 {
	within := math.Log(t.Length.Max/t.Length.Min) + 1/lengthYoung + lengthTail*math.Sqrt(math.Pi/2)
	return lengthJunk/lengthSpread + (1-lengthJunk)*lengthFit(mm, t)/within
}

// lengthFit is that, 1 within the range.
func lengthFit(mm float64, t *taxa.Taxon) float64 {
	off := max(mm/t.Length.Max, 1)
	switch {
	case mm < t.Length.Min && growsNoMore(t):
		off = t.Length.Min / mm
	case mm < t.Length.Min:
		return math.Pow(mm/t.Length.Min, lengthYoung)
	}
	z := math.Log(off) / lengthTail
	return math.Exp(-z * z / 2)
}

// growsNoMore reports whether all animals of a kind have their full length: insects with
// their wings, and pupae.
func growsNoMore(t *taxa.Taxon) bool { return t.Stage == "adult" || t.Stage == "pupa" }

// lengthLikelihoods is by kind; one of unknown length gets the mean of the
// others, weighted by the prior, so that the length neither favours nor
// disfavours it.
func (m *Model) lengthLikelihoods(mm float64) []float64 {
	out := make([]float64, len(m.kinds))
	sum, weight := 0.0, 0.0
	for i, t := range m.kinds {
		if t != nil && t.Length.Known() {
			out[i] = lengthLikelihood(mm, t)
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
