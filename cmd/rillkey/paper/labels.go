package paper

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"rillkey/scoring"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

//go:embed labels.css
var labelStyle string

// Labels is what labels for trays and vials are made from.
type Labels struct {
	Visit       *visit.Visit            // the visit they are for; nil for blank ones
	Again       []scoring.RecheckRecord // records worth a second look, which get a vial each
	Rows, Cells int                     // cells of a tray: rows, named by letters, and cells in each
	Trays       int                     // blank labels for trays, where there is no visit
	Blank       int                     // blank labels for vials
}

// How many labels of vials there are: SpareVials beside those of a visit where nobody says
// another number, and MostLabels at most, which is more than anybody cuts out on one evening.
const (
	SpareVials = 6
	MostLabels = 1000
)

// BlankLabels are those that are made where nobody says how many, without cells.
func BlankLabels() Labels { return Labels{Trays: 4, Blank: 30} }

// ParseCells reads the rows of a tray and the cells in each, as 3x4: rows are named by
// letters, so that there are 26 at most.
func ParseCells(s string) (rows, cells int, err error) {
	a, b, ok := strings.Cut(strings.ToLower(s), "x")
	rows, errA := strconv.Atoi(a)
	cells, errB := strconv.Atoi(b)
	if !ok || errA != nil || errB != nil || rows < 0 || rows > 26 || cells < 0 || cells > 30 {
		return 0, 0, wording.Errorf("%q is no tray; give rows and cells in each as 3x4, at most 26x30", s)
	}
	return rows, cells, nil
}

// How many labels stand side by side; both sizes of paper are wide enough.
const (
	traysAbreast = 2
	cellsAbreast = 4
	vialsAbreast = 3
	slipsAbreast = 3
)

// TrayLabels are the labels of a visit's trays, their cells, and the vials of
// doubtful animals, to be cut out along the lines. No row of labels is parted by
// the end of a page.
func TrayLabels(l Labels) *Page {
	title := wording.Text("Labels for trays and vials")
	if l.Visit != nil {
		title += ": " + l.Visit.Header.Site + ", " + l.Visit.Header.Date
	}
	p := New(title)
	p.Style(labelStyle)
	p.List("advice", []string{
		wording.Text("Print at 100 %, on waterproof paper if you have some, and cut along the dashed lines. Write with a pencil or with " +
			"pigment ink, which neither water nor alcohol washes out; put a vial's label inside, facing out (common practice)."),
		wording.Text("A label says where, when, from which sample, who collected and who named the animal: without these a specimen is " +
			"of no use later (common practice)."),
		wording.Text("Keep an animal only where your permit allows it; most need no more than a second look, and go back alive. " +
			"Protected animals are not kept."),
		wording.Text("If alcohol is used: it catches fire easily. No flame or spark near it, gloves, fresh air, lids shut, and not in " +
			"the hands of children. Rules of your area for keeping, carrying and sending it come first."),
	})
	p.Section(wording.Text("Trays"))
	p.strips("tray", traysAbreast, l.trays())
	p.End()
	if cells := l.cells(); len(cells) > 0 {
		p.Section(wording.Text("Cells of a tray"))
		p.strips("cell", cellsAbreast, cells)
		p.End()
	}
	if len(l.Again)+l.Blank > 0 {
		p.Section(wording.Text("Vials"))
		p.strips("vial", vialsAbreast, l.vials())
		p.strips("vial empty", vialsAbreast, l.blanks())
		p.End()
	}
	if slips := l.slips(); len(slips) > 0 {
		p.Section(wording.Text("Slips for an expert, one with each vial"))
		p.strips("slip", slipsAbreast, slips)
		p.End()
	}
	return p
}

// tag is the lines of one label.
type tag []labelLine

type labelLine struct{ Class, Words string }

// strips writes labels in rows that stay whole.
func (p *Page) strips(class string, abreast int, labels []tag) {
	for row := range slices.Chunk(labels, abreast) {
		p.put("strip", struct {
			Class  string
			Labels []tag
		}{class, row})
	}
}

