package visit

import (
	"bytes"
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

// A visit that is full refuses further animals before anything is written, and
// can still be corrected and finished.
func TestAFullVisitIsRefusedInTimeAndCanBeFinished(t *testing.T) {
	animals := Event{ID: "a", Time: noon, Body: Identification{Sample: "1", Taxon: "perlidae", Count: 1}}
	correction := Event{ID: "b", Time: noon, Body: Amendment{Entry: "a", Reason: "r", Withdrawn: true}}
	finish := Event{ID: "c", Time: noon, Body: Finish{}}
	tests := []struct {
		label string
		v     Visit
		e     Event
		says  string
	}{
		{"the last animals", Visit{blocks: MaxEvents - spareEvents - 1}, animals, ""},
		{"animals too many", Visit{blocks: MaxEvents - spareEvents}, animals, "no more fit; finish it"},
		{"a correction of a full visit", Visit{blocks: MaxEvents - spareEvents}, correction, ""},
		{"the finish of a full visit", Visit{blocks: MaxEvents - 1}, finish, ""},
		{"nothing beyond what is read", Visit{blocks: MaxEvents}, finish, "no more fit"},
		{"animals in a file too large", Visit{sound: MaxFile - spareBytes}, animals, "would grow over 63 MB; finish"},
		{"the finish of a large file", Visit{sound: MaxFile - spareBytes}, finish, ""},
		{"nothing beyond the largest file", Visit{sound: MaxFile - 10}, finish, "would grow over 64 MB"},
	}
	for _, tt := range tests {
		err := tt.v.fits(tt.e, encodeEvent(tt.e))
		if (err == nil) != (tt.says == "") || err != nil && !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: got %v, want %q", tt.label, err, tt.says)
		}
	}
}

// thorough tells whether the long form of a test was asked for.
func thorough() bool { return os.Getenv("RILLKEY_ATTACK") != "" }

// A file of as many events as the limit allows is read, refused and finished.
func TestTheFullestFileIsReadAndFinished(t *testing.T) {
	if !thorough() {
		t.Skip("long; RILLKEY_ATTACK=1 runs it")
	}
	v := &Visit{Header: Header{ID: "a", Site: "Otter Run", Date: "2024-05-31", Begun: noon}}
	data := append(encodeHeader(v.Header), encodeEvent(Event{ID: "s", Time: noon, Body: Sample{Label: "1", Habitat: "riffle"}})...)
	for i := 1; i < MaxEvents-1; i++ {
		data = append(data, encodeEvent(Event{ID: fmt.Sprint("e", i), Time: noon.Add(time.Duration(i)), Body: record(i)})...)
	}
	path := filepath.Join(t.TempDir(), "v.toml")
	put(t, path, data)
	if _, err := Append(path, noon, "", record(0), someRandom()); err == nil || !strings.Contains(err.Error(), "no more fit") {
		t.Errorf("got %v", err)
	}
	if _, err := Append(path, noon, "", Finish{}, someRandom()); err != nil {
		t.Errorf("the finish: %v", err)
	}
	if v := read(t, path); !v.Tally().Finished || len(v.Events) != MaxEvents || len(v.Notices) != 0 {
		t.Errorf("%d events, remarks %v", len(v.Events), v.Notices)
	}
	if _, err := Append(path, noon, "", Amendment{Entry: "e1", Reason: "r", Withdrawn: true}, rand.New(rand.NewSource(3))); err == nil {
		t.Error("an event more than can be read was saved")
	}
}

// Whatever the clock or another file says, what is reported as saved is read
// back: after the last moment that a file can hold nothing is saved.
func TestNothingIsSavedAfterTheLastMomentOfAFile(t *testing.T) {
	for _, at := range []string{"9999-12-31T20:00:00-10:00", "9998-12-31T23:59:59.999999999Z", "9998-12-31T20:00:00-10:00",
		"1899-12-31T23:00:00-10:00"} {
		path := begin(t)
		add(t, path).add(Sample{Label: "1", Habitat: "riffle"})
		data, _ := os.ReadFile(path)
		put(t, path, append(data, reseal("[[event]]\nid = \"zz\"\nkind = \"sample\"\ntime = "+at+
			"\nlabel = \"2\"\nhabitat = \"riffle\"\n")...))
		for i := range 3 {
			before := len(read(t, path).Events)
			s, err := Append(path, noon, "", Identification{Sample: "1", Taxon: "perlidae", Count: 1 + i},
				rand.New(rand.NewSource(int64(i))))
			v := read(t, path)
			found := slices.ContainsFunc(v.Events, func(e Event) bool { return e.ID == s.Event.ID && sameContent(e, s.Event) })
			if err == nil && !found || err != nil && len(v.Events) != before {
				t.Errorf("%s: said %v, found %v: %v", at, err, found, v.Notices)
			}
		}
	}
}

