package paper

import (
	"fmt"
	"html/template"
	"strconv"
	"strings"

	"rillkey/cmd/rillkey/figure"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// line is one row of the tables of animals.
type line struct {
	Sign       string // what is typed for it; empty for an animal that is written in
	Name       string
	Scientific string
	Group      string
	Which      bool // a closer name is to be written beside it
	turn       bool // another class begins
	Drawing    template.HTML
}

// Class is the class of the row.
func (l line) Class() string {
	var all []string
	if l.turn {
		all = append(all, "turn")
	}
	if l.Which {
		all = append(all, "open")
	}
	return strings.Join(all, " ")
}

// lines are the rows in the order of typing in: the kinds, animals written in,
// animals without any name.
func (f *fieldSheet) lines() (out []line) {
	ordered := f.ordered()
	for i, l := range f.Lines {
		name, scientific := f.names(l)
		out = append(out, line{
			Sign: strconv.Itoa(l.Number), Name: name, Scientific: scientific, Group: l.Group.Label,
			Which: l.Which, turn: ordered && i > 0 && l.Group.ID != f.Lines[i-1].Group.ID, Drawing: f.drawing(l),
		})
	}
	for i := range f.other() {
		out = append(out, line{Name: wording.Text("other:"), turn: i == 0})
	}
	for range withoutNames {
		out = append(out, line{Sign: "?", Name: wording.Text("no name: set aside"), turn: true})
	}
	return out
}

// ordered reports whether each class stands together, so that a heavy line
// between two of them means something.
func (f *fieldSheet) ordered() bool {
	seen := map[string]bool{}
	for i, l := range f.Lines {
		if i > 0 && l.Group.ID != f.Lines[i-1].Group.ID && seen[l.Group.ID] {
			return false
		}
		seen[l.Group.ID] = true
	}
	return true
}

// names parts the name on a row from the scientific one, which families carry in
// brackets already.
func (f *fieldSheet) names(l sheetLine) (name, scientific string) {
	var all []string
	for _, id := range l.Kind.Taxa {
		if t := f.Catalog.Taxon(id); t != nil {
			all = append(all, t.Scientific)
		}
	}
	scientific = strings.Join(all, ", ")
	name = l.Kind.Label
	for _, s := range all {
		plain, _, _ := strings.Cut(s, " (")
		name = strings.TrimSuffix(name, " ("+plain+")")
		if strings.Contains(name, s) {
			scientific = ""
		}
	}
	return name, scientific
}

// sketch is the size of the drawing beside a name.
var sketch = figure.Size{Width: 24, Height: 12}

func (f *fieldSheet) drawing(l sheetLine) template.HTML {
	if f.dual {
		return "" // families of one order look alike at this size
	}
	ids := l.Kind.Taxa
	if l.Taxon != "" {
		ids = []string{l.Taxon}
	}
	if len(ids) == 0 || f.Catalog.Taxon(ids[0]) == nil {
		return ""
	}
	drawn := f.atlas.Taxon(f.Catalog.Taxon(ids[0]))
	drawn.Length = taxa.Range{} // no bar: at this size it would not be life size
	return template.HTML(drawn.SVG(sketch))
}

// animals writes the lines, in one table or in two side by side.
func (f *fieldSheet) animals(lines []line, continued bool) {
	words := wording.Text("Animals")
	if continued {
		words = wording.Text("Animals, continued")
	}
	f.Section(words)
	if !f.dual {
		f.tallyTable(wording.Sprintf("%s by sample", words), lines)
		f.End()
		return
	}
	half := (len(lines) + 1) / 2
	f.Begin("div", "two")
	f.tallyTable(wording.Sprintf("%s, left", words), lines[:half])
	f.tallyTable(wording.Sprintf("%s, right", words), lines[half:])
	f.End()
	f.End()
}

// widths are those of the columns of a table in millimetres: number, drawing
// (none where two tables stand side by side), name, each sample, look again.
func (f *fieldSheet) widths() (all []float64) {
	n := float64(len(f.columns))
	whole, sample, again := 190.0, min(40, 91/n), 30.0
	all = []float64{8, 15}
	if f.dual {
		whole, sample, again = 93, 22/n*(1+0.25*(n-1)), 20
		all = []float64{7}
	}
	name := whole - n*sample - again
	for _, w := range all {
		name -= w
	}
	all = append(all, name)
	for range f.columns {
		all = append(all, sample)
	}
	return append(all, again)
}

func (f *fieldSheet) tallyTable(caption string, lines []line) {
	var widths []string
	for _, w := range f.widths() {
		widths = append(widths, fmt.Sprintf("%.1f", w))
	}
	f.put("tally", struct {
		Caption       string
		Widths, Heads []string
		Lines         []line
		Dual          bool
		Samples       []column
		Rest          int // columns behind the name
	}{caption, widths, f.heads(), lines, f.dual, f.columns, len(f.columns) + 1})
}

// heads are the words at the top of the columns.
func (f *fieldSheet) heads() []string {
	heads := []string{wording.Text("Row"), wording.Text("Looks like"), wording.Text("Name")}
	if f.dual {
		heads = []string{wording.Text("Row"), wording.Text("Name")}
	}
	for _, c := range f.columns {
		word := wording.Sprintf("Sample %s", c.Label)
		if f.all == 1 {
			word = wording.Text("Count")
		}
		heads = append(heads, word)
	}
	again := wording.Text("Look again: sample, how many, cell")
	if f.all == 1 {
		again = wording.Text("Look again: how many, cell")
	}
	return append(heads, again)
}
