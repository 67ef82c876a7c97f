package visit

import (
	"os"
	"slices"
	"strings"
	"testing"

	"rillkey/scoring/visit/internal/replays"
)

func TestWhatWasSaidOfASampleIsKept(t *testing.T) {
	path := begin(t)
	a := add(t, path)
	id := a.add(Sample{Label: "1", Habitat: "riffle"}).ID
	state := func() Sorting {
		t.Helper()
		tally := read(t, path).Tally()
		if len(tally.Notices) > 0 {
			t.Error(tally.Notices)
		}
		return tally.Samples[0].State
	}
	if got := state(); got != NotSorted {
		t.Errorf("a net that was emptied into a tray is %s", got)
	}
	for _, s := range []Sorting{Sorted, NotSorted, Empty} {
		a.add(Amendment{Entry: id, Reason: "said at the tray", Change: Change{Said: ptr(s)}})
		if got := state(); got != s {
			t.Errorf("said to be %s, it is %s", s, got)
		}
	}
	text, _ := os.ReadFile(path)
	if !strings.Contains(string(text), `state = "empty"`) {
		t.Errorf("%s", text)
	}
}

// Two people say different things of one sample on two laptops: they are asked,
// and an animal that turns up on the one speaks against "empty" on the other.
func TestContradictingWordsOnASample(t *testing.T) {
	says := func(s Sorting) Body { return Amendment{Reason: "said at the tray", Change: Change{Said: ptr(s)}} }
	for _, tt := range []struct {
		label       string
		left, right Body
		clash       bool
		state       Sorting // where nobody was asked
	}{
		{"the same word twice", says(Sorted), says(Sorted), false, Sorted},
		{"two words", says(Empty), says(NotSorted), true, ""},
		{"an animal and an empty net", says(Empty), Identification{Sample: "1", Taxon: "perlidae", Count: 1}, false, BeingSorted},
	} {
		t.Run(tt.label, func(t *testing.T) {
			a, b, _ := copies(t, []Body{Sample{Label: "1", Habitat: "riffle"}}, tt.left, tt.right)
			m, clashes, err := Unite([]*Visit{a, b}, false)
			if err != nil || (len(clashes) == 1) != tt.clash {
				t.Fatalf("%v, %+v", err, clashes)
			}
			tally := m.Tally()
			if got := tally.Samples[0].State; tt.state != "" && got != tt.state {
				t.Errorf("it is %s, not %s", got, tt.state)
			}
			if tt.state == BeingSorted && (len(tally.Notices) != 1 || !strings.Contains(tally.Notices[0].Text, "was said to be empty")) {
				t.Errorf("remarks %v", tally.Notices)
			}
		})
	}
}

// A visit that is asked again has not been replayed again, unless it or its copy
// says something else than before.
func TestEventsAreReplayedOnce(t *testing.T) {
	path := begin(t)
	a := add(t, path)
	a.add(Sample{Label: "1", Habitat: "riffle"})
	a.add(Identification{Sample: "1", Taxon: "perlidae", Count: 2})
	v := read(t, path)
	first := v.Tally()
	if again := v.Tally(); &again.Records[0] != &first.Records[0] {
		t.Error("the events were replayed again")
	}
	copied := *v
	copied.Events = append([]Event(nil), v.Events...)
	copied.Events[1].Body = Identification{Sample: "1", Taxon: "baetidae", Count: 3}
	if got := copied.Tally().Records[0].Taxon; got != "baetidae" {
		t.Errorf("a copy with another record has %s", got)
	}
	if err := v.Conclude("Ada", Finish{}); err != nil || !v.Tally().Finished {
		t.Errorf("an event more is not seen: %v", err)
	}
	if v.Header.Obscured = true; !v.Tally().Obscured {
		t.Error("the header was made to obscure the place, and the tally does not")
	}
	if got := v.Tally().Records[0].Taxon; got != "perlidae" || first.Finished || first.Obscured {
		t.Errorf("the visit or its first tally changed: %s, %+v", got, first)
	}
}

