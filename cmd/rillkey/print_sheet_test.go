package main

import (
	"bytes"
	"fmt"
	"html"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"rillkey/key/keytest"
	"rillkey/scoring"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// offline is a world without a terminal, with a clock that stands still.
func offline(in string) (world, *bytes.Buffer) {
	var out bytes.Buffer
	return world{
		stdin: strings.NewReader(in), stdout: &out, stderr: &out, width: 80, env: func(string) string { return "" },
		now:    func() time.Time { return time.Date(2026, 5, 16, 9, 0, 0, 0, time.UTC) },
		random: &counting{},
	}, &out
}

// counting gives other bytes each time, so that no two events share an id.
type counting struct{ n uint64 }

func (c *counting) Read(p []byte) (int, error) {
	for i := range p {
		c.n = c.n*6364136223846793005 + 1442695040888963407
		p[i] = byte(c.n >> 33)
	}
	return len(p), nil
}

// does runs the program and wants it to succeed.
func does(t *testing.T, in string, args ...string) string {
	t.Helper()
	w, out := offline(in)
	if status := run(args, w); status != statusDone {
		t.Fatalf("%q ended with %d:\n%s", args, status, out)
	}
	return out.String()
}

// printedRow is a row of the tables of animals, as somebody reads it on paper.
type printedRow struct {
	sign, name string
	which      bool
	boxes      int
}

var (
	tallyTables = regexp.MustCompile(`(?s)<table class="tally">.*?</table>`)
	headCells   = regexp.MustCompile(`<th scope="col">(.*?)</th>`)
	bodyRows    = regexp.MustCompile(`(?s)<tr[^>]*><td class="sign">(.*?)</td>.*?<th scope="row"><span class="name">(.*?)</span>(.*?)</tr>`)
)

// readSheet reads the columns and rows in the order in which they stand.
func readSheet(t *testing.T, page string) (columns []string, rows []printedRow) {
	t.Helper()
	for _, table := range tallyTables.FindAllString(page, -1) {
		columns = nil
		for _, h := range headCells.FindAllStringSubmatch(table, -1) {
			if label, ok := strings.CutPrefix(h[1], "Sample "); ok {
				columns = append(columns, label)
			} else if h[1] == "Count" {
				columns = append(columns, "1")
			}
		}
		for _, m := range bodyRows.FindAllStringSubmatch(table, -1) {
			rows = append(rows, printedRow{
				html.UnescapeString(m[1]), html.UnescapeString(m[2]), strings.Contains(m[3], "which?"),
				strings.Count(m[3], `class="count"`)})
		}
	}
	if len(columns) == 0 || len(rows) == 0 {
		t.Fatal("the sheet has no table of animals")
	}
	return columns, rows
}

func protocolsHere(t *testing.T) (*taxa.Catalog, *scoring.Rules) {
	t.Helper()
	return protocolsIn(t, nil)
}

// protocolsIn is the catalog as a region has it, and its rules.
func protocolsIn(t *testing.T, r *taxa.Region) (*taxa.Catalog, *scoring.Rules) {
	t.Helper()
	if kept, ok := rulesRead.Load(r); ok {
		rules := kept.(ruled)
		return rules.catalog, rules.Rules
	}
	catalog := keytest.Catalog(t).InRegion(r)
	rules, err := scoring.EmbeddedRules(catalog)
	if err != nil {
		t.Fatal(err)
	}
	rulesRead.Store(r, ruled{catalog, rules})
	return catalog, rules
}

type ruled struct {
	catalog *taxa.Catalog
	*scoring.Rules
}

// rulesRead are the built-in rules, by the region they were read for.
var rulesRead sync.Map

// whereFollowed is the catalog and the rules of the region that follows a protocol.
func whereFollowed(t *testing.T, protocol string) (*taxa.Catalog, *scoring.Rules) {
	t.Helper()
	catalog, _ := protocolsHere(t)
	return protocolsIn(t, taxa.OnlyRegion(catalog.Regions(), protocol))
}

func TestTheSheetHasEveryRowOnceAndInOrder(t *testing.T) {
	_, rules := protocolsHere(t)
	for _, p := range rules.Protocols() {
		page := does(t, "", "print", "sheet", "--protocol", p.ID)
		columns, printed := readSheet(t, page)
		wanted := 0
		for _, n := range p.Needs {
			wanted += n.Samples
		}
		if len(columns) != wanted || strings.Count(page, "☐") != wanted {
			t.Errorf("%s: %d samples have boxes and %d a line, of %d", p.ID, len(columns), strings.Count(page, "☐"), wanted)
		}
		_, there := whereFollowed(t, p.ID)
		rows := there.SheetRows(p)
		for i, row := range rows {
			got := printed[i]
			if got.sign != fmt.Sprint(row.Number) || !strings.HasPrefix(row.Kind.Label, got.name) || got.boxes != wanted {
				t.Errorf("%s: row %d is %+v, not %q with %d boxes", p.ID, i+1, got, row.Kind.Label, wanted)
			}
		}
		rest := printed[len(rows):]
		if last := rest[len(rest)-1]; last.sign != "?" || len(rest) < 2 {
			t.Errorf("%s: no rows for what has no row of its own: %+v", p.ID, rest)
		}
	}
}

// A sheet is filled in, and typed in by somebody who reads it box by box, down
// the columns, and never types the number or name of a printed row. Had 'visit
// enter' another order, counts would land on other animals.
func TestAFilledSheetTypedInGivesWhatWasWritten(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	_, all := protocolsHere(t)
	for _, p := range all.Protocols() {
		t.Run(p.ID, func(t *testing.T) {
			catalog, rules := whereFollowed(t, p.ID)
			file := filepath.Join(t.TempDir(), "sheet.visit.toml")
			does(t, "", "visit", "begin", "--visit", file, "--site", "Alder Run", "--date", "2026-05-16", "--protocol", p.ID,
				"--cautions-read")
			columns, rows := readSheet(t, does(t, "", "print", "sheet", "--visit", file))
			for _, label := range columns {
				does(t, "", "visit", "sample", "--visit", file, "--label", label, "--habitat", "riffle", "--area", "0.37")
			}
			typed, written := fillIn(catalog, rules, p, columns, rows)
			does(t, strings.Join(typed, "\n")+"\n", "visit", "enter", "--visit", file)
			v, err := visit.Read(file)
			if err != nil {
				t.Fatal(err)
			}
			held := heldBy(rules, p, v)
			if !slices.Equal(held, written) {
				t.Errorf("the file holds\n%s\nnot what was written:\n%s\ntyped: %q", strings.Join(held, "\n"),
					strings.Join(written, "\n"), typed)
			}
		})
	}
}

// fillIn is what somebody writes into the boxes, as it is typed and as it must
// then be found in the file: sample, kind or note, count, cell.
func fillIn(catalog *taxa.Catalog, rules *scoring.Rules, p *scheme.Protocol, columns []string,
	rows []printedRow) (typed, written []string) {
	kinds := rules.SheetRows(p)
	for c, label := range columns {
		row := 0
		for _, r := range rows {
			if r.sign == "" || r.sign == "?" {
				continue
			}
			kind := kinds[slices.IndexFunc(kinds, func(k scoring.SheetRow) bool { return fmt.Sprint(k.Number) == r.sign })].Kind
			row++
			n := (row*5 + c*3) % 4
			if n == 0 {
				typed = append(typed, "") // an empty box
				continue
			}
			typed = append(typed, fmt.Sprint(n))
			if len(kind.Taxa) == 0 {
				written = append(written, fmt.Sprintf("%s note %s %d ", label, "typed in from paper as "+kind.Label, n))
				continue
			}
			written = append(written, fmt.Sprintf("%s kind %s %d ", label, kind.ID, n))
		}
		typed = append(typed, "salamander 2", "") // a row "other"
		written = append(written, label+" taxon salamander 2 ")
	}
	last := columns[len(columns)-1]
	sample := ""
	if len(columns) > 1 {
		sample = last + " "
	}
	typed = append(typed, "4 "+sample+"1 B2", "? "+sample+"3 V7", "")
	written = append(written, fmt.Sprintf("%s note typed in from paper, to be looked at again: %s 1 B2", last,
		kinds[3].Kind.Label), last+" note typed in from paper, to be looked at again 3 V7")
	slices.Sort(written)
	return typed, written
}

func heldBy(rules *scoring.Rules, p *scheme.Protocol, v *visit.Visit) (held []string) {
	s := rules.Scheme(p.Schemes[0])
	for _, r := range rules.Account(v).Rows(s.Counting()) {
		what := "taxon " + r.Taxon
		switch {
		case r.Undecided:
			what = "note " + r.Note
		case r.Why == "":
			what = "kind " + s.Kinds[r.Kind].ID
		}
		held = append(held, fmt.Sprintf("%s %s %d %s", r.Sample, what, r.Count, r.Cell))
	}
	slices.Sort(held)
	return held
}

func TestTextOfAVisitStaysTextOnTheSheet(t *testing.T) {
	file := filepath.Join(t.TempDir(), "v.visit.toml")
	const nasty = `"><script>alert(1)</script>` + "<b>Größe 川"
	does(t, "", "visit", "begin", "--visit", file, "--site", nasty+strings.Repeat(" very long", 40), "--date", "2026-05-16",
		"--people", nasty, "--protocol", "riffle-three", "--cautions-read", "--at", "44.5,-72.5", "--within", "30")
	does(t, "", "visit", "sample", "--visit", file, "--label", "north", "--habitat", "pool", "--effort", nasty, "--who",
		nasty, "--fraction", "1/4")
	page := does(t, "", "print", "sheet", "--visit", file)
	if strings.Contains(page, "<script") || strings.Contains(page, "<b>") {
		t.Error("markup reaches the page")
	}
	for _, want := range []string{"Größe 川", "44.50000, -72.50000, within 30 m", "2026-05-16", ">north<", "0.25 of it"} {
		if !strings.Contains(page, want) {
			t.Errorf("%q is not on the sheet", want)
		}
	}
	if columns, _ := readSheet(t, page); !slices.Equal(columns, []string{"north", "1", "2", "3"}) {
		t.Errorf("the pool does not stand beside the three riffles asked for: %q", columns)
	}
}

func TestTheSheetCanBeReadByEverybody(t *testing.T) {
	page := does(t, "", "print", "sheet")
	seen := map[string]bool{}
	for _, m := range regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(page, -1) {
		if seen[m[1]] {
			t.Errorf("the id %q stands twice", m[1])
		}
		seen[m[1]] = true
	}
	for _, tc := range []struct {
		what string
		ok   bool
	}{
		{"every head of a table says what it is the head of",
			!regexp.MustCompile(`<th[ >][^>]*>`).MatchString(regexp.MustCompile(`<th scope="(col|row)">`).ReplaceAllString(page, ""))},
		{"each drawing has a name", strings.Count(page, "<svg ") == strings.Count(page, "<title>")-1},
		{"tables can be reached with the keyboard", strings.Count(page, "<table") == strings.Count(page, `tabindex="0"`)},
		{"no heading is passed over", strings.Contains(page, "<h2") && !strings.Contains(page, "<h4")},
	} {
		if !tc.ok {
			t.Errorf("not so: %s", tc.what)
		}
	}
}

func TestAProtocolThatIsNotThereIsRefusedWithThoseThatAre(t *testing.T) {
	w, out := offline("")
	if status := run([]string{"print", "sheet", "--protocol", "nosuch"}, w); status != statusMisused ||
		!strings.Contains(out.String(), "riffle-three") {
		t.Errorf("status %d: %s", status, out)
	}
	if _, err := os.Stat("nosuch"); err == nil {
		t.Error("a file was made")
	}
}
