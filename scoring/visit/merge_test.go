package visit

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"rillkey/scoring/wholefile"
)

// laptops copies one begun visit to several laptops and lets each add to its
// copy whatever chance brings, with a clock of its own that may run backwards.
// Samples are recorded before the visit is copied.
func laptops(t *testing.T, random *rand.Rand, n int) []*Visit {
	t.Helper()
	path := begin(t)
	a := add(t, path)
	a.random = random
	a.add(Sample{Label: "1", Habitat: "riffle", Area: 0.37})
	second := a.add(Sample{Label: "2", Habitat: "leaf-pack"}).ID
	first := a.add(Identification{Sample: "1", Taxon: "perlidae", Count: 3}).ID
	data, _ := os.ReadFile(path)
	out := make([]*Visit, n)
	for i := range out {
		name := filepath.Join(t.TempDir(), fmt.Sprintf("laptop-%d.toml", i))
		put(t, name, data)
		at := noon.Add(time.Hour)
		ids := []string{first}
		for range random.Intn(8) {
			at = at.Add(time.Duration(random.Intn(40)-15) * time.Minute)
			var b Body = Identification{Sample: fmt.Sprint(1 + random.Intn(2)), Taxon: "baetidae", Count: 1 + random.Intn(9)}
			if random.Intn(2) == 0 {
				b = Amendment{Entry: ids[random.Intn(len(ids))], Reason: "counted again", Change: Change{Count: ptr(1 + random.Intn(3))}}
			}
			if random.Intn(4) == 0 {
				b = Amendment{Entry: second, Reason: "said at the tray",
					Change: Change{Said: ptr([]Sorting{NotSorted, Sorted}[random.Intn(2)])}}
			}
			s, err := unsynced.append(name, at, fmt.Sprint("person ", i), b, random)
			if err != nil {
				t.Fatal(err)
			}
			if s.Event.Kind() == kindIdentification {
				ids = append(ids, s.Event.ID)
			}
		}
		out[i] = read(t, name)
	}
	return out
}

func merged(t *testing.T, visits ...*Visit) *Visit {
	t.Helper()
	m, _, err := Unite(visits, false)
	if err != nil {
		t.Fatal(err)
	}
	again, err := Parse("merged.toml", m.Encode())
	if err != nil || len(again.Notices) != 0 {
		t.Fatalf("a merged file does not read cleanly: %v %v", err, again)
	}
	return again
}

func sameFile(t *testing.T, law string, a, b *Visit) {
	t.Helper()
	if !bytes.Equal(a.Encode(), b.Encode()) {
		t.Errorf("%s fails:\n%s\n---\n%s", law, a.Encode(), b.Encode())
	}
}

// Merging is a union: order, grouping and repetition make no difference to a
// single byte of the merged file.
func TestMergeLaws(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	for seed := range int64(60) {
		v := laptops(t, rand.New(rand.NewSource(seed)), 3)
		a, b, c := v[0], v[1], v[2]
		sameFile(t, "A with B = B with A", merged(t, a, b), merged(t, b, a))
		sameFile(t, "(A with B) with C = A with (B with C)", merged(t, merged(t, a, b), c), merged(t, a, merged(t, b, c)))
		sameFile(t, "A with B with C at once", merged(t, a, b, c), merged(t, merged(t, c, b), a))
		ab := merged(t, a, b)
		sameFile(t, "AB with AB = AB", merged(t, ab, ab), ab)
		sameFile(t, "AB with A = AB", merged(t, ab, a), ab)
		sameFile(t, "A with A = A, whatever its clock did", merged(t, a, a), a)
		if got, want := len(merged(t, a, b, c).Events), union(a, b, c); got != want {
			t.Errorf("%d events of %d", got, want)
		}
	}
}

func union(visits ...*Visit) int {
	ids := map[string]bool{}
	for _, v := range visits {
		for _, e := range v.Events {
			ids[e.ID] = true
		}
	}
	return len(ids)
}

