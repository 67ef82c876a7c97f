//go:build !js

package show

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"rillkey/key/trial"
	"rillkey/key/trial/described"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// DescribedJSON is a trial of described animals.
type DescribedJSON struct {
	Keys    []string       `json:"keys"`
	Order   string         `json:"order"`
	Rows    []DescribedRow `json:"rows"`
	Animals []trial.Told   `json:"animals"`

	catalog *taxa.Catalog
}

// DescribedRow is a kind of account, or all true ones, by the half of the ids.
type DescribedRow struct {
	Kind string       `json:"kind"`
	All  trial.Totals `json:"all"`
	Odd  trial.Totals `json:"odd"`
	Even trial.Totals `json:"even"`
}

// NewDescribedAnimals describes what came of a trial of described animals.
func NewDescribedAnimals(all []trial.Told, keys []string, order string, catalog *taxa.Catalog) *DescribedJSON {
	w := &DescribedJSON{Keys: keys, Order: order, Animals: all, catalog: catalog}
	for _, kind := range described.AccountKinds {
		w.add(string(kind), func(t *trial.Told) bool { return t.Kind == kind })
	}
	w.add(wording.Text("all true"), func(t *trial.Told) bool {
		return t.Kind != described.OutsideAccount && t.Kind != described.MisreadAccount
	})
	return w
}

func (w *DescribedJSON) add(name string, of func(*trial.Told) bool) {
	all := trial.Sum(w.Animals, of)
	if all.Animals == 0 {
		return
	}
	w.Rows = append(w.Rows, DescribedRow{
		Kind: name, All: all,
		Odd:  trial.Sum(w.Animals, func(t *trial.Told) bool { return of(t) && t.Odd }),
		Even: trial.Sum(w.Animals, func(t *trial.Told) bool { return of(t) && !t.Odd }),
	})
}

// Text writes the trial for a person.
func (w *DescribedJSON) Text(out io.Writer, width int) error {
	p := newPage(out, width)
	p.text(0, 2, "%s in words, by %s; order: %s. A reader says the two most striking things, then answers what the words tell.",
		plain.Count(len(w.Animals), "animal"), strings.Join(w.Keys, wording.Text(" and ")), w.Order)
	for _, half := range []struct {
		name   string
		totals func(DescribedRow) trial.Totals
	}{
		{"All", func(r DescribedRow) trial.Totals { return r.All }},
		{wording.Text("Odd ids"), func(r DescribedRow) trial.Totals { return r.Odd }},
		{wording.Text("Even ids"), func(r DescribedRow) trial.Totals { return r.Even }},
	} {
		p.line("")
		w.half(p, half.name, half.totals)
	}
	w.failures(p)
	return p.err
}

// told is a column of the table.
type told struct {
	short, long string
	cell        func(trial.Totals) string
}

func count(of func(trial.Totals) int) func(trial.Totals) string {
	return func(t trial.Totals) string { return fmt.Sprint(of(t)) }
}

func mean(of func(trial.Totals) float64) func(trial.Totals) string {
	return func(t trial.Totals) string { return fmt.Sprintf("%.1f", of(t)) }
}

// toldColumns are the columns; the class counts where the animal has one.
var toldColumns = []told{
	{"n", "animals", count(func(t trial.Totals) int { return t.Animals })},
	{"narrow", wording.Mark("right, as narrow as the words allow"), count(func(t trial.Totals) int { return t.Narrow })},
	{"exact", wording.Mark("of these the very kind"), count(func(t trial.Totals) int { return t.Exact })},
	{"broad", wording.Mark("right, but broader"), count(func(t trial.Totals) int { return t.Broader })},
	{"wrong", wording.Mark("named wrongly"), count(func(t trial.Totals) int { return t.Wrong })},
	{"none", wording.Mark("no name"), count(func(t trial.Totals) int { return t.None })},
	{"class", wording.Mark("class right"), func(t trial.Totals) string { return fmt.Sprintf("%d/%d", t.ClassRight, t.Classed) }},
	{"amiss", wording.Mark("class wrong"), count(func(t trial.Totals) int { return t.ClassWrong })},
	{"aside", wording.Mark("neither name nor class"), count(func(t trial.Totals) int { return t.Aside })},
	{"asked", wording.Mark("questions, mean"), mean(func(t trial.Totals) float64 { return t.Questions })},
	{"open", wording.Mark("of these can't tell, mean"), mean(func(t trial.Totals) float64 { return t.CantTells })},
	{"list", wording.Mark("lists of marks offered beside them, mean"), mean(func(t trial.Totals) float64 { return t.Lists })},
	{"blame", wording.Mark("a true answer called misread"), count(func(t trial.Totals) int { return t.Accused })},
}

