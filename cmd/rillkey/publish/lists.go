package publish

import (
	"rillkey/cmd/rillkey/paper"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// listOfSites are all sites by name.
func (c *county) listOfSites() []siteFile {
	rests := func(part []*site) string {
		var on []any
		for _, s := range part {
			on = append(on, newestRow(s, ""))
		}
		return c.rests("sites", on)
	}
	return paged(c, "sites/index", wording.Text("All sites"), c.way(), c.sites, rests, func(p *paper.Page, _ bool, part []*site) {
		var rows [][]paper.WebLink
		for _, s := range part {
			rows = append(rows, newestRow(s, "../"))
		}
		p.LinkTable("dense wide", wording.Text("Sites by name, each with its newest visit"), newestHead(), rows)
	})
}

// listOfStreams are all streams by name.
func (c *county) listOfStreams() []siteFile {
	row := func(s *stream) []paper.WebLink {
		visits := 0
		for _, at := range s.sites {
			visits += len(at.visits)
		}
		return []paper.WebLink{{Words: s.name, Address: s.slug + ".html"}, {Words: number(len(s.sites))}, {Words: number(visits)}}
	}
	rests := func(part []*stream) string {
		var on []any
		for _, s := range part {
			on = append(on, row(s))
		}
		return c.rests("streams", on)
	}
	title := wording.Text("All streams")
	return paged(c, "streams/index", title, c.way(), c.streams, rests, func(p *paper.Page, first bool, part []*stream) {
		var rows [][]paper.WebLink
		for _, s := range part {
			rows = append(rows, row(s))
		}
		p.LinkTable("dense", wording.Text("Streams by name"), headed("stream", "sites", "visits"), rows)
		hidden := 0
		for _, s := range c.sites {
			if s.obscured {
				hidden++
			}
		}
		if first && hidden > 0 {
			p.Text("note", wording.Sprintf("%s whose place is kept back belong to no stream here.", plain.Count(hidden, "site")))
		}
	})
}
