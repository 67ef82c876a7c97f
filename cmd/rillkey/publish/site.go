package publish

import (
	"rillkey/cmd/rillkey/chart"
	"rillkey/cmd/rillkey/paper"
	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// mostVisits is how many visits a site's page names, the newest of all; the tables
// hold all.
const mostVisits = 150

// sitePage is the report of the newest visit, with all before it and a sketch.
func (c *county) sitePage(s *site) siteFile {
	var marks []string
	for _, v := range s.visits {
		marks = append(marks, v.Mark)
	}
	near := s.nearby()
	rests := c.rests("site", s.name, s.slug, s.obscured, s.spot, marks, s.judged, near.Places, addresses(s.stream), streamName(s))
	way := c.way(paper.WebLink{Words: wording.Text("Sites"), Address: "index.html"})
	if s.stream != nil {
		way = append(way, paper.WebLink{Words: s.stream.name, Address: "../streams/" + s.stream.slug + ".html"})
	}
	return c.page("sites/"+s.slug+".html", s.name, way, rests, func(p *paper.Page) error {
		v := s.newest()
		p.Text("lead", wording.Sprintf("%s, the newest on %s. What follows is what that one found; the other visits are below.",
			plain.Count(len(s.visits), "visit"), show.Day(v.date())))
		report, err := c.report(s, v)
		if err != nil {
			return err
		}
		report.Closing = func(p *paper.Page) {
			s.others(p)
			near.draw(p, wording.Text("Where it lies"))
		}
		report.Write(p)
		return nil
	})
}

func streamName(s *site) string {
	if s.stream == nil {
		return ""
	}
	return s.stream.name
}

// report is that of one visit, read again.
func (c *county) report(s *site, v *shown) (*paper.VisitReport, error) {
	given, err := c.given.visitFor(v.Name, s)
	if err != nil {
		return nil, err
	}
	k := c.Regional(given.Header)
	r := &paper.VisitReport{Catalog: k.Catalog, Rules: k.Rules, Account: k.Rules.Account(given), PictureOf: pictureOf}
	for _, n := range append(given.Notices, given.Tally().Notices...) {
		r.Trouble = append(r.Trouble, wording.Sprintf("line %d: %s", n.Line, wording.Text(trouble[n.Trouble])))
	}
	if r.Grade, err = k.Rules.Grade(r.Account, scoring.GradeOptions{
		Seed: c.Seed, Plain: true, Expected: true, Reference: v.comparison}); err != nil {
		return nil, err
	}
	if p := s.place(v); p != nil {
		past := chart.History(s.rowsOf(p), k.Rules.Scheme(p.Scheme), v.Visit.ID)
		past.Visit = past.Visit[max(0, len(past.Visit)-mostVisits):]
		if v.comparison != nil {
			r.Comparison = v.comparison.Words
		}
		r.History, r.Trend, r.Changed = &past, p.Words, p.ChangedBy(v.date())
	}
	return r, nil
}

// trouble is what was wrong with a file, without its own words, which may name somebody.
var trouble = map[visit.Trouble]string{
	visit.Torn:     wording.Mark("the last entry was cut off and is not counted"),
	visit.Repaired: wording.Mark("a torn end was put aside"),
	visit.Damaged:  wording.Mark("an entry is damaged and not counted"),
	visit.Changed:  wording.Mark("an entry was changed by hand and is counted"),
	visit.Doubled:  wording.Mark("an entry stands there twice and is counted once"),
	visit.Unknown:  wording.Mark("an entry is of a kind that this program does not know"),
	visit.Misfit:   wording.Mark("an entry refers to what is not there and is not counted"),
	visit.Further:  wording.Mark("there is more of that kind"),
}

// rowsOf are the visits by the scheme of a place.
func (s *site) rowsOf(p *series.Site) (out []series.Row) {
	for _, v := range s.visits {
		if v.Scheme == p.Scheme {
			out = append(out, *v.Row)
		}
	}
	return out
}

// others are the visits before the newest.
func (s *site) others(p *paper.Page) {
	p.Section(wording.Text("All visits here"))
	var rows [][]paper.WebLink
	for i := len(s.visits) - 1; i >= max(0, len(s.visits)-mostVisits); i-- {
		v := s.visits[i]
		rows = append(rows, []paper.WebLink{{Words: v.date(), Address: "../years/" + v.date()[:4] + ".html"}, {Words: v.word()},
			{Words: v.value()},
			{Words: v.Title}, {Words: number(v.Animals)}})
	}
	p.LinkTable("dense wide dated", wording.Text("Visits, the newest first"), headed("visit", "word", "value", "index", "animals"), rows)
	if n := len(s.visits) - mostVisits; n > 0 {
		p.Text("note", wording.Sprintf("%s stand in the tables of their years.", plain.Count(n, "older visit")))
	}
	p.End()
}
