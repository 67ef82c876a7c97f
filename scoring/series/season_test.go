package series_test

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"
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

// The newest 200 files are read, what cannot be read is passed over with its reason, and
// those of the season are given, at one site where it is named.
func TestSeasonalVisits(t *testing.T) {
	dir := t.TempDir()
	path := func(date string) string { return filepath.Join(dir, date+".visit.toml") }
	begin := func(date, site string) string {
		begun, err := time.Parse(time.DateOnly, date)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := visit.Create(path(date), visit.Header{Site: site, Date: date, People: []string{"Oona"}, Protocol: "riffle-three",
			CautionsRead: true, Begun: begun}, strings.NewReader(fmt.Sprintf("%032s", date))); err != nil {
			t.Fatal(err)
		}
		return path(date)
	}
	old, gone := begin("2020-05-20", "Mill"), path("2022-05-02")
	here := []string{gone, begin("2023-05-10", "Mill"), begin("2024-06-01", "Alder"), begin("2025-10-01", "Mill")}
	for _, row := range []struct {
		why, site string
		files     []string
		found     string
	}{
		{"of whatever year", "", append([]string{old}, here...), "2020-05-20 2023-05-10 2024-06-01"},
		{"of one site", "mill", append([]string{old}, here...), "2020-05-20 2023-05-10"},
		{"the newest 200", "", append([]string{old}, append(slices.Repeat([]string{gone}, 197), here[1:]...)...), "2023-05-10 2024-06-01"},
		{"none", "Moss", here, ""},
	} {
		passed := 0
		var found []string
		for _, v := range series.Seasonal(row.files, time.Date(2026, 5, 16, 0, 0, 0, 0, time.UTC), row.site, func(file string, why error) {
			if passed++; file != gone || why == nil {
				t.Errorf("%s: %s is passed over: %v", row.why, file, why)
			}
		}) {
			found = append(found, v.Header.Date)
		}
		if got := strings.Join(found, " "); got != row.found || passed == 0 {
			t.Errorf("%s: %s, %d passed over", row.why, got, passed)
		}
	}
}

func TestIsDay(t *testing.T) {
	for text, is := range map[string]bool{"2026": true, "2026-05": true, "2026-05-16": true, "2026-02-30": false, "2026-13": false,
		"26": false, "": false, "may": false} {
		if series.IsDay(text) != is {
			t.Errorf("%q: %v", text, !is)
		}
	}
}
