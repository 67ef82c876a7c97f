package paper

import (
	_ "embed"
	"strconv"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

//go:embed sheet.css
var sheetStyle string

// sheetPage is what a field sheet is made from.
type sheetPage struct {
	Catalog  *taxa.Catalog
	Protocol *scheme.Protocol
	Index    string // title of the protocol's main index
	Lines    []sheetLine
	Cautions []string
	Habitats []string                // words that the habitat of a sample is written with
	Area     func(m2 float64) string // an area in words
	Visit    *visit.Visit            // the visit that the sheet is for; nil where none is begun
}

// sheetLine is a row of the sheet.
type sheetLine struct {
	scoring.SheetRow
	Which bool // its name is too broad to be counted: a closer one must be written beside it
}

// How the rows lie on the sheet. Each is at least 8 mm high, so that a cold hand
// can write in it; the figures were tried on both sizes of paper.
const (
	mostWide     = 27 // rows of one table over the whole width; more stand in two tables side by side
	wideLines    = 31 // lines of 8 mm that a side holds in one table
	dualLines    = 30 // lines of each of two tables
	frontLines   = 6  // lines of each of two tables that the front has room for beside all else
	roomyLines   = 24 // lines of each of two tables up to which they are higher than they need be
	fewestOther  = 2  // empty lines for other animals
	mostOther    = 5
	withoutNames = 1 // lines for animals without any name
	wideColumns  = 7 // samples that one sheet has boxes for
	dualColumns  = 2 // the same where two tables stand side by side
)

// FieldSheet is the sheet to fill in with a pencil at the stream: both sides of
// one sheet of paper, or of more where the samples are too many for one. The
// order of its rows and columns is that in which 'visit enter' asks. A visit v that is
// begun fills in its site, day, people and samples; nil leaves them empty.
func FieldSheet(catalog *taxa.Catalog, rules *scoring.Rules, protocol *scheme.Protocol, v *visit.Visit) *Page {
	s := sheetOf(catalog, rules, protocol, v)
	p := New(wording.Sprintf("Field sheet: %s", s.Protocol.Title))
	p.Style(sheetStyle)
	columns := s.columns()
	f := &fieldSheet{Page: p, sheetPage: s, atlas: figure.NewAtlas(s.Catalog, nil), dual: len(s.Lines) > mostWide}
	per := wideColumns
	if f.dual {
		per = dualColumns
	}
	for from := 0; from < len(columns); from += per {
		f.columns = columns[from:min(from+per, len(columns))]
		f.all, f.firstColumn = len(columns), from
		f.sides()
	}
	return p
}

// sheetOf is what the sheet of a protocol is made from.
func sheetOf(catalog *taxa.Catalog, rules *scoring.Rules, p *scheme.Protocol, v *visit.Visit) sheetPage {
	s := sheetPage{Catalog: catalog, Protocol: p, Index: rules.Scheme(p.Schemes[0]).Title,
		Cautions: show.Cautions(catalog.Region()), Area: show.Area, Visit: v}
	for _, h := range scheme.OfferedHabitats(false, p) {
		s.Habitats = append(s.Habitats, scheme.HabitatWords(h))
	}
	for _, row := range rules.SheetRows(p) {
		s.Lines = append(s.Lines, sheetLine{SheetRow: row, Which: row.MustBeNamed()})
	}
	return s
}

// fieldSheet is one that is being written.
type fieldSheet struct {
	*Page
	sheetPage
	atlas       *figure.Atlas
	dual        bool // two tables of animals side by side
	columns     []column
	firstColumn int // columns on the sheets before
	all         int // columns on all sheets
}

// column is a sample with its boxes.
type column struct {
	visit.Sample
	who  string
	need float64 // square metres asked for; 0 where not prescribed
}

// columns are the samples that were taken, and those still to be taken.
func (s sheetPage) columns() (out []column) {
	taken := map[string]bool{}
	left := map[string]int{}
	if s.Visit != nil {
		for _, t := range s.Visit.Tally().Samples {
			out = append(out, column{Sample: t.Sample, who: t.Who})
			taken[t.Label] = true
			left[t.Habitat]--
		}
	}
	spare := 0 // samples taken that no need for their habitat asks for
	for _, n := range s.Protocol.Needs {
		left[n.Habitat] += n.Samples
	}
	for habitat, n := range left {
		if habitat != scheme.AnyHabitat && n < 0 {
			spare -= n
		}
	}
	left[scheme.AnyHabitat] -= spare
	label := 0
	for _, n := range s.Protocol.Needs {
		for range max(0, left[n.Habitat]) {
			for label++; taken[strconv.Itoa(label)]; label++ {
			}
			c := column{Sample: visit.Sample{Label: strconv.Itoa(label)}, need: n.Area}
			if n.Habitat != scheme.AnyHabitat {
				c.Habitat = n.Habitat
			}
			out = append(out, c)
		}
	}
	if len(out) == 0 {
		out = []column{{Sample: visit.Sample{Label: "1"}}}
	}
	return out
}

// sides writes the front and what is behind it.
func (f *fieldSheet) sides() {
	lines := f.lines()
	parts := f.parts(len(lines))
	f.Begin("div", "side "+f.size())
	if f.firstColumn == 0 {
		f.safety()
		f.visitBoxes()
	}
	f.samples()
	if f.firstColumn == 0 {
		f.howTo()
	}
	at := 0
	for i, n := range parts {
		if i > 0 {
			f.Begin("div", "side "+f.size()+f.roomy(n))
		}
		if n > 0 {
			f.animals(lines[at:at+n], at > 0)
			at += n
		}
		if i == 0 {
			f.remarks()
		}
		f.End()
	}
}

func (f *fieldSheet) size() string {
	if f.dual {
		return "dense"
	}
	return "wide"
}

// parts is how many of the lines stand on the front, and on each side after it. Where the
// front cannot take what one side behind it leaves, it takes none, and the sides behind
// it have the same number each.
func (f *fieldSheet) parts(lines int) (parts []int) {
	if !f.dual {
		return []int{0, lines}
	}
	front := max(0, lines-2*dualLines)
	if front += front % 2; front <= 2*frontLines {
		return []int{front, lines - front}
	}
	parts = []int{0}
	for sides := (lines + 2*dualLines - 1) / (2 * dualLines); sides > 0; sides-- {
		here := (lines + sides - 1) / sides
		here += here % 2
		parts = append(parts, min(here, lines))
		lines -= min(here, lines)
	}
	return parts
}

// roomy is the class of a side whose lines may be higher.
func (f *fieldSheet) roomy(lines int) string {
	if f.dual && lines <= 2*roomyLines {
		return " roomy"
	}
	return ""
}

// other is how many empty lines there are for other animals: as many as one side
// has room for.
func (f *fieldSheet) other() int {
	if f.dual {
		return fewestOther
	}
	free := wideLines - len(f.Lines) - withoutNames
	for _, l := range f.Lines {
		if l.Which {
			free-- // it is higher, to be written into
		}
	}
	return min(max(free, fewestOther), mostOther)
}

// sampleWords names the samples of this sheet.
func (f *fieldSheet) sampleWords() string {
	if f.all == len(f.columns) {
		return wording.Text("Samples")
	}
	return wording.Sprintf("Samples %d to %d of %d", f.firstColumn+1, f.firstColumn+len(f.columns), f.all)
}
