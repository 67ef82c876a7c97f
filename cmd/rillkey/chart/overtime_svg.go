package chart

import (
	"slices"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// SVG draws a dot for every graded visit with bars for both its uncertainties,
// and under the plot a hollow mark for each without a grade. Where zones are
// known their edges are lines with the ratings at the right.
func (c OverTime) SVG(s PaperSize) string {
	s = s.atLeast(least)
	p := newPen(s, c.Title, c.Alt())
	first, last := c.span()
	most, labels, withheld := 1.0, 0.0, false
	for _, v := range c.Visit {
		if v.Value == nil {
			withheld = true
			continue
		}
		most = max(most, finite(*v.Value), finite(v.Names.High), finite(v.Samples.High))
	}
	for _, z := range c.Zones {
		most, labels = max(most, finite(z.Lowest)*1.15), max(labels, width(plain.Printable(z.Rating), type8))
	}
	under := lead
	if withheld {
		under += lead
	}
	f := frameOf{top: c.legend(p), right: min(labels+2, s.Width*0.36), maxX: 1, maxY: most, nameY: c.Index, bare: true,
		bottom: under - lead*0.8}
	a := frame(p, f)
	c.zones(p, a)
	p.line(point{a.left, a.top}, point{a.left, a.bottom}, medium) // over the zones
	a.left, a.right = a.left+3, a.right-3                         // dots on the edges are seen whole
	a.maxX = max(1, last-first)
	c.marks(p, a, first)
	c.dates(p, a, first)
	return p.done()
}

func (c OverTime) span() (first, last float64) {
	for i, v := range c.Visit {
		d := days(v.Date)
		if i == 0 {
			first, last = d, d
		}
		first, last = min(first, d), max(last, d)
	}
	return first, last
}

func (c OverTime) legend(p *pen) (top float64) {
	y := lead
	half := p.size.Width / 2
	p.line(point{2, y - 2.6}, point{2, y + 0.2}, thin)
	p.text(point{4, y}, words{wording.Text("other samples"), type8, fromStart, false, half - 4})
	p.line(point{half + 1, y - 2.6}, point{half + 1, y + 0.2}, heavy)
	p.text(point{half + 3, y}, words{wording.Text("doubtful names"), type8, fromStart, false, half - 3})
	return y + 1
}

// zones draws the edges of the ratings and names them at the right, apart from
// each other; where there is no room for all names the narrowest go without.
func (c OverTime) zones(p *pen, a axes) {
	type label struct {
		rating string
		y      float64
	}
	var labels []label
	for i, z := range c.Zones {
		from, to := a.pointAt(0, z.Lowest).y, a.top
		if i+1 < len(c.Zones) {
			to = a.pointAt(0, c.Zones[i+1].Lowest).y
		}
		if i%2 == 1 && from > to {
			p.path([]point{{a.left, from}, {a.right, from}, {a.right, to}, {a.left, to}}, style{fill: pale, closed: true})
		}
		if i > 0 {
			p.path([]point{{a.left, from}, {a.right, from}}, style{width: thin, dash: "0.5 0.7"})
		}
		labels = append(labels, label{z.Rating, (from + to) / 2})
	}
	const apart = lead * 0.9
	for i := 1; i < len(labels); i++ { // upwards, y falls
		labels[i].y = min(labels[i].y, labels[i-1].y-apart)
	}
	top := a.top + 0.5
	for i := len(labels) - 1; i >= 0; i-- {
		if labels[i].y < top {
			labels[i].y = top
		}
		top = labels[i].y + apart
	}
	for _, l := range labels {
		if l.y <= a.bottom+0.5 {
			p.text(point{a.right + 1.5, l.y + 0.9}, words{l.rating, type8, fromStart, false, p.size.Width - a.right - 1.5})
		}
	}
}

func (c OverTime) marks(p *pen, a axes, first float64) {
	var line []point
	for _, v := range c.Visit {
		if v.Value != nil {
			line = append(line, a.pointAt(days(v.Date)-first, *v.Value))
		}
	}
	p.path(line, style{width: thin, dash: "1.2 0.8"})
	withheld := false
	for _, v := range c.Visit {
		x := days(v.Date) - first
		if v.Value == nil {
			withheld = true
			p.dot(point{a.pointAt(x, 0).x, a.bottom + lead*0.7}, 0.9, true)
			continue
		}
		c.whisker(p, a, x, v.Samples, thin, 1)
		c.whisker(p, a, x, v.Names, heavy, 0)
		at := a.pointAt(x, *v.Value)
		p.dot(at, 1.1, false)
		if v.This {
			p.path([]point{{at.x - 2, at.y - 2}, {at.x + 2, at.y - 2}, {at.x + 2, at.y + 2}, {at.x - 2, at.y + 2}},
				style{width: medium, closed: true})
		}
	}
	if withheld {
		p.text(point{a.right + 4.5, a.bottom + lead}, words{wording.Text("no grade"), type8, fromStart, false,
			p.size.Width - a.right - 4.5})
	}
}

// whisker is how far a value may reach, with a cap of so many millimetres.
func (c OverTime) whisker(p *pen, a axes, x float64, reach Bounds, width, halfCap float64) {
	if reach.High <= reach.Low {
		return
	}
	low, high := a.pointAt(x, finite(reach.Low)), a.pointAt(x, finite(reach.High))
	p.line(low, high, width)
	if halfCap > 0 {
		p.line(point{low.x - halfCap, low.y}, point{low.x + halfCap, low.y}, width)
		p.line(point{high.x - halfCap, high.y}, point{high.x + halfCap, high.y}, width)
	}
}

// dates names the visits under the axis as far as their dates have room: the
// last first, then the first, then what fits between.
func (c OverTime) dates(p *pen, a axes, first float64) {
	y := p.size.Height - 0.8
	half := width("2026-05-16", type8)/2 + 0.8
	var taken []float64
	order := make([]int, 0, len(c.Visit))
	if n := len(c.Visit); n > 0 {
		order = append(order, n-1)
		for i := range n - 1 {
			order = append(order, i)
		}
	}
	for _, i := range order {
		v := c.Visit[i]
		at := a.pointAt(days(v.Date)-first, 0)
		p.line(at, point{at.x, at.y + 0.8}, thin)
		x := max(half, min(at.x, p.size.Width-half))
		if slices.ContainsFunc(taken, func(t float64) bool { return t-x < 2*half && x-t < 2*half }) {
			continue
		}
		taken = append(taken, x)
		p.text(point{x, y}, words{v.Date, type8, atMiddle, false, 2 * half})
	}
}