// An entry is refused before a byte of it is written: by its moment, which it gets from
// what stands in the file, and where its block holds another entry than was meant.
func TestWhatCannotBeReadAgainIsNeverWritten(t *testing.T) {
	last := time.Date(lastYear, 12, 31, 23, 59, 59, 0, time.UTC)
	animals := func(n int) Event {
		return Event{ID: "a", Time: noon, Body: Identification{Sample: "1", Taxon: "perlidae", Count: n}}
	}
	for after, says := range map[time.Time]bool{noon: true, last: true, last.AddDate(1, 0, 0): false} {
		v := Visit{Events: []Event{{ID: "s", Time: after, Body: Sample{Label: "1", Habitat: "riffle"}}}}
		if _, err := v.prepare(animals(1), someRandom()); (err == nil) != says {
			t.Errorf("after %v: %v", after, err)
		}
	}
	whole := encodeEvent(animals(1))
	for label, block := range map[string][]byte{
		"another entry": encodeEvent(animals(2)), "half of it": whole[:len(whole)/2], "nothing": nil, "it twice": append(whole, whole...),
	} {
		if err := new(Visit).fits(animals(1), block); err == nil {
			t.Errorf("%s is taken for the entry", label)
		}
	}
	if err := new(Visit).fits(animals(1), encodeEvent(animals(1))); err != nil {
		t.Error(err)
	}
}

// lying is a file on a disk that gives other bytes back than were written.
type lying struct{ log }

func (l lying) ReadAt(p []byte, at int64) (int, error) {
	n, err := l.log.ReadAt(p, at)
	p[len(p)/2] ^= 1
	return n, err
}

func TestWhatIsReadBackOtherwiseIsNotSaved(t *testing.T) {
	path := begin(t)
	before, _ := os.ReadFile(path)
	d := disk{func(p string) (log, func(), error) {
		f, unlock, err := openFile(p)
		return lying{f}, unlock, err
	}, openBeside}
	if _, err := d.append(path, noon, "", Sample{Label: "1", Habitat: "riffle"}, someRandom()); err == nil ||
		!strings.Contains(err.Error(), "NOT saved: it cannot be read back") {
		t.Errorf("got %v", err)
	}
	if after, _ := os.ReadFile(path); !bytes.Equal(before, after) {
		t.Errorf("the file is now\n%s", after)
	}
}

// newer is a file to which a newer program added entries, fields and a field of
// the header.
func newer(t *testing.T) (path string, lines []string) {
	t.Helper()
	path = begin(t)
	add(t, path).add(Sample{Label: "1", Habitat: "riffle"})
	data, _ := os.ReadFile(path)
	head, rest, _ := bytes.Cut(data, []byte(sealStart))
	_, rest, _ = bytes.Cut(rest, []byte("\n"))
	head = append(bytes.Clone(head), "weather = \"showers\" # since noon\n"...)
	text := string(head) + sealLine(head) + "\n" + strings.TrimPrefix(withoutCopies(append([]byte("\n"), rest...)), "\n\n") +
		reseal("[[event]]\nid = \"w1\"\nkind = \"water-chemistry\"\ntime = 2024-05-31T12:01:30+02:00\nph = 7.1\n"+
			"by = { o2 = [9.5, 9.6] }\n") +
		reseal("[[event]]\nid = \"i1\"\nkind = \"identification\"\ntime = 2024-05-31T12:02:00+02:00\nphoto = \"a.jpg\"\n"+
			"sample = \"1\"\ntaxon = \"perlidae\"\ncount = 2\n") +
		reseal("[[event]]\nid = \"i2\"\nkind = \"identification\"\ntime = 2024-05-31T12:03:00+02:00\nsample = \"1\"\n"+
			"taxon = \"perlidae\"\ncount = 0\n")
	put(t, path, []byte(text))
	return path, []string{`weather = "showers"`, `kind = "water-chemistry"`, "ph = 7.1", `photo = "a.jpg"`, "count = 0"}
}

