package paper

import (
	"fmt"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/scoring/scheme"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// notWater is said on every cover, whoever wrote its words.
var notWater = wording.Mark("This says nothing on whether the water is fit to drink or to swim in. Local rules and the local authority's " +
	"methods come first.")

// cover is the first page for one kind of reader. It says what the report behind it
// says, in other words.
func (w *reporting) cover() {
	c := w.Cover
	if c == nil {
		return
	}
	fill := w.filled()
	w.Begin("div", "cover")
	w.Section(plain.Printable(fill(c.title)))
	w.Text("", fill(c.opens))
	w.Text("says", fill(c.answers[w.answerCase()]))
	w.List("", w.coverClasses(c))
	if w.Grade.Foreign != "" {
		w.Text("", plain.Printable(w.Grade.Foreign))
	}
	for _, said := range show.GradeWarnings(w.Grade) {
		w.Text("", plain.Printable(said))
	}
	for _, said := range w.ownMeasure() {
		w.Text("", said)
	}
	w.Text("", wording.Text(notWater))
	for _, p := range c.parts {
		w.Heading(fill(p.title))
		points := make([]string, len(p.points))
		for i := range points {
			points[i] = fill(p.points[i])
		}
		w.List("", points)
	}
	if c.facts {
		w.table("dense short", wording.Text("In figures"), []string{wording.Text("figure"), wording.Text("value")}, w.coverFacts())
	}
	for _, l := range c.lines {
		w.Text("blank", l+":")
	}
	w.End()
	w.End()
}

// answerCase is which of answerCases the grade is.
func (w *reporting) answerCase() string {
	switch {
	case len(w.main.RatingRange) > 0:
		return "between"
	case w.main.Withheld || w.main.Rating == scheme.Unrated:
		return "none"
	case w.main.RatingProvisional:
		return "provisional"
	}
	return "word"
}

// filled puts the visit into a text.
func (w *reporting) filled() func(string) string {
	animals, kinds := 0, 0
	for _, rec := range w.tally.Records {
		animals += rec.Count
	}
	for _, c := range w.Grade.Found {
		kinds += len(c.Kinds)
	}
	stands := []string{"{site}", w.Grade.Visit.Site}
	put := func(blank, words string) { stands = append(stands, "{"+blank+"}", words) }
	put("day", show.Day(w.Grade.Visit.Date))
	put("people", wording.Text("a group"))
	if n := len(w.Account.Visit.Header.People); n > 0 {
		stands[len(stands)-1] = plain.CountOf(n, "person", "people")
	}
	put("samples", plain.Count(len(w.tally.Samples), "sample"))
	put("animals", plain.Count(animals, "animal"))
	put("kinds", plain.Count(kinds, "kind"))
	put("protocol", w.Grade.Protocol.Title)
	put("index", w.main.Title)
	put("value", wording.Text("no value"))
	if w.main.Value != nil {
		stands[len(stands)-1] = wording.Number(*w.main.Value)
	}
	put("word", strings.ToUpper(w.main.Rating))
	if n := len(w.main.RatingRange); n > 0 {
		put("low", strings.ToUpper(w.main.RatingRange[0]))
		put("high", strings.ToUpper(w.main.RatingRange[n-1]))
	}
	put("reason", w.main.Reason)
	if w.main.Rating == scheme.Unrated {
		stands[len(stands)-1] = wording.Text("no words are published for the values of this index")
	}
	r := strings.NewReplacer(stands...)
	return func(text string) string { return plain.Printable(r.Replace(text)) }
}

// coverClasses says how many kinds of each class were found.
func (w *reporting) coverClasses(c *Cover) (points []string) {
	for _, g := range w.Grade.Found {
		if said, ok := c.classes[g.Label]; ok && len(g.Kinds) > 0 {
			points = append(points, plain.Printable(
				fmt.Sprintf("%s %s: %s.", plain.Count(len(g.Kinds), "kind"), said, strings.Join(labels(g.Kinds), ", "))))
		}
	}
	return points
}

// spreadRange is the range of a spread, or the value that is the only one.
func spreadRange(s *scoring.Spread) string {
	if s.Low == s.High {
		return wording.Sprintf("%.4g", s.Low)
	}
	return wording.Sprintf("%.4g to %.4g", s.Low, s.High)
}

// coverFacts are the figures by which the work is judged.
func (w *reporting) coverFacts() [][]string {
	e := w.Grade.Effort
	rows := [][]string{
		{wording.Text("protocol"), w.Grade.Protocol.Title},
		{wording.Text("samples taken, required, required ones sorted"), fmt.Sprintf("%d, %d, %d", e.Taken, e.Required, e.Sorted)},
		{wording.Text("index"), w.main.Title},
	}
	if w.main.Value != nil {
		rows = append(rows, []string{wording.Text("value"), wording.Number(*w.main.Value)})
	}
	if i := w.main.Identification; i != nil {
		rows = append(rows, []string{wording.Text("95 % because of doubtful names"), spreadRange(i)})
	}
	switch s := w.main.Sampling; {
	case s != nil && s.Method == scoring.ClumpedMethod:
		rows = append(rows, []string{wording.Text("95 % because of which sample was taken, clumped as is usual"),
			spreadRange(s)})
	case s != nil:
		rows = append(rows, []string{wording.Text("95 % because of which samples were taken"),
			spreadRange(s)})
	}
	rows = append(rows, w.qualityRows()...)
	rows = append(rows, []string{wording.Text("conditions of stream and day noted"), fmt.Sprint(len(w.tally.Conditions()))})
	for i := range rows {
		rows[i][1] = plain.Printable(rows[i][1])
	}
	return rows
}