// A laptop whose clock runs backwards corrects a count twice: the second
// correction holds, before and after merging.
func TestClockSetBackwards(t *testing.T) {
	path := begin(t)
	random := someRandom()
	put := func(at time.Time, b Body) Event {
		s, err := Append(path, at, "Ada", b, random)
		if err != nil {
			t.Fatal(err)
		}
		return s.Event
	}
	put(noon, Sample{Label: "1", Habitat: "riffle"})
	id := put(noon.Add(time.Minute), Identification{Sample: "1", Taxon: "perlidae", Count: 1}).ID
	put(noon.Add(2*time.Hour), Amendment{Entry: id, Reason: "r", Change: Change{Count: ptr(2)}})
	late := put(noon.Add(-24*time.Hour), Amendment{Entry: id, Reason: "r", Change: Change{Count: ptr(3)}})
	if !late.Time.Equal(noon.Add(-24 * time.Hour)) {
		t.Errorf("the time that the clock showed is not kept: %v", late.Time)
	}
	v := read(t, path)
	for label, tally := range map[string]Tally{"as it stands": v.Tally(), "merged": merged(t, v, v).Tally()} {
		if got := tally.Records[0].Count; got != 3 {
			t.Errorf("%s: %d animals, not the 3 of the last correction", label, got)
		}
	}
}

// copies are two copies of one file, each with its own addition.
func copies(t *testing.T, both []Body, left, right Body) (a, b *Visit, ids []string) {
	t.Helper()
	path := begin(t)
	first := add(t, path)
	for _, body := range both {
		ids = append(ids, first.add(body).ID)
	}
	data, _ := os.ReadFile(path)
	other := filepath.Join(t.TempDir(), "other.toml")
	put(t, other, data)
	for i, side := range []struct {
		path string
		body Body
	}{{path, left}, {other, right}} {
		if am, ok := side.body.(Amendment); ok && am.Entry == "" {
			am.Entry = ids[len(ids)-1]
			side.body = am
		}
		_, err := Append(side.path, noon.Add(time.Duration(i+1)*time.Hour), "Ada", side.body, rand.New(rand.NewSource(int64(i+50))))
		if err != nil {
			t.Fatal(err)
		}
	}
	return read(t, path), read(t, other), ids
}

func TestContradictingAmendments(t *testing.T) {
	start := []Body{Sample{Label: "1", Habitat: "riffle"}, Identification{Sample: "1", Taxon: "perlidae", Count: 5, Cell: "A1"}}
	to := func(ch Change) Amendment { return Amendment{Reason: "r", Change: ch} }
	gone := Amendment{Reason: "twice", Withdrawn: true}
	tests := []struct {
		label       string
		left, right Amendment
		clash       bool
		holds       int // which side is chosen
		count       int // after it; 0 when withdrawn
		cell        string
	}{
		{"different counts", to(Change{Count: ptr(3)}), to(Change{Count: ptr(4)}), true, 0, 3, "A1"},
		{"the other one", to(Change{Count: ptr(3)}), to(Change{Count: ptr(4)}), true, 1, 4, "A1"},
		{"what does not contradict stays", to(Change{Count: ptr(3), Cell: ptr("C9")}), to(Change{Count: ptr(4)}), true, 1, 4, "C9"},
		{"the same count twice is no question", to(Change{Count: ptr(3)}), to(Change{Count: ptr(3)}), false, 0, 3, "A1"},
		{"different fields are no question", to(Change{Count: ptr(3)}), to(Change{Cell: ptr("C9")}), false, 0, 3, "C9"},
		{"taken out or corrected: out", gone, to(Change{Count: ptr(4)}), true, 0, 0, ""},
		{"taken out or corrected: corrected", gone, to(Change{Count: ptr(4)}), true, 1, 4, "A1"},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			a, b, _ := copies(t, start, tt.left, tt.right)
			m, clashes, err := Unite([]*Visit{a, b}, false)
			if err != nil || (len(clashes) == 1) != tt.clash {
				t.Fatalf("%v, %+v", err, clashes)
			}
			if union(a, b) != len(m.Events) {
				t.Fatal("a side is lost")
			}
			if tt.clash {
				settle(t, m, clashes[0], tt.holds)
			}
			m = merged(t, m)
			records := m.Tally().Records
			if tt.count == 0 {
				if len(records) != 0 {
					t.Errorf("still counted: %+v", records)
				}
			} else if len(records) != 1 || records[0].Count != tt.count || records[0].Cell != tt.cell {
				t.Errorf("got %+v", records)
			}
			if n := m.Tally().Notices; len(n) != 0 {
				t.Errorf("remarks: %v", n)
			}
			// Asked once: however the files come together again, nothing is open.
			for _, files := range [][]*Visit{{m, a, b}, {b, m}, {a, b, m}} {
				if _, again, err := Unite(files, false); err != nil || len(again) != 0 {
					t.Errorf("asked again: %v %+v", err, again)
				}
			}
		})
	}
}

