//go:build !js

package show

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"rillkey/scoring"
	"rillkey/scoring/scheme"
	"rillkey/scoring/series"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// VisitTable writes many visits by place and date, each against the one before, and
// what the visits of a place say together.
func VisitTable(w io.Writer, width int, t *series.VisitTable) error {
	p := newPage(w, width)
	first := true
	for place, rows := range t.ByPlace() {
		if !first {
			p.line("")
		}
		first = false
		p.text(0, 2, "%s: %s", place.Site, place.Title)
		for i := range rows {
			row(p, &rows[i])
		}
		p.text(2, 4, "Together: %s", place.Words)
	}
	graded := 0
	for _, r := range t.Rows {
		if !r.Withheld {
			graded++
		}
	}
	p.line("")
	p.text(0, 2, "%s, %d graded.", plain.Count(len(t.Rows), "visit"), graded)
	p.text(0, 2, "%s", scoring.Caution())
	return p.err
}

func row(p *page, r *series.Row) {
	hang := 14 // after the date
	if p.width < narrow {
		hang = 4
	}
	switch {
	case !r.Comparable():
		p.text(2, hang, "%s  no grade: %s", r.Visit.Date, r.Reason)
		return
	case r.Aside == "doubled":
		p.text(2, hang, "%s  %s %s; set aside: a visit with this id stands in another file", r.Visit.Date, wording.Number(*r.Value),
			WordOf(&r.Summary))
		return
	case r.Aside == "future":
		p.text(2, hang, "%s  %s %s; set aside: this day has not come yet", r.Visit.Date, wording.Number(*r.Value), WordOf(&r.Summary))
		return
	}
	sure := ""
	if r.Chance != nil && *r.Chance < 0.995 && r.Rating != scheme.Unrated {
		sure = wording.Sprintf(" (by the names %s)", plain.Percent(*r.Chance))
	}
	p.text(2, hang, "%s  %s %s%s%s", r.Visit.Date, wording.Number(*r.Value), WordOf(&r.Summary), sure, changed(r.Change))
}

// changed is how a visit differs from the one before, and in what beside its animals.
func changed(d *series.Difference) string {
	if d == nil {
		return ""
	}
	out := ""
	switch {
	case d.Difference == nil:
	case *d.Difference == 0 && !d.Shown:
		out = wording.Text("; the same")
	default:
		out = fmt.Sprintf("; %+.4g", *d.Difference)
	}
	if d.Words != "" {
		out += "; " + d.Words
	}
	if len(d.OtherConditions) > 0 {
		out += " (" + strings.Join(d.OtherConditions, "; ") + ")"
	}
	return out
}

// WordOf is the word of a visit, or between which it lies,
// and beside which site.
func WordOf(b *scoring.Summary) string {
	word := b.Rating
	switch {
	case len(b.RatingRange) > 0:
		word = wording.Sprintf("between %s", plain.And(b.RatingRange))
	case b.Withheld:
		return wording.Sprintf("no word: %s", b.Reason)
	case b.RatingProvisional:
		word = wording.Sprintf("%s, provisional", b.Rating)
	}
	if b.Reference != "" && word != "" && word != scheme.Unrated {
		return wording.Sprintf("%s, beside %s", word, b.Reference)
	}
	return word
}

// TableJSON writes the table as one document, a visit and a site at a time, since all of
// it at once would need more memory than the table itself.
func TableJSON(w io.Writer, t *series.VisitTable) error {
	out := bufio.NewWriter(w)
	fmt.Fprint(out, "{\n  \"visits\": [")
	for i := range t.Rows {
		separator := ",\n    "
		if i == 0 {
			separator = "\n    "
		}
		row, err := json.Marshal(withEmptyLists(&t.Rows[i]))
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "%s%s", separator, row)
	}
	fmt.Fprint(out, "\n  ],\n  \"sites\":[")
	for i := range t.Places {
		site, err := json.Marshal(withEmptyLists(t.Places[i]))
		if err != nil {
			return err
		}
		if i > 0 {
			site = append([]byte(","), site...)
		}
		out.Write(site)
	}
	problems, err := json.Marshal(withEmptyLists(t.Problems))
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "],\"problems\":%s}\n", problems)
	return out.Flush()
}
