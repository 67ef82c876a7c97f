package paper

import (
	"fmt"
	"html"
	"slices"
	"strings"

	"rillkey/scoring"
)

// safety is the cautions, each with a box to tick.
func (f *fieldSheet) safety() {
	f.Section("Before anyone steps into the water: read aloud to all, tick each")
	f.List("ticks", f.Cautions)
	f.End()
}

// box is a labelled place to write in, or words to ring.
type box struct {
	label, value string
	rings        []string
	wide         int // columns of six
}

// visitBoxes are in the order in which 'visit begin' asks, weather and water
// after them.
func (f *fieldSheet) visitBoxes() {
	var site, day, people, place string
	if f.Visit != nil {
		h := f.Visit.Header
		site, day, people = h.Site, h.Date, strings.Join(h.People, ", ")
		if s := h.Spot; s != nil && !s.Obscured {
			place = fmt.Sprintf("%.5f, %.5f", s.Latitude, s.Longitude)
			if s.Uncertainty > 0 {
				place += fmt.Sprintf(", within %.0f m", s.Uncertainty)
			}
		}
	}
	f.Section("The visit")
	f.Begin("div", "boxes")
	for _, b := range []box{
		{label: "Site and stream", value: site, wide: 6},
		{label: "Day (year-month-day)", value: day, wide: 2},
		{label: "Begun at", wide: 2},
		{label: "Ended at", wide: 2},
		{label: "People", value: people, wide: 7},
		{label: "Latitude, longitude, within how far", value: place, wide: 5},
		{label: "Sky, ring it", rings: []string{"clear", "part cloud", "overcast", "showers", "rain", "snow"}, wide: 6},
		{label: "Rain in the last two days", rings: []string{"none", "some", "heavy"}, wide: 3},
		{label: "Air temperature, °C or °F", wide: 3},
		{label: "Water level", rings: []string{"low", "normal", "high"}, wide: 3},
		{label: "Water looks", rings: []string{"clear", "cloudy", "muddy"}, wide: 3},
		{label: "Smell, foam, colour", wide: 3},
		{label: "Water temperature, °C or °F", wide: 3},
	} {
		f.box(b)
	}
	f.End()
	f.End()
}

func (f *fieldSheet) box(b box) {
	f.Raw(fmt.Sprintf(`<div class="box" style="grid-column: span %d"><span class="label">%s</span>`, b.wide, html.EscapeString(b.label)))
	if b.value != "" {
		class := "value"
		if fits(b.value, 8*b.wide) != b.value {
			class = "value long" // two lines of small letters
		}
		f.Raw(`<span class="` + class + `">` + html.EscapeString(fits(b.value, 20*b.wide)) + "</span>")
	}
	if len(b.rings) > 0 {
		f.Raw(`<span class="rings">`)
		for _, r := range b.rings {
			f.Raw("<span>" + html.EscapeString(r) + "</span> ")
		}
		f.Raw("</span>")
	}
	f.Raw("</div>\n")
}

// samples is the table of samples, in the order in which 'visit sample' asks.
func (f *fieldSheet) samples() {
	f.Section(f.sampleWords() + ": a grade (" + f.Index + ") asks for " + f.needWords())
	head := []string{"Sample", "Habitat", "Net × bed kicked, or area", "Cells sorted, of", "Minutes, mesh", "Who", "Done"}
	var rows [][]string
	for _, c := range f.columns {
		rows = append(rows, []string{c.Label, c.Habitat, f.areaWords(c), fractionWords(c.Fraction), fits(c.Effort, 40), fits(c.who, 30), "☐"})
	}
	f.Table("samples", "One line for each sample", head, rows)
	if f.free() {
		f.Text("note", "Habitats: "+strings.Join(f.Habitats, ", ")+".")
	}
	f.End()
}

func (f *fieldSheet) areaWords(c column) string {
	switch {
	case c.Area > 0:
		return f.Area(c.Area)
	case c.need > 0:
		return "at least " + f.Area(c.need) + ":"
	}
	return ""
}

func fractionWords(share float64) string {
	switch {
	case share == 0:
		return ""
	case share == 1:
		return "all"
	}
	return fmt.Sprintf("%.4g of it", share)
}

// needWords is what a grade asks for.
func (f *fieldSheet) needWords() string {
	var needs []string
	for _, n := range f.Protocol.Needs {
		needs = append(needs, scoring.Missing{Habitat: n.Habitat, Samples: n.Samples}.String())
	}
	return strings.Join(needs, ", ")
}

// free reports whether the habitat of some sample is to be written in.
func (f *fieldSheet) free() bool {
	return slices.ContainsFunc(f.columns, func(c column) bool { return c.Habitat == "" })
}

func (f *fieldSheet) howTo() {
	f.Section("How to fill it in")
	f.Begin("div", "how")
	f.Raw(tallies)
	f.List("", []string{
		"Pencil only: ink runs. Count by dots and lines or by bundles of five (common practice), and write the number beside them: it is what counts. An empty box means none.",
		"Count only the cells that you sort." + f.whichWords() + " No row for it? One of the rows \"other\".",
		"In doubt about a name? Do not count the animal. Put it in a numbered cell or vial, and write its place under \"look again\". Without any name: in the row marked ?.",
	})
	f.End()
	f.End()
}

// whichWords tells what "which?" on a row means, if there is such a row.
func (f *fieldSheet) whichWords() string {
	if !slices.ContainsFunc(f.Lines, func(l SheetLine) bool { return l.Which }) {
		return ""
	}
	return " A row with \"which?\" is too broad: write the closer name into it."
}

// remarks is the space that is left on the front, and where to sign.
func (f *fieldSheet) remarks() {
	if f.from > 0 {
		return
	}
	notes := box{label: "Notes: what else was seen, protected animals put back", wide: 12}
	if f.dual {
		notes.wide = 5
	}
	f.Begin("div", "boxes sign")
	f.box(notes)
	f.box(box{label: "Counted by", wide: 3})
	f.box(box{label: "Checked by, sign", wide: 12 - 3 - 2 - notes.wide%12})
	f.box(box{label: "Typed in on", wide: 2})
	f.End()
	f.Text("note", "To type it in: rillkey visit begin; visit sample, line by line; visit enter, column by column; weather, water, notes: visit finish --note.")
}

// tallies shows two usual ways to count with a pencil: dots and dashes that make
// a ten, and bundles of five.
const tallies = `<svg xmlns="http://www.w3.org/2000/svg" class="tallies" role="img" width="46mm" height="15mm" viewBox="0 0 46 15" fill="none" stroke="#111" stroke-linecap="round" stroke-width=".4"><title>Two ways to count: dots, then lines between them, make ten; strokes in bundles of five.</title>` +
	`<g stroke-width="1"><path d="M2 3h0M6 3h0"/><path d="M11 3h0M15 3h0M11 7h0M15 7h0"/><path d="M20 3h0M24 3h0M20 7h0M24 7h0"/><path d="M30 3h0M34 3h0M30 7h0M34 7h0"/></g>` +
	`<path d="M20 3h4M24 3v4"/><path d="M30 3h4v4h-4zM30 3l4 4M34 3l-4 4"/>` +
	`<path d="M38.5 3v4M39.8 3v4M41.1 3v4M42.4 3v4M37.8 6.5l5.4-3"/>` +
	`<g font-family="sans-serif" font-size="3.2" fill="#111" stroke="none" text-anchor="middle"><text x="4" y="12">2</text><text x="13" y="12">4</text><text x="22" y="12">6</text><text x="32" y="12">10</text><text x="40.5" y="12">5</text></g></svg>
`
