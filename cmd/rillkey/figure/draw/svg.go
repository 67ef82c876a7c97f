package draw

import (
	"math"
	"strconv"

	"rillkey/cmd/rillkey/markup"
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
	var w markup.Writer
	width, height := num(p.Width), num(p.Height)
	w.Open("svg", "xmlns", "http://www.w3.org/2000/svg", "role", "img", "width", width+"mm", "height", height+"mm",
		"viewBox", "0 0 "+width+" "+height, "fill", "none", "stroke", "#111", "stroke-linecap", "round", "stroke-linejoin", "round",
		"stroke-width", num(p.Line))
	if p.Title != "" {
		w.Element("title", p.Title)
	}
	if p.Alt != "" {
		w.Element("desc", p.Alt)
	}
	for i := range c.Shapes {
		c.Shapes[i].svg(&w, p)
	}
	for _, t := range c.Texts {
		attributes := []string{"x", num(t.Anchor.X), "y", num(t.Anchor.Y), "font-family", "sans-serif", "font-size", num(t.Size)}
		if t.Middle {
			attributes = append(attributes, "text-anchor", "middle")
		}
		w.Element("text", t.Words, append(attributes, "fill", "#111", "stroke", "none")...)
	}
	w.Close("svg")
	return w.String()
}

// svg writes the path.
func (s *Shape) svg(w *markup.Writer, p Frame) {
	if len(s.Points) == 0 {
		return
	}
	attributes := []string{"d", string(s.data(nil))}
	switch s.Fill {
	case lineart.Paper:
		attributes = append(attributes, "fill", "#fff")
	case lineart.Ink:
		attributes = append(attributes, "fill", "#111")
	case lineart.Tone:
		attributes = append(attributes, "fill", "#ddd")
	case lineart.Shade:
		attributes = append(attributes, "fill", "#999")
	}
	if s.Bare {
		attributes = append(attributes, "stroke", "none")
	}
	switch {
	case s.Heavy && s.Fine:
		attributes = append(attributes, "stroke-width", num((2*p.Line+p.Heavy)/3))
	case s.Heavy:
		attributes = append(attributes, "stroke-width", num(p.Heavy))
	}
	if s.Dashed {
		attributes = append(attributes, "stroke-dasharray", num(p.Line*3)+" "+num(p.Line*3))
	}
	w.Empty("path", attributes...)
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
