package scoring

import (
	"rillkey/scoring/account"
	"rillkey/scoring/chance"
	"rillkey/scoring/scheme"
)

// sum is the value of one scheme for some records.
type sum struct {
	sample    string // label, where the records are those of one sample
	terms     []scheme.Term
	value     chance.Ratio
	bounded   bool         // some animals are named too broadly, and the formula can tell what they could do
	low, high chance.Ratio // how far they could move the value; the value itself where there are none
}

// animals is the number of animals that the value rests on.
func (v sum) animals() (n int64) {
	for _, t := range v.terms {
		n += t.Count
	}
	return n
}

func (s grader) sum(from sorted) (v sum) {
	v.terms, v.value = s.Value(from.found)
	v.low, v.high = v.value, v.value
	if len(from.open) == 0 {
		return v
	}
	if low, high, ok := s.Bounds(from.found, from.open); ok {
		v.low, v.high, v.bounded = low, high, true
	}
	return v
}

// best is the sample with the value that speaks best of the stream, the first
// taken among equals. Its bounds are those of the best value, whichever sample
// that would be in the end.
func (s grader) best(from evidence) (best sum) {
	var hoped, feared chance.Ratio
	bounded := false
	for _, taken := range from.samples {
		one := s.sum(s.sort(account.FromSample(from.rows, taken.Label)))
		one.sample = taken.Label
		bounded = bounded || one.bounded
		good, bad := one.high, one.low
		if s.LowIsClean() {
			good, bad = bad, good
		}
		if s.better(good, hoped) {
			hoped = good
		}
		if !one.value.Defined() {
			continue // may stay without a value, so nothing is sure of it
		}
		if s.better(bad, feared) {
			feared = bad
		}
		if s.better(one.value, best.value) {
			best = one
		}
	}
	best.bounded, best.low, best.high = bounded, feared, hoped
	if s.LowIsClean() {
		best.low, best.high = hoped, feared
	}
	return best
}

// better tells that the value a speaks better of the stream than b, or that
// there is no b.
func (s grader) better(a, b chance.Ratio) bool {
	switch {
	case !a.Defined():
		return false
	case !b.Defined():
		return true
	case s.LowIsClean():
		return a.Steps() < b.Steps()
	}
	return a.Steps() > b.Steps()
}
