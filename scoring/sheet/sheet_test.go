package sheet_test

import (
	"fmt"
	"math/rand"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"rillkey/scoring"
	"rillkey/scoring/sheet"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

var noon = time.Date(2026, 5, 16, 12, 0, 0, 0, time.UTC)

// paper is a sheet for samples A and B of an invented visit, and its file.
type paper struct {
	*sheet.Sheet
	t       *testing.T
	path    string
	random  *rand.Rand
	catalog *taxa.Catalog
}

func blank(t *testing.T) *paper {
	t.Helper()
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	rules, err := scoring.EmbeddedRules(catalog)
	if err != nil {
		t.Fatal(err)
	}
	protocol, err := rules.Protocol("riffle-three")
	if err != nil {
		t.Fatal(err)
	}
	p := &paper{t: t, path: filepath.Join(t.TempDir(), "a.visit.toml"), random: rand.New(rand.NewSource(3)), catalog: catalog}
	if _, err := visit.Create(p.path, visit.Header{Site: "Otter Run", Date: "2026-05-16", Protocol: protocol.ID, Begun: noon},
		p.random); err != nil {
		t.Fatal(err)
	}
	p.append(visit.Sample{Label: "A", Habitat: "riffle"}, visit.Sample{Label: "B", Habitat: "riffle"})
	p.Sheet = sheet.New(catalog, rules, protocol, []string{"A", "B"}, p.read())
	return p
}

func (p *paper) append(bodies ...visit.Body) {
	p.t.Helper()
	for _, body := range bodies {
		if _, err := visit.Append(p.path, noon, "", body, p.random); err != nil {
			p.t.Fatal(err)
		}
	}
}

func (p *paper) read() *visit.Visit {
	p.t.Helper()
	v, err := visit.Read(p.path)
	if err != nil {
		p.t.Fatal(err)
	}
	return v
}

// enter appends what a count comes to.
func (p *paper) enter(bodies ...visit.Body) {
	p.t.Helper()
	p.append(bodies...)
	p.Read(p.read())
}

func (p *paper) count(at sheet.Position, n int) sheet.RowEntry {
	p.t.Helper()
	e, err := p.CountRow(at, n)
	if err != nil {
		p.t.Fatal(err)
	}
	p.enter(e.Bodies...)
	return e
}

func (p *paper) row(label string) int {
	i := slices.IndexFunc(p.Rows, func(r scoring.SheetRow) bool { return r.Kind.Label == label })
	if i < 0 {
		p.t.Fatalf("no row %q", label)
	}
	return i
}

// The next place is the first that nobody has gone through: an empty row is
// remembered, animals typed in out of turn skip none, and an animal identified on
// the screen answers no row.
func TestWhereASheetGoesOn(t *testing.T) {
	p := blank(t)
	for _, step := range []struct {
		why  string
		do   func() []visit.Body
		want sheet.Position
	}{
		{"a blank sheet", func() []visit.Body { return nil }, sheet.Position{}},
		{"the first row is empty", func() []visit.Body { return p.Pass(sheet.Position{}) }, sheet.Position{Row: 1}},
		{"a row has a count", func() []visit.Body { e, _ := p.CountRow(sheet.Position{Row: 1}, 4); return e.Bodies },
			sheet.Position{Row: 2}},
		{"out of turn", func() []visit.Body { e, _ := p.CountRow(sheet.Position{Row: 20}, 4); return e.Bodies }, sheet.Position{Row: 2}},
		{"identified on the screen", func() []visit.Body {
			return []visit.Body{visit.Identification{Sample: "A", Taxon: p.Rows[2].Taxon, Count: 1, Confidence: 0.9}}
		}, sheet.Position{Row: 2}},
		{"the rest is empty", func() []visit.Body { return p.PassRest(sheet.Position{Row: 2}) }, sheet.Position{Row: len(p.Rows)}},
		{"nothing below", func() []visit.Body { return p.Pass(sheet.Position{Row: len(p.Rows)}) }, sheet.Position{Column: 1}},
		{"the other column", func() []visit.Body { return p.PassRest(sheet.Position{Column: 1}) },
			sheet.Position{Column: 1, Row: len(p.Rows)}},
		{"nothing below it", func() []visit.Body { return p.Pass(sheet.Position{Column: 1, Row: len(p.Rows)}) }, sheet.Position{Column: 2}},
		{"said twice", func() []visit.Body { return append(p.Pass(sheet.Position{}), p.PassRest(sheet.Position{})...) },
			sheet.Position{Column: 2}},
	} {
		before := len(p.read().Events)
		p.enter(step.do()...)
		if got := p.Place(p.First()); got != step.want {
			t.Errorf("%s: goes on at %+v, want %+v", step.why, got, step.want)
		}
		if step.why == "said twice" && len(p.read().Events) != before {
			t.Error("what is known was entered once more")
		}
	}
	if !p.LookAgain(p.First()) || p.Open(0) != 0 || p.Filled(0) != 3 || p.Filled(1) != 0 || p.Animals(0) != 9 {
		t.Errorf("open %d, filled %d and %d, animals %d", p.Open(0), p.Filled(0), p.Filled(1), p.Animals(0))
	}
}

// Every row can be counted and then holds what was
// counted, can be corrected, and is empty again after 0.
func TestEveryRowIsCountedCorrectedAndTakenOut(t *testing.T) {
	p := blank(t)
	for i, row := range p.Rows {
		at := sheet.Position{Column: 1, Row: i}
		p.count(at, 5)
		if e := p.count(at, 3); p.Count(at) != 3 || !e.Correct || e.Was != 5 {
			t.Errorf("%s: holds %d after a correction to 3: %+v", row.Kind.Label, p.Count(at), e)
		}
		if e := p.count(at, 3); len(e.Bodies) != 0 {
			t.Errorf("%s: the same count once more is an entry: %+v", row.Kind.Label, e)
		}
		if p.count(at, 0); p.Count(at) != 0 || !p.Gone(at) {
			t.Errorf("%s: taken out it holds %d, gone through %v", row.Kind.Label, p.Count(at), p.Gone(at))
		}
	}
}

// A count typed for an animal that was identified on the screen stands for its row.
func TestACountReplacesOneFromTheScreen(t *testing.T) {
	p := blank(t)
	at := sheet.Position{Row: p.row("crayfish")}
	p.enter(visit.Identification{Sample: "A", Taxon: "cambaridae", Rank: "family", Count: 1, Confidence: 0.9})
	if p.Gone(at) {
		t.Fatal("gone through before anything was typed")
	}
	p.enter(p.CountTaxon(0, p.catalog.Taxon("cambaridae"), 4).Bodies...)
	if p.Count(at) != 4 || !p.Gone(at) {
		t.Errorf("holds %d, gone through %v", p.Count(at), p.Gone(at))
	}
	p.enter(visit.Identification{Sample: "A", Taxon: "cambaridae", Rank: "family", Count: 2, Confidence: 0.9})
	if _, err := p.CountRow(at, 9); err == nil || !strings.Contains(err.Error(), "several records") {
		t.Errorf("one count for two records: %v", err)
	}
}

// Animals of one cell are one lot; what they may be includes what that is taken
// for.
func TestLookAgain(t *testing.T) {
	p := blank(t)
	mayfly := p.row("mayfly")
	p.enter(p.SetAside(0, "B2", 2, sheet.Alternatives{Label: "mayfly", Taxa: p.Rows[mayfly].Kind.Taxa}).Bodies...)
	p.enter(p.SetAside(0, "b2", 3, sheet.Alternatives{}).Bodies...)
	p.enter(p.SetAside(1, "B2", 1, sheet.Alternatives{}).Bodies...)
	p.enter(p.SetAside(0, "", 1, sheet.Alternatives{}).Bodies...)
	var got []string
	for _, r := range p.read().Tally().Records {
		got = append(got, fmt.Sprint(r.Sample, " ", r.Cell, " ", r.Count, " ", r.Undecided))
	}
	if want := []string{"A B2 3 true", "B B2 1 true", "A  1 true"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if p.Gone(sheet.Position{Row: mayfly}) || p.Count(sheet.Position{Row: mayfly}) != 0 {
		t.Error("what waits for a second look is on a row")
	}
}
