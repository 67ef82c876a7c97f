package series_test

import (
	"testing"
	"time"

	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

// Visits of one season lie within thirty days of the year, over its end too.
func TestInSeason(t *testing.T) {
	for _, row := range []struct {
		day, date, wanted string
		in                bool
	}{
		{"2026-05-16", "2026-05-16", "", true},
		{"2026-05-16", "2019-06-14", "", true},
		{"2026-05-16", "2025-06-17", "", false},
		{"2026-01-05", "2024-12-20", "", true},
		{"2026-05-16", "2026-05-16", "mill  brook", true},
		{"2026-05-16", "2026-05-16", "Mill", false},
		{"2026-05-16", "spring", "", false},
	} {
		day, err := time.Parse(time.DateOnly, row.day)
		if err != nil {
			t.Fatal(err)
		}
		if got := series.InSeason(visit.Header{Site: "Mill Brook", Date: row.date}, day, row.wanted); got != row.in {
			t.Errorf("%s beside %s, %q: %v", row.date, row.day, row.wanted, got)
		}
	}
}