// Whether a visit is finished is what its tally says, and takes no replay but where a
// finish was withdrawn.
func TestFinishedIsWhatTheTallySays(t *testing.T) {
	path := begin(t)
	a := add(t, path)
	finish := ""
	for _, step := range []struct {
		label   string
		do      func()
		replays int64
	}{
		{"begun", func() { a.add(Sample{Label: "1", Habitat: "riffle"}) }, 0},
		{"finished", func() { finish = a.add(Finish{}).ID }, 0},
		{"opened again", func() { a.add(Amendment{Entry: finish, Reason: "one more", Withdrawn: true}) }, 1},
		{"finished again", func() { a.add(Finish{Note: "now"}) }, 1},
	} {
		step.do()
		v := read(t, path)
		before := replays.Tallied.Load()
		got := v.Finished()
		if n := replays.Tallied.Load() - before; n != step.replays {
			t.Errorf("%s: %d replays", step.label, n)
		}
		if want := v.Tally().Finished; got != want {
			t.Errorf("%s: %v, the tally says %v", step.label, got, want)
		}
	}
}

// A visit whose header was corrected is replayed once, however it is asked; with another
// place it has the same tally.
func TestACorrectedVisitIsReplayedOnce(t *testing.T) {
	path := begin(t)
	a := add(t, path)
	a.add(Sample{Label: "1", Habitat: "riffle"})
	a.add(Identification{Sample: "1", Taxon: "perlidae", Count: 2})
	id := read(t, path).Header.ID
	a.add(Amendment{Entry: id, Reason: "the wrong brook", Change: Change{Site: ptr("Mill"), Spot: &Spot{Latitude: 51, Longitude: 7}}})
	before := replays.Tallied.Load()
	v := read(t, path)
	first := v.Tally()
	if n := replays.Tallied.Load() - before; n != 1 || v.Header.Site != "Mill" {
		t.Errorf("%d replays; the site is %s", n, v.Header.Site)
	}
	rough := &Spot{Latitude: 51.1, Longitude: 7.1}
	given := v.Placed("a site", rough)
	if again := given.Tally(); &again.Records[0] != &first.Records[0] {
		t.Error("it was replayed again")
	}
	text := string(given.Encode())
	if given.Header.Site != "a site" || given.Header.Spot != rough || given.Written().Site != "a site" ||
		strings.Contains(text, "Mill") || strings.Contains(text, v.Written().Site) || !strings.Contains(text, "51.1") {
		t.Errorf("%+v\n%s", given.Header, text)
	}
	if v.Header.Site != "Mill" {
		t.Error("the visit itself was changed")
	}
}

// An entry is made only of news, and "all of it" is none where no part was said before.
func TestSortedAs(t *testing.T) {
	for _, row := range []struct {
		why      string
		said     Sorting
		fraction float64 // as the file has it
		state    Sorting
		share    float64
		news     bool
		changed  float64 // the fraction of the change, 0 for none
	}{
		{"sorted, for the first time", "", 0, Sorted, 1, true, 0},
		{"the same once more", Sorted, 0, Sorted, 1, false, 0},
		{"a part after all", Sorted, 0, Sorted, 0.25, true, 0.25},
		{"all of it after a part", Sorted, 0.25, Sorted, 1, true, 1},
		{"the same part", Sorted, 0.25, Sorted, 0.25, false, 0},
		{"nothing is said of a part", Sorted, 0.25, Sorted, 0, false, 0},
		{"not after all", Sorted, 0.25, NotSorted, 0, true, 0},
	} {
		s := Taken{Sample: Sample{Said: row.said, Fraction: row.fraction}}
		change, news := s.SortedAs(row.state, row.share)
		fraction := 0.0
		if change.Fraction != nil {
			fraction = *change.Fraction
		}
		if news != row.news || fraction != row.changed || *change.Said != row.state {
			t.Errorf("%s: %v, %v, %v", row.why, news, fraction, *change.Said)
		}
	}
}

