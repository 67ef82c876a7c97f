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
	standing := func(practised, tested int) practice.Progress {
		r := practice.PersonRecord{Person: "Robin"}
		one := r.BeginTest(practice.OnSight, max(1, tested), firstDay)
		for n := range practised + tested {
			kind := usual[n%60].ID
			m := practice.Meeting{
				Time: firstDay.Add(time.Duration(n) * time.Minute), Source: practice.DrawingSource, Kind: kind, Sight: kind, Seconds: 4}
			if n < tested {
				m.Test, m.Number = one.Kind, one.Number
			}
			r.Meetings = append(r.Meetings, m)
		}
		return practice.ProgressOf(&r, s.course, firstDay.Add(3*time.Hour))
	}
	for _, row := range []struct {
		practised, tested int
		said              bool
	}{{0, 60, false}, {29, 89, false}, {30, 0, true}, {0, 90, true}} {
		got := standing(row.practised, row.tested)
		if said := got.Ready != practice.ReadyTooFew; said != row.said || got.Animals != row.practised || got.Tested != row.tested {
			t.Errorf("%d in sittings, %d in tests: %+v", row.practised, row.tested, got)
		}
	}
}

func TestLinesOfReadinessAreReadStrictly(t *testing.T) {
	const good = "[readiness]\nsittings = 20\ntests = 50\nalone = 0.05\nby_twos = 0.2\ndays = 2\nkept = 0.4\nreal = 0\n" +
		"source = \"memory\"\n"
	for _, row := range []struct{ old, with, says string }{
		{"", "", ""},
		{"sittings = 20", "sittings = 0", `r.toml:2:12: ready-lines`},
		{"alone = 0.05", "alone = 5", `r.toml:4:9: ready-lines`},
		{"by_twos = 0.2", "by_twos = 0.01", `r.toml:5:11: ready-lines`},
		{"tests = 50\n", "", `"tests"`},
		{"real = 0", "real = -1", `r.toml:8:8: ready-lines`},
		{"kept = 0.4", "kept = 40", `r.toml:7:8: ready-lines`},
		{"source", "quelle", `"quelle"`},
		{"days = 2", "days = 2\nby_twos_days = 0", `r.toml:7:16: ready-lines`},
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

// A player was called ready to name alone after 24 minutes of drawings.
func TestWhoNamesAloneHasPractisedOnDaysAndRealAnimals(t *testing.T) {
	s := newSchool(t)
	usual := s.course.Usual()
	stand := func(days, each, real, wrong int, change func(m *practice.Meeting)) practice.Progress {
		r := practice.PersonRecord{Person: "Robin"}
		at := firstDay
		for day := range days {
			at = firstDay.Add(time.Duration(day) * 24 * time.Hour)
			for n := range each {
				m := practice.Meeting{Time: at, Source: practice.DrawingSource, Kind: usual[n].ID, Sight: usual[n].ID, Seconds: 4}
				change(&m)
				r.Meetings = append(r.Meetings, m)
				at = at.Add(20 * time.Second)
			}
		}
		for n := range real {
			m := practice.Meeting{Time: at, Source: practice.TraySource, Kind: usual[n].ID, Sight: usual[n].ID, Seconds: 4}
			if n < wrong {
				m.Sight = usual[n+1].ID
			}
			r.Meetings = append(r.Meetings, m)
			at = at.Add(20 * time.Second)
		}
		return practice.ProgressOf(&r, s.course, at)
	}
	same := func(*practice.Meeting) {}
	for _, row := range []struct {
		name                    string
		days, each, real, wrong int
		change                  func(m *practice.Meeting)
		want                    practice.Ready
	}{
		{"all of it", 3, 90, 20, 2, same, practice.ReadyAlone},
		{"one long day", 1, 108, 20, 0, same, practice.ReadyNotYet},
		{"two days", 2, 90, 20, 0, same, practice.ReadyByTwos},
		{"drawings alone", 4, 90, 0, 0, same, practice.ReadyByTwos},
		{"real ones misnamed", 3, 90, 20, 3, same, practice.ReadyByTwos},
		{"from lists", 3, 90, 20, 0, func(m *practice.Meeting) { m.Prompted = true }, practice.ReadyByTwos},
		{"words alone", 3, 90, 20, 0, func(m *practice.Meeting) { m.Source = practice.WordsSource }, practice.ReadyByTwos},
		{"few kinds", 4, 12, 20, 0, same, practice.ReadyByTwos},
	} {
		got := stand(row.days, row.each, row.real, row.wrong, row.change)
		t.Logf("%s: %.3f wrong, kept %.2f on %d days", row.name, got.Error, got.Kept, got.Days)
		if got.Ready != row.want || got.Days != row.days || got.Real != row.real {
			t.Errorf("%s: %+v", row.name, got)
		}
	}
}
