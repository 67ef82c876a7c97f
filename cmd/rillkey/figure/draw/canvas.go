package draw

import (
	"slices"

	"rillkey/taxa/lineart"
)

// Shape is one stroke or outline.
type Shape struct {
	Points []Pt
	Smooth bool // a curve through the points, not straight stretches
	Closed bool
	Fill   lineart.Fill
	Dashed bool
	Bare   bool     // no outline, only the fill
	Parts  []string // what the shape shows, for setting it off
	Heavy  bool     // set off by weight
	Fine   bool     // texture: set off, it grows less heavy
}

// Label is a line of writing. It does not appear in braille.
type Label struct {
	Anchor Pt // start of the baseline, or its middle
	Middle bool
	Size   float64
	Words  string
}

// Canvas is a drawing: shapes in the order in which they are laid down.
type Canvas struct {
	Shapes []Shape
	Texts  []Label
	parts  []string
	fine   bool
	warp   func(Pt) Pt
}

// Part says what the shapes that follow show.
func (c *Canvas) Part(names ...string) { c.parts = names }

// Texture draws what draw draws as texture.
func (c *Canvas) Texture(draw func()) {
	was := c.fine
	c.fine = true
	draw()
	c.fine = was
}

// Warp bends all points of shapes that follow; nil ends it.
func (c *Canvas) Warp(f func(Pt) Pt) { c.warp = f }

// Warped is where a point comes to lie.
func (c *Canvas) Warped(p Pt) Pt {
	if c.warp == nil {
		return p
	}
	return c.warp(p)
}

func (c *Canvas) add(s Shape) {
	if c.warp != nil {
		points := s.Points
		if !s.Smooth {
			points = divide(points, s.Closed)
		}
		s.Points = make([]Pt, len(points))
		for i, p := range points {
			s.Points[i] = c.warp(p)
		}
	}
	s.Parts, s.Fine = c.parts, c.fine
	c.Shapes = append(c.Shapes, s)
}

// divide puts points between points far apart, so that a warp bends them.
func divide(points []Pt, closed bool) []Pt {
	const far = 0.08
	var out []Pt
	for i, p := range points {
		out = append(out, p)
		if i == len(points)-1 && !closed {
			break
		}
		q := points[(i+1)%len(points)]
		for n, k := int(p.Distance(q)/far)+1, 1; k < n; k++ {
			out = append(out, p.Lerp(q, float64(k)/float64(n)))
		}
	}
	return out
}

// Line draws straight stretches through points.
func (c *Canvas) Line(points ...Pt) { c.add(Shape{Points: points}) }

// Dashes draws straight stretches in dashes.
func (c *Canvas) Dashes(points ...Pt) { c.add(Shape{Points: points, Dashed: true}) }

// Curve draws a curve through points.
func (c *Canvas) Curve(points ...Pt) { c.add(Shape{Points: points, Smooth: true}) }

// Poly draws a closed outline of straight stretches that hides what is behind.
func (c *Canvas) Poly(points ...Pt) { c.add(Shape{Points: points, Closed: true, Fill: lineart.Paper}) }

// Blob draws a closed curve that hides what is behind.
func (c *Canvas) Blob(points ...Pt) {
	c.add(Shape{Points: points, Smooth: true, Closed: true, Fill: lineart.Paper})
}

// Solid draws a closed curve filled with ink.
func (c *Canvas) Solid(points ...Pt) {
	c.add(Shape{Points: points, Smooth: true, Closed: true, Fill: lineart.Ink})
}

// Toned draws a closed curve filled with a light tone.
func (c *Canvas) Toned(points ...Pt) {
	c.add(Shape{Points: points, Smooth: true, Closed: true, Fill: lineart.Tone})
}

// Shaded lays a dark tone inside a closed curve, without an outline.
func (c *Canvas) Shaded(points ...Pt) {
	c.add(Shape{Points: points, Smooth: true, Closed: true, Fill: lineart.Shade, Bare: true})
}

// Erase hides what is behind a closed curve, without an outline.
func (c *Canvas) Erase(points ...Pt) {
	c.add(Shape{Points: points, Smooth: true, Closed: true, Fill: lineart.Paper, Bare: true})
}

// Oval are points round an ellipse.
func Oval(center Pt, rx, ry float64) []Pt { return oval(center, rx, ry, 12) }

func oval(center Pt, rx, ry float64, n int) []Pt {
	points := make([]Pt, n)
	for i := range points {
		u := Pt{}.Polar(1, 360/float64(n)*float64(i))
		points[i] = Pt{center.X + rx*u.X, center.Y + ry*u.Y}
	}
	return points
}

// Dot draws a small disc of ink, on few points: pages hold thousands.
func (c *Canvas) Dot(center Pt, radius float64) { c.Solid(oval(center, radius, radius, 6)...) }

// Ring draws a circle that hides what is behind.
func (c *Canvas) Ring(center Pt, radius float64) { c.Blob(Oval(center, radius, radius)...) }

// Dotted draws a circle of dashes that hides nothing.
func (c *Canvas) Dotted(center Pt, rx, ry float64) {
	c.add(Shape{Points: Oval(center, rx, ry), Smooth: true, Closed: true, Dashed: true})
}

// Write sets a line of writing.
func (c *Canvas) Write(t Label) { c.Texts = append(c.Texts, t) }

// Box is what the drawing covers, the handles of its curves included.
func (c *Canvas) Box() Box {
	var b Box
	for i := range c.Shapes {
		for _, p := range c.Shapes[i].hull() {
			b = b.Extended(p)
		}
	}
	return b
}

// Add adds another drawing as it lies.
func (c *Canvas) Add(o *Canvas) {
	c.Shapes = append(c.Shapes, o.Shapes...)
	c.Texts = append(c.Texts, o.Texts...)
}

// Place adds another drawing, moved and scaled.
func (c *Canvas) Place(o *Canvas, m Map) {
	n := 0
	for i := range o.Shapes {
		n += len(o.Shapes[i].Points)
	}
	all := make([]Pt, 0, n)
	c.Shapes = slices.Grow(c.Shapes, len(o.Shapes))
	for _, s := range o.Shapes {
		from := len(all)
		for _, p := range s.Points {
			all = append(all, m.Apply(p))
		}
		s.Points = all[from:len(all):len(all)]
		c.Shapes = append(c.Shapes, s)
	}
	for _, t := range o.Texts {
		t.Anchor, t.Size = m.Apply(t.Anchor), t.Size*m.Scale
		c.Texts = append(c.Texts, t)
	}
}

// SetOff makes every shape heavy that shows one of the parts.
func (c *Canvas) SetOff(parts ...string) {
	for i := range c.Shapes {
		for _, p := range c.Shapes[i].Parts {
			if slices.Contains(parts, p) {
				c.Shapes[i].Heavy = true
			}
		}
	}
}

// Plain is the drawing without texture that is not set off.
func (c *Canvas) Plain() *Canvas {
	out := &Canvas{Texts: c.Texts}
	for _, s := range c.Shapes {
		if !s.Fine || s.Heavy {
			out.Shapes = append(out.Shapes, s)
		}
	}
	return out
}

// Shows reports whether some shape shows the part.
func (c *Canvas) Shows(part string) bool {
	return slices.ContainsFunc(c.Shapes, func(s Shape) bool { return slices.Contains(s.Parts, part) })
}

// Key is the same for two drawings exactly if they are the same.
func (c *Canvas) Key() string { return c.SVG(Frame{Line: 1, Heavy: 2}) }