// What a word on a sample leaves, what needs none, and what is no word on it.
func TestSortedWord(t *testing.T) {
	for _, row := range []struct {
		why                  string
		said                 Sorting
		animals              int
		answer               SortedAnswer
		state                Sorting
		contradicted, unsaid bool
	}{
		{"all of one with animals", "", 3, AllSorted, Sorted, false, false},
		{"all of one without", "", 0, AllSorted, Sorted, true, false},
		{"a part of one without", "", 0, PartSorted, Sorted, true, false},
		{"an empty one", "", 0, FoundEmpty, Empty, false, false},
		{"not yet, of which nobody spoke", "", 0, NotYet, NotSorted, false, true},
		{"not yet, said to be sorted before", Sorted, 0, NotYet, NotSorted, false, false},
		{"not yet, with animals", "", 2, NotYet, NotSorted, false, false},
	} {
		s := Taken{ID: "s1", Sample: Sample{Label: "1", Said: row.said}}
		tally := Tally{Samples: []Taken{s}, Records: []Record{{Identification: Identification{Sample: "1", Count: row.animals}}}}
		w := row.answer.Word(s)
		once, _, news := w.Once()
		if once.State != row.state || once.Said != row.state || !news {
			t.Errorf("%s: it is %q, news %v", row.why, once.State, news)
		}
		if w.Contradicted(tally) != row.contradicted || w.GoesWithoutSaying(tally) != row.unsaid {
			t.Errorf("%s: contradicted %v, unsaid %v", row.why, w.Contradicted(tally), w.GoesWithoutSaying(tally))
		}
	}
}

// What can be answered of a sample, and what it seems to be.
func TestSortedAnswers(t *testing.T) {
	full, empty := []SortedAnswer{AllSorted, PartSorted, NotYet}, []SortedAnswer{NotYet, FoundEmpty}
	for _, row := range []struct {
		why      string
		sample   Taken
		animals  int
		possible []SortedAnswer
		seems    SortedAnswer
	}{
		{"animals lie in it", Taken{State: BeingSorted}, 4, full, AllSorted},
		{"a share of it was said", Taken{Sample: Sample{Fraction: 0.25}}, 4, full, PartSorted},
		{"all of it, once more", Taken{Sample: Sample{Fraction: 1}}, 4, full, AllSorted},
		{"none lies in it", Taken{State: NotSorted}, 0, empty, NotYet},
		{"none, as was said", Taken{State: Empty}, 0, empty, FoundEmpty},
	} {
		if possible, seems := row.sample.SortedAnswers(row.animals); !slices.Equal(possible, row.possible) || seems != row.seems {
			t.Errorf("%s: %v, %v", row.why, possible, seems)
		}
	}
}

// What is sorted to the end, or holds nothing, is not asked about again.
func TestUnsorted(t *testing.T) {
	for state, open := range map[Sorting]bool{NotSorted: true, BeingSorted: true, Sorted: false, Empty: false} {
		tally := Tally{Samples: []Taken{{Sample: Sample{Label: "1"}, State: state}}}
		if got := len(tally.Unsorted()) == 1; got != open {
			t.Errorf("%v: to be sorted %v, not %v", state, got, open)
		}
	}
}

func TestSamplesMeant(t *testing.T) {
	tally := Tally{Samples: []Taken{{Sample: Sample{Label: "1"}}, {Sample: Sample{Label: "2"}}, {Sample: Sample{Label: "A,B"}}}}
	for _, row := range []struct{ typed, meant, wrong string }{
		{"1", "1", ""},
		{"1, 2", "1 2", ""},
		{"a,b", "A,B", ""},
		{"2,4", "", `there is no sample "4"; there are 1, 2, A,B`},
	} {
		samples, err := tally.SamplesMeant([]string{row.typed})
		var labels []string
		for _, s := range samples {
			labels = append(labels, s.Label)
		}
		wrong := ""
		if err != nil {
			wrong = err.Error()
		}
		if got := strings.Join(labels, " "); got != row.meant || wrong != row.wrong {
			t.Errorf("%q: %s, %s", row.typed, got, wrong)
		}
	}
}
