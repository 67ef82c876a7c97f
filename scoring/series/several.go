package series

import (
	"cmp"
	"slices"
)

// alarms is the share of tables that may tell of a change though nothing changed.
// It is below the usual 0.05 because the tests are no better than what they take
// for granted, memory and normal deviations above all: TestAlarms finds up to twice
// as many in simulated streams, and the bar is 0.06.
const alarms = 0.03

// holm corrects chances for being several, each with a weight; those of weight 0
// stay at 1. Source: Holm 1979, Scandinavian Journal of Statistics 6:65-70.
func holm(chances, weights []float64) []float64 {
	order := make([]int, 0, len(chances))
	left := 0.0
	out := make([]float64, len(chances))
	for i, w := range weights {
		if out[i] = 1; w > 0 {
			order = append(order, i)
			left += w
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(chances[a]/weights[a], chances[b]/weights[b]) })
	most := 0.0
	for _, i := range order {
		most = min(1, max(most, chances[i]/weights[i]*left))
		out[i] = most
		left -= weights[i]
	}
	return out
}

// levels are what each site's chances must not exceed for a change to be told, so
// that of the sites told of, no more than the share of alarms are expected to be
// false; 0 for the sites not told of. leasts holds the least corrected chance of
// each site. Source: Benjamini and Hochberg 1995, Journal of the Royal Statistical
// Society B 57:289-300, and for what is told within a site Benjamini and Bogomolov
// 2014, the same journal 76:297-318 (from memory).
func levels(leasts []float64) []float64 {
	sorted := slices.Sorted(slices.Values(leasts))
	told := 0
	for i, p := range sorted {
		if p <= alarms*float64(i+1)/float64(len(sorted)) {
			told = i + 1
		}
	}
	out := make([]float64, len(leasts))
	for i, p := range leasts {
		if level := alarms * float64(told) / float64(len(leasts)); told > 0 && p <= level {
			out[i] = level
		}
	}
	return out
}
