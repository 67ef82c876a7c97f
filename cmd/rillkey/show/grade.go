package show

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"rillkey/scoring"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Grade writes a grade, or why there is none, for a person. With details every
// term of every index is written, so that the sum can be checked by hand. The commands
// that are told end with flags, which name the visit.
func Grade(w io.Writer, width int, g *scoring.Grade, details bool, flags string) error {
	p := newPage(w, width)
	p.text(0, 2, "%s, %s", g.Visit.Site, g.Visit.Date)
	p.text(2, 4, "%s", effortLine(g.Effort))
	if o := g.Effort.Forecast; o != nil {
		p.text(2, 4, "%s found in %s so far; with all %d about %.0f would be (%.0f to %.0f in 95 of 100 cases), and %.0f or "+
			"more live there (%.0f to %.0f).",
			plain.Count(o.Found, "kind"), plain.Count(o.Samples, "sample"), o.Required, o.Expected, o.Low, o.High, o.InAll,
			o.InAllLow, o.InAllTop)
	}
	for _, how := range howToSay(g.Effort) {
		p.text(2, 4, "%s", how+flags)
	}
	for _, r := range g.Effort.Remarks {
		p.text(2, 4, "Note: %s.", r)
	}
	for _, r := range GradeWarnings(g) {
		p.text(2, 4, "Read this first: %s", r)
	}
	if len(g.Indices) > 0 {
		p.line("")
		p.text(0, 0, "%s", InWords(g))
	}
	if g.Reference != nil && g.Reference.Words != "" {
		p.text(0, 0, "%s", g.Reference.Words)
	}
	said := map[string]bool{}
	for i := range g.Indices {
		p.line("")
		index(p, &g.Indices[i], said)
		if details {
			working(p, &g.Indices[i])
		}
	}
	furtherIndices(p, g.Further, details)
	p.line("")
	found(p, g.Found)
	if x := g.Expected; x != nil && (details || x.Short()) {
		p.text(0, 2, "%s", x.Words)
	}
	for _, r := range g.Remarks {
		p.text(0, 2, "%s", r)
	}
	p.line("")
	p.text(0, 2, "%s", g.Caution)
	return p.err
}

func effortLine(e scoring.Effort) string {
	s := wording.Sprintf("Samples: %d taken, %d required, %d of the required ones sorted", e.Taken, e.Required, e.Sorted)
	if e.Complete {
		return wording.Sprintf("%s; the effort is complete.", s)
	}
	var missing []string
	for _, m := range e.Missing {
		missing = append(missing, m.String())
	}
	if len(missing) > 0 {
		s += wording.Sprintf("; still missing: %s", strings.Join(missing, ", "))
	}
	for _, u := range e.Unsorted {
		s += wording.Sprintf("; sample %s is %s", u.Sample, u.State.Words())
	}
	return s + "."
}

// howToSay are the commands that say of samples that they are sorted.
func howToSay(e scoring.Effort) (out []string) {
	var going, none []string
	for _, u := range e.Unsorted {
		if u.State == visit.BeingSorted {
			going = append(going, "--sample "+plain.ShellWord(u.Sample))
		} else {
			none = append(none, "--sample "+plain.ShellWord(u.Sample))
		}
	}
	if len(going) > 0 {
		out = append(out, wording.Sprintf("When a sample is sorted, say so: rillkey visit sorted %s", strings.Join(going, " ")))
	}
	if len(none) > 0 {
		out = append(out, wording.Sprintf("If nothing lived in it: rillkey visit sorted %s --empty", strings.Join(none, " ")))
	}
	return out
}

// index writes the value, and the remarks that no index before it made.
func index(p *page, i *scoring.Index, said map[string]bool) {
	p.text(0, 2, "%s: %s", i.Title, gradeOf(i))
	if i.Withheld {
		p.text(2, 4, "Withheld: %s.", i.Reason)
	}
	if i.Reading != "" {
		p.text(2, 4, "%s", i.Reading)
	}
	if x := i.Provisional; x != nil {
		p.text(2, 4, "PROVISIONAL, not a grade: the samples taken so far would give %s%s.", wording.Number(x.Value), rated(x.Rating))
		uncertain(p, i, x.Identification, x.Sampling)
	}
	if i.Sample != "" {
		p.text(2, 4, "from sample %s, the best one", i.Sample)
	}
	uncertain(p, i, i.Identification, i.Sampling)
	again := false
	for _, r := range i.Remarks {
		if said[r] {
			again = true
			continue
		}
		said[r] = true
		p.text(2, 4, "%s", r)
	}
	if again {
		p.text(2, 4, "What was said above of animals left out or counted holds here too.")
	}
}

