package practice_test

import (
	"strings"
	"testing"
	"time"

	"rillkey/key"
	"rillkey/key/practice"
)

// Three sittings and two tests on end were told of as one sitting.
func TestSittingsAreCountedAsTheyWereBegun(t *testing.T) {
	s := newSchool(t)
	r := practice.PersonRecord{Person: "Robin"}
	at := firstDay
	meet := func(begins bool, m practice.Meeting) {
		m.Time, m.Begins, m.Source, m.Kind, m.Sight = at, begins, practice.DrawingSource, "perlidae", "perlidae"
		r.Meetings = append(r.Meetings, m)
		at = at.Add(time.Minute)
	}
	test := func() {
		one := r.BeginTest(practice.OnSight, 2, at)
		meet(true, practice.Meeting{Test: one.Kind, Number: one.Number})
		meet(false, practice.Meeting{Test: one.Kind, Number: one.Number})
	}
	test()
	for range 3 {
		meet(true, practice.Meeting{})
		meet(false, practice.Meeting{})
	}
	test()
	back, err := practice.ParseRecord("robin", r.TOML())
	if err != nil {
		t.Fatal(err)
	}
	got := practice.ProgressOf(back, s.course, at)
	if got.Sittings != 3 || got.Animals != 6 || got.Tested != 4 || len(got.Tests) != 2 {
		t.Errorf("%d animals in %d sittings, %d in %d tests", got.Animals, got.Sittings, got.Tested, len(got.Tests))
	}
}

// Somebody who named 71 of 75 animals rightly, most of them the first time that they came,
// was told that 17 of 100 would get a wrong name.
func TestWhoKnowsAnimalsFromElsewhereIsBelieved(t *testing.T) {
	s := newSchool(t)
	expected := func(wrongEach int) float64 {
		l := s.course.NewLearner()
		at := firstDay
		for n, k := range s.course.Usual()[:75] {
			m := practice.Meeting{Time: at, Source: practice.DrawingSource, Kind: k.ID, Sight: k.ID, Seconds: 5}
			if n%wrongEach == wrongEach-1 {
				m.Sight = s.course.Usual()[n+1].ID
			}
			l.Take(m)
			at = at.Add(10 * time.Second)
		}
		return l.Error(at)
	}
	if e := expected(19); e > 0.10 {
		t.Errorf("71 of 75 rightly named: %.2f wrong names expected", e)
	}
	if e := expected(2); e < 0.25 {
		t.Errorf("every other wrongly named: %.2f wrong names expected", e)
	}
}

// A mistake that was made once and not again is told of no more.
func TestAMisreadThatIsMendedIsNotToldOf(t *testing.T) {
	s := newSchool(t)
	l := s.course.NewLearner()
	read := func(as string) {
		r := []practice.Reading{{Trait: "tails", Is: "3", Fit: []string{"3"}, Given: []string{as}}}
		practice.Blame(r, s.v)
		l.Take(practice.Meeting{Time: firstDay, Source: practice.DrawingSource, Kind: "baetidae", Walked: true, Readings: r})
	}
	for n, row := range []struct {
		as   string
		told int
	}{{"2", 1}, {"3", 1}, {"3", 0}, {"2", 1}} {
		if read(row.as); len(l.Misreads(firstDay, 3)) != row.told {
			t.Errorf("reading %d: %v", n+1, l.Misreads(firstDay, 3))
		}
	}
}

// After an answer that led off the animal's way its walk asks about others: what is said
// there was once told of as misread.
func TestWhatIsAskedOffTheWayIsNoReading(t *testing.T) {
	s := newSchool(t)
	m, err := s.course.Key().Model(key.FileRates(s.v))
	if err != nil {
		t.Fatal(err)
	}
	q, err := m.Inquire(key.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	shows := s.course.Typical("limnephilidae").Shows
	for n := 0; n < 12 && q.Question() != nil && q.Question().Couplet != nil; n++ {
		pick := practice.Truly(*q.Question(), shows)
		if n == 1 { // it has no tails
			pick = "a"
		} else if n > 1 {
			pick = "b"
		}
		if err := q.Answer(pick); err != nil {
			t.Fatal(err)
		}
	}
	wrong := 0
	for _, r := range practice.ReadingsOf(q.Given(), shows, s.v) {
		if r.Wrong() {
			wrong++
		} else if wrong > 0 {
			t.Errorf("%s was read off the way", r.Trait)
		}
	}
	if wrong != 1 {
		t.Errorf("%d misreads are told of: %+v", wrong, practice.ReadingsOf(q.Given(), shows, s.v))
	}
}

// Whoever reads a trait best looks first, and of those of whom nothing is known the first named.
func TestReadersByHowTheyRead(t *testing.T) {
	s := newSchool(t)
	read := func(given string) *practice.Learner {
		l := s.course.NewLearner()
		for n := range 20 {
			r := []practice.Reading{{Trait: "tails", Is: "3", Fit: []string{"3"}, Given: []string{given}}}
			practice.Blame(r, s.v)
			l.Take(practice.Meeting{Time: firstDay.Add(time.Duration(n) * time.Minute), Source: practice.TraySource,
				Kind: "baetidae", Walked: true, Readings: r})
		}
		return l
	}
	kind := s.course.Key().Catalog().Taxon("ephemerellidae")
	readers := []practice.Reader{{Name: "Bo", Learner: read("2")}, {Name: "Mags", Learner: s.course.NewLearner()},
		{Name: "Oona", Learner: read("3")}, {Name: "Ada", Learner: s.course.NewLearner()}}
	var order []string
	got := practice.ByReading(readers, s.v.Trait("tails"), kind)
	for i, r := range got {
		if order = append(order, r.Name); i > 0 && r.Chance > got[i-1].Chance || r.Chance <= 0 || r.Chance >= 1 {
			t.Errorf("%+v", got)
		}
	}
	if strings.Join(order, " ") != "Oona Mags Ada Bo" {
		t.Errorf("%+v", got)
	}
	if unknown := practice.ByReading(readers[:1], s.v.Trait("tails")); unknown[0].Chance != 0.5 {
		t.Errorf("of no kind at all: %+v", unknown)
	}
}