// What a newer program wrote is told, counted as far as it is understood, and
// goes through merging to the byte.
func TestWhatANewerProgramWroteSurvivesMerging(t *testing.T) {
	path, lines := newer(t)
	data, _ := os.ReadFile(path)
	other := filepath.Join(t.TempDir(), "other.toml")
	put(t, other, data)
	for i, p := range []string{path, other} {
		if _, err := Append(p, noon.Add(time.Duration(i+1)*time.Hour), "",
			Identification{Sample: "1", Taxon: "baetidae", Count: 1}, rand.New(rand.NewSource(int64(i+9)))); err != nil {
			t.Fatal(err)
		}
	}
	a, b := read(t, path), read(t, other)
	if len(a.Notices) != 4 || len(a.Tally().Records) != 2 {
		t.Errorf("%d records, remarks %v", len(a.Tally().Records), a.Notices)
	}
	m, _, err := Unite([]*Visit{a, b}, false)
	if err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(t.TempDir(), "merged.toml")
	if err := m.WriteNew(to, wholefile.SharedMode); err != nil {
		t.Fatal(err)
	}
	out, _ := os.ReadFile(to)
	for _, line := range lines {
		if !strings.Contains(string(out), line) {
			t.Errorf("%s is lost:\n%s", line, out)
		}
	}
	again := read(t, to)
	for _, e := range a.Events {
		i := slices.IndexFunc(again.Events, func(o Event) bool { return o.ID == e.ID })
		if i < 0 || again.Events[i].Block() != e.Block() {
			t.Errorf("%s is another entry now", e.ID)
		}
	}
	twice, _, err := Unite([]*Visit{b, again, a}, false)
	if err != nil {
		t.Fatal(err)
	}
	sameFile(t, "merging again", twice, again)
}

func TestOpaqueEventsCannotBeRecorded(t *testing.T) {
	if _, err := Append(begin(t), noon, "", Opaque{Word: "photo"}, someRandom()); err == nil ||
		!strings.Contains(err.Error(), "cannot be recorded") {
		t.Errorf("got %v", err)
	}
}

func TestBlockOfAnUnknownEventIsReadBack(t *testing.T) {
	path, _ := newer(t)
	for _, e := range read(t, path).Events {
		if e.Block() == "" {
			continue
		}
		again, err := ParseBlock(e.Block())
		if err != nil || !sameContent(e, again) {
			t.Errorf("%v: %+v", err, again)
		}
	}
	for _, bad := range []string{"", "x", "[visit]\n", "[[event]]\nid = \"a\"\n",
		string(encodeEvent(Event{ID: "a", Time: noon, Body: Finish{}}))} {
		if e, err := ParseBlock(bad); err == nil {
			t.Errorf("%q is read as %+v", bad, e)
		}
	}
	h := read(t, path).Header
	again, err := Header{ID: h.ID, Site: h.Site, Date: h.Date, Begun: h.Begun}.WithUnread(h.Unread())
	if err != nil || again.Unread() != h.Unread() || h.Unread() == "" {
		t.Errorf("%v: %q", err, again.Unread())
	}
	for _, bad := range []string{"site = \"x\"\n", "x", "a = 1\n[[event]]\n", "a = 1\n\n[[event]]\nid = \"x\"\n"} {
		if again, err := h.WithUnread(bad); err == nil {
			t.Errorf("%q is read as %q", bad, again.Unread())
		}
	}
}

