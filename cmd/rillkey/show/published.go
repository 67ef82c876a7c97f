//go:build !js

package show

import (
	"io"

	"rillkey/taxa/plain"
)

// Published says what became of a site of visits.
type Published struct {
	Target  string   `json:"to"`
	Visits  int      `json:"visits"` // shown
	Sites   int      `json:"sites"`
	Streams int      `json:"streams"`
	Years   int      `json:"years"`
	Files   int      `json:"files"`   // of which the site is made
	Written int      `json:"written"` // made anew
	Removed int      `json:"removed"`
	Left    []string `json:"left"`   // not made by the program, or changed since, and left as they are
	Open    int      `json:"open"`   // visits that are not finished and stay out
	Future  int      `json:"future"` // visits whose day has not come

	FirstOpen string `json:"-"` // the file of one that is not finished
}

// Text says it in a few lines.
func (s Published) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	p.text(0, 2, "Saved: %s to %s on %s, in %s.", plain.Count(s.Visits, "visit"), plain.Count(s.Sites, "site"),
		plain.Count(s.Streams, "stream"),
		plain.Printable(s.Target))
	p.text(0, 2, "%s: %d made anew, %d removed.", plain.Count(s.Files, "file"), s.Written, s.Removed)
	if s.Open > 0 {
		p.text(0, 2, "%s, not finished. One is finished by: rillkey visit finish --visit %s",
			plain.CountOf(s.Open, "visit stays out", "visits stay out"), plain.ShellWord(s.FirstOpen))
	}
	if s.Future > 0 {
		p.text(0, 2, "%s, since the day has not come.", plain.CountOf(s.Future, "visit stays out", "visits stay out"))
	}
	p.text(0, 2, "Begin with %s. Names of sites, and sites that are not obscured, are shown as they are: look before you put "+
		"it on a server.",
		plain.Printable(s.Target)+"/index.html")
	return p.err
}