func settle(t *testing.T, m *Visit, c Clash, holds int) {
	t.Helper()
	s := Settlement{Entry: c.Entry, Holds: c.Sides[holds].ID}
	for i, e := range c.Sides {
		if i != holds {
			s.Overruled = append(s.Overruled, e.ID)
		}
	}
	if err := m.Conclude("Ada", s); err != nil {
		t.Fatal(err)
	}
}

func TestSampleRecordedTwice(t *testing.T) {
	s := Sample{Label: "1", Habitat: "riffle", Area: 0.37}
	a, b, _ := copies(t, nil, s, s)
	for i, v := range []*Visit{a, b} {
		for n, body := range []Body{Identification{Sample: "1", Taxon: "perlidae", Count: 2},
			SheetRows{Sample: "1", Rows: []string{[]string{"mayfly", "scud"}[i]}}} {
			if _, err := Append(v.File, noon.Add(3*time.Hour), "", body, rand.New(rand.NewSource(int64(2*i+n)))); err != nil {
				t.Fatal(err)
			}
		}
	}
	a, b = read(t, a.File), read(t, b.File)
	both := func() (*Visit, Clash) {
		m, clashes, err := Unite([]*Visit{a, b}, false)
		if err != nil || len(clashes) != 1 || clashes[0].What != ClashSamples {
			t.Fatalf("%v, %+v", err, clashes)
		}
		return m, clashes[0]
	}
	one, _ := both()
	if err := one.Conclude("", SameName{What: NameSample, Name: "1", Spelling: "1"}); err != nil {
		t.Fatal(err)
	}
	tally := merged(t, one).Tally()
	if len(tally.Samples) != 1 || len(tally.Records) != 2 || len(tally.Notices) != 0 {
		t.Errorf("one sample: %+v", tally)
	}
	two, clash := both()
	second := clash.Sides[1]
	from, other := a, b
	if slices.ContainsFunc(b.Events, func(e Event) bool { return e.ID == second.ID }) {
		from, other = b, a
	}
	if err := two.SampleApart("", second, from, []*Visit{other}, "1-b"); err != nil {
		t.Fatal(err)
	}
	two = merged(t, two)
	tally = two.Tally()
	if len(tally.Samples) != 2 || len(tally.Records) != 2 || len(tally.Notices) != 0 || tally.Records[0].Sample == tally.Records[1].Sample {
		t.Errorf("two samples: %+v", tally)
	}
	i := slices.IndexFunc(tally.Answered, func(rows SheetRows) bool { return rows.Sample == "1-b" })
	if i < 0 || !slices.Equal(tally.Answered[i].Rows, from.Tally().Answered[0].Rows) {
		t.Errorf("rows of the sheet: %+v, want those of %+v at 1-b", tally.Answered, from.Tally().Answered)
	}
	i = slices.IndexFunc(tally.Answered, func(rows SheetRows) bool { return rows.Sample == "1" })
	if i < 0 || !slices.Equal(tally.Answered[i].Rows, other.Tally().Answered[0].Rows) {
		t.Errorf("rows of the sheet: %+v, want only those of %+v left at 1", tally.Answered, other.Tally().Answered)
	}
	if _, again, err := Unite([]*Visit{two, a, b}, false); err != nil || len(again) != 0 {
		t.Errorf("asked again: %v %+v", err, again)
	}
}

func TestSampleLabelsThatMeanOne(t *testing.T) {
	a, b, _ := copies(t, nil, Sample{Label: "A-1", Habitat: "riffle"}, Sample{Label: "a1", Habitat: "riffle"})
	m, _, err := Unite([]*Visit{a, b}, false)
	if err != nil {
		t.Fatal(err)
	}
	if err := m.Conclude("", SameName{What: NameSample, Name: "A-1", Spelling: "a1"}); err != nil {
		t.Fatal(err)
	}
	tally := merged(t, m).Tally()
	if len(tally.Samples) != 1 || tally.Samples[0].Label != "a1" || len(tally.Notices) != 0 {
		t.Errorf("%+v", tally)
	}
}

