package chance

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Two-sided points of the t distribution: Abramowitz and Stegun 1964, table 26.10
// (from memory; every table of the t distribution has them).
func TestStudentAgainstTheTable(t *testing.T) {
	for _, row := range []struct {
		df      int
		p, t, e float64
	}{
		{1, 0.05, 12.706, 1e-3}, {2, 0.05, 4.303, 1e-3}, {4, 0.05, 2.776, 1e-3}, {5, 0.01, 4.032, 1e-3}, {9, 0.05, 2.262, 1e-3},
		{10, 0.001, 4.587, 1e-3}, {30, 0.05, 2.042, 1e-3},
	} {
		if got := StudentBound(row.p, row.df); math.Abs(got-row.t) > row.e {
			t.Errorf("df %d, p %v: %.4f, want %v", row.df, row.p, got, row.t)
		}
	}
}

// The non-central t against drawing it.
func TestPowerIsThatOfDrawnValues(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 1))
	for _, row := range []struct {
		moved, bound float64
		df           int
	}{{2, 2.776, 4}, {3, 2.262, 9}, {1, 4, 3}, {6, 3.5, 8}} {
		const draws = 20000
		hit := 0
		for range draws {
			squares := 0.0
			for range row.df {
				x := random.NormFloat64()
				squares += x * x
			}
			if (row.moved+random.NormFloat64())/math.Sqrt(squares/float64(row.df)) > row.bound {
				hit++
			}
		}
		if got, want := StudentPower(row.moved, row.bound, row.df), float64(hit)/draws; math.Abs(got-want) > 0.012 {
			t.Errorf("%+v: %.3f, drawn %.3f", row, got, want)
		}
	}
}

// Half of a bell lies on either side, 95 in 100 within the bounds of the t, and
// nothing outside the scale.
func TestBell(t *testing.T) {
	d := Bell(1000, 10, 2, 0, 5000, 0)
	low, high := d.Quantile(0.025), d.Quantile(0.975)
	if math.Abs(float64(low)-(1000-43)) > 2 || math.Abs(float64(high)-(1000+43)) > 2 {
		t.Errorf("%d to %d, want 43 about 1000", low, high)
	}
	if d := Bell(1000, 10, Normal, 0, 5000, 0); math.Abs(float64(d.Quantile(0.975))-1019.6) > 1 {
		t.Errorf("normal: %d", d.Quantile(0.975))
	}
	if d := Bell(3, 10, 2, 0, 5, 0.2); d.Points[0].Steps != 0 || d.Points[len(d.Points)-1].Steps != 5 || d.None != 0.2 {
		t.Errorf("%+v", d)
	}
	if d := Bell(3, 0, 2, 0, 5, 0); len(d.Points) != 1 || math.Abs(d.Points[0].P-1) > 1e-9 {
		t.Errorf("%+v", d)
	}
}
