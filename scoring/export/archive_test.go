package export

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"encoding/xml"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"rillkey/scoring/visit"
)

// memory is a spool without a disk.
type memory struct{ bytes.Buffer }

func (m *memory) Rewind() (io.Reader, error) { return &m.Buffer, nil }

// reader knows nothing of this package: it is driven by meta.xml alone.
type reader struct {
	files map[string]string
	core  []map[string]string
	more  map[string][]map[string]string // rows by the class of their rowType
	terms []string
}

type metaTable struct {
	RowType  string `xml:"rowType,attr"`
	Fields   string `xml:"fieldsTerminatedBy,attr"`
	Lines    string `xml:"linesTerminatedBy,attr"`
	Enclosed string `xml:"fieldsEnclosedBy,attr"`
	Headers  int    `xml:"ignoreHeaderLines,attr"`
	Encoding string `xml:"encoding,attr"`
	Location string `xml:"files>location"`
	ID       *struct {
		Index int `xml:"index,attr"`
	} `xml:"id"`
	CoreID *struct {
		Index int `xml:"index,attr"`
	} `xml:"coreid"`
	Field []struct {
		Index   string `xml:"index,attr"`
		Default string `xml:"default,attr"`
		Term    string `xml:"term,attr"`
	} `xml:"field"`
}

func openArchive(t testing.TB, visits []*visit.Visit, d Discretion) *reader {
	t.Helper()
	var buf bytes.Buffer
	err := DarwinCoreArchive(&buf, all(visits), knowledge(t), d, metadata, func() (Spool, error) { return &memory{}, nil })
	if err != nil {
		t.Fatal(err)
	}
	z, err := zip.NewReader(bytes.NewReader(buf.Bytes()), int64(buf.Len()))
	if err != nil {
		t.Fatal(err)
	}
	r := &reader{files: map[string]string{}, more: map[string][]map[string]string{}}
	for _, f := range z.File {
		in, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(in)
		if err != nil {
			t.Fatal(err)
		}
		r.files[f.Name] = string(data)
	}
	var meta struct {
		XMLName   xml.Name    `xml:"http://rs.tdwg.org/dwc/text/ archive"`
		Metadata  string      `xml:"metadata,attr"`
		Core      metaTable   `xml:"core"`
		Extension []metaTable `xml:"extension"`
	}
	if err := xml.Unmarshal([]byte(r.files["meta.xml"]), &meta); err != nil {
		t.Fatal(err)
	}
	if r.files[meta.Metadata] == "" {
		t.Errorf("meta.xml names %q, which is not there", meta.Metadata)
	}
	r.core = r.table(t, meta.Core)
	for _, e := range meta.Extension {
		r.more[e.RowType[strings.LastIndex(e.RowType, "/")+1:]] = r.table(t, e)
	}
	return r
}

// table reads a file as meta.xml describes it. The row's own id, or that of its
// core row, stands under "".
func (r *reader) table(t testing.TB, m metaTable) (out []map[string]string) {
	t.Helper()
	if m.Fields != "," || m.Lines != `\n` || m.Enclosed != `"` || m.Encoding != "UTF-8" {
		t.Fatalf("not a form this reader knows: %+v", m)
	}
	in := csv.NewReader(strings.NewReader(r.files[m.Location]))
	rows, err := in.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	key := m.ID
	if key == nil {
		key = m.CoreID
	}
	for _, cells := range rows[m.Headers:] {
		row := map[string]string{"": cells[key.Index]}
		for _, f := range m.Field {
			name := f.Term[strings.LastIndex(f.Term, "/")+1:]
			row[name] = f.Default
			if f.Index != "" {
				i, _ := strconv.Atoi(f.Index)
				if row[name] = cells[i]; cells[i] == "" {
					row[name] = f.Default
				}
			}
		}
		out = append(out, row)
	}
	for _, f := range m.Field {
		r.terms = append(r.terms, f.Term)
	}
	return out
}

// The tally that comes out of an archive, by an independent reader, is the one
// that grade uses.
func TestArchiveGivesBackTheTally(t *testing.T) {
	visits := scenes(t)
	r := openArchive(t, visits, open)
	parent := map[string]string{}
	label := map[string]string{}
	for _, e := range r.core {
		parent[e[""]], label[e[""]] = e["parentEventID"], e["fieldNumber"]
	}
	got := map[string]int{}
	for _, o := range r.more["Occurrence"] {
		if o["occurrenceStatus"] == "present" {
			n, err := strconv.Atoi(o["organismQuantity"])
			if err != nil {
				t.Error(err)
			}
			got[fmt.Sprintf("%s sample %s: %s %t", parent[o[""]], label[o[""]], o["taxonID"], o["identificationQualifier"] != "")] += n
		}
	}
	want := map[string]int{}
	for _, v := range visits {
		for _, rec := range v.Tally().Records {
			want[fmt.Sprintf("%s sample %s: %s %t", v.Header.ID, rec.Sample, rec.Taxon, rec.Undecided)] += rec.Count
		}
	}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("got  %v\nwant %v", got, want)
	}
}

