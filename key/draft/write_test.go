package draft_test

import (
	"bytes"
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/couplets"
	"rillkey/couplets/rules"
	"rillkey/key/draft"
	"rillkey/taxa"
	"rillkey/taxa/authored"
)

// model is invented: each look costs one, a wrong name ten, and misreads are
// spread evenly.
var model = draft.Costs{
	Terms:  draft.Terms{Mistake: 10, Option: 0.05},
	Effort: func(taxa.Look) float64 { return 1 },
	Readings: func(t *taxa.Trait) [][]float64 {
		n := len(t.States)
		out := make([][]float64, n)
		for s := range out {
			out[s] = make([]float64, n)
			for r := range n {
				out[s][r] = t.Misread / float64(n-1)
			}
			out[s][s] = 1 - t.Misread
		}
		return out
	},
}

func sheetOf(t *testing.T, text string) *draft.Spreadsheet {
	t.Helper()
	var report authored.Report
	s := draft.ReadSheet("t.csv", []byte(text), &report)
	if s == nil {
		t.Fatal(report.Findings())
	}
	return s
}

// catalogOf is the catalog that a sheet is written as, read back.
func catalogOf(t *testing.T, s *draft.Spreadsheet) *taxa.Catalog {
	t.Helper()
	files := fstest.MapFS{}
	for name, text := range s.Catalog() {
		files[name] = &fstest.MapFile{Data: text}
	}
	catalog, err := taxa.Load(files, "")
	if err != nil {
		t.Fatal(err)
	}
	return catalog
}

// A large sheet becomes several files, none of them near what a reader takes.
func TestALargeSheetBecomesSeveralFiles(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	const animals = 2000
	var b strings.Builder
	b.WriteString("animal")
	for j := range 300 {
		fmt.Fprintf(&b, ",t%d", j)
	}
	for i := range animals {
		fmt.Fprintf(&b, "\na%d", i)
		for j := range 300 {
			fmt.Fprintf(&b, ",%d", (i>>(j%12)^j)&1)
		}
	}
	s := sheetOf(t, b.String())
	files := s.Catalog()
	if files["taxa-2.toml"] == nil || len(files) > 5 {
		t.Errorf("%d files", len(files))
	}
	for name, text := range files {
		if len(text) > authored.MaxSize/2 {
			t.Errorf("%s has %d bytes", name, len(text))
		}
	}
	if n := len(catalogOf(t, s).Taxa()); n != animals {
		t.Errorf("%d animals are read back", n)
	}
}

// What a larger draft left in a folder is emptied, and nothing else there is touched; people
// write into a catalog of one part alone.
func TestALargerDraftLeavesNoAnimals(t *testing.T) {
	s := sheetOf(t, "animal,wings\nheron,2\nlamb,0\n")
	for _, row := range []struct {
		why     string
		there   string
		emptied string
		edited  bool
	}{
		{"a new folder", "", "", true},
		{"what is written anew", "traits.toml taxa.toml", "", true},
		{"later parts", "taxa-2.toml taxa-13.toml", "taxa-13.toml taxa-2.toml", false},
		{"other files", "taxa-old.toml taxa.toml.bak cards.toml taxa-2.txt", "", true},
	} {
		files := s.CatalogOver(strings.Fields(row.there))
		if got := draft.EditedByHand(files); got != row.edited {
			t.Errorf("%s: edited by hand %v", row.why, got)
		}
		delete(files, "traits.toml")
		delete(files, "taxa.toml")
		if got := strings.Join(slices.Sorted(maps.Keys(files)), " "); got != row.emptied {
			t.Errorf("%s: %q are emptied, not %q", row.why, got, row.emptied)
		}
		for name, text := range files {
			if !bytes.HasPrefix(text, []byte("# ")) || bytes.Count(text, []byte("\n")) != 1 {
				t.Errorf("%s: %s holds %q", row.why, name, text)
			}
		}
	}
}

// draftFrom drafts a sheet.
func draftFrom(t *testing.T, s *draft.Spreadsheet) *draft.Draft {
	t.Helper()
	table, err := s.Table(model)
	if err != nil {
		t.Fatal(err)
	}
	d, err := draft.New(table, model.Terms)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// draftOf drafts a sheet, and checks the key against the sheet's own catalog: no
// error, every taxon an end point, and no warning but of the ends that several
// taxa share, each of which the draft reports itself, of words yet to be edited, and
// of animals of which too little is known for one end.
func draftOf(t *testing.T, s *draft.Spreadsheet) (*draft.Draft, *couplets.Sound) {
	t.Helper()
	d := draftFrom(t, s)
	catalog := catalogOf(t, s)
	text := d.Text(draft.Head{ID: "drafted", Title: "Drafted", Source: "a table"})
	f, sound, err := couplets.Examine(fstest.MapFS{"k": {Data: text}}, "k", "k", catalog)
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	for _, w := range rules.Warnings(&rules.Input{File: f, Sound: sound, Catalog: catalog}) {
		if w.Rule != "shared-end" && w.Rule != "as-drafted" && w.Rule != "second-end" {
			t.Errorf("the draft raises %v", w)
		}
	}
	if len(sound.Ends) != len(s.IDs) || len(sound.Shared()) != len(d.Inseparable()) {
		t.Errorf("of %d taxa %d are keyed; %d ends are shared, reported are %v", len(s.IDs), len(sound.Ends),
			len(sound.Shared()), d.Inseparable())
	}
	return d, sound
}

func TestDraftsCheckClean(t *testing.T) {
	zoo, err := os.ReadFile("../../testdata/published/zoo/zoo.csv")
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		why, text string
		leads     int
	}{
		{"the zoo", string(zoo), 114},
		{"one that varies, told by what does not", "taxon,tails,gills\nmayfly,2/3,yes\nstonefly,2,no\nbeetle,0,no\n", 4},
		{"one that varies, told by nothing else", "taxon,tails\nmayfly,2/3\nstonefly,2\nbeetle,0\n", 3},
		{"unknown cells", "taxon,a,b\nx,1,p\ny,2,?\nz,3,q\n", 3},
		{"many states", "t,c\na,1\nb,2\nc,3\nd,4\ne,5\nf,6\ng,7\nh,8\ni,9\n", 11},
		{"semicolons, CRLF and a byte-order mark", "\ufefft;c\r\na;1\r\nb;2\r\n", 2},
		{"quotation marks and backslashes", "t,c\n\"a \"\"x\"\"\",\"1\\\"\nb,2\n", 2},
		{"two that nothing tells apart", "t,c\na,1\nb,1\nc,2\n", 2},
	} {
		t.Run(row.why, func(t *testing.T) {
			_, sound := draftOf(t, sheetOf(t, row.text))
			leads := 0
			for _, c := range sound.Couplets {
				leads += len(c.Leads)
			}
			if leads != row.leads {
				t.Errorf("%d leads, want %d", leads, row.leads)
			}
		})
	}
}

