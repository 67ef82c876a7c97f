package practice_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"rillkey/key"
	"rillkey/key/practice"
)

const twoCups = "[cup.2]\ntaxon = \"perlidae\"\nnote = \"one tail\"\n[cup.1]\ntaxon = \"Tipulidae\"\n[cup.7]\ntaxon = \"perlodidae\"\n"

func TestCupsAreReadAndComeInTurn(t *testing.T) {
	s := newSchool(t)
	cups, err := practice.ParseTray("t", []byte(twoCups), s.course)
	if err != nil || len(cups) != 3 || cups[0].Number != 1 || cups[0].Kind != "tipulidae" || cups[1].Note != "one tail" {
		t.Fatal(cups, err)
	}
	l, r, before, met := s.course.NewLearner(), rand.New(rand.NewPCG(1, 1)), practice.Cup{}, map[int]int{}
	for range 30 {
		cup := practice.NextCup(cups, l, firstDay, r, before)
		if cup.Number == before.Number {
			t.Fatal("a cup came twice in a row")
		}
		l.Take(practice.Meeting{Time: firstDay, Source: practice.TraySource, Kind: cup.Kind, Sight: cup.Kind, Seconds: 3})
		before = cup
		met[cup.Number]++
	}
	if len(met) != 3 {
		t.Errorf("some cups never came: %v", met)
	}
	l.Take(practice.Meeting{Time: firstDay, Source: practice.TraySource, Kind: "perlidae", Sight: "perlodidae"})
	if cup := practice.NextCup(cups, l, firstDay, r, cups[1]); cup.Kind != "perlodidae" {
		t.Errorf("after one was taken for another comes %s", cup.Kind)
	}
}

func TestTraysThatCannotBeRead(t *testing.T) {
	s := newSchool(t)
	for text, want := range map[string]string{
		"":                                "2 to 500 cups",
		"[cup.1]\ntaxon = \"perlidae\"":   "2 to 500 cups",
		"[cup.0]\ntaxon = \"perlidae\"":   "t:1:1: bad-number",
		"[cup.1]\ntaxon = \"unicorn\"":    "t:2:9: unknown-kind",
		"[cup.1]\ntaxon = \"plecoptera\"": "t:2:9: unknown-kind",
		"[cup.1]\nname = \"perlidae\"":    "t:2:1",
		"[cup.1]\ntaxon = \"x\"\n[cup.1]": "t:3",
	} {
		if _, err := practice.ParseTray("t", []byte(text), s.course); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}

// Of a real animal only what no animal of its kind shows counts as misread.
func TestWhatARealAnimalShowed(t *testing.T) {
	s := newSchool(t)
	m, err := s.course.Key().Model(key.FileRates(s.v))
	if err != nil {
		t.Fatal(err)
	}
	perlidae := s.cat.Taxon("perlidae")
	for said, wrong := range map[string]bool{"tails=2": false, "tails=3": true} {
		q, err := m.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		if err := q.Say(said); err != nil {
			t.Fatal(err)
		}
		shows := practice.ShownOf(q.Given(), perlidae)
		if shows["tails"] != "2" {
			t.Errorf("%s: it is taken to have shown %v", said, shows)
		}
		given := q.Given()
		given[0].Asked, given[0].Question.Trait = true, s.v.Trait("tails")
		if r := practice.ReadingsOf(given, shows, s.v); len(r) != 1 || r[0].Wrong() != wrong {
			t.Errorf("%s: %v", said, r)
		}
	}
}

func FuzzParseTray(f *testing.F) {
	f.Add([]byte(twoCups))
	s := newSchool(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		cups, err := practice.ParseTray("f", data, s.course)
		if err == nil {
			practice.NextCup(cups, s.course.NewLearner(), firstDay, rand.New(rand.NewPCG(1, 1)), cups[0])
		}
	})
}

// A trainer's cup of a pouch snail was refused, since a group goes by that name too.
func TestACupTakesTheNamesThatPeopleSay(t *testing.T) {
	s := newSchool(t)
	text := "[cup.1]\ntaxon = \"pouch snail\"\n[cup.2]\ntaxon = \"northern caddisfly\"\n[cup.3]\ntaxon = \"scud\"\n"
	cups, err := practice.ParseTray("t", []byte(text), s.course)
	if err != nil || cups[0].Kind != "physidae" || cups[1].Kind != "limnephilidae" {
		t.Error(cups, err)
	}
}
