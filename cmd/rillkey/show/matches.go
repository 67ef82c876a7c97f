package show

import (
	"io"
	"strings"

	"rillkey/scoring"
	"rillkey/taxa"
)

// Match is a taxon found by a name.
type Match struct {
	Taxon      string     `json:"taxon"`
	Matched    string     `json:"matched"`
	Exact      bool       `json:"exact"`
	Rank       string     `json:"rank"`
	Scientific string     `json:"scientific"`
	Common     []string   `json:"common"`
	Synonyms   []string   `json:"synonyms"`
	Class      string     `json:"class"`
	Schemes    []Standing `json:"schemes"` // what each scheme makes of it
	Lineage    string     `json:"lineage"`
	Mature     [2]float64 `json:"mature_mm"` // zeros when unknown
	Source     string     `json:"source"`
}

// Standing is what one scheme makes of a taxon, and the same in words.
type Standing struct {
	scoring.Standing
	Words string `json:"words"`
}

// Standings tells what each scheme makes of a taxon.
type Standings func(taxon string) []scoring.Standing

// NewMatches describes what a name has found, best first.
func NewMatches(catalog *taxa.Catalog, standings Standings, found []taxa.Match) []Match {
	out := []Match{}
	for _, m := range found {
		t := m.Taxon
		out = append(out, Match{
			Taxon: t.ID, Matched: m.Name, Exact: m.Exact, Rank: t.Rank, Scientific: t.Scientific,
			Common: append([]string{}, t.Common...), Synonyms: append([]string{}, t.Synonyms...),
			Class: ClassWord(t.Class), Schemes: inWords(standings(t.ID)), Lineage: catalog.Lineage(t.ID),
			Mature: [2]float64{t.Length.Min, t.Length.Max}, Source: t.Source,
		})
	}
	return out
}

func inWords(standings []scoring.Standing) []Standing {
	out := []Standing{}
	for _, s := range standings {
		out = append(out, Standing{s, s.String()})
	}
	return out
}

// Matches writes the best match whole and the names of the others.
func Matches(w io.Writer, width int, catalog *taxa.Catalog, standings Standings, found []taxa.Match) error {
	p := newPage(w, width)
	best := found[0]
	if !best.Exact {
		p.text(0, 0, "Nothing is called exactly that; nearest is %q.", best.Name)
	}
	card(p, catalog, best.Taxon)
	ranked(p, standings(best.Taxon.ID))
	for i, m := range found[1:] {
		if i == 0 {
			p.line("")
			p.text(0, 2, "Others with a name like it:")
		}
		p.text(2, 4, "%s: %s", Named(m.Taxon), ClassWord(m.Taxon.Class))
	}
	return p.err
}

// card writes all that is known of a taxon for people.
func card(p *page, catalog *taxa.Catalog, t *taxa.Taxon) {
	p.text(0, 0, "%s", heading(t))
	if len(t.Common) > 1 {
		p.item("Also called", "%s", strings.Join(t.Common[1:], ", "))
	}
	if len(t.Synonyms) > 0 {
		p.item("Older names", "%s", strings.Join(t.Synonyms, ", "))
	}
	p.item("Belongs to", "%s", catalog.Lineage(t.ID))
	p.item("Class", "%s", ClassWord(t.Class))
	if t.Length.Known() {
		p.item("Size", "grown ones are %s", LengthRange(t.Length))
	}
	for _, row := range []struct{ label, text string }{{"Lives", t.Habitat}, {"Moves", t.Habit}, {"Feeds", t.Feeding}, {"Take care", t.Handling}} {
		if row.text != "" {
			p.item(row.label, "%s", row.text)
		}
	}
	for _, m := range t.Mistaken {
		p.item("Taken for", "%s: %s", Named(catalog.Taxon(m.Taxon)), m.Tell)
	}
	p.item("Shows", "%s", features(catalog, t))
	p.item("Source", "%s", t.Source)
}

// ranked writes what each scheme makes of a taxon: programmes differ.
func ranked(p *page, standings []scoring.Standing) {
	label := "In grades"
	for _, s := range standings {
		p.item(label, "%s: %s", s.Title, s)
		label = ""
	}
}

// features are what the naked eye sees of a taxon, leaving out what it lacks.
func features(catalog *taxa.Catalog, t *taxa.Taxon) string {
	var out []string
	for _, trait := range catalog.Vocabulary().Traits() {
		if t.States(trait.ID) != nil && trait.Look == taxa.Eye && notable(trait, t) {
			out = append(out, labels(trait, t))
		}
	}
	return orElse(strings.Join(out, "; "), "nothing is stated")
}

// notable leaves out what an animal does not have.
func notable(trait *taxa.Trait, t *taxa.Taxon) bool {
	for _, w := range t.States(trait.ID) {
		if w.State != "none" && w.State != "no" {
			return true
		}
	}
	return false
}
