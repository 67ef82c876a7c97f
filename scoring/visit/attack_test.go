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
)

// season is a file of 28 events of every kind, its place on the map among them.
func season(t *testing.T) (data []byte, events []Event) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "v.toml")
	h := Header{Site: `Otter Run, "below" the weir`, Date: "2024-05-31", People: []string{"Ada Förster", `B\ck`},
		Protocol: "riffle-three", CautionsRead: true, Begun: noon, Spot: &Spot{44.1234, -72.9876, 30}}
	h, err := Create(path, h, rand.New(rand.NewSource(77)))
	if err != nil {
		t.Fatal(err)
	}
	a := add(t, path)
	s := a.add(Sample{Label: "1", Habitat: "riffle", Area: 0.37, Effort: "one kick"}).ID
	a.add(Sample{Label: "2", Habitat: "leaf-pack", Fraction: 0.25})
	var ids []string
	for i := range 12 {
		ids = append(ids, a.add(Identification{
			Sample: fmt.Sprint(1 + i%2), Taxon: "perlidae", Rank: "family", Count: 1 + i, Cell: "B3", Confidence: 0.9,
			Path: []string{"1b", "4?"}, Also: []Chance{{"baetidae", 0.05}}, Note: "“big”"}).ID)
	}
	var changes []string
	for i := range 6 {
		changes = append(changes, a.add(Amendment{Entry: ids[i/2], Reason: "counted again", Change: Change{Count: ptr(20 + i)}}).ID)
	}
	a.add(SecondLook{Entry: ids[7], Taxon: "baetidae", Count: 3, Confidence: 0.6, Note: "no gills"})
	a.add(Amendment{Entry: ids[8], Reason: "a twig", Withdrawn: true})
	a.add(Amendment{Entry: s, Reason: "net measured", Change: Change{Area: ptr(0.4)}})
	a.add(Amendment{Entry: h.ID, Reason: "a rare crayfish", Change: Change{Obscured: ptr(true)}})
	a.add(Settlement{Entry: ids[0], Holds: changes[0], Overruled: []string{changes[1]}})
	a.add(SameName{What: NamePerson, Name: "ada", Spelling: "Ada Förster"})
	f := a.add(Finish{Note: "home"}).ID
	a.add(Amendment{Entry: f, Reason: "one more", Withdrawn: true})
	data, err = os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	v := read(t, path)
	if len(v.Events) != 28 || len(v.Notices) != 0 {
		t.Fatalf("%d events, %v", len(v.Events), v.Notices)
	}
	return data, v.Events
}

// flips is how many bits are turned round: all in the header and its copies, and
// some of the others.
func flips() int {
	if thorough() {
		return 6000
	}
	return 400
}

// One wrong bit anywhere in a file, its header included, costs no more than one
// event, which is named, and salvaging brings that back too.
func TestOneWrongBitCostsAtMostOneEventAndIsPutRight(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	data, events := season(t)
	whole, _ := Parse("v.toml", data)
	header := string(encodeHeader(whole.Header))
	random := rand.New(rand.NewSource(4))
	path := filepath.Join(t.TempDir(), "v.toml")
	cost, counted, free := 0, 0, 0
	for i := range flips() {
		at, bit := random.Intn(len(data)), random.Intn(8)
		if i%4 == 0 {
			at = random.Intn(len(header)) // the header is hit as often as a quarter of it all
		}
		hurt := bytes.Clone(data)
		hurt[at] ^= 1 << bit
		v, err := Parse("v.toml", hurt)
		if err != nil {
			t.Fatalf("byte %d, bit %d: %v", at, bit, err)
		}
		missing := 0
		for _, e := range events {
			j := slices.IndexFunc(v.Events, func(o Event) bool { return o.ID == e.ID })
			if j < 0 || !sameContent(e, v.Events[j]) {
				missing++
			}
		}
		sameHeader := string(encodeHeader(v.Header)) == header
		if missing > 1 || (missing > 0 || !sameHeader) && len(v.Notices) == 0 {
			t.Fatalf("byte %d, bit %d: %d events lost or other, header the same: %v, remarks %v", at, bit, missing, sameHeader, v.Notices)
		}
		switch {
		case missing == 0 && sameHeader:
			free++
		case len(v.Events) == len(events):
			counted++
		default:
			cost++
		}
		put(t, path, hurt)
		s, err := Salvage(path, nil, Header{})
		if err != nil {
			t.Fatalf("byte %d, bit %d: %v", at, bit, err)
		}
		if len(s.Lost) > 0 || !sameEventsWherever(s.Visit.Events, events) || missing > 0 && len(s.Back) != 1 {
			t.Fatalf("byte %d, bit %d: not brought back: %d events, back %v, lost %v", at, bit, len(s.Visit.Events), s.Back, s.Lost)
		}
	}
	t.Logf("%d bits turned: %d cost nothing, %d changed something that is named, %d cost one event that is named; "+
		"salvaged: all", flips(), free, counted, cost)
}

