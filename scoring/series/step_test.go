package series

import (
	"math"
	"testing"

	"rillkey/scoring/chance"
)

// By hand: 0.01, 0.02 and 0.2 of equal weight give 3 x 0.01, 2 x 0.02, 0.2.
func TestHolm(t *testing.T) {
	got := holm([]float64{0.2, 0.01, 0.02, 0.5}, []float64{1, 1, 1, 0})
	for i, want := range []float64{0.2, 0.03, 0.04, 1} {
		if math.Abs(got[i]-want) > 1e-12 {
			t.Errorf("%v", got)
		}
	}
	// With twice the weight a chance counts half.
	if got := holm([]float64{0.02, 0.04}, []float64{2, 1}); math.Abs(got[0]-0.03) > 1e-12 || math.Abs(got[1]-0.04) > 1e-12 {
		t.Errorf("%v", got)
	}
}

// The worked example of Benjamini and Hochberg 1995, section 3.3 (from memory): of
// 15 chances the four least are told at 0.05; at 0.03 the third is the last, since 4/15
// of 0.03 is 0.008 and the fourth is 0.0095.
func TestSitesToldOf(t *testing.T) {
	told := 0
	for _, level := range levels([]float64{
		0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1}) {
		if level > 0 {
			told++
		}
	}
	if told != 3 {
		t.Errorf("%d of 15 are told", told)
	}
}

// A step in numbers without memory, by hand: 4, 6, 5 and then 10: the variance
// within is 1 with 2 degrees of freedom, so t is 5 / sqrt(4/3) = 4.330.
func TestStepByHand(t *testing.T) {
	var all []observed
	for i, v := range []float64{4, 6, 5, 10} {
		all = append(all, observed{year: 1000 * i, value: v})
	}
	s := stepAt(all, 1, func(float64) prior { return prior{} })
	if s.earlierMean != 5 || s.laterMean != 10 || s.freedom != 2 || math.Abs(s.p-chance.StudentTails(4.3301270, 2)) > 1e-6 {
		t.Errorf("%+v", s)
	}
	for i := range all {
		all[i].year = i
	}
	if with := stepAt(all, 1, func(float64) prior { return prior{} }); with.p <= s.p {
		t.Errorf("memory between years must weaken it: %v, %v", with.p, s.p)
	}
}
