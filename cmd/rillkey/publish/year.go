package publish

import (
	"cmp"
	"slices"

	"rillkey/cmd/rillkey/chart"
	"rillkey/cmd/rillkey/paper"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// yearPages are the visits of a year.
func (c *county) yearPages(y *year) []siteFile {
	counts := c.wordsOf(y.visits)
	rests := func(part []*shown) string {
		var on []any
		for _, v := range part {
			on = append(on, visitRow(v))
		}
		return c.rests("year", y.name, counts, len(y.visits), on)
	}
	title := wording.Sprintf("The year %s", y.name)
	return paged(c, "years/"+y.name, title, c.way(), y.visits, rests, func(p *paper.Page, first bool, part []*shown) {
		if first {
			sites := map[*site]bool{}
			for _, v := range y.visits {
				sites[v.site] = true
			}
			p.Text("lead", wording.Sprintf("%s to %s. The tables of this year are among the data.",
				plain.Count(len(y.visits), "visit"), plain.Count(len(sites), "site")))
			drawWords(p, counts)
		}
		p.Section(wording.Text("The visits"))
		var rows [][]paper.WebLink
		for _, v := range part {
			rows = append(rows, visitRow(v))
		}
		p.LinkTable("dense wide dated", wording.Text("Visits by day"), headed("visit", "site", "word", "value", "index", "animals"), rows)
		p.End()
		if first {
			aboutGrades(p)
		}
	})
}

func visitRow(v *shown) []paper.WebLink {
	return []paper.WebLink{{Words: v.date()}, {Words: v.site.name, Address: "../sites/" + v.site.slug + ".html"}, {Words: v.word()},
		{Words: v.value()},
		{Words: v.Title}, {Words: number(v.Animals)}}
}

// tallied is how many visits came to each word of an index.
type tallied struct {
	Title string
	Bars  chart.Bars
}

// wordsOf counts the words of visits, index by index, the best word first.
func (c *county) wordsOf(visits []*shown) (out []tallied) {
	by := map[string][]*shown{}
	for _, v := range visits {
		by[v.Scheme] = append(by[v.Scheme], v)
	}
	for _, of := range by {
		out = append(out, c.tallyOf(of))
	}
	slices.SortFunc(out, func(a, b tallied) int { return cmp.Compare(a.Title, b.Title) })
	return out
}

func (c *county) tallyOf(visits []*shown) tallied {
	var words []string
	if s := c.Rules.Scheme(visits[0].Scheme); s != nil {
		for _, z := range s.Zones() {
			words = append(words, z.Rating)
		}
		if !s.LowIsClean() {
			slices.Reverse(words)
		}
	}
	between, none, wordless := wording.Text("between two words"), wording.Text("no word"), wording.Text("a value without a word")
	count := map[string]int64{}
	for _, v := range visits {
		word := v.Rating
		switch {
		case len(v.RatingRange) > 0:
			word = between
		case v.Withheld:
			word = none
		case !slices.Contains(words, word):
			word = wordless
		}
		count[word]++
	}
	t := tallied{cmp.Or(visits[0].Title, wording.Text("No index")),
		chart.Bars{Title: wording.Text("Visits by word"), Counted: wording.Text("visits"), Groups: []chart.BarGroup{{}}}}
	for i, word := range slices.Concat(words, []string{between, none, wordless}) {
		if n := count[word]; n > 0 || i < len(words) {
			fill := chart.OpenBar
			if i < len(words) {
				fill = chart.BarFill(i * 4 / len(words))
			}
			t.Bars.Groups[0].Bars = append(t.Bars.Groups[0].Bars, chart.Bar{Label: word, Count: n, Fill: fill})
		}
	}
	return t
}

// drawWords draws how many visits came to each word.
func drawWords(p *paper.Page, counts []tallied) {
	drawBars(p, wording.Text("What the visits came to"), counts, func(t *tallied) {
		t.Bars.Title = wording.Sprintf("Visits by word of the %s", t.Title)
	})
}

// drawBars draws bars side by side, each called what entitle calls it.
func drawBars(p *paper.Page, title string, counts []tallied, entitle func(*tallied)) {
	p.Section(title)
	p.Begin("div", "two")
	for _, t := range counts {
		entitle(&t)
		p.Begin("div", "")
		p.Figure(t.Bars.SVG(chart.PaperSize{Width: 88, Height: t.Bars.Height(88)}), t.Bars.Title+".")
		p.End()
	}
	p.End()
	p.Text("note", wording.Text("Each index has words of its own, which are not to be set side by side."))
	p.End()
}
