package chart

import (
	"math"
	"strconv"
	"strings"

	"rillkey/cmd/rillkey/markup"
	"rillkey/taxa/plain"
)

// BarFill is how a bar is filled. Fills differ in black and white.
type BarFill int

// The fills, from the heaviest to the lightest.
const (
	Solid BarFill = iota
	Crossed
	Striped
	OpenBar

	unbarred BarFill = -1 // numbers without a bar, for what is summed up
)

// Kinds of line.
const (
	thin   = 0.2
	medium = 0.4
	heavy  = 0.9
)

const (
	ink   = "#111"
	grey  = "#ddd"
	pale  = "#f0f0f0"
	paper = "#fff"
)

// pen writes one svg element whose unit is the millimetre.
type pen struct {
	svg  markup.Writer
	size PaperSize
}

func newPen(s PaperSize, title, alt string) *pen {
	p := &pen{size: s}
	w, h := mm(s.Width), mm(s.Height)
	p.svg.Open("svg", "xmlns", "http://www.w3.org/2000/svg", "role", "img", "aria-label", alt, "width", w+"mm", "height", h+"mm",
		"viewBox", "0 0 "+w+" "+h, "font-family", "sans-serif", "fill", "none", "stroke", ink, "stroke-width", mm(thin))
	p.svg.Element("title", title)
	return p
}

func (p *pen) done() string {
	p.svg.Close("svg")
	return p.svg.String()
}

// mm writes a length to a hundredth of a millimetre.
func mm(v float64) string {
	return strconv.FormatFloat(math.Round(finite(v)*100)/100, 'f', -1, 64)
}

type point struct{ x, y float64 }

type style struct {
	width  float64
	dash   string
	fill   string
	closed bool
}

func (p *pen) path(points []point, s style) {
	if len(points) == 0 {
		return
	}
	var d strings.Builder
	for i, at := range points {
		d.WriteString(map[bool]string{true: "M", false: "L"}[i == 0] + mm(at.x) + " " + mm(at.y))
	}
	if s.closed {
		d.WriteString("Z")
	}
	attributes := []string{"d", d.String()}
	if s.fill != "" {
		attributes = append(attributes, "fill", s.fill)
	}
	if s.width == 0 {
		attributes = append(attributes, "stroke", "none")
	} else {
		attributes = append(attributes, "stroke-width", mm(s.width))
	}
	if s.dash != "" {
		attributes = append(attributes, "stroke-dasharray", s.dash)
	}
	p.svg.Empty("path", attributes...)
}

func (p *pen) line(a, b point, width float64) { p.path([]point{a, b}, style{width: width}) }

// bar is a filled rectangle with an outline; one without width is nothing.
func (p *pen) bar(x, y, w, h float64, f BarFill) {
	if w <= 0 || h <= 0 {
		return
	}
	colour := paper
	if f == Solid {
		colour = "#333"
	}
	p.svg.Empty("rect", "x", mm(x), "y", mm(y), "width", mm(w), "height", mm(h), "fill", colour)
	if f == Striped || f == Crossed {
		p.hatch(x, y, w, h, false)
	}
	if f == Crossed {
		p.hatch(x, y, w, h, true)
	}
}

// hatch draws slanting lines into a rectangle. They are drawn one by one, since
// a pattern would need an id, which two charts on a page must not share.
func (p *pen) hatch(x, y, w, h float64, falling bool) {
	const step = 1.1
	for d := step; d < w+h; d += step {
		a := point{x + max(0, d-h), y + h - min(d, h)}
		b := point{x + min(d, w), y + h - max(0, d-w)}
		if falling {
			a.y, b.y = 2*y+h-a.y, 2*y+h-b.y
		}
		p.line(a, b, 0.3)
	}
}

func (p *pen) dot(at point, r float64, hollow bool) {
	fill := ink
	if hollow {
		fill = paper
	}
	p.svg.Empty("circle", "cx", mm(at.x), "cy", mm(at.y), "r", mm(r), "fill", fill, "stroke-width", mm(medium))
}

// Where a text lies to its point.
const (
	fromStart = "start"
	atMiddle  = "middle"
	toEnd     = "end"
)

type words struct {
	text   string
	size   float64
	anchor string
	bold   bool
	room   float64 // the width it may take; what has no room is cut
}

// text writes words with their baseline at a point.
func (p *pen) text(at point, w words) {
	room := w.room
	if w.bold {
		room /= bolder
	}
	text := cut(plain.Printable(w.text), w.size, room)
	if text == "" {
		return
	}
	attributes := []string{"x", mm(at.x), "y", mm(at.y), "font-size", mm(w.size), "text-anchor", w.anchor}
	if w.bold {
		attributes = append(attributes, "font-weight", "bold")
	}
	p.svg.Element("text", text, append(attributes, "fill", ink, "stroke", "none")...)
}
