package scoring

import (
	"math"
	"strings"
	"testing"

	"rillkey/scoring/visit"
)

func repeatPair(n int, a, b string) (out []namePair) {
	for range n {
		out = append(out, namePair{First: a, Second: b, CountA: 1, CountB: 1})
	}
	return out
}

func joinPairs(lists ...[]namePair) (out []namePair) {
	for _, l := range lists {
		out = append(out, l...)
	}
	return out
}

// The sums are ours, done by hand from the published formulas; the table of the
// kappa is a textbook's, from memory.
func TestAgreementFigures(t *testing.T) {
	tests := []struct {
		label           string
		pairs           []namePair
		ptd, pde, kappa float64
		none            string // which have no value
	}{
		{"20, 5, 10, 15 of 50: po 0.7, pe 0.5, kappa 0.4",
			joinPairs(repeatPair(20, "yes", "yes"), repeatPair(5, "yes", "no"), repeatPair(10, "no", "yes"),
				repeatPair(15, "no", "no")), 30, 0, 0.4, ""},
		{"complete agreement", joinPairs(repeatPair(3, "a", "a"), repeatPair(2, "b", "b")), 0, 0, 1, ""},
		{"counts of 8 and 10: 8 of 10 agree, 2 / 18", []namePair{{"a", "a", 8, 10}}, 20, 100.0 / 9, 0, "kappa"},
		{"the larger count is taken over all: 3 of max(7, 9)", []namePair{{"a", "a", 3, 3}, {"b", "c", 4, 6}},
			100 * (1 - 3.0/9), 100 * 2.0 / 16, 1.0 / 3, ""},
		{"two open names agree in nothing", []namePair{{"", "", 2, 2}, {"a", "a", 2, 2}}, 50, 0, 1, ""},
		{"nothing was looked at", nil, 0, 0, 0, "ptd pde kappa"},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			check := func(name string, f func([]namePair) (float64, bool), want float64, has bool) {
				if got, ok := f(tt.pairs); ok != has || math.Abs(got-want) > 1e-12 {
					t.Errorf("%s is %v %v, want %v", name, got, ok, want)
				}
			}
			check("ptd", disagreement, tt.ptd, tt.none != "ptd pde kappa")
			check("pde", enumeration, tt.pde, tt.none != "ptd pde kappa")
			check("kappa", kappa, tt.kappa, tt.none == "")
		})
	}
}

// Two people who both leave animals open are said to agree in nothing, and why.
func TestWhatBothLeaveOpenIsExplained(t *testing.T) {
	for _, open := range []bool{true, false} {
		y := newTray("riffle-three").riffles() // e1 to e3
		y.event(visit.Identification{Sample: "1", Taxon: "perlidae", Count: 1, Undecided: open})
		y.event(visit.SecondLook{Entry: "e4", Taxon: "perlidae", Undecided: open})
		got := rules(t).Agreement(rules(t).Account(&y.v))
		said := strings.Join(got.Remarks, " ")
		if strings.Contains(said, "both people left open") != open || strings.Contains(said, "same name") {
			t.Error(said)
		}
		if off := *got.Disagreement; (off == 100) != open {
			t.Errorf("names differ in %v", off)
		}
	}
}
