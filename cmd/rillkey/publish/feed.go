package publish

import (
	"bytes"
	"crypto/sha256"
	"encoding/xml"
	"fmt"
	"time"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
)

// feedName is the file of the feed: Atom, as RFC 4287 has it.
const feedName = "feed.atom"

type atomFeed struct {
	XMLName  xml.Name    `xml:"http://www.w3.org/2005/Atom feed"`
	Language string      `xml:"http://www.w3.org/XML/1998/namespace lang,attr"`
	Title    string      `xml:"title"`
	Subtitle string      `xml:"subtitle"`
	ID       string      `xml:"id"`
	Updated  string      `xml:"updated"`
	Author   atomPerson  `xml:"author"`
	Links    []atomLink  `xml:"link"`
	Entries  []atomEntry `xml:"entry"`
}

type atomPerson struct {
	Name string `xml:"name"`
}

type atomLink struct {
	Rel  string `xml:"rel,attr"`
	Type string `xml:"type,attr"`
	Href string `xml:"href,attr"`
}

type atomEntry struct {
	Title   string   `xml:"title"`
	ID      string   `xml:"id"`
	Updated string   `xml:"updated"`
	Link    atomLink `xml:"link"`
	Summary string   `xml:"summary"`
}

// feed tells of the newest visits by their day. An entry is as new as the newest entry
// of its visit, so that a correction is news.
func (c *county) feed() siteFile {
	var on []any
	for _, v := range c.newest {
		on = append(on, visitRow(v), v.Changed, v.IDs[0])
	}
	return siteFile{Path: feedName, Rests: c.rests("feed", on), Make: func() ([]byte, error) {
		f := atomFeed{Language: "en", Title: c.Title, Subtitle: scoring.Caution(), ID: urn("feed", c.Title, c.Address),
			Author: atomPerson{c.Title}}
		if c.Group != "" {
			f.Author.Name = c.Group
		}
		if c.Address != "" {
			f.Links = append(f.Links, atomLink{"self", "application/atom+xml", c.Address + feedName})
		}
		f.Links = append(f.Links, atomLink{"alternate", "text/html", c.Address + "index.html"})
		var newest time.Time
		for _, v := range c.newest {
			if v.Changed.After(newest) {
				newest = v.Changed
			}
			f.Entries = append(f.Entries, atomEntry{
				Title: v.site.name + ": " + v.word(), ID: urn("visit", v.IDs[0]), Updated: v.Changed.Format(time.RFC3339),
				Link:    atomLink{"alternate", "text/html", c.Address + "sites/" + v.site.slug + ".html"},
				Summary: fmt.Sprintf("%s: %s %s", show.Day(v.date()), v.says(), scoring.Caution()),
			})
		}
		f.Updated = newest.Format(time.RFC3339)
		var b bytes.Buffer
		b.WriteString(xml.Header)
		enc := xml.NewEncoder(&b)
		enc.Indent("", " ")
		if err := enc.Encode(f); err != nil {
			return nil, err
		}
		b.WriteByte('\n')
		return b.Bytes(), nil
	}}
}

// urn is a name for good that tells nothing of what it was made from: a UUID of version
// 8 (RFC 9562).
func urn(of ...string) string {
	sum := sha256.New()
	for _, s := range of {
		fmt.Fprintf(sum, "%d:%s", len(s), s)
	}
	u := sum.Sum(nil)[:16]
	u[6], u[8] = u[6]&0x0f|0x80, u[8]&0x3f|0x80
	return fmt.Sprintf("urn:uuid:%x-%x-%x-%x-%x", u[:4], u[4:6], u[6:8], u[8:10], u[10:])
}
