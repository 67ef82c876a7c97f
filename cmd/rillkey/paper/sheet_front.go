package paper

import (
	"fmt"
	"slices"
	"strings"

	"rillkey/scoring"
	"rillkey/scoring/scheme"
	"rillkey/taxa/wording"
)

// safety is the cautions, each with a box to tick.
func (f *fieldSheet) safety() {
	f.Section(wording.Text("Before anyone steps into the water: read aloud to all, tick each"))
	f.List("ticks", f.Cautions)
	f.End()
}

// box is a labelled place to write in, or words to ring.
type box struct {
	Label, value string
	Rings        []string
	Parts        bool // a figure is written beside each of the words
	Wide         int  // columns of twelve
}

// Value is what is known already, cut to the room there is.
func (b box) Value() string { return fits(b.value, 20*b.Wide) }

// ValueClass says whether the value needs two lines of small letters.
func (b box) ValueClass() string {
	if fits(b.value, 8*b.Wide) != b.value {
		return "value long"
	}
	return "value"
}

// visitBoxes are in the order in which 'visit begin' asks, then in that of 'visit
// conditions'.
func (f *fieldSheet) visitBoxes() {
	var site, day, people, place string
	if f.Visit != nil {
		h := f.Visit.Header
		site, day, people = h.Site, h.Date, strings.Join(h.People, ", ")
		if s := h.Spot; s != nil && !f.Visit.Obscured() {
			place = fmt.Sprintf("%.5f, %.5f", s.Latitude, s.Longitude)
			if s.Uncertainty > 0 {
				place += wording.Sprintf(", within %.0f m", s.Uncertainty)
			}
		}
	}
	f.Section(wording.Text("The visit"))
	f.Begin("div", "boxes")
	for _, b := range []box{
		{Label: wording.Text("Site and stream"), value: site, Wide: 6},
		{Label: wording.Text("Day (year-month-day)"), value: day, Wide: 2},
		{Label: wording.Text("People"), value: people, Wide: 4},
	} {
		f.box(b)
	}
	for _, b := range conditionBoxes(place, f.noted()) {
		f.box(b)
	}
	f.End()
	f.End()
}

func (f *fieldSheet) box(b box) { f.put("box", b) }

// samples is the table of samples, in the order in which 'visit sample' asks.
func (f *fieldSheet) samples() {
	f.Section(wording.Sprintf("%s: a grade (%s) asks for %s", f.sampleWords(), f.Index, f.needWords()))
	head := []string{wording.Text("Sample"), wording.Text("Habitat"), wording.Text("Net × bed kicked, or area"),
		wording.Text("Cells sorted, of"), wording.Text("Minutes, mesh"), wording.Text("Who"), wording.Text("Done")}
	var rows [][]string
	for _, c := range f.columns {
		rows = append(rows, []string{c.Label, scheme.HabitatWords(c.Habitat), f.areaWords(c), fractionWords(c.Fraction), fits(c.Effort, 40),
			fits(c.who, 30), "☐"})
	}
	f.table("samples", wording.Text("One line for each sample"), head, rows)
	if f.free() {
		f.Text("note", wording.Sprintf("Habitats: %s.", strings.Join(f.Habitats, ", ")))
	}
	f.End()
}

func (f *fieldSheet) areaWords(c column) string {
	switch {
	case c.Area > 0:
		return f.Area(c.Area)
	case c.need > 0:
		return wording.Sprintf("at least %s:", f.Area(c.need))
	}
	return ""
}

func fractionWords(share float64) string {
	switch {
	case share == 0:
		return ""
	case share == 1:
		return wording.Text("all")
	}
	return wording.Sprintf("%.4g of it", share)
}

// needWords is what a grade asks for.
func (f *fieldSheet) needWords() string {
	var needs []string
	for _, n := range f.Protocol.Needs {
		needs = append(needs, scoring.MissingSamples{Habitat: n.Habitat, Samples: n.Samples}.String())
	}
	return strings.Join(needs, ", ")
}

// free reports whether the habitat of some sample is to be written in.
func (f *fieldSheet) free() bool {
	return slices.ContainsFunc(f.columns, func(c column) bool { return c.Habitat == "" })
}

func (f *fieldSheet) howTo() {
	f.Section(wording.Text("How to fill it in"))
	f.Begin("div", "how")
	f.put("tallies", nil)
	f.List("", []string{
		wording.Text("Pencil only: ink runs. Count by dots and lines or by bundles of five (common practice), and write the number " +
			"beside them: it is what counts. An empty box means none."),
		wording.Sprintf("Count only the cells that you sort.%s No row for it? One of the rows \"other\".", f.whichWords()),
		wording.Text("In doubt about a name? Do not count the animal. Put it in a numbered cell or vial, and write its place under " +
			"\"look again\". Without any name: in the row marked ?. " +
			"Living animals only: no empty shell or case, no shed skin, no eggs, no sponge."),
	})
	f.End()
	f.End()
}

// whichWords tells what "which?" on a row means, if there is such a row.
func (f *fieldSheet) whichWords() string {
	if !slices.ContainsFunc(f.Lines, func(l sheetLine) bool { return l.Which }) {
		return ""
	}
	return wording.Text(" A row with \"which?\" is too broad: write the closer name into it.")
}

// remarks is the space that is left on the front, and where to sign.
func (f *fieldSheet) remarks() {
	if f.firstColumn > 0 {
		return
	}
	f.Begin("div", "boxes sign")
	f.box(box{Label: wording.Text("Notes: what else was seen, protected animals put back"), Wide: 5})
	f.box(box{Label: wording.Text("Counted by"), Wide: 3})
	f.box(box{Label: wording.Text("Checked by, sign"), Wide: 2})
	f.box(box{Label: wording.Text("Typed in on"), Wide: 2})
	f.End()
	f.Text("note", wording.Text("To type it in: rillkey visit begin; visit sample, line by line; visit enter, column by column; "+
		"weather and water: visit conditions; notes: visit finish --note."))
}
