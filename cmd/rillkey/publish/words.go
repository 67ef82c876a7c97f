package publish

import (
	"strconv"
	"strings"

	"rillkey/cmd/rillkey/paper"
	"rillkey/cmd/rillkey/show"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func number(n int) string { return strconv.Itoa(n) }

// word is what a visit came to, as everywhere in the program.
func (v *shown) word() string {
	if v.Rating == "" && v.Reason == "" {
		return wording.Text("no word")
	}
	return plain.Printable(show.WordOf(&v.Row.Summary))
}

// value is that of its index, or a dash where there is none or where it would say a
// word that is withheld.
func (v *shown) value() string {
	if v.Value == nil || v.Withheld && len(v.RatingRange) == 0 {
		return "–"
	}
	return plain.FormatFloat(*v.Value)
}

// graded tells that it has a word.
func (v *shown) graded() bool { return !v.Withheld }

// says is a visit in one sentence.
func (v *shown) says() string {
	words := plain.Capital(v.word())
	if v.value() != "–" {
		words += wording.Sprintf(" (%s by the %s)", v.value(), v.Title)
	}
	return words + ", " + plain.Count(v.Animals, "animal") + "."
}

// newestRow is a site in a list: its newest visit and what the years say.
func newestRow(s *site, up string) []paper.WebLink {
	v := s.newest()
	return []paper.WebLink{{Words: s.name, Address: up + "sites/" + s.slug + ".html"},
		{Words: v.date()}, {Words: v.word()}, {Words: v.value()},
		{Words: number(v.Animals)}, {Words: number(len(s.visits))}, {Words: trend(s)}}
}

func newestHead() []string {
	return headed("site", "newest visit", "word", "value", "animals", "visits", "over the years")
}

// headed is the head of a table, each column a word or two that is looked up.
func headed(columns ...string) []string {
	for i, c := range columns {
		columns[i] = wording.Text(c)
	}
	return columns
}

// trend is what stands out over the years, in a few words.
func trend(s *site) string {
	p := s.place(s.newest())
	if p == nil {
		return ""
	}
	var said []string
	for _, t := range p.Tests {
		if !t.Shown {
			continue
		}
		way := wording.Mark("%s rises")
		if t.After < t.Before {
			way = wording.Mark("%s falls")
		}
		if words := wording.Sprintf(way, t.Figure); len(said) == 0 || said[len(said)-1] != words {
			said = append(said, words)
		}
	}
	switch {
	case len(said) > 0:
		return strings.Join(said, "; ")
	case len(p.Tests) == 0:
		return wording.Text("too few visits")
	}
	return wording.Text("nothing stands out")
}

// aboutGrades is what is said on every page that names words of grades.
func aboutGrades(p *paper.Page) {
	p.Section(wording.Text("What the words mean, and what they do not"))
	p.List("", append([]string{wording.Text(
		"A word says which animals lived at a site on one day. They have lived in its water for weeks to years, " +
			"so they can tell more of it than one look does. Where too little was found there is no word, and the reason " +
			"stands there.")}, paper.Unsaid()...))
	p.End()
}