func sameEventsWherever(a, b []Event) bool {
	return slices.EqualFunc(a, b, func(x, y Event) bool { return x.ID == y.ID && sameContent(x, y) })
}

// A file cut at any byte: every event before the cut is read, what is left of the
// one cut goes into a file beside it, and the next entry is saved and read.
func TestTwentyEightEventsCutAtEveryByte(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	data, events := season(t)
	ends := blockEnds(data)
	header := ends[0]
	ends = ends[1:]
	dir := t.TempDir()
	step, done := 7, 0
	if thorough() {
		step = 1
	}
	for cut := header; cut <= len(data); cut += step {
		path := filepath.Join(dir, fmt.Sprint(cut))
		put(t, path, data[:cut])
		n := 0
		for n < len(events) && ends[n] <= cut {
			n++
		}
		v, err := Read(path)
		if err != nil || len(v.Events) != n || !sameEvents(v.Events, events[:n]) {
			t.Fatalf("cut at %d: %v, %d events of %d", cut, err, len(v.Events), n)
		}
		start := header
		if n > 0 {
			start = ends[n-1]
		}
		torn := tornPart(data[start:cut])
		body := Body(Sample{Label: "new", Habitat: "riffle"})
		if v.Tally().Finished {
			body = Amendment{Entry: events[2].ID, Reason: "r", Change: Change{Cell: ptr("Z9")}}
		}
		s, err := unsynced.append(path, noon.Add(time.Hour*9), "", body, rand.New(rand.NewSource(int64(cut))))
		if err != nil {
			t.Fatalf("cut at %d: %v", cut, err)
		}
		again := read(t, path)
		aside, _ := os.ReadFile(path + ".torn")
		if len(again.Notices) != 0 || len(again.Events) != n+1 || !sameContent(again.Events[n], s.Event) || !bytes.Contains(aside, torn) {
			t.Fatalf("cut at %d: %d events, remarks %v, set aside %q", cut, len(again.Events), again.Notices, aside)
		}
		done++
		os.Remove(path)
		os.Remove(path + ".torn")
	}
	t.Logf("%d cuts of %d bytes, each read and added to", done, len(data))
}

