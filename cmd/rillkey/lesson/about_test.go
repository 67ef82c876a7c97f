package lesson_test

import (
	"testing"

	"rillkey/cmd/rillkey/lesson"
	"rillkey/scoring/visit"
)

// Each site is named once, three of them at most.
func TestTheSitesOfTheSeasonAreNamed(t *testing.T) {
	const begin = "Animals as common as in the region and in "
	for _, row := range []struct {
		sites []string
		says  string
	}{
		{nil, ""},
		{[]string{"Mill"}, begin + "1 visit at this time of year: Mill."},
		{[]string{"Mill", "Alder", "Mill"}, begin + "3 visits at this time of year: Mill and Alder."},
		{[]string{"A", "B", "C"}, begin + "3 visits at this time of year: A, B and C."},
		{[]string{"A", "B", "C", "D", "E", "A"}, begin + "6 visits at this time of year: A, B, C and 2 more."},
	} {
		var visits []*visit.Visit
		for _, site := range row.sites {
			visits = append(visits, &visit.Visit{Header: visit.Header{Site: site}})
		}
		if got := lesson.AboutSeason(visits); got != row.says {
			t.Errorf("%v: %q", row.sites, got)
		}
	}
}
