package publish

import (
	"cmp"
	"math"
	"slices"

	"rillkey/cmd/rillkey/chart"
	"rillkey/cmd/rillkey/paper"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// mostCharts is how many sites of a stream have their years drawn on its page.
const mostCharts = 12

// streamPages are the sites of a stream side by side.
func (c *county) streamPages(st *stream) []siteFile {
	sketch := sketchOf(st.sites, nil, st.name)
	rests := func(part []*site) string {
		var on []any
		for _, s := range part {
			on = append(on, newestRow(s, ""), s.judged, sketch.Places)
			for _, v := range s.visits {
				on = append(on, v.Mark)
			}
		}
		return c.rests("stream", st.name, on)
	}
	way := c.way(paper.WebLink{Words: wording.Text("Streams"), Address: "index.html"})
	return paged(c, "streams/"+st.slug, st.name, way, st.sites, rests,
		func(p *paper.Page, first bool, part []*site) {
			if first {
				n := 0
				for _, s := range st.sites {
					n += len(s.visits)
				}
				p.Text("lead", wording.Sprintf("%s, %s.", plain.Count(len(st.sites), "site"), plain.Count(n, "visit")))
			}
			p.Section(wording.Text("The sites"))
			var rows [][]paper.WebLink
			for _, s := range part {
				rows = append(rows, newestRow(s, "../"))
			}
			p.LinkTable("dense wide", wording.Text("Sites by name, each with its newest visit"), newestHead(), rows)
			p.End()
			if first {
				sketch.draw(p, wording.Text("Where they lie"))
				c.overYears(p, st)
				aboutGrades(p)
			}
		})
}

// overYears draws the value of each site at each visit, on one scale of time each.
func (c *county) overYears(p *paper.Page, st *stream) {
	p.Section(wording.Text("Site by site over the years"))
	p.Begin("div", "two")
	for _, s := range st.sites[:min(len(st.sites), mostCharts)] {
		place := s.place(s.newest())
		if place == nil {
			continue
		}
		h := chart.History(s.rowsOf(place), c.Rules.Scheme(place.Scheme), "")
		h.Title = s.name
		h.Visit = h.Visit[max(0, len(h.Visit)-mostVisits):]
		p.Figure(h.SVG(chart.PaperSize{Width: 88, Height: 58}), s.name+": "+place.Words)
	}
	p.End()
	if n := len(st.sites) - mostCharts; n > 0 {
		p.Text("note", wording.Sprintf("%s have theirs on their own pages.", plain.Count(n, "more site")))
	}
	p.End()
}

// sketch is a map of sites.
type sketch struct {
	chart.Sketch
	unmapped  []string // sites that are on no map
	addresses []string // addresses of the places
	rootPath  string   // leads from the page to the folder of the site
}

// sketchOf numbers the sites in their order.
func sketchOf(sites []*site, this *site, title string) *sketch {
	out := &sketch{Sketch: chart.Sketch{Title: title}, rootPath: "../"}
	for _, s := range sites {
		if s.spot == nil {
			out.unmapped = append(out.unmapped, s.name)
			continue
		}
		v := s.newest()
		p := chart.SketchPlace{Number: len(out.Places) + 1, Name: s.name, Latitude: s.spot.Latitude, Longitude: s.spot.Longitude,
			Hollow: !v.graded(), This: s == this, Note: v.word()}
		if s.obscured {
			p.Rough = s.spot.Uncertainty
		}
		out.Places, out.addresses = append(out.Places, p), append(out.addresses, "sites/"+s.slug+".html")
	}
	return out
}

// mostNear is how many sites the sketch of a site holds.
const mostNear = 20

// nearby is a sketch of a site and the nearest others of its stream.
func (s *site) nearby() *sketch {
	sites := []*site{s}
	if s.stream != nil {
		sites = nearest(s, s.stream.sites, mostNear)
	}
	return sketchOf(sites, s, s.name)
}

// nearest are at most so many sites about one, itself among them, in the order given.
func nearest(s *site, all []*site, most int) []*site {
	if len(all) <= most || s.spot == nil {
		return all[:min(len(all), most)]
	}
	far := func(o *site) float64 {
		if o.spot == nil {
			return math.Inf(1)
		}
		east := (o.spot.Longitude - s.spot.Longitude) * math.Cos(s.spot.Latitude*math.Pi/180)
		return math.Hypot(east, o.spot.Latitude-s.spot.Latitude)
	}
	byFar := slices.Clone(all)
	slices.SortStableFunc(byFar, func(a, b *site) int { return cmp.Compare(far(a), far(b)) })
	keep := byFar[:most]
	return slices.DeleteFunc(slices.Clone(all), func(o *site) bool { return !slices.Contains(keep, o) })
}

var sketchNote = wording.Mark("A sketch from coordinates alone: no map of elsewhere is behind it. North is up, and the bar of " +
	"distance holds in its middle. " +
	"A ring is a site whose newest visit has no word; a dashed square is a site whose place is kept back, which lies somewhere in it.")

// draw draws the sketch under a heading, with its table.
func (k *sketch) draw(p *paper.Page, heading string) {
	p.Section(heading)
	if len(k.Places) == 0 {
		p.Text("", wording.Text("No place on the map is noted yet."))
		p.End()
		return
	}
	p.Begin("div", "map")
	const wide = 92 // as wide as a phone, so that its letters are no smaller there
	p.Figure(k.SVG(chart.PaperSize{Width: wide, Height: k.Height(wide)}), plain.Printable(k.Title)+".")
	p.End()
	d := k.Data()
	rows := make([][]paper.WebLink, len(d.Rows))
	for i, row := range d.Rows {
		for j, cell := range row {
			rows[i] = append(rows[i], paper.WebLink{Words: plain.Printable(cell)})
			if j == 1 && !k.Places[i].This {
				rows[i][j].Address = k.rootPath + k.addresses[i]
			}
		}
	}
	p.LinkTable("dense wide", wording.Text("The sites of the sketch; coordinates are WGS 84"), d.Head, rows)
	if len(k.unmapped) > 0 {
		p.Text("note", wording.Sprintf("Without a place on the map: %s.", plain.And(k.unmapped)))
	}
	p.Text("note", wording.Text(sketchNote))
	p.End()
}

// addresses are those of a stream's sites, which pages link to.
func addresses(st *stream) (out []string) {
	if st != nil {
		for _, s := range st.sites[:min(len(st.sites), mostNear)] {
			out = append(out, s.slug)
		}
	}
	return out
}