// obscure begins a visit on each laptop and lets the second obscure its place.
func obscured(t *testing.T, one bool, hide func(*Header)) (a, b *Visit) {
	t.Helper()
	h := Header{Site: "Secret Brook", Date: "2024-05-31", Begun: noon, Spot: &Spot{Latitude: 44.123456, Longitude: -72.987654}}
	visits := make([]*Visit, 2)
	for i := range visits {
		path := filepath.Join(t.TempDir(), "v.toml")
		own := h
		own.Begun = noon.Add(time.Duration(i) * time.Hour)
		if i == 1 {
			hide(&own)
		}
		random := rand.New(rand.NewSource(int64(i)))
		if one {
			random, own.Begun = someRandom(), noon
		}
		if _, err := Create(path, own, random); err != nil {
			t.Fatal(err)
		}
		visits[i] = read(t, path)
	}
	return visits[0], visits[1]
}

func TestObscuredHoldsIfAnyFileSaysSo(t *testing.T) {
	hide := func(h *Header) { h.Obscured = true }
	hideWithoutSpot := func(h *Header) { h.Obscured, h.Spot = true, nil }
	later := func(v *Visit, to bool) *Visit {
		if _, err := Append(v.File, noon.Add(5*time.Hour), "",
			Amendment{Entry: v.Header.ID, Reason: "a rare crayfish", Change: Change{Obscured: &to}},
			rand.New(rand.NewSource(int64(len(v.Events)+90)+map[bool]int64{true: 5}[to]))); err != nil {
			t.Fatal(err)
		}
		return read(t, v.File)
	}
	for label, files := range map[string]func() (a, b *Visit){
		"the later of two visits begun apart": func() (a, b *Visit) { return obscured(t, false, hide) },
		"one without its place on the map":    func() (a, b *Visit) { return obscured(t, false, hideWithoutSpot) },
		"a copy changed by hand":              func() (a, b *Visit) { return obscured(t, true, hide) },
		"set later in one copy": func() (a, b *Visit) {
			a, b = obscured(t, true, func(*Header) {})
			return a, later(b, true)
		},
		"set later in one of two visits begun apart": func() (a, b *Visit) {
			a, b = obscured(t, false, func(*Header) {})
			return a, later(b, true)
		},
		"taken back in one of two visits begun apart": func() (a, b *Visit) {
			a, b = obscured(t, false, hide)
			return later(later(a, true), false), b
		},
	} {
		t.Run(label, func(t *testing.T) {
			a, b := files()
			for _, order := range [][]*Visit{{a, b}, {b, a}} {
				m, clashes, err := Unite(order, true)
				if err != nil || len(clashes) != 0 {
					t.Fatal(err, clashes)
				}
				again := merged(t, m)
				if !again.Obscured() || again.Header.Spot == nil {
					t.Errorf("merged, the place is given to others, or lost: %+v", again.Header)
				}
				if (a.Written().Obscured || b.Written().Obscured) && !again.Written().Obscured {
					t.Errorf("merged, the header gives the place away, and only an entry hides it: %+v", again.Header)
				}
			}
		})
	}
	t.Run("a question when one says yes and the other no", func(t *testing.T) {
		a, b := obscured(t, true, hide)
		if _, clashes, err := Unite([]*Visit{later(a, true), later(b, false)}, false); err != nil || len(clashes) != 1 {
			t.Errorf("%v, %+v", err, clashes)
		}
	})
}

func TestOnlyTheVisitItselfIsObscured(t *testing.T) {
	path := begin(t)
	a := add(t, path)
	a.add(Sample{Label: "1", Habitat: "riffle"})
	s := a.add(Sample{Label: "2", Habitat: "riffle"}).ID
	for _, of := range []string{s, "nobody"} {
		if _, err := Append(path, noon, "", Amendment{Entry: of, Reason: "r", Change: Change{Obscured: ptr(true)}}, a.random); err == nil {
			t.Errorf("the place of %s is obscured", of)
		}
	}
	id := read(t, path).Header.ID
	if _, err := Append(path, noon, "", Amendment{Entry: id, Reason: "r", Change: Change{Obscured: ptr(true), Note: ptr("x")}},
		a.random); err == nil {
		t.Error("a note of a visit")
	}
	if _, err := Append(path, noon, "", Amendment{Entry: id, Reason: "r", Change: Change{Obscured: ptr(true)}},
		a.random); err != nil || !read(t, path).Obscured() {
		t.Error(err)
	}
}
