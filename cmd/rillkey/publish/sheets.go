package publish

import (
	"rillkey/cmd/rillkey/chart"
	"rillkey/cmd/rillkey/paper"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// sheets are the sketch of all sites, and one of each of its squares where all sites
// have no room for their labels on one.
type sheets struct {
	whole  *sketch
	grid   chart.Grid // without columns where one sketch is enough
	square []square
}

type square struct {
	name, slug string
	sites      []*site
}

const (
	mostOnOne   = 40 // sites whose labels have room on one sketch
	mostColumns = 12 // of the grid
)

func (c *county) newSheets() sheets {
	s := sheets{whole: sketchOf(c.sites, nil, c.Title)}
	if len(s.whole.Places) <= mostOnOne {
		return s
	}
	for i := range s.whole.Places {
		s.whole.Places[i].Number = 0
	}
	extent, _ := chart.ExtentOf(s.whole.Places)
	for n := 2; n <= mostColumns; n++ {
		s.grid = chart.Grid{Columns: n, Rows: n}
		if s.square = squares(c.sites, extent, s.grid); fullest(s.square) <= mostOnOne {
			break
		}
	}
	s.whole.Grid = s.grid
	return s
}

// squares are those with sites in them, row by row.
func squares(sites []*site, e chart.Extent, g chart.Grid) (out []square) {
	in := make([][]*site, g.Columns*g.Rows)
	for _, s := range sites {
		if s.spot != nil {
			column, row := e.Cell(g, chart.SketchPlace{Latitude: s.spot.Latitude, Longitude: s.spot.Longitude})
			in[row*g.Columns+column] = append(in[row*g.Columns+column], s)
		}
	}
	for i, of := range in {
		if len(of) > 0 {
			name := g.Square(i%g.Columns, i/g.Columns)
			out = append(out, square{name, slug("square " + name), of})
		}
	}
	return out
}

func fullest(all []square) (most int) {
	for _, s := range all {
		most = max(most, len(s.sites))
	}
	return most
}

func (s sheets) rests() any {
	var on []any
	for _, q := range s.square {
		on = append(on, q.name, len(q.sites))
	}
	return []any{s.whole.Places, s.whole.unmapped, on}
}

var whereSites = wording.Mark("Where the sites are")

// onFront draws all sites, with a table of them, or of the squares that show them.
func (s sheets) onFront(p *paper.Page) {
	if s.grid.Columns == 0 {
		front := *s.whole
		front.rootPath = ""
		front.draw(p, wording.Text(whereSites))
		return
	}
	p.Section(wording.Text(whereSites))
	p.Begin("div", "map")
	const wide = 92 // as wide as a phone, so that its letters are no smaller there
	p.Figure(s.whole.SVG(chart.PaperSize{Width: wide, Height: s.whole.Height(wide)}),
		wording.Text("All sites with a place on the map, in squares that have a sketch each."))
	p.End()
	var rows [][]paper.WebLink
	for _, q := range s.square {
		rows = append(rows, []paper.WebLink{{Words: q.name, Address: "map/" + q.slug + ".html"}, {Words: number(len(q.sites))},
			{Words: plain.Printable(q.sites[0].name)}, {Words: plain.Printable(q.sites[len(q.sites)-1].name)}})
	}
	p.LinkTable("dense", wording.Text("The squares of the sketch"), headed("square", "sites", "first by name", "last by name"), rows)
	if n := len(s.whole.unmapped); n > 0 {
		p.Text("note", wording.Sprintf("%s no place on the map.", plain.CountOf(n, "site has", "sites have")))
	}
	p.Text("note", wording.Text(sketchNote))
	p.End()
}

// sheetFiles are the squares.
func (c *county) sheetFiles() (out []siteFile) {
	for _, q := range c.grid.square {
		k := sketchOf(q.sites, nil, wording.Sprintf("Square %s", q.name))
		for i := range k.Places[min(len(k.Places), mostRows):] {
			k.Places[mostRows+i].Number = 0
		}
		out = append(out, c.page("map/"+q.slug+".html", wording.Sprintf("Square %s", q.name), c.way(),
			c.rests("square", k.Places, k.addresses),
			func(p *paper.Page) error {
				p.Text("lead", wording.Sprintf("%s, numbered by name.", plain.Count(len(q.sites), "site")))
				k.draw(p, wording.Text(whereSites))
				return nil
			}))
	}
	return out
}
