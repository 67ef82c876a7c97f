package key

import (
	"math"
	"testing"

	"rillkey/taxa"
)

// Too long speaks against a kind, too short hardly; no step anywhere.
func TestLength(t *testing.T) {
	r := taxa.Range{Min: 8, Max: 40}
	for _, row := range []struct {
		why         string
		mm          float64
		least, most float64
	}{
		{"at the lower end", 8, 1, 1},
		{"in the middle", 20, 1, 1},
		{"at the upper end", 40, 1, 1},
		{"a hair too long", 41, 0.95, 1},
		{"one standard deviation too long", 40 * math.Exp(0.15), 0.6, 0.63},
		{"twice as long", 80, 0.03, 0.031},
		{"young", 4, 0.7, 0.8},
		{"just hatched", 0.5, 0.5, 0.6},
	} {
		if got := lengthLikelihood(row.mm, r); got < row.least || got > row.most {
			t.Errorf("%s: %v, want %v to %v", row.why, got, row.least, row.most)
		}
	}
	for mm := 0.1; mm < 200; mm *= 1.01 {
		if a, b := lengthLikelihood(mm, r), lengthLikelihood(mm*1.01, r); math.Abs(a-b) > 0.1 {
			t.Errorf("a jump at %v mm: %v, %v", mm, a, b)
		}
	}
}
