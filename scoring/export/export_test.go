package export

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"rillkey/scoring"
	"rillkey/scoring/condition"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

var (
	day      = time.Date(2026, 5, 16, 13, 5, 0, 0, time.FixedZone("", -4*3600))
	metadata = Metadata{Title: "Invented visits; '); DROP TABLE visit; --", Group: "the Saturday group", Day: day}
	open     = Discretion{People: true, Places: true}
)

func knowledge(t testing.TB) Knowledge {
	t.Helper()
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	rules, err := scoring.EmbeddedRules(catalog)
	if err != nil {
		t.Fatal(err)
	}
	return Knowledge{Catalog: catalog, Rules: rules}
}

func ptr[T any](v T) *T { return &v }

// scene is an invented visit that is written to a file and read again.
type scene struct {
	protocol string
	spot     *visit.Spot
	obscured bool
	samples  int
	bodies   []visit.Body
	amend    func(ids []string) []visit.Body
}

func (s scene) visit(t testing.TB, seed int64) *visit.Visit {
	t.Helper()
	path := filepath.Join(t.TempDir(), fmt.Sprintf("%d.visit.toml", seed))
	random := rand.New(rand.NewSource(seed))
	h := visit.Header{Site: `Tanyard Brook, "above" the footbridge`, Date: "2026-05-16",
		People: []string{"Oona", "Teodor O'Hara", "Mägs"}, Protocol: s.protocol, CautionsRead: true, Begun: day, Spot: s.spot,
		Obscured: s.obscured}
	if _, err := visit.Create(path, h, random); err != nil {
		t.Fatal(err)
	}
	at := day
	put := func(b visit.Body) string {
		at = at.Add(time.Minute)
		saved, err := visit.Append(path, at, "Teodor O'Hara", b, random)
		if err != nil {
			t.Fatal(err)
		}
		return saved.Event.ID
	}
	for i := range s.samples {
		put(visit.Sample{Label: fmt.Sprint(i + 1), Habitat: "riffle", Area: 0.37, Effort: "one minute, stones; rubbed", Said: visit.Sorted})
	}
	var ids []string
	for _, b := range s.bodies {
		ids = append(ids, put(b))
	}
	if s.amend != nil {
		for _, b := range s.amend(ids) {
			put(b)
		}
	}
	v, err := visit.Read(path)
	if err != nil || len(v.Notices) > 0 {
		t.Fatal(err, v.Notices)
	}
	return v
}

func animals(sample, taxon string, n int) visit.Identification {
	return visit.Identification{Sample: sample, Taxon: taxon, Rank: "family", Count: n, Confidence: 0.91,
		Path: []string{"1b", "4?"}, Length: 12.5}
}

