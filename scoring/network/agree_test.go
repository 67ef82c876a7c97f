package network

import (
	"testing"
)

// Worked by hand: of two groups at one place each visit is held against the next one of
// the other group within a fortnight.
func TestGroupsAreHeldAgainstEachOtherVisitByVisit(t *testing.T) {
	at := func(group, day string, value float64, rating string) valued {
		return valued{group: group, id: group + day, day: day, value: value, rating: rating}
	}
	type sums struct {
		pairs, graded, same int
		mean, squares       float64
	}
	pair := [2]string{"alder", "beech"}
	for _, row := range []struct {
		why  string
		here []valued
		want map[[2]string]sums
	}{
		{"no visits", nil, nil},
		{"one group alone", []valued{at("alder", "2026-05-01", 20, "good"), at("alder", "2026-05-02", 10, "poor")}, nil},
		{"the first name first, whoever came first",
			[]valued{at("beech", "2026-05-01", 15, "fair"), at("alder", "2026-05-08", 20, "good")},
			map[[2]string]sums{pair: {1, 1, 0, 5, 25}}},
		{"a fortnight is near enough", []valued{at("alder", "2026-05-01", 20, "good"), at("beech", "2026-05-15", 22, "good")},
			map[[2]string]sums{pair: {1, 1, 1, -2, 4}}},
		{"a day more is not", []valued{at("alder", "2026-05-01", 20, "good"), at("beech", "2026-05-16", 22, "good")}, nil},
		{"without a word only the values are compared",
			[]valued{at("alder", "2026-05-01", 20, ""), at("beech", "2026-05-02", 17, "fair")},
			map[[2]string]sums{pair: {1, 0, 0, 3, 9}}},
		{"the next of the other group, past one's own",
			[]valued{at("alder", "2026-05-01", 20, "good"), at("alder", "2026-05-03", 24, "good"), at("beech", "2026-05-05", 21, "good")},
			map[[2]string]sums{pair: {2, 2, 2, 2, 10}}},
		{"three groups are three pairs",
			[]valued{at("alder", "2026-05-01", 1, ""), at("beech", "2026-05-02", 2, ""), at("cedar", "2026-05-03", 4, ""),
				at("alder", "2026-05-04", 8, "")},
			map[[2]string]sums{pair: {1, 0, 0, -1, 1}, {"beech", "cedar"}: {1, 0, 0, -2, 4}, {"alder", "cedar"}: {1, 0, 0, 4, 16}}},
		{"a day that is none", []valued{at("alder", "2026-05-01", 20, ""), at("beech", "in May", 22, "")}, nil},
	} {
		got := map[[2]string]*GroupAgreement{}
		pairUp(row.here, got)
		if len(got) != len(row.want) {
			t.Errorf("%s: %d pairs of groups, not %d", row.why, len(got), len(row.want))
		}
		for groups, want := range row.want {
			a := got[groups]
			if a == nil {
				t.Errorf("%s: nothing of %v", row.why, groups)
				continue
			}
			if (sums{a.Pairs, a.Graded, a.Same, a.Mean, a.Typical}) != want || a.Groups != groups {
				t.Errorf("%s: %+v, not %+v", row.why, *a, want)
			}
		}
	}
}
