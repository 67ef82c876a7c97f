package show

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"rillkey/scoring/scheme"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// MatchJSON is a taxon found by a name.
type MatchJSON struct {
	Taxon      string         `json:"taxon"`
	Matched    string         `json:"matched"`
	Exact      bool           `json:"exact"`
	Rank       string         `json:"rank"`
	Scientific string         `json:"scientific"`
	Common     []string       `json:"common"`
	Synonyms   []string       `json:"synonyms"`
	Class      string         `json:"class"`
	Schemes    []StandingJSON `json:"schemes"` // what each scheme makes of it
	Lineage    string         `json:"lineage"`
	Mature     [2]float64     `json:"mature_mm"` // zeros when unknown
	Source     string         `json:"source"`
}

// StandingJSON is what one scheme makes of a taxon, and the same in words.
type StandingJSON struct {
	scheme.Standing
	Words string `json:"words"`
}

// Standings tells what each scheme makes of a taxon.
type Standings func(taxon string) []scheme.Standing

// NewMatches describes what a name has found: the taxon that is meant, if one is,
// then those with a name like it, the nearest first.
func NewMatches(catalog *taxa.Catalog, standings Standings, found taxa.Lookup) []MatchJSON {
	all := found.Similar
	if found.Taxon != nil {
		all = append([]taxa.Match{found.Match}, all...)
	}
	out := []MatchJSON{}
	for _, m := range all {
		t := m.Taxon
		out = append(out, MatchJSON{
			Taxon: t.ID, Matched: m.Name, Exact: m.Exact, Rank: t.Rank, Scientific: t.Scientific,
			Common: append([]string{}, t.Common...), Synonyms: append([]string{}, t.Synonyms...),
			Class: ClassWord(t.Class), Schemes: inWords(standings(t.ID)), Lineage: catalog.Lineage(t.ID),
			Mature: [2]float64{t.Length.Min, t.Length.Max}, Source: t.Source,
		})
	}
	return out
}

func inWords(standings []scheme.Standing) []StandingJSON {
	out := []StandingJSON{}
	for _, s := range standings {
		out = append(out, StandingJSON{s, s.String()})
	}
	return out
}

// Matches writes the taxon that is meant whole, and the names of those with a name
// like it.
func Matches(w io.Writer, width int, catalog *taxa.Catalog, standings Standings, found taxa.Lookup) error {
	p := newPage(w, width)
	if !found.Exact {
		p.text(0, 0, "Nothing is called exactly that; nearest is %q.", found.Name)
	}
	card(p, catalog, found.Taxon)
	ranked(p, standings(found.Taxon.ID))
	if len(found.Similar) > 0 {
		p.line("")
		p.text(0, 2, "Others with a name like it:")
		listed(p, found.Similar)
	}
	return p.err
}

// LookAlikes writes what a name may mean that means none of them plainly.
func LookAlikes(w io.Writer, width int, name string, found taxa.Lookup) error {
	p := newPage(w, width)
	if found.Similar[0].Exact {
		p.text(0, 2, "%q is the name of several:", plain.Printable(name))
	} else {
		p.text(0, 2, "Nothing here is called %q. Perhaps one of these is meant:", plain.Printable(name))
	}
	listed(p, found.Similar)
	return p.err
}

func listed(p *page, matches []taxa.Match) {
	for _, m := range matches {
		p.text(2, 4, "%s: %s", BothNames(m.Taxon), ClassWord(m.Taxon.Class))
	}
}

// card writes all that is known of a taxon for people.
func card(p *page, catalog *taxa.Catalog, t *taxa.Taxon) {
	p.text(0, 0, "%s", heading(t))
	if others := append(t.Common[min(1, len(t.Common)):len(t.Common):len(t.Common)], t.Also...); len(others) > 0 {
		p.item("Also called", "%s", strings.Join(others, ", "))
	}
	var regional []string
	for _, r := range catalog.Regions() {
		if names := r.Names(t.ID); len(names) > 0 {
			regional = append(regional, fmt.Sprintf("%s (%s)", strings.Join(names, ", "), r.ID))
		}
	}
	if len(regional) > 0 {
		p.item("Regions", "%s", strings.Join(regional, "; "))
	}
	if len(t.Synonyms) > 0 {
		p.item("Older names", "%s", strings.Join(t.Synonyms, ", "))
	}
	p.item("Belongs to", "%s", catalog.Lineage(t.ID))
	p.item("Tolerance", "%s", ClassWord(t.Class))
	for _, text := range concerns(t) {
		p.item(text.Label, "%s", text.Text)
	}
	if t.Length.Known() {
		p.item("Size", "grown ones are %s", LengthRange(t.Length))
	}
	for _, row := range []struct{ label, text string }{{wording.Text("Lives"), t.Habitat}, {wording.Text("Moves"), t.Habit},
		{wording.Text("Feeds"), t.Feeding},
		{wording.Text("Take care"), t.Handling}} {
		if row.text != "" {
			p.item(row.label, "%s", row.text)
		}
	}
	for _, m := range t.Mistaken {
		p.item("Look-alike", "%s: %s", BothNames(catalog.Taxon(m.Taxon)), m.Tell)
	}
	p.item("Shows", "%s", features(catalog, t))
	p.item("Source", "%s", t.Source)
}

// ranked writes what each scheme makes of a taxon: programmes differ.
func ranked(p *page, standings []scheme.Standing) {
	label := wording.Text("In grades")
	for _, s := range standings {
		p.item(label, "%s: %s", s.Title, s)
		label = ""
	}
}

// features are what the naked eye sees of a taxon, leaving out what it lacks.
func features(catalog *taxa.Catalog, t *taxa.Taxon) string {
	var out []string
	for _, trait := range catalog.Vocabulary().Asked() {
		if t.States(trait.ID) != nil && trait.Look == taxa.Eye && notable(trait, t) {
			out = append(out, labels(trait, t))
		}
	}
	return cmp.Or(strings.Join(out, "; "), wording.Text("nothing is stated"))
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