// scenes cover what an export can meet: a graded visit, one with families, one
// cut short, an animal set aside, one with corrections and second looks, an
// empty one, and texts that try to break out.
func scenes(t testing.TB) []*visit.Visit {
	full := []visit.Body{
		animals("1", "perlidae", 2), animals("1", "heptageniidae", 4), animals("1", "hydropsychidae", 5), animals("2", "psephenidae", 2),
		animals("2", "tipulidae", 1), animals("3", "chironomidae-other", 40), animals("3", "gammaridae", 4), animals("3", "oligochaeta", 2),
	}
	aside := visit.Identification{Sample: "2", Count: 1, Undecided: true, Possible: []string{"perlidae", "perlodidae"},
		Also: []visit.Chance{{Taxon: "perlodidae", Probability: 0.4}, {Taxon: "nemouridae", Probability: 0.1}}}
	noted := visit.Conditions{Values: condition.Values{
		"begun": {Text: "09:30"}, "ended": {Text: "12:10"}, "water-temperature": {Number: 9.5, Instrument: "=a glass thermometer"},
		"air-temperature": {Number: 0},
		"bed":             {Parts: []condition.CategoryShare{{Word: "cobble", Percent: 62.5}, {Word: "sand", Percent: 37.5}}},
		"trained":         {List: []string{"Oona", "Teodor O'Hara"}},
		"smell":           {Text: `-"none", it's \ clear`}, "plants": {List: []string{"film", "moss"}},
	}}
	odd := visit.Identification{Sample: "1", Taxon: "baetidae", Count: 3, Note: `it's "odd", =1+1; \' -- DROP`, Cell: "A,1"}
	return []*visit.Visit{
		scene{protocol: "riffle-three", samples: 3, bodies: full,
			spot: &visit.Spot{Latitude: 44.123456, Longitude: -72.987654, Uncertainty: 30}}.visit(t, 1),
		scene{protocol: "riffle-families", samples: 1,
			bodies: []visit.Body{animals("1", "perlidae", 6), animals("1", "hydropsychidae", 40),
				animals("1", "baetidae", 20), animals("1", "elmidae", 14), animals("1", "chironomidae-other", 15),
				animals("1", "asellidae", 5)}}.visit(t, 2),
		scene{protocol: "seven-samples", samples: 2,
			bodies: []visit.Body{animals("1", "simuliidae", 7), animals("2", "asellidae", 2)}}.visit(t, 3),
		scene{protocol: "riffle-three", samples: 3, bodies: append(full[:3:3], aside, odd),
			spot: &visit.Spot{Latitude: 44.123456, Longitude: -72.987654, Uncertainty: 30}, obscured: true}.visit(t, 4),
		scene{protocol: "riffle-three", samples: 3, bodies: append(full[:8:8], noted), amend: func(ids []string) []visit.Body {
			return []visit.Body{
				visit.Amendment{Entry: ids[0], Reason: "counted again", Change: visit.Change{Count: ptr(3), Cell: ptr(""), Note: ptr("x")}},
				visit.Amendment{Entry: ids[7], Reason: "a root", Withdrawn: true},
				visit.Amendment{Entry: ids[3], Reason: "determined",
					Change: visit.Change{
						Taxon: ptr("elmidae"), Confidence: ptr(1.0), Expert: ptr("Dr Mägs"), ExpertOn: ptr("2026-06-20"),
						Kept: ptr("=the museum")}},
				visit.SecondLook{Entry: ids[1], Taxon: "baetidae", Rank: "family", Count: 2, Confidence: 0.6},
				visit.SecondLook{Entry: ids[2], Taxon: "hydropsychidae", Path: []string{"1a"}},
				visit.SameName{What: visit.NamePerson, Name: "Teodor O'Hara", Spelling: "Oona"},
				visit.SheetRows{Sample: "1", Rows: []string{"mayfly", "stonefly"}},
				visit.SheetRows{Sample: "2", WrittenIn: true},
				visit.Amendment{Entry: ids[8], Reason: "misread",
					Change: visit.Change{
						Conditions: &condition.Values{
							"water-temperature": {Number: 9}, "plants": {None: true}, "trained": {List: []string{"Mägs"}}}}},
				visit.Conditions{Values: condition.Values{"nitrate": {Number: 3}}},
				visit.Finish{Note: "all back in the water"},
			}
		}}.visit(t, 5),
		corrected(t, scene{protocol: "riffle-three", samples: 1,
			spot: &visit.Spot{Latitude: 44.123456, Longitude: -72.987654}, obscured: true}.visit(t, 6)),
		scene{protocol: "a-protocol-of-others", samples: 1, bodies: full[:1]}.visit(t, 7),
	}
}

// corrected is a visit whose header was corrected.
func corrected(t testing.TB, v *visit.Visit) *visit.Visit {
	spot := &visit.Spot{Latitude: 44.223456, Longitude: -72.887654, Uncertainty: 5}
	err := v.Conclude("Oona", visit.Amendment{
		Entry: v.Header.ID, Reason: "written from memory",
		Change: visit.Change{Site: ptr("Tanyard, lower"), Date: ptr("2026-05-17"), People: &[]string{"Oona", "Mägs"}, Spot: spot}})
	if err != nil {
		t.Fatal(err)
	}
	return v.Recast(v.Written(), v.Events)
}

func all(visits []*visit.Visit) Visits {
	return func(yield func(*visit.Visit, error) bool) {
		for _, v := range visits {
			if !yield(v, nil) {
				return
			}
		}
	}
}

func createIn(dir string) func(string) (io.WriteCloser, error) {
	return func(name string) (io.WriteCloser, error) { return os.Create(filepath.Join(dir, name)) }
}