func TestArchiveIDs(t *testing.T) {
	r := openArchive(t, scenes(t), open)
	events := map[string]bool{}
	for _, e := range r.core {
		if e[""] == "" || e[""] != e["eventID"] || events[e[""]] {
			t.Errorf("event id %q", e[""])
		}
		events[e[""]] = true
	}
	for _, e := range r.core {
		if p := e["parentEventID"]; p != "" && !events[p] {
			t.Errorf("no parent %q", p)
		}
	}
	occurrences := map[string]bool{}
	for class, idTerm := range map[string]string{"Occurrence": "occurrenceID", "MeasurementOrFact": "measurementID"} {
		seen := map[string]bool{}
		for _, row := range r.more[class] {
			if !events[row[""]] {
				t.Errorf("%s: no core row %q", class, row[""])
			}
			if id := row[idTerm]; id == "" || seen[id] {
				t.Errorf("%s: id %q", class, id)
			}
			seen[row[idTerm]] = true
		}
		if class == "Occurrence" {
			occurrences = seen
		}
	}
	for _, f := range r.more["MeasurementOrFact"] {
		if id := f["occurrenceID"]; id != "" && !occurrences[id] && len(occurrences) > 0 {
			t.Errorf("a fact on no occurrence: %q", id)
		}
	}
}

// Every column is a term of Darwin Core.
func TestArchiveTerms(t *testing.T) {
	data, err := os.ReadFile("../../testdata/published/darwin-core-terms.txt")
	if err != nil {
		t.Fatal(err)
	}
	known := slices.DeleteFunc(strings.Split(string(data), "\n"), func(l string) bool { return l == "" || l[0] == '#' })
	for _, term := range openArchive(t, scenes(t), open).terms {
		name, ok := strings.CutPrefix(term, "http://rs.tdwg.org/dwc/terms/")
		if !ok || !slices.Contains(known, name) {
			t.Errorf("%s is no term of Darwin Core", term)
		}
	}
}

// What an occurrence may say of kinds that were not found, and of animals that
// nobody could name.
func TestArchiveSaysAbsentOnlyWhereItMay(t *testing.T) {
	visits := scenes(t)
	absent := func(v *visit.Visit) (ids []string, rows []map[string]string) {
		rows = openArchive(t, []*visit.Visit{v}, open).more["Occurrence"]
		for _, o := range rows {
			if o["occurrenceStatus"] == "absent" {
				ids = append(ids, o["taxonID"])
			}
		}
		return ids, rows
	}
	full, _ := absent(visits[0])
	if !slices.Contains(full, "hirudinea") || slices.Contains(full, "plecoptera") {
		t.Errorf("a complete visit with stoneflies and without leeches lacks %v", full)
	}
	if cut, _ := absent(visits[2]); len(cut) != 0 {
		t.Errorf("a visit cut short says that there are no %v", cut)
	}
	if none, _ := absent(visits[6]); len(none) != 0 {
		t.Errorf("without a protocol nothing is known to be absent: %v", none)
	}
	aside := scene{protocol: "riffle-three", samples: 3, bodies: []visit.Body{
		visit.Identification{Sample: "1", Count: 1, Undecided: true, Possible: []string{"perlidae", "baetidae"}},
	}}.visit(t, 9)
	kinds, rows := absent(aside)
	if slices.Contains(kinds, "plecoptera") || slices.Contains(kinds, "ephemeroptera") || !slices.Contains(kinds, "hirudinea") {
		t.Errorf("an animal that may be a stonefly or a mayfly leaves absent %v", kinds)
	}
	if q := rows[0]["identificationQualifier"]; !strings.Contains(q, "Perlidae") || rows[0]["scientificName"] == "" {
		t.Errorf("undecided: %v", rows[0])
	}
	unknown := scene{protocol: "riffle-three", samples: 3,
		bodies: []visit.Body{visit.Identification{Sample: "1", Count: 1, Undecided: true}}}.visit(t, 10)
	if kinds, _ := absent(unknown); len(kinds) != 0 {
		t.Errorf("an animal that may be anything leaves absent %v", kinds)
	}
}
