package paper

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"rillkey/cmd/rillkey/chart"
	"rillkey/cmd/rillkey/figure"
	"rillkey/scoring"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// highestChart is how many millimetres the chart of kinds may take; of more
// kinds the rarest are summed up.
const highestChart = 150

// found is what was found, as charts, drawings and plain words.
func (w *reporting) found() {
	w.Section(wording.Text("What lives here"))
	if len(w.tally.Records) == 0 {
		w.Text("", wording.Text("No animal is recorded."))
		w.End()
		return
	}
	classes, kinds := chart.FoundByGroup(w.Grade), chart.FoundByKind(w.Grade)
	w.Begin("div", "two")
	w.chart(kinds, chart.PaperSize{Width: chartWidth, Height: min(kinds.Height(chartWidth), highestChart)},
		w.caption(wording.Text("Animals by kind"), wording.Text("as counted")))
	w.Begin("div", "")
	w.chart(classes, chart.PaperSize{Width: chartWidth, Height: min(classes.Height(chartWidth), highestChart)},
		w.caption(wording.Text("Animals by class"), wording.Text("as counted")))
	w.tells()
	w.End()
	w.End()
	if x := w.Grade.Expected; x != nil {
		w.Text("", plain.Printable(x.Words))
	}
	w.faces()
	w.End()
}

// lives says in plain words what animals of a class tell. Common practice of the
// trade.
func lives() map[string]string {
	return map[string]string{
		string(taxa.Sensitive): wording.Mark("Most kinds of this class need clean, cool water with much oxygen, and are among the first " +
			"to go where a stream is harmed; some, such as minnow mayflies and net-spinners, bear more."),
		string(taxa.SomewhatSensitive): wording.Mark("They put up with a little dirt or a little less oxygen, not with much."),
		string(taxa.Tolerant): wording.Mark("They live nearly anywhere, in clean streams too. Where they are all there is, " +
			"something keeps the others away: dirt, too little oxygen, mud, drought, or a bed that suits no others."),
	}
}

// tells says of each class found what its animals tell.
func (w *reporting) tells() {
	known := false
	for _, c := range w.Grade.Found {
		how, ok := lives()[c.Label]
		if !ok {
			continue
		}
		known = true
		if len(c.Kinds) == 0 {
			w.Text("", wording.Sprintf("%s: none was found.", plain.Capital(c.Label)))
			continue
		}
		w.Text("", fmt.Sprintf("%s: %s. %s", plain.Capital(c.Label), strings.Join(labels(c.Kinds), ", "), wording.Text(how)))
	}
	if !known && len(w.Grade.Found) > 0 {
		w.Text("", wording.Text("The index of this method gives each kind a figure for how much it bears; the chart is sorted by it. Its "+
			"source says how the figures came about."))
	}
}

// mostLabels are the kinds of a class named in a sentence.
const mostLabels = 12

func labels(kinds []scoring.KindFound) (out []string) {
	for _, k := range kinds[:min(len(kinds), mostLabels)] {
		out = append(out, k.Label)
	}
	if n := len(kinds) - mostLabels; n > 0 {
		out = append(out, wording.Sprintf("%d more", n))
	}
	return out
}

// mostFaces are the kinds drawn, the most frequent of all.
const mostFaces = 12

// face is a kind with the taxon of it that most animals were named.
type face struct {
	label string
	count int64
	taxon *taxa.Taxon
}

// faces draws the kinds found.
func (w *reporting) faces() {
	all := w.kinds()
	if len(all) == 0 {
		return
	}
	w.Begin("div", "kinds")
	for _, f := range all[:min(len(all), mostFaces)] {
		w.face(f)
	}
	w.End()
	more := ""
	if n := len(all) - mostFaces; n > 0 {
		more = wording.Sprintf(" %d more kinds are not drawn.", n)
	}
	w.Text("note", wording.Sprintf("Drawn from what each kind usually shows, schematic and not to one scale; the number is that of "+
		"the animals found.%s", more))
}

// faceSize is that of a drawing, in millimetres, and as a picture in pixels.
var faceSize = figure.Size{Width: 28, Height: 18}

const pixelsPerMillimetre = 96 / 25.4

func (w *reporting) face(f face) {
	words := fmt.Sprintf("%s, %d", f.label, f.count)
	if w.PictureOf != nil {
		w.Page.Picture(w.PictureOf(f.taxon), "", words, int(faceSize.Width*pixelsPerMillimetre), int(faceSize.Height*pixelsPerMillimetre))
		return
	}
	if w.atlas == nil {
		w.atlas = figure.NewAtlas(w.Catalog, nil)
	}
	w.Figure(Face(w.atlas, f.taxon), words)
}

// Face is the drawing of a taxon as a report has it, one svg element.
func Face(atlas *figure.Atlas, t *taxa.Taxon) string {
	drawn := atlas.Taxon(t)
	drawn.Length = taxa.Range{} // the bar of its length has no room here
	return drawn.SVG(faceSize)
}

// kinds are those found with a taxon to draw, most animals first.
func (w *reporting) kinds() (all []face) {
	most := map[string]int{}
	faces := map[string]*taxa.Taxon{}
	sums := map[string]int{}
	for _, b := range w.Account.Rows(w.scheme.Counting()) {
		if b.Why != "" {
			continue
		}
		t, k := b.Known, w.scheme.Kinds[b.Kind].ID
		sums[t.ID] += b.Count
		if sums[t.ID] > most[k] {
			most[k], faces[k] = sums[t.ID], t
		}
	}
	for _, c := range w.Grade.Found {
		for _, k := range c.Kinds {
			if t := faces[k.ID]; t != nil {
				all = append(all, face{k.Label, k.Count, t})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b face) int { return cmp.Compare(b.count, a.count) })
	return all
}

// meaning says what the answer means and what it does not.
func (w *reporting) meaning() {
	w.Section(wording.Text("What it means, and what it does not"))
	first := wording.Text("It describes the animals living in this stretch of the stream on that day. They have lived in its water " +
		"for weeks to years, so they can tell more of it than one look does.")
	switch {
	case len(w.tally.Records) == 0:
		first = wording.Text("Nothing is known of this stream yet.")
	case w.Grade.Withheld():
		first = wording.Text("What was found is true as far as it goes. Too little is known to put a word on the stream; please put none " +
			"on it yourselves, for a guess spreads faster than its doubts.")
	}
	w.List("", append([]string{first}, Unsaid()...))
	w.End()
}

// Unsaid is what no grade says, and what comes first.
func Unsaid() []string {
	return []string{
		wording.Text("It says nothing on whether the water is fit to drink or to swim in. Germs do not show in these animals. Some " +
			"poisons do; others that harm people do not."),
		wording.Text("It does not say why the animals are as they are. Season, flood, drought and the bed of the stream can " +
			"matter as much as pollution."),
		wording.Text("Volunteers' figures are a reason to look closer. Local rules and the local authority's methods come first."),
		wording.Text("Dead fish, foam, odd colours or smells: keep out of the water and tell the local authority, whatever stands here."),
	}
}