func tables(t testing.TB, visits []*visit.Visit, d Discretion) (dir string) {
	t.Helper()
	dir = t.TempDir()
	if err := Tables(createIn(dir), all(visits), knowledge(t), d, metadata); err != nil {
		t.Fatal(err)
	}
	return dir
}

func readTables(t testing.TB, dir string) (out []*visit.Visit, err error) {
	t.Helper()
	_, err = ReadTables(os.DirFS(dir), "data", func(v *visit.Visit) error { out = append(out, v); return nil })
	return out, err
}

// What comes back from the tables is the same file, byte for byte.
func TestTablesRoundTrip(t *testing.T) {
	visits := scenes(t)
	back, err := readTables(t, tables(t, visits, open))
	if err != nil || len(back) != len(visits) {
		t.Fatalf("%v, %d visits", err, len(back))
	}
	for _, v := range visits {
		i := slices.IndexFunc(back, func(b *visit.Visit) bool { return b.Header.ID == v.Header.ID })
		if i < 0 || !bytes.Equal(back[i].Encode(), v.Encode()) {
			t.Errorf("visit %s came back as\n%s\nit was\n%s", v.Header.ID, back[i].Encode(), v.Encode())
		}
	}
}

// Names and exact places stay at home unless asked for, in every format.
func TestDiscretion(t *testing.T) {
	visits := scenes(t)[3:6] // one obscured, one with people in every place, one with a header corrected
	var out bytes.Buffer
	dir := tables(t, visits, Discretion{})
	for _, name := range []string{VisitsFile, EventsFile, RecordsFile} {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		out.Write(data)
	}
	if err := SQL(&out, all(visits), knowledge(t), Discretion{}, metadata); err != nil {
		t.Fatal(err)
	}
	for _, f := range openArchive(t, visits, Discretion{}).files {
		out.WriteString(f)
	}
	for _, secret := range []string{"Oona", "Teodor", "O'Hara", "O''Hara", "Mägs", "44.223456", "Tanyard, lower", "44.123456",
		"72.987654"} {
		if strings.Contains(out.String(), secret) {
			t.Errorf("%q is given away", secret)
		}
	}
	for _, want := range []string{"person 1", "44.1", "-73"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is missing", want)
		}
	}
	obscured := Discretion{}.Apply(visits[0])
	if obscured.Header.Site != Withheld() || visits[0].Header.Site == Withheld() {
		t.Errorf("the site of an obscured visit is %q", obscured.Header.Site)
	}
	// Rounding moves the point by at most half a tenth of a degree each way:
	// 5.6 km and 4.0 km at 44 degrees, 6.8 km together, and 30 m to begin with.
	if u := obscured.Header.Spot.Uncertainty; u < 6800 || u > 7000 {
		t.Errorf("uncertainty %v m", u)
	}
	if back, err := readTables(t, dir); err != nil || len(back) != len(visits) {
		t.Errorf("discreet tables do not read back: %v", err)
	}
}

// What people called a sample may name them or the place: where their words stay at home
// it has a number in every entry that speaks of it, and always the same.
func TestALabelThatNamesSomebodyIsHiddenInEveryEntry(t *testing.T) {
	own := "Oona's net"
	v := &visit.Visit{Header: visit.Header{ID: "v", Site: "Tarn Brook", People: []string{"Oona", "Teodor"}},
		Events: []visit.Event{
			{ID: "a", Body: visit.Sample{Label: own, Habitat: "riffle", Effort: "Oona kicked"}},
			{ID: "b", Body: visit.Sample{Label: "2", Habitat: "riffle"}},
			{ID: "c", Body: visit.Identification{Sample: own, Taxon: "baetidae", Count: 2, Note: "by Oona", Cell: "Teodor 3"}},
			{ID: "d", Body: visit.SheetRows{Sample: own, Rows: []string{"mayfly"}}},
			{ID: "e", Body: visit.SameName{What: visit.NameSample, Name: "Teodor 1", Spelling: own}},
			{ID: "f", Body: visit.Amendment{Entry: "c", Reason: "Oona says so", Change: visit.Change{Sample: &own}}},
		}}
	out := Discretion{Wordless: true}.Apply(v)
	if text := string(out.Encode()); strings.Contains(text, "Oona") || strings.Contains(text, "Teodor") {
		t.Errorf("somebody is named:\n%s", text)
	}
	label := out.Events[0].Body.(visit.Sample).Label
	other := out.Events[4].Body.(visit.SameName)
	for what, got := range map[string]string{
		"the record's": out.Events[2].Body.(visit.Identification).Sample, "the rows'": out.Events[3].Body.(visit.SheetRows).Sample,
		"the name that holds": other.Spelling, "the amendment's": *out.Events[5].Body.(visit.Amendment).Change.Sample,
	} {
		if got != label {
			t.Errorf("%s sample is %q, not %q", what, got, label)
		}
	}
	if other.Name == label || out.Events[1].Body.(visit.Sample).Label != "2" {
		t.Errorf("two samples are one: %q, %q", other.Name, label)
	}
}

