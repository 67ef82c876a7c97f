package export

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"rillkey/scoring/visit"
)

// fromNewer is a visit to which a newer program added an entry of an unknown
// kind, one with an unknown field and one with a value beyond what is known, and
// a field of the header. All of them hold a name.
func fromNewer(t *testing.T) *visit.Visit {
	t.Helper()
	seal := func(lines string) string {
		return fmt.Sprintf("%scheck = \"%x\"\n", lines, sha256.Sum256([]byte(lines)))[:len(lines)+25] + "\"\n"
	}
	text := seal("[visit]\nformat = 1\nid = \"v1\"\nsite = \"Tanyard Brook\"\ndate = \"2026-05-16\"\npeople = [\"Oona\"]\n"+
		"cautions_read = true\nbegun = 2026-05-16T12:00:00Z\nweather = \"showers, says Oona\"\n") +
		"\n" + seal("[[event]]\nid = \"s\"\nkind = \"sample\"\ntime = 2026-05-16T12:01:00Z\nlabel = \"1\"\nhabitat = \"riffle\"\n") +
		"\n" + seal("[[event]]\nid = \"w\"\nkind = \"water-chemistry\"\ntime = 2026-05-16T12:02:00Z\nwho = \"Oona\"\n"+
		"ph = 7.10\nby = { o2 = [9.5, 9.6] }\n") +
		"\n" + seal("[[event]]\nid = \"i\"\nkind = \"identification\"\ntime = 2026-05-16T12:03:00Z\nphoto = \"oona-1.jpg\"\n"+
		"sample = \"1\"\ntaxon = \"perlidae\"\ncount = 2\n") +
		"\n" + seal("[[event]]\nid = \"j\"\nkind = \"identification\"\ntime = 2026-05-16T12:04:00Z\nsample = \"1\"\n"+
		"taxon = \"perlidae\"\ncount = 0\n")
	v, err := visit.Parse("newer.visit.toml", []byte(text))
	if err != nil || len(v.Events) != 4 || len(v.Notices) != 4 {
		t.Fatal(err, v)
	}
	return v
}

// What a newer program wrote goes through the tables and comes back to the byte.
func TestWhatANewerProgramWroteSurvivesExchange(t *testing.T) {
	v := fromNewer(t)
	back, err := readTables(t, tables(t, []*visit.Visit{v}, open))
	if err != nil || len(back) != 1 {
		t.Fatal(err, back)
	}
	if !bytes.Equal(back[0].Encode(), v.Encode()) {
		t.Errorf("came back as\n%s\nit was\n%s", back[0].Encode(), v.Encode())
	}
	if n := open.Hides(v); n != 0 {
		t.Errorf("%d entries are said to be left out", n)
	}
}

// What nobody here understands could hold a name, so it stays at home where names
// do; how much that is is told.
func TestWhatIsNotUnderstoodStaysAtHomeWhereNamesDo(t *testing.T) {
	v := fromNewer(t)
	dir := tables(t, []*visit.Visit{v}, Discretion{Places: true})
	for _, name := range []string{VisitsFile, EventsFile, RecordsFile} {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil || strings.Contains(strings.ToLower(string(data)), "oona") {
			t.Errorf("%v: a name is given away:\n%s", err, data)
		}
	}
	back, err := readTables(t, dir)
	if err != nil || len(back[0].Events) != 2 || len(back[0].Tally().Records) != 1 {
		t.Errorf("%v: %+v", err, back)
	}
	if n := (Discretion{}).Hides(v); n != 4 {
		t.Errorf("%d things are said to be left out, not 4", n)
	}
}

func TestTheCellOfAnUnknownEntryAgreesWithTheOthers(t *testing.T) {
	for label, change := range map[string]func(string) string{
		"another count": func(s string) string { return strings.Replace(s, "perlidae,,2,", "perlidae,,3,", 1) },
		"two entries in one cell": func(s string) string {
			return strings.Replace(s, "ph = 7.10\n", "ph = 7.10\n\n[[event]]\nid = \"\"x\"\"\n", 1)
		},
		"an entry that is known": func(s string) string { return strings.Replace(s, "photo = \"\"oona-1.jpg\"\"\n", "", 1) },
	} {
		dir := tables(t, []*visit.Visit{fromNewer(t)}, open)
		file := filepath.Join(dir, EventsFile)
		data, _ := os.ReadFile(file)
		changed := change(string(data))
		if changed == string(data) {
			t.Fatalf("%s: the test changes nothing:\n%s", label, data)
		}
		if err := os.WriteFile(file, []byte(changed), 0o644); err != nil {
			t.Fatal(err)
		}
		if _, err := readTables(t, dir); err == nil || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: got %v", label, err)
		}
	}
}

func TestWordsThatNameSomebodyAreFound(t *testing.T) {
	v := &visit.Visit{Header: visit.Header{ID: "v", Site: "Secret Brook", People: []string{"Ann Lee", "Bo"}, Obscured: true},
		Events: []visit.Event{
			{ID: "a", Line: 1, Who: "Teodor", Body: visit.Sample{Label: "1", Effort: "kicked by ann, 60 s"}},
			{ID: "b", Line: 2, Body: visit.Identification{Note: "at Secret-Brook"}},
			{ID: "c", Line: 3, Body: visit.Amendment{Reason: "TEODOR says so"}},
			{ID: "d", Line: 4, Body: visit.Identification{Note: "annual; secret; a brook; leeward"}},
			{ID: "e", Line: 5, Body: visit.Finish{Note: "Lee went home"}},
		}}
	lines := func(d Discretion) (out []int) {
		for _, t := range d.Telling(v) {
			out = append(out, t.Line)
		}
		return out
	}
	for _, tt := range []struct {
		d    Discretion
		want []int
	}{
		{Discretion{}, []int{1, 2, 3, 5}},
		{Discretion{People: true}, []int{2}},
		{Discretion{Places: true}, []int{1, 3, 5}},
		{open, nil},
	} {
		if got := lines(tt.d); !slices.Equal(got, tt.want) {
			t.Errorf("%+v: lines %v, not %v", tt.d, got, tt.want)
		}
	}
}
