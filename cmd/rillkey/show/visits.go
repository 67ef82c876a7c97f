//go:build !js

package show

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// VisitsJSON is a list of visits as people and scripts see it.
type VisitsJSON struct {
	Visits     []VisitRow `json:"visits"`
	Total      int        `json:"of"` // visits in the folder; -1 where a database did not count them
	Unreadable int        `json:"unreadable"`

	folder string // of the files
}

// VisitRow is one visit of a list.
type VisitRow struct {
	File         string   `json:"file"`
	State        string   `json:"state"` // open, finished or unreadable
	Problem      string   `json:"problem,omitempty"`
	Remarks      int      `json:"remarks"` // what reading the file found wrong
	ID           string   `json:"id"`
	Site         string   `json:"site"`
	Date         string   `json:"date"`
	People       []string `json:"people"`
	Samples      int      `json:"samples"`
	Animals      int      `json:"animals"`
	Taxa         []string `json:"taxa"`
	Latitude     *float64 `json:"latitude"`
	Longitude    *float64 `json:"longitude"`
	Uncertainty  *float64 `json:"uncertainty_m"`
	Obscured     bool     `json:"obscured"`
	Index        string   `json:"index"`
	Value        *float64 `json:"value"`  // null where there is none
	Rating       string   `json:"rating"` // empty where withheld
	Provisional  bool     `json:"rating_provisional,omitempty"`
	RatingRange  []string `json:"between,omitempty"`
	Reason       string   `json:"reason"`
	Reference    string   `json:"reference,omitempty"` // the site that the visit is to be compared with
	ReferenceDay string   `json:"beside,omitempty"`    // the day of the visit there that its word stands beside
	SameAs       string   `json:"same_as,omitempty"`   // another file that holds this visit
}

// NewVisits describes the entries found among of in a folder or a database.
func NewVisits(folder string, entries []series.VisitFile, of int) *VisitsJSON {
	out := &VisitsJSON{Visits: []VisitRow{}, Total: of, folder: folder}
	for _, e := range entries {
		r := VisitRow{
			File: e.File, State: string(e.State), Problem: e.Problem, Remarks: e.Remarks, ID: e.ID, Site: e.Site, Date: e.Date,
			People: append([]string{}, e.People...), Samples: e.Samples, Animals: e.Animals, Taxa: append([]string{}, e.Taxa...),
			Obscured: e.Obscured, Index: e.Index, Value: e.Value, Rating: e.Rating, Provisional: e.RatingProvisional,
			RatingRange: e.RatingRange, Reason: e.Reason, Reference: e.Reference, ReferenceDay: e.ReferenceDay, SameAs: e.SameAs,
		}
		if s := e.Spot; s != nil {
			r.Latitude, r.Longitude, r.Uncertainty = &s.Latitude, &s.Longitude, &s.Uncertainty
		}
		if e.State == series.Unreadable {
			out.Unreadable++
		}
		out.Visits = append(out.Visits, r)
	}
	return out
}

// Text writes a line for each visit, or two where the screen is narrow.
func (v *VisitsJSON) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	for _, r := range v.Visits {
		switch {
		case r.State == string(series.Unreadable):
			p.text(0, 2, "unreadable: %s", r.Problem)
		case p.width < narrow:
			p.text(0, 2, "%s %s", r.Date, r.Site)
			p.text(2, 4, "%s; %s%s", r.grade(), r.state(), r.trouble())
			r.reference(p, 4)
		default:
			site := max(16, p.width-56)
			p.line(fmt.Sprintf("%s  %-*s %-30s %s%s", r.Date, site, terminal.Middle(plain.Printable(r.Site), site),
				ansi.Truncate(r.grade(), 30, "…"), r.state(), r.trouble()))
			r.reference(p, 12)
		}
	}
	if v.Total == 0 {
		p.text(0, 2, "There is no visit here, and none in the folders below. Their files end in %s.", visit.Suffix)
		p.text(0, 2, "To look in another folder, name it; to begin a visit in this one: rillkey visit begin")
		return p.err
	}
	if v.Total < 0 {
		p.text(0, 2, "%s.", plain.Count(len(v.Visits), "visit"))
	} else {
		p.text(0, 2, "%d of %s.", len(v.Visits), plain.Count(v.Total, "visit"))
	}
	for _, r := range v.Visits {
		if r.SameAs != "" {
			p.text(0, 2, "%s and %s hold the same visit; unite them: %s", r.SameAs, r.File,
				visit.HowToMerge(filepath.Join(v.folder, r.SameAs), filepath.Join(v.folder, r.File)))
		}
	}
	return p.err
}

// reference says beside what the word of a visit stands.
func (r *VisitRow) reference(p *page, indent int) {
	if r.ReferenceDay != "" && (r.Rating != "" || len(r.RatingRange) > 0) {
		p.text(indent, indent+2, "beside %s on %s", r.Reference, r.ReferenceDay)
	}
}

func (r *VisitRow) grade() string {
	switch {
	case r.Value != nil && r.Rating != "" && r.Provisional:
		return wording.Sprintf("%s, provisional (%s)", strings.ToUpper(r.Rating), wording.Number(*r.Value))
	case r.Value != nil && r.Rating != "":
		return fmt.Sprintf("%s (%s)", strings.ToUpper(r.Rating), wording.Number(*r.Value))
	case len(r.RatingRange) > 0:
		return fmt.Sprintf("%s (%s)", strings.Join(r.RatingRange, wording.Text(" to ")), wording.Number(*r.Value))
	case r.Index == "":
		return wording.Text("protocol not known")
	}
	return wording.Text("no grade")
}

// state is how far a visit is: open, finished or unreadable.
func (r *VisitRow) state() string { return wording.Text(r.State) }

func (r *VisitRow) trouble() string {
	if r.Remarks == 0 {
		return ""
	}
	return wording.Text(", see its file")
}