func TestTwoFilesOfOneVisitAreRefused(t *testing.T) {
	v := scenes(t)[0]
	err := SQL(io.Discard, all([]*visit.Visit{v, v}), knowledge(t), open, metadata)
	if err == nil || !strings.Contains(err.Error(), "merge") {
		t.Errorf("got %v", err)
	}
	if err := SQL(io.Discard, all(nil), knowledge(t), open, metadata); !errors.Is(err, ErrNoVisit) {
		t.Errorf("nothing to hand over: %v", err)
	}
}

func TestTablesThatCannotBeRead(t *testing.T) {
	visits := scenes(t)[:2]
	tests := []struct {
		label, file string
		change      func(string) string
		says        string
	}{
		{"a count that is none", EventsFile, func(s string) string { return strings.Replace(s, ",40,", ",many,", 1) },
			`column count: "many" is not a whole number`},
		{"a count below one", EventsFile, func(s string) string { return strings.Replace(s, ",40,", ",-40,", 1) }, "count must be from 1"},
		{"a renamed column", EventsFile, func(s string) string { return strings.Replace(s, "taxon", "animal", 1) }, `no column "animal"`},
		{"a column left out", VisitsFile, func(s string) string { return strings.Replace(s, ",joined,", ",", 1) }, "joined is missing"},
		{"a day that does not exist", VisitsFile,
			func(s string) string { return strings.Replace(s, "2026-05-16", "2026-02-30", 1) }, "does not exist"},
		{"an id that leads elsewhere", VisitsFile,
			func(s string) string { return strings.Replace(s, "\n"+visits[0].Header.ID, "\n../../evil", 1) },
			`visits.csv:2: visit id "../../evil" is not an id`},
		{"an unknown kind", EventsFile, func(s string) string { return strings.Replace(s, "identification", "photo", 1) },
			`"photo" is not one of`},
		{"an event of no visit", EventsFile,
			func(s string) string { return strings.Replace(s, "\n"+visits[0].Header.ID, "\nnobody00", 1) }, "has no visit"},
		{"a time without its offset", EventsFile, func(s string) string { return strings.Replace(s, "-04:00", "", 1) }, "is not a time"},
		{"a value in a column of another kind", EventsFile,
			func(s string) string { return strings.Replace(s, ",sample,20", ",finish,20", 1) }, "has no use for"},
		{"half a quote", EventsFile, func(s string) string { return strings.Replace(s, `"[""1b"`, `"[""1b`, 1) },
			"begins and ends with one"},
		{"a list that is none", EventsFile, func(s string) string { return strings.Replace(s, `"[""1b"",""4?""]"`, "1b", 1) },
			"not a JSON list"},
		{"a taxon twice in one cell", EventsFile, func(s string) string {
			return strings.Replace(s, `,0.91,"[""1b"",""4?""]",,,`,
				`,0.91,"[""1b"",""4?""]",,"{""baetidae"":0.04,""baetidae"":0.01}",`, 1)
		}, "free of doubled names"},
		{"an empty file", VisitsFile, func(string) string { return "" }, "names of the columns"},
		{"a stray quote in the first cell", EventsFile, func(s string) string { return s + "a\"b\n" },
			"put the whole cell in quotation marks"},
		{"a quote alone", VisitsFile, func(s string) string { return s + "\"" }, "begins and ends with one"},
		{"a text after its quote", VisitsFile, func(s string) string { return s + "\"a\"b\n" }, "begins and ends with one"},
		{"two quotes and a letter", EventsFile, func(s string) string { return s + "\"\"x\n" }, "begins and ends with one"},
		{"an entry twice", EventsFile, func(s string) string {
			return s +
				s[strings.LastIndex(strings.TrimSuffix(s, "\n"), "\n")+1:]
		}, "stands in an earlier row of this visit too"},
		{"a row without an end", EventsFile, func(s string) string { return s + strings.Repeat("x", 1<<20) },
			"a row is larger than 256 kB"},
		{"a quote without an end", EventsFile, func(s string) string { return s + "\"" + strings.Repeat("x,\n", 1<<20) },
			"a row is larger than 256 kB"},
		{"nothing but empty lines", VisitsFile, func(s string) string { return s + strings.Repeat("\n", 1<<20) },
			"a row is larger than 256 kB"},
		{"no first row", VisitsFile, func(string) string { return strings.Repeat("x", 1<<20) }, "a row is larger than 256 kB"},
		{"more entries than a visit holds", EventsFile, func(s string) string {
			last := s[strings.LastIndex(strings.TrimSuffix(s, "\n"), "\n")+1:]
			_, rest, _ := strings.Cut(last, ",")
			id, rest, _ := strings.Cut(rest, ",")
			out := []byte(s)
			for i := range visit.MaxEvents {
				out = fmt.Appendf(out, "%s,%s-%d,%s", last[:strings.Index(last, ",")], id, i, rest)
			}
			return string(out)
		}, "more entries than a visit can hold"},
		{"a visit twice", VisitsFile, func(s string) string { return s + s[strings.Index(s, "\n")+1:] }, "earlier row"},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			if testing.Short() && strings.HasPrefix(tt.says, "more entries") {
				t.Skip("it writes a hundred thousand rows")
			}
			dir := tables(t, visits, open)
			path := filepath.Join(dir, tt.file)
			data, _ := os.ReadFile(path)
			if err := os.WriteFile(path, []byte(tt.change(string(data))), 0o644); err != nil {
				t.Fatal(err)
			}
			_, err := readTables(t, dir)
			if err == nil || !strings.Contains(err.Error(), tt.says) || !strings.HasPrefix(err.Error(), "data/"+tt.file) ||
				strings.Contains(err.Error(), "\n") {
				t.Errorf("got %v, want one line with %q", err, tt.says)
			}
		})
	}
	if _, err := readTables(t, t.TempDir()); err == nil || !strings.Contains(err.Error(), "cannot be opened") {
		t.Errorf("an empty folder: %v", err)
	}
}

