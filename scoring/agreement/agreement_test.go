package agreement_test

import (
	"math"
	"testing"

	"rillkey/scoring/agreement"
)

func repeat(n int, a, b string) (out []agreement.Pair) {
	for range n {
		out = append(out, agreement.Pair{First: a, Second: b, CountA: 1, CountB: 1})
	}
	return out
}

func join(lists ...[]agreement.Pair) (out []agreement.Pair) {
	for _, l := range lists {
		out = append(out, l...)
	}
	return out
}

// The sums are ours, done by hand from the published formulas; the table of the
// kappa is a textbook's, from memory.
func TestFigures(t *testing.T) {
	tests := []struct {
		label           string
		pairs           []agreement.Pair
		ptd, pde, kappa float64
		none            string // which have no value
	}{
		{"20, 5, 10, 15 of 50: po 0.7, pe 0.5, kappa 0.4", join(repeat(20, "yes", "yes"), repeat(5, "yes", "no"), repeat(10, "no", "yes"), repeat(15, "no", "no")), 30, 0, 0.4, ""},
		{"complete agreement", join(repeat(3, "a", "a"), repeat(2, "b", "b")), 0, 0, 1, ""},
		{"counts of 8 and 10: 8 of 10 agree, 2 / 18", []agreement.Pair{{"a", "a", 8, 10}}, 20, 100.0 / 9, 0, "kappa"},
		{"the larger count is taken over all: 3 of max(7, 9)", []agreement.Pair{{"a", "a", 3, 3}, {"b", "c", 4, 6}}, 100 * (1 - 3.0/9), 100 * 2.0 / 16, 1.0 / 3, ""},
		{"two open names agree in nothing", []agreement.Pair{{"", "", 2, 2}, {"a", "a", 2, 2}}, 50, 0, 1, ""},
		{"nothing was looked at", nil, 0, 0, 0, "ptd pde kappa"},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			check := func(name string, f func([]agreement.Pair) (float64, bool), want float64, has bool) {
				if got, ok := f(tt.pairs); ok != has || math.Abs(got-want) > 1e-12 {
					t.Errorf("%s is %v %v, want %v", name, got, ok, want)
				}
			}
			check("ptd", agreement.Disagreement, tt.ptd, tt.none != "ptd pde kappa")
			check("pde", agreement.Enumeration, tt.pde, tt.none != "ptd pde kappa")
			check("kappa", agreement.Kappa, tt.kappa, tt.none == "")
		})
	}
}
