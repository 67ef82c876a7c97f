package key

import (
	"math"
	"testing"

	"rillkey/taxa"
)

// Too long speaks against a kind, too short hardly where it grows; no step anywhere.
func TestLength(t *testing.T) {
	for _, row := range []struct {
		why, stage    string
		mm            float64
		least, atMost float64
	}{
		{"at the lower end", "larva", 8, 1, 1},
		{"at the upper end", "larva", 40, 1, 1},
		{"a hair too long", "larva", 41, 0.95, 1},
		{"one standard deviation too long", "larva", 40 * math.Exp(0.15), 0.6, 0.63},
		{"twice as long", "", 80, 0.01, 0.03},
		{"young", "larva", 4, 0.65, 0.75},
		{"young of what has no stages", "", 4, 0.65, 0.75},
		{"just hatched", "larva", 0.5, 0.2, 0.3},
		{"a beetle at its lower end", "adult", 8, 1, 1},
		{"a beetle one standard deviation too short", "adult", 8 * math.Exp(-0.15), 0.6, 0.63},
		{"a beetle half as long", "adult", 4, 0, 0.03},
		{"a beetle twice as long", "adult", 80, 0, 0.03},
		{"a pupa half as long", "pupa", 4, 0, 0.03},
	} {
		kind := &taxa.Taxon{Stage: row.stage, Length: taxa.Range{Min: 8, Max: 40}}
		most := lengthLikelihood(20, kind)
		if got := lengthLikelihood(row.mm, kind) / most; got < row.least || got > row.atMost {
			t.Errorf("%s: %v, want %v to %v", row.why, got, row.least, row.atMost)
		}
		for mm := 0.1; mm < 200; mm *= 1.01 {
			if a, b := lengthLikelihood(mm, kind), lengthLikelihood(mm*1.01, kind); math.Abs(a-b) > 0.1*most {
				t.Errorf("a jump at %v mm: %v, %v", mm, a, b)
			}
		}
	}
}

// Of all lengths that can be each is met once: the likelihoods of those measured rightly
// sum to 1 over the logarithm, however wide the range is; of what grows no more to less.
func TestLengthsOfAKindSumToOne(t *testing.T) {
	for _, r := range []taxa.Range{{Min: 8, Max: 40}, {Min: 2, Max: 3}, {Min: 5, Max: 5}} {
		sum := func(stage string) (sum float64) {
			const step = 0.001
			for l := -12.0; l < 8; l += step {
				sum += (lengthLikelihood(math.Exp(l), &taxa.Taxon{Stage: stage, Length: r}) - lengthJunk/lengthSpread) * step
			}
			return sum
		}
		if got, want := sum("larva"), 1-lengthJunk; math.Abs(got-want) > 0.01 {
			t.Errorf("%v: %v, want %v", r, got, want)
		}
		if got, most := sum("adult"), sum("larva"); got >= most {
			t.Errorf("%v: beetles %v, larvae %v", r, got, most)
		}
	}
}
