package visit

import (
	"math/rand"
	"os"
	"reflect"
	"testing"

	"rillkey/scoring/condition"
	"rillkey/scoring/visit/internal/replays"
)

// comesBack spills a visit and has it again: each entry and the tally as they were, without
// a replay.
func comesBack(t *testing.T, why string, v *Visit) {
	t.Helper()
	s, text := Spill(v)
	before := replays.Tallied.Load()
	back, err := s.Visit(text)
	if err != nil {
		t.Fatalf("%s: %v", why, err)
	}
	if len(back.Events) != len(v.Events) {
		t.Fatalf("%s: %d entries of %d", why, len(back.Events), len(v.Events))
	}
	for i, e := range v.Events {
		if !reflect.DeepEqual(back.Events[i], e) {
			t.Fatalf("%s: entry %d is\n%+v\nand was\n%+v", why, i, back.Events[i], e)
		}
	}
	if tally := v.Tally(); !reflect.DeepEqual(back.Tally(), tally) {
		t.Errorf("%s: the tally is\n%+v\nand was\n%+v", why, back.Tally(), tally)
	}
	if n := replays.Tallied.Load() - before; n != 0 {
		t.Errorf("%s: %d replays", why, n)
	}
	if !reflect.DeepEqual(back.Header, v.Header) || !reflect.DeepEqual(back.Written(), v.Written()) || back.File != v.File ||
		!reflect.DeepEqual(back.Notices, v.Notices) || back.Obscured() != v.Obscured() || string(back.Encode()) != string(v.Encode()) {
		t.Errorf("%s: beside its entries it is\n%+v\nand was\n%+v", why, back, v)
	}
	if len(text) > 0 {
		if _, err := s.Visit(text[:len(text)-2]); err == nil {
			t.Errorf("%s: a text that was cut off was taken", why)
		}
	}
}

func TestASpilledVisitComesBack(t *testing.T) {
	for seed := range 40 {
		for _, v := range laptops(t, rand.New(rand.NewSource(int64(seed))), 2) {
			comesBack(t, "a laptop's", v)
		}
	}
	for seed := range 10 {
		comesBack(t, "a table's", schedule(t, uint64(seed), anyBody))
	}
	comesBack(t, "an empty one", read(t, begin(t)))
	path, events := afternoon(t)
	comesBack(t, "an afternoon", read(t, path))

	a := add(t, path)
	id := read(t, path).Header.ID
	for _, body := range []Body{
		Amendment{Entry: events[len(events)-1].ID, Reason: "more to sort", Withdrawn: true},
		Amendment{Entry: id, Reason: "the wrong brook", Change: Change{Site: ptr("Mill"), Obscured: ptr(true)}},
		Identification{Sample: "a1", Taxon: "perlidae", Count: 2, Confidence: 0.8, Path: []string{"1a"}, Also: []Chance{{"baetidae", 0.2}}},
		Identification{Sample: "a1", Count: 1, Undecided: true, Possible: []string{"perlidae", "baetidae"}},
		Conditions{condition.Values{"smell": {Text: "none"}}},
		SameName{What: NamePerson, Name: "Bo", Spelling: "Ada", Differ: true},
		SheetRows{Sample: "A1", Rows: []string{"stonefly"}, WrittenIn: true},
	} {
		a.add(body)
	}
	v := read(t, path)
	r := v.Tally().Records
	last := r[len(r)-2]
	a.add(SecondLook{Entry: last.ID, Taxon: "baetidae", Rank: "family", Count: 2, Confidence: 0.9})
	a.add(Amendment{Entry: last.ID, Reason: "settled", Change: Change{Taxon: ptr("baetidae"), Rank: ptr("family"), Confidence: ptr(1.0)}})
	a.add(Amendment{Entry: last.ID, Reason: "counted back", Change: Change{More: ptr(-2)}}) // no animals are left of it
	a.add(Amendment{Entry: r[0].ID, Reason: "no note", Change: Change{Note: ptr(""), Length: ptr(0.0)}})
	a.add(Amendment{Entry: events[0].ID, Reason: "there too", Change: Change{Effort: ptr("")}})
	v = read(t, path)
	if len(v.Tally().Withdrawn) == 0 || v.Header.Site != "Mill" {
		t.Fatal("nothing was withdrawn, or the site is as before")
	}
	comesBack(t, "every kind of entry", v)

	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	unknown := "\n[[event]]\nid = \"k3v9m2qb\"\nkind = \"weather\"\ntime = 2024-05-31T14:05:00Z\nrain = true\n"
	v, err = Parse(path, append(text, unknown+sealLine([]byte(unknown[1:]))+"\n"...))
	if err != nil || len(v.Notices) != 1 || v.Notices[0].Trouble != Unknown {
		t.Fatalf("%v, %v", err, v.Notices)
	}
	comesBack(t, "one of a newer program", v)
}