func TestDifferentVisitsAreRefused(t *testing.T) {
	begun := func(site string, seed int64, at time.Time) *Visit {
		path := filepath.Join(t.TempDir(), "v.toml")
		h := Header{Site: site, Date: "2024-05-31", People: []string{site}, Begun: at}
		if _, err := Create(path, h, rand.New(rand.NewSource(seed))); err != nil {
			t.Fatal(err)
		}
		return read(t, path)
	}
	a, b, c := begun("Otter Run", 1, noon), begun("otter run", 2, noon.Add(-time.Hour)), begun("Otterrun", 3, noon.Add(time.Hour))
	if _, _, err := Unite([]*Visit{a, b}, false); !errors.Is(err, ErrOtherVisit) || strings.Contains(err.Error(), "\n") {
		t.Errorf("got %v", err)
	}
	join := func(v ...*Visit) *Visit {
		m, _, err := Unite(v, true)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	m := join(a, b)
	if m.Header.Site != "otter run" || len(m.Header.Joined) != 1 || m.Header.ID != b.Header.ID {
		t.Errorf("the earlier visit does not give its header: %+v", m.Header)
	}
	sameFile(t, "joining in any order", join(join(a, b), c), join(c, join(b, a)))
	sameFile(t, "joining in any grouping", join(join(a, c), b), join(a, join(c, b)))
	// Once joined, the parts are known.
	sameFile(t, "known after joining", merged(t, m, a), m)
}

func TestAnEventChangedByHandInOneCopy(t *testing.T) {
	a, b, _ := copies(t, []Body{Sample{Label: "1", Habitat: "riffle"}}, Sample{Label: "2", Habitat: "riffle"},
		Sample{Label: "3", Habitat: "riffle"})
	data, _ := os.ReadFile(b.File)
	put(t, b.File, bytes.Replace(data, []byte(`habitat = "riffle"`), []byte(`habitat = "pool"`), 1))
	b = read(t, b.File)
	m, _, err := Unite([]*Visit{b, a}, false)
	if err != nil || m.Tally().Samples[0].Habitat != "riffle" || len(m.Notices) == 0 {
		t.Errorf("%v: the untouched copy must hold and the change be named: %+v", err, m)
	}
}

func TestWriteNew(t *testing.T) {
	path, _ := afternoon(t)
	v := read(t, path)
	data, _ := os.ReadFile(path)
	other := filepath.Join(t.TempDir(), "new.toml")
	if err := v.WriteNew(other, wholefile.SharedMode); err != nil {
		t.Fatal(err)
	}
	if again, _ := os.ReadFile(other); !bytes.Equal(data, again) {
		t.Error("written anew, the visit has other bytes")
	}
	if err := v.WriteNew(path, wholefile.SharedMode); err == nil || !strings.Contains(err.Error(), "exists already") {
		t.Errorf("an existing file: %v", err)
	}
	v.Events[0].Body = Sample{Label: "no label"}
	if err := v.WriteNew(filepath.Join(t.TempDir(), "bad.toml"), wholefile.SharedMode); err == nil {
		t.Error("an unsound visit was written")
	}
}

// Names that may mean the same are asked about, but for those that differ by nothing that
// people hear.
func TestNearlyAlike(t *testing.T) {
	v := &Visit{Header: Header{People: []string{"Oona Bright", "oona  bright", "Oona Brigth", "Bo"}}}
	pairs := v.NearlyAlike(NamePerson)
	want := []NamePair{{"Oona Bright", "oona  bright", true}, {"Oona Bright", "Oona Brigth", false}, {"oona  bright", "Oona Brigth", false}}
	if !slices.Equal(pairs, want) {
		t.Errorf("%+v", pairs)
	}
	for _, p := range pairs {
		v.Events = append(v.Events, Event{Body: p.Means(NamePerson, p.Same)})
	}
	if again := v.NearlyAlike(NamePerson); len(again) > 0 {
		t.Errorf("asked again about %+v", again)
	}
}

// One side holds over all others.
func TestAClashIsSettled(t *testing.T) {
	c := Clash{What: ClashAmendments, Entry: "r1", Sides: []Event{{ID: "a"}, {ID: "b"}, {ID: "c"}}}
	if c.Earliest() != "a" || c.Latest() != "c" || !slices.Equal(c.Codes(), []string{"a", "b", "c"}) {
		t.Errorf("%s to %s, %q", c.Earliest(), c.Latest(), c.Codes())
	}
	if s := c.Settle("b"); s.Entry != "r1" || s.Holds != "b" || !slices.Equal(s.Overruled, []string{"a", "c"}) || len(c.Codes()) != 3 {
		t.Errorf("%+v", s)
	}
}
