// Package diversity measures how many kinds there are among counted animals
// and how evenly the animals are spread over them, and estimates from samples
// how many kinds more sampling would find.
//
// It knows no animals: counts are numbers of animals by kind, incidences are
// numbers of samples by kind. Counts of zero and below are left aside. No
// caller's slice is changed, and where a figure has no value the second result
// says so: there is no NaN.
package diversity

import "math"

// Richness is the number of kinds with at least one animal.
func Richness(counts []int64) int {
	s := 0
	for _, n := range counts {
		if n > 0 {
			s++
		}
	}
	return s
}

// Total is the number of animals, as a floating-point number so that no count
// can overflow it.
func Total(counts []int64) float64 {
	sum := 0.0
	for _, n := range counts {
		sum += float64(max(n, 0))
	}
	return sum
}

// Shannon is H = -sum(p ln p), p the share of each kind, in natural units
// (base e); 0 for a single kind, no value without animals. Source of the
// formula: Shannon 1948, as common practice in ecology gives it.
func Shannon(counts []int64) (h float64, ok bool) {
	total := Total(counts)
	for _, n := range counts {
		if n > 0 {
			h += ShannonPart(n, total)
		}
	}
	return math.Max(h, 0), total > 0
}

// ShannonPart is what one kind of n animals among total adds to [Shannon].
func ShannonPart(n int64, total float64) float64 {
	p := float64(n) / total
	return -p * math.Log(p)
}

// Simpson is D = 1 - sum(p^2), the chance that two animals drawn with
// replacement are of different kinds: 0 for a single kind, below 1 always; no
// value without animals. Source of the formula: Simpson 1949, in the form of
// the complement, which is common practice.
func Simpson(counts []int64) (d float64, ok bool) {
	total := Total(counts)
	if total == 0 {
		return 0, false
	}
	sum := 0.0
	for _, n := range counts {
		p := float64(max(n, 0)) / total
		sum += p * p
	}
	return 1 - sum, true
}

// Pielou is the evenness J = H / ln S, S the number of kinds: from 0 to 1, no
// value for fewer than two kinds. Source of the formula: Pielou 1966, as common
// practice gives it.
func Pielou(counts []int64) (j float64, ok bool) {
	s := Richness(counts)
	if s < 2 {
		return 0, false
	}
	h, _ := Shannon(counts)
	return h / math.Log(float64(s)), true
}

// Rarefied is the number of kinds expected among n animals drawn without
// replacement: sum(1 - C(N - Ni, n) / C(N, n)). It has no value when there are
// fewer than n animals, or n is below 1. Source of the formula: Hurlbert 1971.
func Rarefied(counts []int64, n int) (s float64, ok bool) {
	total := Total(counts)
	if n < 1 || float64(n) > total {
		return 0, false
	}
	for _, c := range counts {
		if c > 0 {
			s += 1 - missed(total, float64(c), n)
		}
	}
	return s, true
}

// missed is C(total - c, n) / C(total, n), the chance that none of c is among n
// drawn: a product of n factors, or of c where those are fewer.
func missed(total, c float64, n int) float64 {
	if total-c < float64(n) {
		return 0
	}
	factors, other := n, c
	if c < float64(n) {
		factors, other = int(c), float64(n)
	}
	p := 1.0
	for i := range factors {
		p *= (total - other - float64(i)) / (total - float64(i))
	}
	return p
}
