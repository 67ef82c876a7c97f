package practice_test

import (
	"testing"
	"time"

	"rillkey/key/practice"
)

func TestTestsAreApartByDateAndNumber(t *testing.T) {
	s := newSchool(t)
	r := practice.PersonRecord{Person: "Robin"}
	meet := func(of practice.Test, day int, m practice.Meeting) {
		m.Test, m.Number, m.Source = of.Kind, of.Number, practice.DrawingSource
		m.Time = firstDay.Add(time.Duration(day) * 24 * time.Hour)
		r.Meetings = append(r.Meetings, m)
	}
	one := r.BeginTest(practice.OnSight, 2, firstDay)
	meet(one, 0, practice.Meeting{Kind: "perlidae", Sight: "perlidae"})
	meet(one, 0, practice.Meeting{Kind: "perlidae", Sight: "perlodidae"})
	two := r.BeginTest(practice.WithKey, 3, firstDay) // within the hour
	meet(two, 0, practice.Meeting{Kind: "perlidae", Walked: true, Named: []string{"perlidae"}})
	meet(two, 0, practice.Meeting{Kind: "hydropsychidae", Walked: true, Named: []string{"hydropsychidae"}, Group: "trichoptera"})
	meet(two, 0, practice.Meeting{Kind: "perlidae", Walked: true})
	three := r.BeginTest(practice.OnSight, 4, firstDay)
	meet(three, 1, practice.Meeting{Kind: "perlidae", Sight: "perlidae"})

	got := practice.ProgressOf(&r, s.course, firstDay.Add(48*time.Hour))
	want := []practice.Tested{{one, 2, 1, 0}, {two, 3, 1, 1}, {three, 1, 0, 0}} // of an unfinished test nothing is told
	if len(got.Tests) != len(want) {
		t.Fatalf("%v", got.Tests)
	}
	for i := range want {
		if got.Tests[i] != want[i] {
			t.Errorf("test %d: %+v, want %+v", i+1, got.Tests[i], want[i])
		}
	}
	if len(got.Mixed) > 0 || len(got.Tried) > 0 || len(got.Misreads) > 0 {
		t.Errorf("what the tests asked comes out: %v %v %v", got.Mixed, got.Tried, got.Misreads)
	}
}

func TestTestsOfOlderRecordsAreTakenApartByTheirTimes(t *testing.T) {
	text := "[person]\nname = \"a\"\n"
	for i, at := range []string{"05T09:00:00Z", "05T09:20:00Z", "06T09:00:00Z"} {
		text += "[animal." + string(rune('1'+i)) + "]\nat = \"2031-04-" + at + "\"\n"
		text += "from = \"drawing\"\nkind = \"perlidae\"\nsight = \"perlidae\"\ntest = true\n"
	}
	r, err := practice.ParseRecord("a", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	got := r.Tested()
	if len(got) != 2 || got[0].Animals != 2 || got[0].Right != 2 || got[1].Animals != 1 || got[1].Kind != practice.EitherWay {
		t.Errorf("%+v", got)
	}
	if again, err := practice.ParseRecord("a", r.TOML()); err != nil || len(again.Tested()) != 2 {
		t.Errorf("written again: %v", err)
	}
}

func TestTwoProgramsEachWithATestKeepThemApart(t *testing.T) {
	met := func(of practice.Test, kind string) practice.Meeting {
		return practice.Meeting{Time: firstDay, Source: practice.WordsSource, Kind: kind, Test: of.Kind, Number: of.Number}
	}
	file, own := practice.PersonRecord{Person: "a"}, practice.PersonRecord{Person: "a"}
	theirs := file.BeginTest(practice.OnSight, 3, firstDay)
	file.Meetings = append(file.Meetings, met(theirs, "perlidae"))
	mine := own.BeginTest(practice.WithKey, 2, firstDay.Add(time.Minute))
	own.Meetings = append(own.Meetings, met(mine, "leuctridae"))
	own.Rejoin(&file, 0)
	back, err := practice.ParseRecord("a", own.TOML())
	if err != nil {
		t.Fatal(err)
	}
	if got := back.Tested(); len(got) != 2 || got[0].Met != 1 || got[1].Met != 1 || got[1].Number != 2 || own.Number(mine) != 2 {
		t.Errorf("%+v", got)
	}
	own.Rejoin(&practice.PersonRecord{}, 2) // all was forgotten
	if len(own.Tests)+len(own.Meetings) != 0 {
		t.Errorf("%+v", own)
	}
}