// Empty lines, and those of empty cells alone, lose no visit and are told of.
func TestAnEmptyLineOfATableIsPassedOverAndTold(t *testing.T) {
	visits := scenes(t)[:3]
	commas := strings.Repeat(",", len(eventColumns)-1) + "\n"
	for _, tt := range []struct {
		label, file string
		change      func(string) string
		says        []string
	}{
		{"none", EventsFile, func(s string) string { return s }, nil},
		{"no end of the last line", EventsFile, func(s string) string { return strings.TrimSuffix(s, "\n") }, nil},
		{"the last", VisitsFile, func(s string) string { return s + "\n" },
			[]string{"data/visits.csv:5: this line is empty and was passed over"}},
		{"the last, as other systems end lines", VisitsFile,
			func(s string) string { return strings.ReplaceAll(s, "\n", "\r\n") + "\r\n" },
			[]string{"data/visits.csv:5: this line is empty and was passed over"}},
		{"the first and the third", EventsFile, func(s string) string { return "\n" + strings.Replace(s, "\n", "\n\n", 1) },
			[]string{"data/events.csv:1: this line and 1 more are empty and were passed over"}},
		{"empty cells alone", EventsFile, func(s string) string { return strings.Replace(s, "\n", "\n"+commas+commas, 1) },
			[]string{"data/events.csv:2: this line and 1 more are empty and were passed over"}},
	} {
		dir := tables(t, visits, open)
		path := filepath.Join(dir, tt.file)
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(tt.change(string(data))), 0o644); err != nil {
			t.Fatal(err)
		}
		read := 0
		remarks, err := ReadTables(os.DirFS(dir), "data", func(*visit.Visit) error { read++; return nil })
		if err != nil || read != len(visits) || !slices.Equal(remarks, tt.says) {
			t.Errorf("%s: %d visits, %q, %v; want %q", tt.label, read, remarks, err, tt.says)
		}
	}
}

