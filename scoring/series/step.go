package series

import (
	"math"

	"rillkey/scoring/chance"
)

// observed is a figure as one visit found it.
type observed struct {
	row      int // of the table
	season   season
	year     int     // of the season: December belongs to the next
	day      float64 // of the year
	value    float64
	told     float64 // the same as people read it, per cent of a share
	sampling float64 // variance because of which samples were taken; 0 where nobody knows
}

// prior is what is taken for granted of how a figure varies from visit to visit,
// as so many degrees of freedom beside the site's own (Smyth 2004, moderated t,
// from memory).
type prior struct {
	freedom  int
	variance float64
}

// pool is the variance of a sum of squares with so many degrees of freedom,
// together with what is taken for granted; 0 where there is neither.
func (p prior) pool(squares, freedom float64) float64 {
	if freedom += float64(p.freedom); freedom == 0 {
		return 0
	}
	return (squares + float64(p.freedom)*p.variance) / freedom
}

// step says of the last visits that they differ from those before them.
type step struct {
	later                  int // visits after the step
	earlierMean, laterMean float64
	error                  float64 // standard error of the difference
	freedom                int
	p                      float64
}

// fewestBefore is how many visits a step is judged against at least: with fewer
// a site has hardly shown how it varies.
const fewestBefore = 3

// mostLater is how many visits are looked back on for a step.
const mostLater = 10

// steps are those before each of the last visits, the newest alone first. The
// visits are in order of time.
func steps(all []observed, by func(sampling float64) prior) (out []step) {
	for later := 1; later <= mostLater && len(all)-later >= fewestBefore; later++ {
		out = append(out, stepAt(all, later, by))
	}
	return out
}

// stepAt is a t test of the means of two stretches. The variance is that of visits
// within the stretches, so sampling and visits are in it together; the memory
// between years makes both it too small and the difference wider.
func stepAt(all []observed, later int, usual func(sampling float64) prior) step {
	split := len(all) - later
	s := step{later: later}
	var own, sampling float64
	for _, part := range [][]observed{all[:split], all[split:]} {
		m := mean(part)
		for _, o := range part {
			own += (o.value - m) * (o.value - m)
			sampling += o.sampling / float64(len(all))
		}
	}
	s.earlierMean, s.laterMean = mean(all[:split]), mean(all[split:])
	by := usual(sampling)
	s.freedom = len(all) - 2 + by.freedom
	variance := by.pool(own, float64(len(all)-2))
	wider, within := remembered(all, split, notSampling(variance, sampling))
	s.error = math.Sqrt(variance * wider / within)
	if s.p = 1; s.error > 0 {
		s.p = chance.StudentTails((s.laterMean-s.earlierMean)/s.error, s.freedom)
	}
	return s
}

// remembered is, for visits of variance 1 with a memory, the variance of the
// difference of the means of two stretches, and the mean of the variance that is
// found within them.
func remembered(all []observed, split int, share float64) (difference, within float64) {
	n := float64(len(all))
	sums := [2]float64{}
	for i, a := range all {
		for j, b := range all {
			r := 1.0
			if i != j {
				r = correlation(float64(a.year-b.year), share)
			}
			wi, wj := weight(i, split, len(all)), weight(j, split, len(all))
			difference += wi * wj * r
			if wi*wj > 0 {
				sums[part(i, split)] += r
			}
		}
	}
	spread := n - sums[0]/float64(split) - sums[1]/(n-float64(split))
	return difference, spread / (n - 2)
}

// part is the stretch that a visit belongs to.
func part(i, split int) int {
	if i < split {
		return 0
	}
	return 1
}

// weight is that of a visit in the difference of the means.
func weight(i, split, n int) float64 {
	if i < split {
		return -1 / float64(split)
	}
	return 1 / float64(n-split)
}

func mean(all []observed) (m float64) {
	for _, o := range all {
		m += o.value / float64(len(all))
	}
	return m
}