// The worm of the table is no crane fly: where nothing tells two apart, the key
// ends in both, and every animal of the table is keyed.
func TestNoAnimalIsDroppedFromADraft(t *testing.T) {
	d, sound := draftOf(t, sheetOf(t, "animal,jointed legs,gills,colour\nworm,none,none,red\ncrane fly,none,?,red/pale\n"+
		"mayfly,6,sides,brown\nmidge,none,tuft,red\n"))
	text := string(d.Text(draft.Head{ID: "drafted", Title: "Drafted", Source: "a table"}))
	if !strings.Contains(text, "taxon  = [\"worm\", \"crane-fly\"]\n") || len(sound.Ends) != 4 {
		t.Errorf("%d animals are keyed in\n%s", len(sound.Ends), text)
	}
}

func TestWhatCannotBeToldApartIsReportedWithWhatWouldHelp(t *testing.T) {
	s := sheetOf(t, "t,c,d,e\na,1,x,?\nb,1,x/y,p\nc,2,x,q\n")
	table, err := s.Table(model)
	if err != nil {
		t.Fatal(err)
	}
	d, err := draft.New(table, model.Terms)
	if err != nil {
		t.Fatal(err)
	}
	same := d.Inseparable()
	if len(same) != 1 || strings.Join(same[0].Taxa, " ") != "a b" || len(same[0].Help) != 2 || same[0].Help[0].Trait != "e" ||
		same[0].Help[0].Unknown[0] != "a" || same[0].Help[1].Trait != "d" {
		t.Errorf("%+v", same)
	}
}

func TestSheetsAreRefusedAtTheirPlace(t *testing.T) {
	wide := "t" + strings.Repeat(",c", 1001) + "\n"
	var many strings.Builder
	many.WriteString("t,c,d\n")
	for i := range 50000 {
		fmt.Fprintf(&many, "i%d,s%d,1\n", i, i)
	}
	for _, row := range []struct{ why, text, want string }{
		{"a ragged row", "t,c\na,1\nb\nc,2\n", "t.csv:3:1: ragged-row: the row has 1 cell, the first row 2"},
		{"a row too long", "t,c\na,1,2\nc,2\n", "t.csv:2:3: ragged-row:"},
		{"columns of one name", "t,Tails,tails\na,1,2\n", "t.csv:1:9: doubled-column: columns 2 and 3"},
		{"a column without a name", "t,,c\na,1,2\n", "t.csv:1:3: no-name:"},
		{"taxa of one name", "t,c\na,1\nA,2\n", "t.csv:3:1: doubled-taxon:"},
		{"a state of nothing", "é,c\né1,1/\nb,2\n", "t.csv:2:4: empty-cell:"},
		{"a state named twice", "t,c\na,1/1\nb,2\n", "t.csv:2:3: doubled-state:"},
		{"one column", "t\na\nb\n", "t.csv:1:1: few-columns:"},
		{"one row", "t,c\na,1\n", "t.csv:1:1: few-rows:"},
		{"nothing", "", "t.csv:1:1: few-rows:"},
		{"1001 columns", wide, "t.csv:1:2001: too-many-columns:"},
		{"50,000 states", many.String(), "t.csv:66:5: too-many-states:"},
		{"a stray quotation mark", "t,c\na,x\"y\nb,2\n", "t.csv:2:4: syntax:"},
		{"a terminal escape", "t,c\na,\x1b[2J\nb,2\n", "t.csv:2:3: control-character:"},
		{"a commonness of nothing", "t,c,commonness\na,1,0\nb,2,1\n", "t.csv:2:5: bad-weight:"},
	} {
		t.Run(row.why, func(t *testing.T) {
			var report authored.Report
			if s := draft.ReadSheet("t.csv", []byte(row.text), &report); s != nil {
				t.Fatal("accepted")
			}
			found := report.Findings()
			if !strings.HasPrefix(found[0].Error(), row.want) || len(found) > 300 {
				t.Errorf("%d findings: %v, want %s", len(found), found[0], row.want)
			}
		})
	}
}
