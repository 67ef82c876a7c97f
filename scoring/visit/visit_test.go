package visit

import (
	"bytes"
	"math/rand"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"
)

// noon is when every invented visit here takes place.
var noon = time.Date(2024, 5, 31, 12, 0, 0, 0, time.FixedZone("", 2*3600))

func someRandom() *rand.Rand { return rand.New(rand.NewSource(1)) }

func ptr[T any](v T) *T { return &v }

func begin(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "visit.toml")
	h := Header{Site: `Otter Run, "below" the weir`, Date: "2024-05-31", People: []string{"Ada Förster", `B\ck`},
		Protocol: "riffle-three", CautionsRead: true, Begun: noon}
	if _, err := Create(path, h, someRandom()); err != nil {
		t.Fatal(err)
	}
	return path
}

// adder appends to one file, one invented minute after another.
type adder struct {
	t      *testing.T
	path   string
	random *rand.Rand
	at     time.Time
}

func add(t *testing.T, path string) *adder { return &adder{t, path, someRandom(), noon} }

func (a *adder) add(body Body) Event {
	a.t.Helper()
	a.at = a.at.Add(time.Minute)
	s, err := Append(a.path, a.at, "Ada", body, a.random)
	if err != nil {
		a.t.Fatal(err)
	}
	return s.Event
}

// afternoon fills a file with one event of every kind and shape.
func afternoon(t *testing.T) (path string, events []Event) {
	path = begin(t)
	a := add(t, path)
	keep := func(b Body) string {
		e := a.add(b)
		events = append(events, e)
		return e.ID
	}
	s := keep(Sample{Label: "A1", Habitat: "riffle", Area: 0.37, Effort: "one kick, 60 seconds", Fraction: 0.5})
	keep(Sample{Label: "2", Habitat: "leaf-pack"})
	full := keep(Identification{
		Sample: "a1", Taxon: "perlidae", Rank: "family", Count: 102, Cell: "B3", Confidence: 0.93,
		Path: []string{"1b", "4?"}, Possible: []string{"perlidae", "perlodidae"},
		Also: []Chance{{"perlodidae", 0.05}, {"nemouridae", 0.02}}, Length: 14.5, Note: "gills under the “arms”, “x” = \\ \"y\"",
	})
	lean := keep(Identification{Sample: "2", Count: 1, Undecided: true})
	keep(SecondLook{Entry: full, Taxon: "perlodidae", Rank: "family", Count: 3, Confidence: 0.6,
		Path: []string{"1b"}, Note: "no gills seen"})
	keep(Amendment{Entry: full, Reason: "miscounted", Change: Change{Count: ptr(12), Cell: ptr("")}})
	keep(Amendment{Entry: s, Reason: "net measured again", Change: Change{Area: ptr(1.0), Effort: ptr("two kicks"), Fraction: ptr(0.25)}})
	keep(Amendment{Entry: lean, Reason: "it was a twig", Withdrawn: true})
	keep(SheetRows{Sample: "a1", Rows: []string{"mayfly", "scud"}, WrittenIn: true})
	keep(Finish{Note: "animals back in the water"})
	return path, events
}

func read(t *testing.T, path string) *Visit {
	t.Helper()
	v, err := Read(path)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func sameEvents(a, b []Event) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		x, y := a[i], b[i]
		if !x.Time.Equal(y.Time) {
			return false
		}
		x.Time, y.Time = time.Time{}, time.Time{}
		if !reflect.DeepEqual(x, y) {
			return false
		}
	}
	return true
}

func TestWhatIsReadIsWhatWasSaved(t *testing.T) {
	path, want := afternoon(t)
	v := read(t, path)
	if !sameEvents(v.Events, want) {
		t.Errorf("read  %+v\nsaved %+v", v.Events, want)
	}
	if len(v.Notices) != 0 {
		t.Errorf("a sound file has remarks: %v", v.Notices)
	}
	h := v.Header
	if h.Site != `Otter Run, "below" the weir` || h.People[1] != `B\ck` || !h.CautionsRead || !h.Begun.Equal(noon) ||
		h.Protocol != "riffle-three" || h.Date != "2024-05-31" {
		t.Errorf("header %+v", h)
	}
}

