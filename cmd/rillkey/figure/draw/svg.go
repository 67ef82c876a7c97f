package draw

import (
	"encoding/xml"
	"math"
	"strconv"
	"strings"
)

// Frame is how a drawing becomes SVG: its size, its strokes and what it says to
// people who cannot see it. Sizes are in millimetres, the drawing's unit too.
type Frame struct {
	Width, Height float64
	Line, Heavy   float64 // widths of strokes
	Title, Alt    string
}

// SVG is the drawing as one svg element without scripts, styles, ids or
// references. It uses the elements svg, title, desc, path and text only.
func (c *Canvas) SVG(p Frame) string {
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" role="img" width="` + num(p.Width) + `mm" height="` + num(p.Height) +
		`mm" viewBox="0 0 ` + num(p.Width) + " " + num(p.Height) + `" fill="none" stroke="#111" stroke-linecap="round" stroke-linejoin="round" stroke-width="` + num(p.Line) + `">`)
	if p.Title != "" {
		b.WriteString("<title>" + Escape(p.Title) + "</title>")
	}
	if p.Alt != "" {
		b.WriteString("<desc>" + Escape(p.Alt) + "</desc>")
	}
	for i := range c.Shapes {
		c.Shapes[i].svg(&b, p)
	}
	for _, t := range c.Texts {
		anchor := ""
		if t.Middle {
			anchor = ` text-anchor="middle"`
		}
		b.WriteString(`<text x="` + num(t.At.X) + `" y="` + num(t.At.Y) + `" font-family="sans-serif" font-size="` + num(t.Size) + `"` +
			anchor + ` fill="#111" stroke="none">` + Escape(t.Words) + `</text>`)
	}
	b.WriteString("</svg>")
	return b.String()
}

func (s *Shape) svg(b *strings.Builder, p Frame) {
	if len(s.Points) == 0 {
		return
	}
	b.WriteString(`<path d="` + s.data() + `"`)
	switch {
	case s.Fill == Paper:
		b.WriteString(` fill="#fff"`)
	case s.Fill == Ink:
		b.WriteString(` fill="#111"`)
	case s.Fill == Tone:
		b.WriteString(` fill="#ddd"`)
	case s.Fill == Shade:
		b.WriteString(` fill="#999"`)
	}
	if s.Bare {
		b.WriteString(` stroke="none"`)
	}
	switch {
	case s.Heavy && s.Fine:
		b.WriteString(` stroke-width="` + num((2*p.Line+p.Heavy)/3) + `"`)
	case s.Heavy:
		b.WriteString(` stroke-width="` + num(p.Heavy) + `"`)
	}
	if s.Dashed {
		b.WriteString(` stroke-dasharray="` + num(p.Line*3) + " " + num(p.Line*3) + `"`)
	}
	b.WriteString("/>")
}

func (s *Shape) data() string {
	var b strings.Builder
	pt := func(q Pt) { b.WriteString(num(q.X) + " " + num(q.Y)) }
	b.WriteString("M")
	pt(s.Points[0])
	switch {
	case len(s.Points) == 1:
		b.WriteString("L")
		pt(s.Points[0])
	case s.Smooth && len(s.Points) > 2:
		for _, q := range s.cubics() {
			b.WriteString("C")
			pt(q.b)
			b.WriteString(" ")
			pt(q.c)
			b.WriteString(" ")
			pt(q.d)
		}
	default:
		for _, q := range s.Points[1:] {
			b.WriteString("L")
			pt(q)
		}
	}
	if s.Closed {
		b.WriteString("Z")
	}
	return b.String()
}

// num writes a length to a hundredth, without needless digits.
func num(v float64) string {
	v = math.Round(v*100) / 100
	if v == 0 {
		v = 0 // no minus
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// Escape is text made safe inside XML and HTML, in elements and in attributes.
func Escape(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a Builder never fails
	return b.String()
}
