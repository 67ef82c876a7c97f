package chance

import (
	"cmp"
	"slices"

	"rillkey/taxa/sorting"
)

// Distribution is that of a value in steps; what the chances sum to below 1 has no
// value.
type Distribution struct {
	Points []MassPoint // by rising steps, each once
	None   float64     // chance that there is no value
	Draws  int         // of a simulation; 0 where exact
}

// MassPoint is a value with its chance.
type MassPoint struct {
	Steps int64
	P     float64
}

func (p MassPoint) compare(q MassPoint) int { return cmp.Compare(p.Steps, q.Steps) }

// distributionOf sorts a mass function of values.
func distributionOf(values *massFunction[Ratio]) Distribution {
	steps := newMassFunction[number]()
	var c Distribution
	for i, v := range values.keys {
		if v.Defined() {
			steps.add(number(v.Steps()), values.p[i])
		} else {
			c.None += values.p[i]
		}
	}
	for i, k := range steps.keys {
		c.Points = append(c.Points, MassPoint{int64(k), steps.p[i]})
	}
	sorting.Stable(c.Points, MassPoint.compare)
	return c
}

// Moments are the mean and the variance of the value, where there is one, in the
// unit that number turns steps into; 0 and 0 where there is none.
func (c Distribution) Moments(number func(steps int64) float64) (mean, variance float64) {
	sum, square := 0.0, 0.0
	for _, pt := range c.Points {
		sum += pt.P
		mean += pt.P * number(pt.Steps)
	}
	if sum == 0 {
		return 0, 0
	}
	mean /= sum
	for _, pt := range c.Points {
		d := number(pt.Steps) - mean
		square += pt.P * d * d
	}
	return mean, square / sum
}

// Quantile is the smallest value, in steps, that is not exceeded with the chance q,
// where there is a value; 0 where there is none.
func (c Distribution) Quantile(q float64) int64 {
	total := 0.0
	for _, pt := range c.Points {
		total += pt.P
	}
	sum := 0.0
	for _, pt := range c.Points {
		if sum += pt.P; sum >= q*total-1e-12 {
			return pt.Steps
		}
	}
	return 0
}

// Highest is the distribution of the highest of several independent values, one
// that is none being below all. Source of the form: the distribution function of a
// maximum is the product of those of its members.
func Highest(all []Distribution) Distribution { return extreme(all, cmp.Compare[int64]) }

// Lowest is that of the lowest, one that is none being above all.
func Lowest(all []Distribution) Distribution {
	all = slices.Clone(all)
	for i := range all {
		all[i] = all[i].reversed()
	}
	return extreme(all, func(a, b int64) int { return cmp.Compare(b, a) }).reversed()
}

func (c Distribution) reversed() Distribution {
	c.Points = slices.Clone(c.Points)
	slices.Reverse(c.Points)
	return c
}

// extreme is the distribution of the last of several values in an order, which
// their points are in.
func extreme(all []Distribution, order func(a, b int64) int) Distribution {
	var steps []int64
	for _, c := range all {
		for _, pt := range c.Points {
			steps = append(steps, pt.Steps)
		}
	}
	sorting.Stable(steps, order)
	out := Distribution{None: 1}
	upTo, next := make([]float64, len(all)), make([]int, len(all)) // chance that each comes no later
	for i, c := range all {
		out.None *= c.None
		out.Draws = max(out.Draws, c.Draws)
		upTo[i] = c.None
	}
	before := out.None
	for _, k := range slices.Compact(steps) {
		product := 1.0
		for i, c := range all {
			if next[i] < len(c.Points) && c.Points[next[i]].Steps == k {
				upTo[i] += c.Points[next[i]].P
				next[i]++
			}
			product *= upTo[i]
		}
		if product > before {
			out.Points = append(out.Points, MassPoint{k, product - before})
		}
		before = product
	}
	return out
}