// trays are one label for each sample, or blank ones.
func (l Labels) trays() (out []tag) {
	if l.Visit == nil {
		for range l.Trays {
			out = append(out, tag{{"big", wording.Text("Sample ____")}, {"fill", wording.Text("Site and day:")},
				{"fill", wording.Text("Habitat:")}, {"fill", wording.Text("Sorted by:")}})
		}
		return out
	}
	h := l.Visit.Header
	for _, s := range l.Visit.Tally().Samples {
		out = append(out, tag{{"big", wording.Sprintf("Sample %s", s.Label)}, {"", fits(h.Site, 100)},
			{"", h.Date + ", " + scheme.HabitatWords(s.Habitat)},
			{"fill", wording.Text("Sorted by:")}, {"fill", wording.Text("Cells sorted, of:")}})
	}
	if len(out) == 0 {
		out = []tag{{{"big", wording.Text("Sample ____")}, {"", fits(h.Site, 100)},
			{"fill", wording.Sprintf("%s, habitat:", h.Date)}, {"fill", wording.Text("Sorted by:")}}}
	}
	return out
}

// cells are the names of a tray's cells, as --cell takes them.
func (l Labels) cells() (out []tag) {
	for r := range l.Rows {
		for c := range l.Cells {
			out = append(out, tag{{"big", fmt.Sprintf("%c%d", 'A'+r, c+1)}})
		}
	}
	return out
}

// place is the site, with its coordinates unless they are kept back.
func (l Labels) place() string {
	h := l.Visit.Header
	if s := h.Spot; s != nil && !l.Visit.Obscured() {
		return fits(h.Site, 46) + fmt.Sprintf(", %.5f, %.5f", s.Latitude, s.Longitude)
	}
	return fits(h.Site, 76)
}

// where is the day, the sample and the cell of a record.
func (l Labels) where(s scoring.RecheckRecord) string {
	said := wording.Sprintf("%s, sample %s", l.Visit.Header.Date, s.Sample)
	if s.Cell != "" {
		said += wording.Sprintf(", cell %s", fits(s.Cell, 10))
	}
	return said
}

// vials are one label for each doubtful record.
func (l Labels) vials() (out []tag) {
	who := map[string]string{}
	if l.Visit != nil {
		for _, r := range l.Visit.Tally().Records {
			who[r.ID] = r.Who
		}
	}
	for _, s := range l.Again {
		out = append(out, tag{
			{"", l.place()}, {"", l.where(s)}, {"name", fits(doubt(s), 38)},
			{"", wording.Sprintf("Coll. %s", fits(strings.Join(l.Visit.Header.People, ", "), 34))},
			{"", wording.Sprintf("Det. %s [%s]", fits(who[s.Record], 14), s.Record)},
		})
	}
	return out
}

// slips go with the vials to somebody who knows the animals better, and come back
// with a name; 'recheck expert' takes what is written on them.
func (l Labels) slips() (out []tag) {
	for _, s := range l.Again {
		out = append(out, tag{
			{"name", wording.Sprintf("[%s] We held it for: %s", s.Record, fits(doubt(s), 60))}, {"", l.place()}, {"", l.where(s)},
			{"fill", wording.Text("What it is:")}, {"fill", wording.Text("Determined by, on:")},
			{"fill", wording.Text("The specimen is kept at:")},
			{"", wording.Sprintf("Please send this slip back to: %s", strings.Repeat("_", 20))},
		})
	}
	return out
}

// blanks are labels for vials with lines to write on.
func (l Labels) blanks() (out []tag) {
	for range l.Blank {
		t := tag{{"fill", wording.Text("Site:")}, {"fill", wording.Text("Day, sample, cell:")}}
		if l.Visit != nil {
			t = tag{{"", l.place()}, {"fill", wording.Sprintf("%s, sample, cell:", l.Visit.Header.Date)}}
		}
		out = append(out, append(t, labelLine{"fill", wording.Text("Name:")}, labelLine{"fill", wording.Text("Coll., det.:")}))
	}
	return out
}

// doubt is the name of doubtful animals, or what they may be.
func doubt(s scoring.RecheckRecord) string {
	words := fmt.Sprintf("%d x ", s.Count)
	switch {
	case s.Taxon != "":
		return words + s.Name + "?"
	case len(s.Rivals) > 1 && s.Rivals[0].Chance+s.Rivals[1].Chance < 0.5:
		return wording.Sprintf("%snot named", words)
	case len(s.Rivals) > 1:
		return wording.Sprintf("%s%s or %s?", words, s.Rivals[0].Name, s.Rivals[1].Name)
	case len(s.Rivals) == 1:
		return words + s.Rivals[0].Name + "?"
	}
	return wording.Sprintf("%snot named", words)
}

// fits is s cut to so many letters; those of wide scripts count twice.
func fits(s string, most int) string {
	room := most
	for i, r := range s {
		if room--; r >= 0x1100 {
			room--
		}
		if room < 0 {
			return s[:i] + "…"
		}
	}
	return s
}
