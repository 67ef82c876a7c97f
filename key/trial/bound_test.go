package trial

import (
	"math"
	"testing"

	"rillkey/key/keytest"
)

// Capacities with a closed form (Shannon 1948; Cover and Thomas, Elements of
// Information Theory, chapter on channel capacity): the binary symmetric channel
// 1 - H(e), the binary erasure channel 1 - e, the Z-channel with an even chance of
// the one error log2(5/4), and a channel of q symbols without error log2 q.
func TestCapacity(t *testing.T) {
	for _, row := range []struct {
		why   string
		reads [][]float64
		want  float64
	}{
		{"no error, four symbols", [][]float64{{1, 0, 0, 0}, {0, 1, 0, 0}, {0, 0, 1, 0}, {0, 0, 0, 1}}, 2},
		{"binary symmetric, 0.1", [][]float64{{0.9, 0.1}, {0.1, 0.9}}, 1 - entropy(0.1)},
		{"binary erasure, 0.25", [][]float64{{0.75, 0.25, 0}, {0, 0.25, 0.75}}, 0.75},
		{"Z, 0.5", [][]float64{{1, 0}, {0.5, 0.5}}, math.Log2(1.25)},
		{"useless", [][]float64{{0.3, 0.7}, {0.3, 0.7}}, 0},
	} {
		if got := capacity(row.reads); math.Abs(got-row.want) > 1e-5 {
			t.Errorf("%s: %v bits, want %v", row.why, got, row.want)
		}
	}
}

// More misreads need more questions, and a prior that is not flat fewer.
func TestBound(t *testing.T) {
	k := keytest.Key(t)
	right, wrong := LowerBound(evenly(k, 0, ShortestMethod)), LowerBound(evenly(k, 0.2, ShortestMethod))
	common := evenly(k, 0.2, ShortestMethod)
	common.Flat = false
	if !(right > 1 && wrong > right && LowerBound(common) < wrong) {
		t.Errorf("%.2f without misreads, %.2f with, %.2f by commonness", right, wrong, LowerBound(common))
	}
}
