package paper

import (
	_ "embed"
	"strings"

	"rillkey/cmd/rillkey/chart"
	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

//go:embed report.css
var reportStyle string

// VisitReport is what a report of one visit is made from.
type VisitReport struct {
	Catalog    *taxa.Catalog
	Rules      *scoring.Rules
	Account    *account.Account // of the visit as it may be given away
	Grade      *scoring.Grade
	People     bool            // names may be given, not only how many there were
	History    *chart.OverTime // the site's visits; nil where nobody asked
	Trend      string          // what they say together, in words
	Changed    string          // what of that has changed up to this visit; empty for nothing that is shown
	Comparison string          // how the site compares with the group's reference; empty where there is none
	Cover      *Cover          // words of a first page; nil for none
	Sum        string          // checksum of the visit's file, with its name
	Trouble    []string        // what was wrong with that file

	// PictureOf is the file with the drawing of a taxon, as [Page.Picture] wants it; nil
	// has the drawings in the page.
	PictureOf func(*taxa.Taxon) (to string)
	// Closing writes what is known of the site beside this visit; nil for nothing.
	Closing func(*Page)
}

// reporting is a report being written.
type reporting struct {
	*Page
	VisitReport
	main    *scoring.Index
	scheme  *scheme.Scheme
	tally   visit.Tally
	sources []string
	atlas   *figure.Atlas
}

// Page is the report as a page of its own; see [VisitReport.Write].
func (r VisitReport) Page() *Page {
	place := plain.Printable(r.Grade.Visit.Site)
	p := New(plain.Capital(place) + ", " + show.Day(r.Grade.Visit.Date))
	r.Write(p)
	return p
}

// Write writes the report on a page: the answer first, then what it rests on. Where
// the grade is withheld no rating of the visit stands anywhere in it, but those
// between which it lies.
func (r VisitReport) Write(p *Page) {
	w := &reporting{Page: p, VisitReport: r, main: &r.Grade.Indices[0], tally: r.Account.Tally}
	w.scheme = r.Rules.Scheme(w.main.ID)
	w.Style(reportStyle)
	w.cover()
	w.answer()
	w.found()
	w.feeding()
	w.meaning()
	w.done()
	w.sure()
	w.history()
	if w.Closing != nil {
		w.Closing(w.Page)
	}
	w.quality()
	w.animals()
	w.indices()
	w.ending()
}

// answer is the grade with its doubts, or plainly that there is none and why.
func (w *reporting) answer() {
	w.Section(wording.Text("The answer"))
	w.Begin("div", "answer")
	e := w.Grade.Effort
	switch {
	case w.main.Withheld && !e.Complete:
		w.Text("verdict", wording.Text("No grade yet"))
		if len(e.Missing) > 0 {
			w.Text("", wording.Sprintf("The method asks for %s; %s taken. Still missing: %s.", plain.Count(e.Required, "sample"),
				plain.CountOf(e.Taken, "was", "were"), missing(e)))
		}
		if len(e.Unsorted) > 0 {
			w.Text("", wording.Sprintf("Animals may still be in the tray: %s.", unsorted(e)))
		}
	case len(w.main.RatingRange) > 0:
		w.Text("verdict", wording.Sprintf("Between %s", strings.Join(w.main.RatingRange, wording.Text(" and "))))
		w.Text("", w.rests())
	case w.main.Withheld:
		w.Text("verdict", wording.Text("No grade"))
		w.Text("", wording.Sprintf("By the %s: %s.", w.main.Title, plain.Printable(w.main.Reason)))
	case w.main.Rating == scheme.Unrated:
		w.Text("verdict", wording.Number(*w.main.Value))
		w.Text("", wording.Sprintf("%s. No words are published for its values.", w.main.Title))
	default:
		w.Text("verdict", strings.ToUpper(w.main.Rating)+map[bool]string{true: wording.Text(", provisionally")}[w.main.RatingProvisional])
		w.Text("", w.rests())
	}
	w.End()
	for _, said := range show.GradeWarnings(w.Grade) {
		w.Text("", plain.Printable(said))
	}
	w.Text("", plain.Printable(show.InWords(w.Grade)))
	for _, said := range w.ownMeasure() {
		w.Text("", said)
	}
	if n := len(w.Trouble); n > 0 {
		w.Text("", wording.Sprintf("The record that this rests on was damaged or changed by hand in %s named below with the quality "+
			"of the names and counts.", plain.CountOf(n, "place, which is",
			"places, which are")))
	}
	w.End()
}

// ownMeasure says how the site stands against its reference and its own past: a word
// against a fixed scale does not say that it has lost something.
func (w *reporting) ownMeasure() (said []string) {
	if w.Comparison != "" {
		said = append(said, plain.Printable(w.Comparison))
	}
	if w.Changed != "" {
		said = append(said, wording.Sprintf("Against its own earlier visits this site has changed. %s", plain.Printable(w.Changed)))
	}
	return said
}

// rests says what the word rests on, beside it: the index, the animals, one day.
func (w *reporting) rests() string {
	return wording.Sprintf("%s: %s, on %s, one day. Its words, the best first: %s.", w.main.Title, wording.Number(*w.main.Value),
		plain.Count(int(w.main.Animals), "animal"), strings.Join(w.ratings(), ", "))
}

// ratings are those of the main index, best first.
func (w *reporting) ratings() (out []string) {
	for _, z := range w.scheme.Zones() {
		if w.scheme.LowIsClean() {
			out = append(out, z.Rating)
		} else {
			out = append([]string{z.Rating}, out...)
		}
	}
	return out
}

func unsorted(e scoring.Effort) string {
	var out []string
	for _, u := range e.Unsorted {
		out = append(out, wording.Sprintf("sample %s is %s", plain.Printable(u.Sample), u.State.Words()))
	}
	return strings.Join(out, ", ")
}

func missing(e scoring.Effort) string {
	var out []string
	for _, m := range e.Missing {
		out = append(out, m.String())
	}
	return strings.Join(out, ", ")
}

// history is the site over time.
func (w *reporting) history() {
	if w.History == nil {
		return
	}
	w.Section(wording.Text("This site over time"))
	w.Begin("div", "two")
	w.chart(w.History, chart.PaperSize{Width: chartWidth, Height: 70}, wording.Text("The value at each visit"))
	w.Begin("div", "")
	w.Text("", wording.Text("Each dot is a graded visit; the framed one is this visit. The thin line through it says where the value "+
		"might lie had other samples been taken, the thick one where doubtful names might put it, each in 95 of 100 cases. "+
		"A hollow ring below is a visit without a grade; a dot without a word is one whose word is withheld."))
	if w.Trend != "" {
		w.Text("", wording.Sprintf("Together: %s", plain.Printable(w.Trend)))
	}
	w.End()
	w.End()
	d := w.History.Data()
	w.table(dense(d.Rows)+" wide dated", wording.Text("The visits of this site"), d.Head, clean(d.Rows))
	w.End()
}

// chartWidth is in millimetres: two fit side by side on a sheet, and one on a
// phone without being made smaller.
const chartWidth = 88

// chart is a chart under its caption, with its numbers to be unfolded for those
// who cannot see it.
func (w *reporting) chart(c chart.Chart, s chart.PaperSize, caption string) {
	w.Begin("div", "")
	w.Figure(c.SVG(s), plain.Printable(caption))
	w.Begin("details", "numbers")
	w.put("summary", wording.Text("The numbers of this chart"))
	d := c.Data()
	w.table("", plain.Printable(caption), d.Head, clean(d.Rows))
	w.End()
	w.End()
}

func clean(rows [][]string) [][]string {
	for _, row := range rows {
		for i := range row {
			row[i] = plain.Printable(row[i])
		}
	}
	return rows
}
