package series

import (
	"math"
	"testing"
)

func TestDaysBetween(t *testing.T) {
	for _, row := range []struct {
		a, b   string
		want   int
		within bool
	}{{"2026-05-01", "2026-05-01", 0, true}, {"2026-03-01", "2026-02-28", 1, true}, {"2024-02-28", "2024-03-01", 2, true},
		{"2026-05-01", "2026-05-15", 14, true}, {"2026-05-16", "2026-05-01", 15, false}, {"", "2026-05-01", math.MaxInt32, false}} {
		if got := daysBetween(row.a, row.b); got != row.want || WithinPair(row.a, row.b) != row.within {
			t.Errorf("%s to %s: %v days, not %v", row.a, row.b, got, row.want)
		}
	}
}
