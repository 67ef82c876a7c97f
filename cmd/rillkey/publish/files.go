package publish

import (
	"bytes"
	"strings"

	"rillkey/cmd/rillkey/paper"
	"rillkey/taxa/wording"
)

// files are all files of the site.
func (c *county) files() (all []siteFile) {
	all = append(all, c.front(), c.feed(), c.dataPage())
	all = append(all, c.listOfSites()...)
	all = append(all, c.listOfStreams()...)
	all = append(all, c.sheetFiles()...)
	for _, s := range c.sites {
		all = append(all, c.sitePage(s))
	}
	for _, s := range c.streams {
		all = append(all, c.streamPages(s)...)
	}
	for _, y := range c.years {
		all = append(all, c.yearPages(y)...)
		all = append(all, c.tables(y)...)
	}
	all = append(all, c.archiveFiles()...)
	return append(all, c.animals()...)
}

// page makes a file of a page; up leads from it to the folder of the site.
func (c *county) page(path, title string, way []paper.WebLink, rests string, fill func(p *paper.Page) error) siteFile {
	up := strings.Repeat("../", strings.Count(path, "/"))
	return siteFile{Path: path, Rests: rests, Make: func() ([]byte, error) {
		p := paper.New(title)
		w := paper.Web{Way: way, Feed: up + feedName, Foot: []paper.WebLink{
			{Words: wording.Text("First page"), Address: up + "index.html"},
			{Words: wording.Text("All sites"), Address: up + "sites/index.html"},
			{Words: wording.Text("All streams"), Address: up + "streams/index.html"},
			{Words: wording.Text("The animals"), Address: up + "animals/index.html"},
			{Words: wording.Text("The data"), Address: up + "data/index.html"},
			{Words: wording.Text("Feed of new visits"), Address: up + feedName},
		}}
		if title != c.Title {
			w.Site = c.Title
		}
		p.Web(w)
		if err := fill(p); err != nil {
			return nil, err
		}
		var b bytes.Buffer
		_, err := p.WriteTo(&b)
		return b.Bytes(), err
	}}
}

// way is the way to a page one folder down.
func (c *county) way(more ...paper.WebLink) []paper.WebLink {
	return append([]paper.WebLink{{Words: c.Title, Address: "../index.html"}}, more...)
}

// mostRows is how many rows a table on a page has: with as many a page stays below
// 200 kB. What is left goes on further pages.
const mostRows = 300

// paged makes a page of every so many rows; the first is called name, the next name--2.
// What rests says is asked for each.
func paged[T any](c *county, name, title string, way []paper.WebLink, all []T, rests func([]T) string,
	fill func(p *paper.Page, first bool, part []T)) (out []siteFile) {
	n := max(1, (len(all)+mostRows-1)/mostRows)
	address := func(i int) string {
		if i == 0 {
			return name + ".html"
		}
		return name + "--" + number(i+1) + ".html" // no name comes to two hyphens
	}
	for i := range n {
		part := all[min(len(all), i*mostRows):min(len(all), (i+1)*mostRows)]
		words := title
		if i > 0 {
			words = wording.Sprintf("%s, page %d", words, i+1)
		}
		out = append(out, c.page(address(i), words, way, c.rests(n, rests(part)), func(p *paper.Page) error {
			fill(p, i == 0, part)
			var links []paper.WebLink
			for j := range n {
				link := paper.WebLink{Words: wording.Sprintf("Page %d", j+1), Address: base(address(j))}
				if j == i {
					link = paper.WebLink{Words: wording.Sprintf("Page %d, this one", j+1)}
				}
				links = append(links, link)
			}
			if n > 1 {
				p.Links("links", links)
			}
			return nil
		}))
	}
	return out
}

func base(path string) string { return path[strings.LastIndexByte(path, '/')+1:] }