// gradeOf is the grade that an index gives, a value that has no word of its own, or
// that there is none.
func gradeOf(i *scoring.Index) string {
	switch {
	case len(i.RatingRange) > 0:
		return fmt.Sprintf("%s (%s)", ratingsBetween(i), wording.Number(*i.Value))
	case i.Value == nil && !i.Headline:
		return wording.Text("no value")
	case i.Value == nil:
		return wording.Text("no grade")
	case i.Withheld:
		return wording.Sprintf("no grade (value %s)", wording.Number(*i.Value))
	case i.Rating == scheme.Unrated:
		return wording.Number(*i.Value)
	case i.RatingProvisional:
		return wording.Sprintf("%s, provisional (%s)", strings.ToUpper(i.Rating), wording.Number(*i.Value))
	}
	return fmt.Sprintf("%s (%s)", strings.ToUpper(i.Rating), wording.Number(*i.Value))
}

// ratingsBetween are the words that a value lies between.
func ratingsBetween(i *scoring.Index) string {
	return wording.Sprintf("between %s and %s", strings.ToUpper(i.RatingRange[0]), strings.ToUpper(i.RatingRange[1]))
}

// GradeWarnings are what must be read before a grade, as far as the reason why it is
// withheld does not say it.
func GradeWarnings(g *scoring.Grade) []string {
	return slices.DeleteFunc(slices.Clone(g.Warnings), func(w string) bool {
		reason := g.Indices[0].Reason
		return reason != "" && strings.EqualFold(w, reason+".")
	})
}

// furtherIndices writes the indices that the grade does not rest on; without details it
// only says that there are some.
func furtherIndices(p *page, indices []scoring.Index, details bool) {
	with := slices.DeleteFunc(slices.Clone(indices), func(i scoring.Index) bool { return i.Value == nil })
	if len(with) == 0 && !details || len(indices) == 0 {
		return
	}
	p.line("")
	if !details {
		p.text(0, 2, "Beside the grade stand %s, such as shares of classes and numbers of families; --details shows them.",
			plain.CountOf(len(with), "further index", "further indices"))
		return
	}
	p.text(0, 2, "Beside the grade:")
	for i := range indices {
		x := &indices[i]
		if x.Value == nil {
			p.text(2, 4, "%s: none: %s", x.Title, x.Reason)
			continue
		}
		p.text(2, 4, "%s: %s%s", x.Title, wording.Number(*x.Value), reach(x))
	}
	for i := range with {
		p.line("")
		p.text(0, 2, "%s", with[i].Title)
		working(p, &with[i])
	}
}

// reach says what closer names could make of a value.
func reach(i *scoring.Index) string {
	switch {
	case i.Low == nil || *i.Low == *i.High && *i.Low == *i.Value:
		return ""
	case *i.Low == *i.High:
		return wording.Sprintf(" (%s with closer names, whatever they are)", wording.Number(*i.Low))
	}
	return wording.Sprintf(" (from %s to %s with closer names)", wording.Number(*i.Low), wording.Number(*i.High))
}

// working writes all that is needed to check an index by hand.
func working(p *page, i *scoring.Index) {
	for _, t := range i.Terms {
		code := ""
		if t.Code != "" {
			code = wording.Sprintf(", code %s", t.Code)
		}
		p.text(2, 6, "+ %s  %s: %s, %s%s, worth %s (%s)%s", wording.Number(t.Part), t.Label, plain.Count(int(t.Count), "animal"),
			t.GroupLabel, code, wording.Number(t.Weight), wording.Text(t.Status), aside(t.Note))
	}
	if i.Working != "" {
		p.text(2, 6, "= %s", i.Working)
	}
	for _, l := range i.LeftOut {
		p.text(2, 6, "- %d of sample %s not counted: %s", l.Count, l.Sample, l.Note)
	}
	if i.Low != nil && *i.Low < *i.High {
		p.text(2, 4, "Lowest %s, highest %s that names closer than those given could make of it.", wording.Number(*i.Low),
			wording.Number(*i.High))
	}
	p.text(2, 4, "Source: %s (%s)", wording.Text(i.Source), wording.Text(i.Status))
	if i.RatingSource != "" {
		p.text(2, 4, "Source of the rating: %s (%s)", wording.Text(i.RatingSource), wording.Text(cmp.Or(i.RatingStatus, i.Status)))
	}
	if i.Note != "" {
		p.text(2, 4, "Note: %s", i.Note)
	}
}

func aside(note string) string {
	if note == "" {
		return ""
	}
	return "; " + note
}

func found(p *page, classes []scoring.GroupFound) {
	p.text(0, 2, "Found so far:")
	if len(classes) == 0 {
		p.text(2, 4, "nothing that the first index counts")
	}
	for _, c := range classes {
		var kinds []string
		for _, k := range c.Kinds {
			kinds = append(kinds, fmt.Sprintf("%s %d", k.Label, k.Count))
		}
		p.text(2, 4, "%s: %s, %s: %s", c.Label, plain.Count(len(c.Kinds), "kind"), plain.Count(int(c.Animals), "animal"),
			cmp.Or(strings.Join(kinds, ", "), wording.Text("none")))
	}
}
