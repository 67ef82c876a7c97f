// Package agreement compares two identifications of the same animals. A limit
// passed is a reason to look closer, never a reason to reject anybody's work.
package agreement

import (
	"cmp"
	"slices"
)

// Pair is what two people called the same animals, and how many each counted.
// An empty name is one that was left open.
type Pair struct {
	First, Second  string
	CountA, CountB int
}

// The usual objectives, in per cent. Sources: 15 % a published quality plan of
// US EPA citing Stribling et al. 2008; 5 % from memory, Stribling, Moulton and
// Lester 2003.
const (
	MostDisagreement = 15.0
	MostEnumeration  = 5.0
)

// Disagreement is the per cent taxonomic disagreement, (1 - agreeing / N) x 100,
// N the larger of the two counts; pairs with an open name agree in nothing. No
// value without animals. Source: US EPA quality plan citing Stribling et al.
// 2008.
func Disagreement(pairs []Pair) (percent float64, ok bool) {
	agreeing, a, b := 0, 0, 0
	for _, p := range pairs {
		if p.First != "" && p.First == p.Second {
			agreeing += min(p.CountA, p.CountB)
		}
		a, b = a+p.CountA, b+p.CountB
	}
	if max(a, b) <= 0 {
		return 0, false
	}
	return 100 * (1 - float64(agreeing)/float64(max(a, b))), true
}

// Enumeration is the per cent difference in enumeration, |n1 - n2| / (n1 + n2) x
// 100. Some quality plans divide by the mean instead, which is twice as large.
// No value without animals. Source: Stribling, Moulton and Lester 2003 (memory).
func Enumeration(pairs []Pair) (percent float64, ok bool) {
	a, b := 0, 0
	for _, p := range pairs {
		a, b = a+p.CountA, b+p.CountB
	}
	if a+b <= 0 {
		return 0, false
	}
	return 100 * float64(max(a-b, b-a)) / float64(a+b), true
}

// Kappa is Cohen's kappa over the pairs, each weighing one: (po - pe) / (1 - pe),
// po the share that agree and pe the share that would by chance. 1 is complete
// agreement, 0 that of chance. No value without pairs, or where both people used
// one and the same name throughout. Source: Cohen 1960 (memory).
func Kappa(pairs []Pair) (kappa float64, ok bool) {
	n := float64(len(pairs))
	if n == 0 {
		return 0, false
	}
	first, second := map[string]float64{}, map[string]float64{}
	agree := 0.0
	for _, p := range pairs {
		first[p.First]++
		second[p.Second]++
		if p.First == p.Second {
			agree++
		}
	}
	chance := 0.0
	for _, name := range names(first) {
		chance += first[name] * second[name]
	}
	if chance == n*n {
		return 0, false
	}
	return (n*agree - chance) / (n*n - chance), true
}

func names(counts map[string]float64) []string {
	out := make([]string, 0, len(counts))
	for name := range counts {
		out = append(out, name)
	}
	slices.SortFunc(out, cmp.Compare[string])
	return out
}