func TestNoDamagedFileIsBeyondHelp(t *testing.T) {
	data, events := season(t)
	text := string(data)
	plain := withoutCopies(data) // as the program wrote it before the header had copies
	headEnd := strings.Index(plain, "\n\n")
	otherVisit := string(encodeHeader(Header{ID: "zz", Site: "Mill Run", Date: "2024-05-31", Begun: noon})) +
		string(encodeEvent(Event{ID: "q", Time: noon, Body: Sample{Label: "1", Habitat: "pool"}}))
	last := strings.LastIndex(text, "\n[[event]]")
	tests := []struct {
		label        string
		file         string
		torn, copy   string
		given        Header
		left         int    // events in the end
		site, header string // what the header says, and where it is from
		back, lost   int
		fails        string
	}{
		{"a sound file", text, "", "", Header{}, 28, "Otter", "", 0, 0, ""},
		{"the beginning is zeros", strings.Repeat("\x00", 512) + text[512:], "", "", Header{}, 28, "Otter", "copy in the file", 0, 0, ""},
		{"one bit of a header without a copy", strings.Replace(plain, "[visit]", "[visit\\", 1), "", "", Header{}, 28,
			"Otter", "one bit", 0, 0, ""},
		{"no header, a copy of the visit", plain[headEnd:], "", plain[:headEnd+1], Header{}, 28, "Otter", "that of", 0, 0, ""},
		{"no header, what people say", plain[headEnd:], "", "", Header{Site: "Otter Run"}, 28, "Otter", "put together", 0, 0, ""},
		{"no header and nobody says the site", plain[headEnd:], "", "", Header{}, 0, "", "", 0, 0, "--site"},
		{"half a header", strings.Replace(plain[:headEnd], "[visit]", "[vis\x00\x01", 1) + plain[headEnd:], "", "", Header{},
			28, "Otter", "obscured", 0, 0, ""},
		{"another visit as the copy", text, "", otherVisit, Header{}, 0, "", "", 0, 0, "different visits"},
		{"no header, another visit as the copy", plain[headEnd:], "", otherVisit, Header{}, 0, "", "", 0, 0, "--site"},
		{"a block that only a copy has whole", strings.Replace(text, "“big”", "\xff\xfe", 1), "", text, Header{}, 28, "Otter",
			"", 0, 0, ""},
		{"a block that nobody has whole", strings.Replace(text, "“big”", "\xff\xfe", 1), "", "", Header{}, 27, "Otter", "", 0, 1, ""},
		{"the last block was set aside, with one wrong bit", text[:last],
			strings.Replace(text[last+1:], "withdrawn = true", "withdrawn < true", 1), "", Header{}, 28, "Otter", "", 1, 0, ""},
		{"animals cut off and set aside", text,
			"[[event]]\nid = \"xx\"\nkind = \"identification\"\ntime = 2024-05-31T14:00:00Z\nsample = \"1\"\n" +
				"taxon = \"baetidae\"\ncount = 4\nconf", "", Header{}, 29, "Otter", "", 1, 0, ""},
		{"a count cut off, which could be another one", text,
			"[[event]]\nid = \"xx\"\nkind = \"identification\"\ntime = 2024-05-31T14:00:00Z\nsample = \"1\"\n" +
				"taxon = \"baetidae\"\ncount = 4", "", Header{}, 28, "Otter", "", 0, 1, ""},
		{"a correction cut off", text, "[[event]]\nid = \"xx\"\nkind = \"amendment\"\ntime = 2024-05-31T14:00:00Z\nof = \"" +
			events[2].ID + "\"\nreason = \"r\"\ncount = 4\n", "", Header{}, 28, "Otter", "", 0, 1, ""},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "v.toml")
			put(t, path, []byte(tt.file))
			if tt.torn != "" {
				put(t, path+".torn", []byte(tt.torn))
			}
			var copies []string
			if tt.copy != "" {
				copies = []string{path + ".copy"}
				put(t, copies[0], []byte(tt.copy))
			}
			s, err := Salvage(path, copies, tt.given)
			if tt.fails != "" {
				if err == nil || !strings.Contains(err.Error(), tt.fails) || strings.Contains(err.Error(), "\n") {
					t.Fatalf("got %v, want %q", err, tt.fails)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if len(s.Visit.Events) != tt.left || len(s.Back) != tt.back || len(s.Lost) != tt.lost ||
				!strings.Contains(s.Header, tt.header) || tt.header == "" && s.Header != "" ||
				!strings.Contains(s.Visit.Header.Site, tt.site) {
				t.Errorf("%d events, header %q, back %v, lost %v", len(s.Visit.Events), s.Header, s.Back, s.Lost)
			}
			if to := path + ".new"; s.Visit.WriteNew(to, 0o600) != nil || len(read(t, to).Notices) != 0 {
				t.Error("what was salvaged is not sound")
			}
			if after, _ := os.ReadFile(path); string(after) != tt.file {
				t.Error("the damaged file was changed")
			}
		})
	}
}

// Whatever a file holds, what is salvaged of it is a sound visit.
func FuzzSalvage(f *testing.F) {
	h := encodeHeader(Header{ID: "a", Site: "b", Date: "2024-01-01", Begun: noon})
	sample := encodeEvent(Event{ID: "b", Time: noon, Body: Sample{Label: "1", Habitat: "riffle"}})
	animals := encodeEvent(Event{ID: "c", Time: noon, Body: Identification{Sample: "1", Taxon: "perlidae", Count: 2}})
	f.Add(slices.Concat(h, sample, animals), []byte(nil))
	f.Add(slices.Concat(sample, animals), h)
	f.Add(slices.Concat(h, sample[:40]), slices.Concat(h, sample, animals[:90]))
	f.Fuzz(func(t *testing.T, file, torn []byte) {
		if len(file)+len(torn) > 2000 {
			return
		}
		path := filepath.Join(t.TempDir(), "v.toml")
		put(t, path, file)
		put(t, path+".torn", torn)
		s, err := Salvage(path, nil, Header{Site: "Otter Run", Date: "2024-05-31"})
		if err != nil {
			return
		}
		if err := s.Visit.WriteNew(path+".new", 0o600); err != nil {
			t.Fatalf("%v of %+v", err, s.Visit)
		}
	})
}

// The search for a wrong bit goes through the largest block in a moment.
func BenchmarkMendBit(b *testing.B) {
	block := []byte("[[event]]\n# " + strings.Repeat("x", maxBlock-100) + "\n" + sealStart + "0123456789abcdef\"\n")
	for b.Loop() {
		if _, found := (&salvage{}).mendBit(block); found {
			b.Fatal("found")
		}
	}
}
