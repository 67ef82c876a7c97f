package publish

import (
	"bytes"
	"io"

	"rillkey/cmd/rillkey/paper"
	"rillkey/scoring/export"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

const (
	archiveDir  = "darwin-core" // among the data
	withheldZip = "--withheld"  // no name of a stream comes to that
)

// archive is all of one stream, or of the sites that are kept back, as a Darwin Core Archive.
type archive struct {
	name, slug string
	visits     []*shown
}

func (c *county) archives() (all []archive) {
	add := func(name, slug string, sites []*site) {
		a := archive{name: name, slug: slug}
		for _, s := range sites {
			a.visits = append(a.visits, s.visits...)
		}
		if len(a.visits) > 0 {
			all = append(all, a)
		}
	}
	for _, s := range c.streams {
		add(s.name, s.slug, s.sites)
	}
	var hidden []*site
	for _, s := range c.sites {
		if s.obscured {
			hidden = append(hidden, s)
		}
	}
	add(wording.Text("Sites whose place is kept back"), withheldZip, hidden)
	return all
}

// archiveFiles are the archives, and the pages that list them.
func (c *county) archiveFiles() []siteFile {
	all := c.archives()
	row := func(a archive) []paper.WebLink {
		return []paper.WebLink{{Words: a.name, Address: a.slug + ".zip"}, {Words: number(len(a.visits))}}
	}
	rests := func(part []archive) string {
		var on []any
		for _, a := range part {
			on = append(on, row(a))
		}
		return c.rests("archives", on)
	}
	way := []paper.WebLink{{Words: c.Title, Address: "../../index.html"}, {Words: wording.Text("The data"), Address: "../index.html"}}
	title := wording.Text("Darwin Core Archives")
	out := paged(c, "data/"+archiveDir+"/index", title, way, all, rests, func(p *paper.Page, _ bool, part []archive) {
		p.Text("lead", wording.Text("Visits, samples, animals and indices for those who gather where species were found, as the "+
			"text guide of Darwin Core (TDWG) has it. Nobody is named."))
		var rows [][]paper.WebLink
		for _, a := range part {
			rows = append(rows, row(a))
		}
		p.LinkTable("dense", wording.Text("Archives by stream"), headed("stream", "visits"), rows)
		p.Text("note", wording.Text("A word or a value describes the animals of one day; it says nothing on drinking or swimming."))
	})
	for _, a := range all {
		f := siteFile{Path: "data/" + archiveDir + "/" + a.slug + ".zip", Rests: c.rests("archive", a.name, restsOf(a.visits))}
		f.Make = func() ([]byte, error) {
			var b bytes.Buffer
			err := export.DarwinCoreArchive(&b, c.visitsOf(a.visits), c.knowledge(), export.Discretion{Applied: true},
				c.aboutData(plain.OneLine(a.name), a.visits), func() (export.Spool, error) { return &spool{}, nil })
			return b.Bytes(), err
		}
		out = append(out, f)
	}
	return out
}

// spool keeps a file of an archive in memory until its turn.
type spool struct{ bytes.Buffer }

// Rewind implements [export.Spool].
func (s *spool) Rewind() (io.Reader, error) { return &s.Buffer, nil }
