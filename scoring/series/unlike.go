package series

import (
	"math"
	"slices"
	"strings"
	"time"

	"rillkey/scoring"
	"rillkey/scoring/condition"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// compare sets each visit of a place against the one before by the same protocol: at
// equal effort or not at all, and with what else differed. It marks where a step is
// shown.
func compare(rows []Row, tests []Hypothesis, rules *scoring.Rules) {
	before := map[string]*Row{}
	for i := range rows {
		r := &rows[i]
		if !r.Comparable() || r.Aside != "" {
			continue
		}
		if b := before[r.Protocol]; b != nil {
			shown := slices.ContainsFunc(tests, func(t Hypothesis) bool {
				return t.Shown && t.Asked == StepChange && t.FirstDay == r.Visit.Date
			})
			r.Change = differ(r, b, losesKinds(rules, r), shown)
		}
		before[r.Protocol] = r
	}
}

func losesKinds(rules *scoring.Rules, r *Row) bool {
	s := rules.Scheme(r.Scheme)
	return s != nil && s.LosesKinds()
}

func differ(now, before *Row, losesKinds, shown bool) *Difference {
	d := &Difference{Shown: shown, OtherConditions: now.Conditions.Differences(before.Conditions)}
	if !sameTimeOfYear(now, before) {
		d.OtherConditions = append([]string{wording.Text("another time of year")}, d.OtherConditions...)
	}
	if said := otherEffort(now, before, losesKinds); said != "" {
		d.Words = wording.Sprintf("not compared with the visit before, %s", said)
	} else {
		by := *now.Value - *before.Value
		d.Difference = &by
	}
	if shown {
		d.Words = wording.Text("changed beyond chance from here on")
	}
	return d
}

// otherEffort says in what the effort of two visits differs; empty for nothing.
func otherEffort(now, before *Row, losesKinds bool) string {
	switch {
	case now.Taken != before.Taken:
		return wording.Sprintf("which took %s, not %d", plain.Count(before.Taken, "sample"), now.Taken)
	case !losesKinds || !now.InPart && !before.InPart:
		return ""
	case now.InPart:
		return wording.Text("since only a part was sorted here")
	}
	return wording.Text("of which only a part was sorted")
}

// sameTimeOfYear tells that the days of two visits lie close enough in the year.
func sameTimeOfYear(a, b *Row) bool {
	one, err1 := time.Parse(time.DateOnly, a.Visit.Date)
	other, err2 := time.Parse(time.DateOnly, b.Visit.Date)
	return err1 == nil && err2 == nil && SameTimeOfYear(one, other)
}

// unlikeUsual says in what the visits from one of them on met other water or weather
// than those before usually did.
func unlikeUsual(all []observed, later int, rows []Row) []string {
	var parts [2][]condition.Compared
	for i, o := range all {
		n := part(i, len(all)-later)
		parts[n] = append(parts[n], rows[o.row].Conditions)
	}
	return condition.Ordinary(parts[1]).Differences(condition.Ordinary(parts[0]))
}

// otherWater is a sentence on what differed beside the animals; empty for nothing.
func otherWater(unlike []string) string {
	if len(unlike) == 0 {
		return ""
	}
	return wording.Sprintf("The water was not as it mostly was before (%s), which moves animals too.", strings.Join(unlike, "; "))
}

// unlikePairs are how many pairs of visits met different water or weather, and in
// what the first of them did.
func unlikePairs(pairs []pair, here, there []Row) (n int, first []string) {
	for _, p := range pairs {
		if unlike := here[p.here.row].Conditions.Differences(there[p.there.row].Conditions); len(unlike) > 0 {
			if n++; n == 1 {
				first = unlike
			}
		}
	}
	return n, first
}

// WithinPair reports whether two days, as YYYY-MM-DD, lie as close together as those of
// visits that are compared in pairs.
func WithinPair(a, b string) bool { return daysBetween(a, b) <= pairDays }

// daysBetween is how many days lie between two, as YYYY-MM-DD; no end of them where one is
// no day.
func daysBetween(a, b string) int {
	one, err1 := time.Parse(time.DateOnly, a)
	other, err2 := time.Parse(time.DateOnly, b)
	if err1 != nil || err2 != nil {
		return math.MaxInt32
	}
	return int(math.Abs(one.Sub(other).Hours()) / 24)
}
