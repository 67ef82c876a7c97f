package chart

import (
	"time"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// OverTime is a site's index visit by visit.
type OverTime struct {
	Title string
	Index string       // its name
	Zones []RatingZone // ratings by value, lowest first; may be empty
	Visit []VisitPoint
}

// RatingZone is the values of a rating, from the lowest up to the next zone's.
type RatingZone struct {
	Rating string
	Lowest float64
}

// VisitPoint is one visit, in the order of their dates.
type VisitPoint struct {
	Date   string   // YYYY-MM-DD
	Value  *float64 // nil where there is no grade
	Rating string   // or why there is none
	// Where 95 of 100 values lie because of the names, which need not be about the value,
	// and because of which samples were taken; the zero Range where nobody can say.
	Names, Samples Bounds
	This           bool // the visit that a report is about
}

// Bounds is from where to where values reach; none is below 0.
type Bounds struct{ Low, High float64 }

// plusMinus is the range so far up and down from a value.
func plusMinus(value, by float64) Bounds { return Bounds{max(0, value-by), value + by} }

func (v VisitPoint) text() string {
	if v.Value == nil {
		return wording.Text("no grade")
	}
	return plain.Printable(number(*v.Value, 6) + " " + v.Rating)
}

// Data is every visit.
func (c OverTime) Data() Data {
	d := Data{Head: []string{wording.Text("visit"), wording.Text("value"), wording.Text("rating"), wording.Text("doubtful names"),
		wording.Text("other samples")}}
	for _, v := range c.Visit {
		if v.Value == nil {
			d.Rows = append(d.Rows, []string{v.Date, wording.Text("no grade"), v.Rating, "", ""})
			continue
		}
		d.Rows = append(d.Rows, []string{v.Date, number(*v.Value, 6), v.Rating, v.Names.text(), v.Samples.text()})
	}
	return d
}

func (r Bounds) text() string {
	if r.High <= r.Low {
		return ""
	}
	decimals := 2
	if r.High >= 10 {
		decimals = 1
	}
	return wording.Sprintf("%s to %s", number(finite(r.Low), decimals), number(finite(r.High), decimals))
}

// Alt says the first and the last value.
func (c OverTime) Alt() string {
	var graded []VisitPoint
	for _, v := range c.Visit {
		if v.Value != nil {
			graded = append(graded, v)
		}
	}
	text := wording.Sprintf("Chart, %s: %s, %d graded", c.Title, plain.Count(len(c.Visit), "visit"), len(graded))
	if n := len(graded); n > 0 {
		text += wording.Sprintf("; %s on %s", graded[0].text(), graded[0].Date)
		if n > 1 {
			text += wording.Sprintf(" and %s on %s", graded[n-1].text(), graded[n-1].Date)
		}
	}
	return text + "."
}

// days counts the days of a date; a date that is none comes with the first.
func days(date string) float64 {
	t, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return 0
	}
	return float64(t.Unix()) / 86400
}

// Text is a line for every visit.
func (c OverTime) Text(cols int, bars bool) []string {
	most := 1.0
	for _, v := range c.Visit {
		if v.Value != nil {
			most = max(most, finite(*v.Value))
		}
	}
	var all []entry
	for _, v := range c.Visit {
		e := entry{label: v.Date, value: pad(v.text(), 1)}
		if v.Value != nil {
			e.part = finite(*v.Value) / most
		}
		all = append(all, e)
	}
	cols = max(leastCols, cols)
	return append(wrap(c.Title+": "+c.Index, cols, 2), columns(all, cols, bars)...)
}
