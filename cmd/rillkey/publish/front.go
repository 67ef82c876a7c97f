package publish

import (
	"rillkey/cmd/rillkey/paper"
	"rillkey/scoring"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// mostStreams is how many streams the first page names.
const mostStreams = 60

// front is the first page.
func (c *county) front() siteFile {
	var newest, years []any
	for _, v := range c.newest {
		newest = append(newest, visitRow(v))
	}
	total := 0
	for _, y := range c.years {
		years = append(years, y.name, len(y.visits))
		total += len(y.visits)
	}
	var streams []string
	for _, s := range c.streams {
		streams = append(streams, s.name, s.slug)
	}
	rests := c.rests("front", newest, years, len(c.sites), streams, c.grid.rests(), c.wordsOf(c.lastWords()))
	return c.page("index.html", c.Title, nil, rests, func(p *paper.Page) error {
		by := wording.Text("Volunteers")
		if c.Group != "" {
			by = c.Group
		}
		p.Text("lead", wording.Sprintf("%s: %s, %s, %s, %s. %s netted these streams, sorted what lives there, named it and counted it, "+
			"and gave it back.", c.span(), plain.Count(len(c.streams), "stream"), plain.Count(len(c.sites), "site"),
			plain.Count(total, "visit"), plain.Count(len(c.years), "year"), by))
		p.Text("", scoring.Caution())
		c.frontLinks(p)
		c.grid.onFront(p)
		drawWordsNow(p, c.wordsOf(c.lastWords()))
		c.frontNew(p)
		aboutGrades(p)
		return nil
	})
}

func (c *county) span() string {
	last, first := c.years[0].name, c.years[len(c.years)-1].name
	if first == last {
		return last
	}
	return wording.Sprintf("%s to %s", first, last)
}

// lastWords are the newest visits of all sites.
func (c *county) lastWords() (out []*shown) {
	for _, s := range c.sites {
		out = append(out, s.newest())
	}
	return out
}

func drawWordsNow(p *paper.Page, counts []tallied) {
	drawBars(p, wording.Text("How the sites stand"), counts, func(t *tallied) {
		t.Bars.Title, t.Bars.Counted = wording.Sprintf("Sites by the word of their newest visit, %s", t.Title), wording.Text("sites")
	})
}

func (c *county) frontLinks(p *paper.Page) {
	p.Section(wording.Text("Find your stream"))
	var links []paper.WebLink
	for _, s := range c.streams[:min(len(c.streams), mostStreams)] {
		links = append(links, paper.WebLink{Words: s.name, Address: "streams/" + s.slug + ".html"})
	}
	if n := len(c.streams) - mostStreams; n > 0 {
		links = append(links, paper.WebLink{Words: plain.Count(n, "more stream"), Address: "streams/index.html"})
	}
	p.Links("links", links)
	p.Heading(wording.Text("Year by year"))
	links = nil
	for _, y := range c.years {
		links = append(links, paper.WebLink{Words: y.name + ", " + plain.Count(len(y.visits), "visit"),
			Address: "years/" + y.name + ".html"})
	}
	p.Links("links", links)
	p.End()
}

func (c *county) frontNew(p *paper.Page) {
	p.Section(wording.Text("The newest visits"))
	var rows [][]paper.WebLink
	for _, v := range c.newest[:min(len(c.newest), 15)] {
		row := visitRow(v)
		row[1].Address = "sites/" + v.site.slug + ".html"
		rows = append(rows, row)
	}
	p.LinkTable("dense wide dated", wording.Text("Visits, the newest first"),
		headed("visit", "site", "word", "value", "index", "animals"), rows)
	p.End()
}
