package chance

import (
	"math"
	"testing"
)

// A negative binomial count with mean m and shape k has the variance m + m²/k, and is 0
// with the chance (1 + m/k)^-k (Bliss and Fisher 1953, Biometrics 9:176, from memory).
func TestClumpedCountsVaryAsNegativeBinomialOnesDo(t *testing.T) {
	const draws = 40
	for _, mean := range []float64{1, 8, 60, 500} {
		n, sum, squares, none := 0.0, 0.0, 0.0, 0.0
		for seed := range uint64(draws) {
			c := Clumped([]int64{int64(mean), 0}, func(counts []int64) Ratio {
				if counts[1] != 0 {
					t.Fatal("an animal came from nothing")
				}
				v := float64(counts[0])
				n, sum, squares = n+1, sum+v, squares+v*v
				if counts[0] == 0 {
					none++
				}
				return Ratio{Num: counts[0], Den: 1}
			}, seed)
			if c.Draws != clumpedDraws {
				t.Fatalf("%d draws", c.Draws)
			}
		}
		m, v := sum/n, mean+mean*mean/clumps
		if math.Abs(m-mean) > 4*math.Sqrt(v/n) || math.Abs((squares/n-m*m)/v-1) > 0.1 ||
			math.Abs(none/n-math.Pow(1+mean/clumps, -clumps)) > 0.015 {
			t.Errorf("of %v: mean %.2f, variance %.1f not %.1f, none in %.3f", mean, m, squares/n-m*m, v, none/n)
		}
	}
}

// Chao 1984, bias-corrected: f1 (f1 - 1) / (2 (f2 + 1)) kinds were missed, here 3 x 2 / 2 = 3
// of four, none where each kind was met twice, and never more than there are.
func TestKindsThatOneSampleMissed(t *testing.T) {
	for _, row := range []struct {
		counts []int64
		want   float64
	}{
		{[]int64{1, 1, 1, 0, 0, 0, 0}, 0.75}, {[]int64{1, 1, 1, 2, 2, 0, 0}, 0.5}, {[]int64{2, 2, 0}, 0}, {[]int64{1, 0}, 0},
		{[]int64{1, 1, 1, 1, 1, 0}, 1}, {[]int64{3, 4}, 0}, {nil, 0},
	} {
		if got := unseenShare(row.counts); got != row.want {
			t.Errorf("%v: %v, want %v", row.counts, got, row.want)
		}
	}
}
