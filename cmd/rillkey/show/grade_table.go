package show

import (
	"fmt"
	"io"

	"rillkey/scoring"
	"rillkey/scoring/series"
)

// Table writes many visits by place and date, each against the one before, and
// what the visits of a place say together.
func Table(w io.Writer, width int, t *series.Table) error {
	p := newPage(w, width)
	i := 0
	for n, place := range t.Places {
		if n > 0 {
			p.line("")
		}
		p.text(0, 2, "%s: %s", place.Site, place.Title)
		for ; i < len(t.Rows) && series.SamePlace(t.Rows[i], place); i++ {
			row(p, &t.Rows[i])
		}
		p.text(2, 4, "Together: %s.", place.Words)
	}
	graded := 0
	for _, r := range t.Rows {
		if !r.Withheld {
			graded++
		}
	}
	p.line("")
	p.text(0, 2, "%s, %d graded.", count(len(t.Rows), "visit"), graded)
	p.text(0, 2, "%s", scoring.Caution)
	return p.err
}

func row(p *page, r *series.Row) {
	switch {
	case r.Withheld:
		p.text(2, 14, "%s  no grade: %s", r.Visit.Date, r.Reason)
		return
	case r.Aside == "doubled":
		p.text(2, 14, "%s  %s %s; set aside: a visit with this id stands in another file", r.Visit.Date, number(*r.Value), r.Rating)
		return
	case r.Aside == "future":
		p.text(2, 14, "%s  %s %s; set aside: this day has not come yet", r.Visit.Date, number(*r.Value), r.Rating)
		return
	}
	sure := ""
	if r.Chance != nil && *r.Chance < 0.995 && r.Rating != scoring.Unrated {
		sure = " (by the names " + percent(*r.Chance) + ")"
	}
	changed := ""
	if r.Change != nil {
		changed = fmt.Sprintf("; %+.4g: %s", r.Change.Difference, r.Change.Words)
	}
	p.text(2, 14, "%s  %s %s%s%s", r.Visit.Date, number(*r.Value), r.Rating, sure, changed)
}
