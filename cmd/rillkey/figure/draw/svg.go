package draw

import (
	"encoding/xml"
	"math"
	"strconv"
	"strings"

	"rillkey/taxa/lineart"
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
		`mm" viewBox="0 0 ` + num(p.Width) + " " + num(p.Height) +
		`" fill="none" stroke="#111" stroke-linecap="round" stroke-linejoin="round" stroke-width="` + num(p.Line) + `">`)
	if p.Title != "" {
		b.WriteString("<title>" + escape(p.Title) + "</title>")
	}
	if p.Alt != "" {
		b.WriteString("<desc>" + escape(p.Alt) + "</desc>")
	}
	points := 0
	for i := range c.Shapes {
		points += len(c.Shapes[i].Points)
	}
	b.Grow(len(p.Title) + len(p.Alt) + 40*len(c.Shapes) + 30*points)
	var path []byte
	for i := range c.Shapes {
		path = c.Shapes[i].svg(&b, p, path)
	}
	for _, t := range c.Texts {
		anchor := ""
		if t.Middle {
			anchor = ` text-anchor="middle"`
		}
		b.WriteString(`<text x="` + num(t.At.X) + `" y="` + num(t.At.Y) + `" font-family="sans-serif" font-size="` + num(t.Size) + `"` +
			anchor + ` fill="#111" stroke="none">` + escape(t.Words) + `</text>`)
	}
	b.WriteString("</svg>")
	return b.String()
}

// svg writes the path; room is space to be used again.
func (s *Shape) svg(b *strings.Builder, p Frame, room []byte) []byte {
	if len(s.Points) == 0 {
		return room
	}
	room = s.data(room[:0])
	b.WriteString(`<path d="`)
	b.Write(room)
	b.WriteByte('"')
	switch {
	case s.Fill == lineart.Paper:
		b.WriteString(` fill="#fff"`)
	case s.Fill == lineart.Ink:
		b.WriteString(` fill="#111"`)
	case s.Fill == lineart.Tone:
		b.WriteString(` fill="#ddd"`)
	case s.Fill == lineart.Shade:
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
	return room
}

// data appends the commands of the path.
func (s *Shape) data(b []byte) []byte {
	pt := func(q Pt) { b = appendNum(append(appendNum(b, q.X), ' '), q.Y) }
	b = append(b, 'M')
	pt(s.Points[0])
	switch {
	case len(s.Points) == 1:
		b = append(b, 'L')
		pt(s.Points[0])
	case s.Smooth && len(s.Points) > 2:
		for _, q := range s.cubics() {
			b = append(b, 'C')
			pt(q.b)
			b = append(b, ' ')
			pt(q.c)
			b = append(b, ' ')
			pt(q.d)
		}
	default:
		for _, q := range s.Points[1:] {
			b = append(b, 'L')
			pt(q)
		}
	}
	if s.Closed {
		b = append(b, 'Z')
	}
	return b
}

// num writes a length to a hundredth, without needless digits.
func num(v float64) string { return string(appendNum(nil, v)) }

// appendNum appends what num writes.
func appendNum(b []byte, v float64) []byte {
	n := int64(math.Round(v * 100))
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	b = strconv.AppendInt(b, n/100, 10)
	switch {
	case n%100 == 0:
		return b
	case n%10 == 0:
		return append(b, '.', byte('0'+n/10%10))
	}
	return append(b, '.', byte('0'+n/10%10), byte('0'+n%10))
}

// escape is text made safe inside XML and HTML, in elements and in attributes.
func escape(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a Builder never fails
	return b.String()
}