// Tables that were written before samples had a state can be read.
func TestTablesWithoutStates(t *testing.T) {
	dir := tables(t, scenes(t)[2:3], open)
	path := filepath.Join(dir, EventsFile)
	in, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(in).ReadAll()
	in.Close()
	if err != nil {
		t.Fatal(err)
	}
	at := slices.Index(rows[0], "state")
	var older bytes.Buffer
	w := csv.NewWriter(&older)
	for _, row := range rows {
		if err := w.Write(slices.Delete(row, at, at+1)); err != nil {
			t.Fatal(err)
		}
	}
	w.Flush()
	if err := os.WriteFile(path, older.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	back, err := readTables(t, dir)
	if err != nil || len(back) != 1 || back[0].Tally().Samples[0].State != visit.BeingSorted {
		t.Errorf("%v, %+v", err, back)
	}
}

func FuzzReadTables(f *testing.F) {
	var v, e bytes.Buffer
	dir := tables(f, scenes(f)[3:5], open)
	for name, b := range map[string]*bytes.Buffer{VisitsFile: &v, EventsFile: &e} {
		data, _ := os.ReadFile(filepath.Join(dir, name))
		b.Write(data)
	}
	f.Add(v.Bytes(), e.Bytes())
	f.Fuzz(func(t *testing.T, visits, events []byte) {
		dir := t.TempDir()
		for name, data := range map[string][]byte{VisitsFile: visits, EventsFile: events} {
			if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		_, _ = ReadTables(os.DirFS(dir), "data", func(v *visit.Visit) error { v.Tally(); return nil })
	})
}

// What leaves the program says what a confidence is: the probability of the
// name, which is not the chance that no answer was misread.
func TestConfidenceIsTheProbabilityOfTheName(t *testing.T) {
	visits := scenes(t)
	var dictionary struct {
		Resources []struct {
			Name   string
			Schema struct {
				Fields []struct{ Name, Description string }
			}
		}
	}
	data, err := os.ReadFile(filepath.Join(tables(t, visits, open), PackageFile))
	if err != nil || json.Unmarshal(data, &dictionary) != nil {
		t.Fatal(err)
	}
	var said []string
	for _, r := range dictionary.Resources {
		for _, f := range r.Schema.Fields {
			if f.Name == "confidence" {
				said = append(said, r.Name+": "+f.Description)
			}
		}
	}
	facts := 0
	for _, m := range openArchive(t, visits, open).more["MeasurementOrFact"] {
		if m["measurementType"] == "confidence of the identification" {
			said = append(said, m["measurementMethod"])
			facts++
		}
	}
	if len(said)-facts != 2 || facts == 0 {
		t.Fatalf("it is said %d times in the dictionary and %d times in the archive", len(said)-facts, facts)
	}
	for _, s := range said {
		if !strings.Contains(s, "probability") || !strings.Contains(s, "that the name is right") || strings.Contains(s, "misread") {
			t.Error(s)
		}
	}
}

// A table that has no end is not read: a pipe, a device, a folder.
func TestOnlyFilesWithAnEndAreTables(t *testing.T) {
	for what, mode := range map[string]fs.FileMode{
		"a pipe": fs.ModeNamedPipe, "a device": fs.ModeDevice | fs.ModeCharDevice, "a folder": fs.ModeDir} {
		fsys := fstest.MapFS{VisitsFile: {Mode: mode | 0o666}}
		if _, err := ReadTables(fsys, "data", nil); err == nil || !strings.Contains(err.Error(), "data/visits.csv: this is no file") {
			t.Errorf("%s: %v", what, err)
		}
	}
}
