package practice_test

import (
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"rillkey/key/practice"
)

// Somebody who had sat for nothing but two tests was called ready.
func TestWhoOnlySatTestsIsNotCalledReadyTooSoon(t *testing.T) {
	s := newSchool(t)
	usual := s.course.Usual()
	standing := func(practised, tested int) practice.Standing {
		r := practice.Record{Person: "Robin"}
		one := r.BeginTest(practice.OnSight, max(1, tested), firstDay)
		for n := range practised + tested {
			kind := usual[n%60].ID
			m := practice.Meeting{
				At: firstDay.Add(time.Duration(n) * time.Minute), Source: practice.Drawing, Kind: kind, Sight: kind, Seconds: 4}
			if n < tested {
				m.Test, m.Number = one.Kind, one.Number
			}
			r.Meetings = append(r.Meetings, m)
		}
		return practice.StandingOf(&r, s.course, firstDay.Add(3*time.Hour))
	}
	for _, row := range []struct {
		practised, tested int
		said              bool
	}{{0, 60, false}, {29, 89, false}, {30, 0, true}, {0, 90, true}} {
		got := standing(row.practised, row.tested)
		if said := got.Ready != practice.TooFew; said != row.said || got.Animals != row.practised || got.Tested != row.tested {
			t.Errorf("%d in sittings, %d in tests: %+v", row.practised, row.tested, got)
		}
	}
}

func TestLinesOfReadinessAreReadStrictly(t *testing.T) {
	const good = "[readiness]\nsittings = 20\ntests = 50\nalone = 0.05\nby_twos = 0.2\nsource = \"memory\"\n"
	for _, row := range []struct{ old, with, says string }{
		{"", "", ""},
		{"sittings = 20", "sittings = 0", `r.toml:2:12: ready-lines`},
		{"alone = 0.05", "alone = 5", `r.toml:4:9: ready-lines`},
		{"by_twos = 0.2", "by_twos = 0.01", `r.toml:5:11: ready-lines`},
		{"tests = 50\n", "", `"tests"`},
		{"source", "quelle", `"quelle"`},
	} {
		text := strings.Replace(good, row.old, row.with, 1)
		r, err := practice.ReadReadiness(fstest.MapFS{"r.toml": {Data: []byte(text)}}, "r.toml", "r.toml")
		switch {
		case row.says == "" && (err != nil || r.Sittings != 20 || r.Tests != 50 || r.Alone != 0.05 || r.ByTwos != 0.2):
			t.Errorf("%+v, %v", r, err)
		case row.says != "" && (err == nil || !strings.Contains(err.Error(), row.says)):
			t.Errorf("%q: %v, want %s", row.with, err, row.says)
		}
	}
}
