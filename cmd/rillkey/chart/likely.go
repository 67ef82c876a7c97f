package chart

import (
	"strings"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// RatingChances is how likely each rating is, for one reason or several.
type RatingChances struct {
	Title   string
	Ratings []string // cleanest first
	Point   string   // the rating given
	Reasons []Uncertainty
}

// Uncertainty is something uncertain, with the chances of the ratings because of it.
type Uncertainty struct {
	Label   string
	Chances []float64 // by rating, 0 to 1
}

func (c RatingChances) chance(r Uncertainty, i int) float64 {
	if i >= len(r.Chances) {
		return 0
	}
	return max(0, min(finite(r.Chances[i]), 1))
}

// Data is every chance.
func (c RatingChances) Data() Data {
	d := Data{Head: []string{wording.Text("rating")}}
	for _, r := range c.Reasons {
		d.Head = append(d.Head, r.Label)
	}
	for i, rating := range c.Ratings {
		row := []string{rating}
		if rating == c.Point {
			row[0] += wording.Text(" (the grade)")
		}
		for _, r := range c.Reasons {
			row = append(row, plain.Percent(c.chance(r, i)))
		}
		d.Rows = append(d.Rows, row)
	}
	return d
}

// Alt says the rating and how likely it is for each reason.
func (c RatingChances) Alt() string {
	var parts []string
	for _, r := range c.Reasons {
		for i, rating := range c.Ratings {
			if rating == c.Point {
				parts = append(parts, wording.Sprintf("%s given %s", plain.Percent(c.chance(r, i)), r.Label))
			}
		}
	}
	if len(parts) == 0 {
		return wording.Sprintf("Bar chart, %s.", c.Title)
	}
	return wording.Sprintf("Bar chart, %s: %s is the grade; its chance is %s.", c.Title, c.Point,
		strings.Join(parts, wording.Text(", and ")))
}

// fills tell the reasons apart.
var fills = []BarFill{Solid, Striped, OpenBar, Crossed}

// Height is how many millimetres the chart needs.
func (c RatingChances) Height() float64 {
	reasons := float64(len(c.Reasons))
	return reasons*(lead+0.4) + 1 + float64(len(c.Ratings))*max(2*lead+1.5, reasons*(lead-0.4)+3)
}

// SVG draws a bar for each rating and reason; the rating given is framed.
func (c RatingChances) SVG(s PaperSize) string {
	s = s.atLeast(PaperSize{least.Width, max(least.Height, c.Height())})
	p := newPen(s, c.Title, c.Alt())
	y := 0.0
	for i, r := range c.Reasons {
		p.bar(0.2, y+0.6, 5, lead-1, fills[i%len(fills)])
		p.text(point{6.5, y + lead - 0.7}, words{r.Label, type8, fromStart, false, s.Width - 6.5})
		y += lead + 0.4
	}
	y += 1
	labels := 0.0
	for _, r := range c.Ratings {
		labels = max(labels, width(plain.Printable(r), type8)*bolder)
	}
	left := max(min(labels, s.Width*labelPart), width(wording.Text("the grade"), type8)) + 4
	right := s.Width - width(plain.Percent(0.001), type8) - 2
	p.line(point{left, y}, point{left, s.Height}, medium)
	high := (s.Height - y) / float64(max(1, len(c.Ratings)))
	for i, rating := range c.Ratings {
		c.rating(p, i, rating, axes{left: left, right: right, top: y, bottom: y + high})
		y += high
	}
	return p.done()
}

func (c RatingChances) rating(p *pen, i int, rating string, a axes) {
	given := rating == c.Point
	middle := (a.top + a.bottom) / 2
	if given {
		p.path([]point{{0.5, a.top + 0.3}, {p.size.Width - 0.5, a.top + 0.3}, {p.size.Width - 0.5, a.bottom - 0.3},
			{0.5, a.bottom - 0.3}}, style{width: medium, closed: true})
	}
	low := middle + 1
	if given && a.bottom-a.top > 2*lead+1 {
		p.text(point{2, middle + 1 + lead/2}, words{wording.Text("the grade"), type8, fromStart, false, a.left - 3})
		low -= lead / 2
	}
	p.text(point{2, low}, words{rating, type8, fromStart, given, a.left - 3})
	thick := min(lead-0.4, (a.bottom-a.top-3)/float64(max(1, len(c.Reasons))))
	y := middle - thick*float64(len(c.Reasons))/2
	for n, r := range c.Reasons {
		v := c.chance(r, i)
		p.bar(a.left, y, (a.right-a.left)*v, thick, fills[n%len(fills)])
		p.text(point{a.left + (a.right-a.left)*v + 1, y + thick/2 + 0.9},
			words{plain.Percent(v), type8, fromStart, false, p.size.Width - a.right})
		y += thick
	}
}

// Text is a line for every rating and reason.
func (c RatingChances) Text(cols int, bars bool) []string {
	var all []entry
	for i, rating := range c.Ratings {
		if rating == c.Point {
			rating += wording.Text(" (the grade)")
		}
		all = append(all, entry{label: rating + ":", heading: true})
		for _, r := range c.Reasons {
			v := c.chance(r, i)
			all = append(all, entry{label: "  " + r.Label, value: plain.Percent(v), part: v})
		}
	}
	cols = max(leastCols, cols)
	return append(wrap(c.Title, cols, 2), columns(all, cols, bars)...)
}