func (w *DescribedJSON) half(p *page, name string, of func(DescribedRow) trial.Totals) {
	if p.width < narrow {
		w.list(p, name, of)
		return
	}
	line := fmt.Sprintf("%-8s", name)
	for _, c := range toldColumns {
		line += fmt.Sprintf(" %*s", len(c.short), c.short)
	}
	p.line(line)
	for _, r := range w.Rows {
		t := of(r)
		if t.Animals == 0 {
			continue
		}
		line := fmt.Sprintf("%-8s", r.Kind)
		for _, c := range toldColumns {
			line += fmt.Sprintf(" %*s", len(c.short), c.cell(t))
		}
		p.line(line)
	}
	w.leaning(p, of)
}

// leaning says in how many animals the likely class is right, where none is sure.
func (w *DescribedJSON) leaning(p *page, of func(DescribedRow) trial.Totals) {
	for _, r := range w.Rows {
		if t := of(r); r.Kind == wording.Text("all true") {
			p.text(0, 2, "All true, where no class is sure and one is called likely: %d right, %d wrong.", t.LeansRight-t.ClassRight,
				t.LeansWrong)
		}
	}
}

// list is the table one kind after the other, for narrow pages.
func (w *DescribedJSON) list(p *page, name string, of func(DescribedRow) trial.Totals) {
	for _, r := range w.Rows {
		t := of(r)
		if t.Animals == 0 {
			continue
		}
		p.text(0, 2, "%s, %s:", name, r.Kind)
		for _, c := range toldColumns {
			p.text(2, 4, "%s: %s", c.long, c.cell(t))
		}
	}
	w.leaning(p, of)
}

// failures lists what was not right, or was given a wrong class.
func (w *DescribedJSON) failures(p *page) {
	failed := slices.DeleteFunc(slices.Clone(w.Animals), func(t trial.Told) bool {
		return t.Naming == trial.Narrow && !t.ClassWrong() || t.Naming == trial.NoName && len(t.Taxa) == 0 && t.Class == ""
	})
	if len(failed) == 0 {
		return
	}
	p.line("")
	p.text(0, 2, "Not as narrow as the words allow, or of a wrong class:")
	for _, t := range failed {
		p.text(2, 4, "%s, %s, %s: %s", t.ID, t.Kind, w.names(t.Taxa), w.outcome(&t))
	}
}

func (w *DescribedJSON) outcome(t *trial.Told) string {
	out := wording.Text("no name")
	if len(t.Named) > 0 {
		out = wording.Sprintf("named %s", w.names(t.Named))
	}
	if t.Class != "" {
		out += ", " + ClassWord(t.Class)
	}
	if t.Leaning != "" {
		out += wording.Sprintf(", likely %s", ClassWord(t.Leaning))
	}
	return fmt.Sprintf("%s (%s %.2f; %s)", out, w.names([]string{t.Likeliest}), notRoundedUp(t.Probability),
		plain.Count(t.Questions, "question"))
}

func (w *DescribedJSON) names(ids []string) string {
	if len(ids) == 0 {
		return wording.Text("nothing in the catalog")
	}
	var out []string
	for _, id := range ids {
		name := id
		if t := w.catalog.Taxon(id); t != nil {
			name = t.Name()
		}
		out = append(out, name)
	}
	return strings.Join(out, wording.Text(" or "))
}