func TestEventBeginsOnItsLine(t *testing.T) {
	path, events := afternoon(t)
	data, _ := os.ReadFile(path)
	lines := strings.Split(string(data), "\n")
	for _, e := range events {
		if lines[e.Line-1] != eventLine {
			t.Errorf("line %d of event %s holds %q", e.Line, e.ID, lines[e.Line-1])
		}
	}
}

func TestTallyAfterAmendments(t *testing.T) {
	path, events := afternoon(t)
	tally := read(t, path).Tally()
	if len(tally.Records) != 1 || len(tally.Withdrawn) != 1 || len(tally.Samples) != 2 || !tally.Finished || len(tally.Notices) != 0 {
		t.Fatalf("tally %+v", tally)
	}
	r := tally.Records[0]
	if r.ID != events[2].ID || r.Count != 12 || r.Cell != "" || r.Sample != "A1" {
		t.Errorf("the record is not the amended one: %+v", r)
	}
	if r.Taxon != "perlidae" || len(r.Looks) != 1 || r.Looks[0].Taxon != "perlodidae" {
		t.Errorf("a second look must stand beside the name and not change it: %+v", r)
	}
	if s := tally.Samples[0]; s.Area != 1 || s.Effort != "two kicks" || s.Fraction != 0.25 || s.Habitat != "riffle" {
		t.Errorf("sample %+v", s)
	}
	if tally.Withdrawn[0].ID != events[3].ID {
		t.Errorf("withdrawn %+v", tally.Withdrawn)
	}
}

func TestAmendedTaxonDropsWhatSpokeForTheOldOne(t *testing.T) {
	path := begin(t)
	a := add(t, path)
	a.add(Sample{Label: "1", Habitat: "riffle"})
	id := a.add(Identification{Sample: "1", Taxon: "perlidae", Rank: "family", Count: 3, Confidence: 0.9,
		Path: []string{"1a"}, Undecided: true, Note: "big"}).ID
	a.add(Amendment{Entry: id, Reason: "gills on the belly", Change: Change{Taxon: ptr("baetidae"), Confidence: ptr(0.7)}})
	got := read(t, path).Tally().Records[0].Identification
	want := Identification{Sample: "1", Taxon: "baetidae", Count: 3, Confidence: 0.7, Note: "big"}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

func TestWithdrawnSampleTakesItsRecordsAlong(t *testing.T) {
	path := begin(t)
	a := add(t, path)
	s := a.add(Sample{Label: "1", Habitat: "riffle"}).ID
	a.add(Identification{Sample: "1", Taxon: "baetidae", Count: 3})
	a.add(Amendment{Entry: s, Reason: "the net was torn", Withdrawn: true})
	tally := read(t, path).Tally()
	if len(tally.Samples) != 0 || len(tally.Records) != 0 || len(tally.Withdrawn) != 1 {
		t.Errorf("tally %+v", tally)
	}
}

func TestAWithdrawnFinishOpensTheVisitAgain(t *testing.T) {
	path := begin(t)
	a := add(t, path)
	f := a.add(Finish{}).ID
	if _, err := Append(path, noon, "Ada", Sample{Label: "1", Habitat: "riffle"}, a.random); err == nil ||
		!strings.Contains(err.Error(), "finished") {
		t.Fatalf("a sample after the finish: %v", err)
	}
	a.add(Amendment{Entry: f, Reason: "one more sample", Withdrawn: true})
	a.add(Sample{Label: "1", Habitat: "riffle"})
}

func TestRepeatedRandomnessCannotDoubleAnID(t *testing.T) {
	path := begin(t)
	same := func() *bytes.Reader { return bytes.NewReader(make([]byte, 8)) }
	if _, err := Append(path, noon, "", Sample{Label: "1", Habitat: "riffle"}, same()); err != nil {
		t.Fatal(err)
	}
	if _, err := Append(path, noon, "", Sample{Label: "2", Habitat: "riffle"}, same()); err == nil {
		t.Error("a second event got the id of the first")
	}
}
