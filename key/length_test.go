package key

import (
	"math"
	"testing"

	"rillkey/taxa"
)

// Too long speaks against a kind, too short hardly; no step anywhere.
func TestLength(t *testing.T) {
	r := taxa.Range{Min: 8, Max: 40}
	most := lengthLikelihood(20, r)
	for _, row := range []struct {
		why           string
		mm            float64
		least, atMost float64
	}{
		{"at the lower end", 8, 1, 1},
		{"at the upper end", 40, 1, 1},
		{"a hair too long", 41, 0.95, 1},
		{"one standard deviation too long", 40 * math.Exp(0.15), 0.6, 0.63},
		{"twice as long", 80, 0.01, 0.03},
		{"young", 4, 0.65, 0.75},
		{"just hatched", 0.5, 0.2, 0.3},
	} {
		if got := lengthLikelihood(row.mm, r) / most; got < row.least || got > row.atMost {
			t.Errorf("%s: %v, want %v to %v", row.why, got, row.least, row.atMost)
		}
	}
	for mm := 0.1; mm < 200; mm *= 1.01 {
		if a, b := lengthLikelihood(mm, r), lengthLikelihood(mm*1.01, r); math.Abs(a-b) > 0.1*most {
			t.Errorf("a jump at %v mm: %v, %v", mm, a, b)
		}
	}
}

// Of all lengths that can be each is met once: the likelihoods of those measured rightly
// sum to 1 over the logarithm, however wide the range is.
func TestLengthsOfAKindSumToOne(t *testing.T) {
	for _, r := range []taxa.Range{{Min: 8, Max: 40}, {Min: 2, Max: 3}, {Min: 5, Max: 5}} {
		sum, step := 0.0, 0.001
		for l := -12.0; l < 8; l += step {
			sum += (lengthLikelihood(math.Exp(l), r) - lengthJunk/lengthSpread) * step
		}
		if want := 1 - lengthJunk; math.Abs(sum-want) > 0.01 {
			t.Errorf("%v: %v, want %v", r, sum, want)
		}
	}
}
