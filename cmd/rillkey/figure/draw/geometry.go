// Package draw holds drawings as points and strokes, and turns one and the same
// drawing into SVG and into braille characters.
//
// Begin with [Canvas], [Box] and [Frame].
//
// It knows nothing of animals. Lengths are in whatever unit the drawing is made
// in until it is placed on a page; y grows downwards.
package draw

import "math"

// Pt is a point.
type Pt struct{ X, Y float64 }

// Polar is the point at a distance from p in a direction in degrees, 0 to the
// right and 90 downwards.
func (p Pt) Polar(length, degrees float64) Pt {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return Pt{p.X + length*cos, p.Y + length*sin}
}

// Lerp is the point at a share of the way from p to q.
func (p Pt) Lerp(q Pt, share float64) Pt {
	return Pt{p.X + (q.X-p.X)*share, p.Y + (q.Y-p.Y)*share}
}

// Distance is how far p lies from q.
func (p Pt) Distance(q Pt) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// Box is an upright rectangle. The zero Box holds nothing.
type Box struct {
	Min, Max Pt
	some     bool
}

// NewBox is the box between two corners.
func NewBox(x0, y0, x1, y1 float64) Box {
	return Box{Pt{min(x0, x1), min(y0, y1)}, Pt{max(x0, x1), max(y0, y1)}, true}
}

// Empty reports whether the box holds no point.
func (b Box) Empty() bool { return !b.some }

// Width and Height are the sides.
func (b Box) Width() float64 { return b.Max.X - b.Min.X }

// Height is the side down the page.
func (b Box) Height() float64 { return b.Max.Y - b.Min.Y }

// Center is the middle of the box.
func (b Box) Center() Pt { return b.Min.Lerp(b.Max, 0.5) }

// Extended is the box that holds p too.
func (b Box) Extended(p Pt) Box {
	if !b.some {
		return Box{p, p, true}
	}
	return Box{Pt{min(b.Min.X, p.X), min(b.Min.Y, p.Y)}, Pt{max(b.Max.X, p.X), max(b.Max.Y, p.Y)}, true}
}

// Meets reports whether the boxes have a point in common.
func (b Box) Meets(o Box) bool {
	return b.some && o.some && b.Min.X <= o.Max.X && o.Min.X <= b.Max.X && b.Min.Y <= o.Max.Y && o.Min.Y <= b.Max.Y
}

// Union is the box that holds both.
func (b Box) Union(o Box) Box {
	if !o.some {
		return b
	}
	return b.Extended(o.Min).Extended(o.Max)
}

// Inset is the box with its sides moved inwards, never past its middle.
func (b Box) Inset(by float64) Box {
	dx, dy := min(by, b.Width()/2), min(by, b.Height()/2)
	return Box{Pt{b.Min.X + dx, b.Min.Y + dy}, Pt{b.Max.X - dx, b.Max.Y - dy}, b.some}
}

// Holds reports whether p lies in the box or on its edge.
func (b Box) Holds(p Pt) bool {
	return b.some && p.X >= b.Min.X && p.X <= b.Max.X && p.Y >= b.Min.Y && p.Y <= b.Max.Y
}

// Map moves and scales points: first times Scale, then plus Move.
type Map struct {
	Scale float64
	Move  Pt
}

// Apply is where p goes.
func (m Map) Apply(p Pt) Pt { return Pt{p.X*m.Scale + m.Move.X, p.Y*m.Scale + m.Move.Y} }

// Fit is the map that brings one box into the middle of another as large as it
// will go.
func Fit(from, into Box) Map {
	scale := math.Inf(1)
	if w := from.Width(); w > 0 {
		scale = into.Width() / w
	}
	if h := from.Height(); h > 0 {
		scale = min(scale, into.Height()/h)
	}
	if math.IsInf(scale, 1) {
		scale = 1
	}
	a, b := from.Center(), into.Center()
	return Map{scale, Pt{b.X - a.X*scale, b.Y - a.Y*scale}}
}

// InPolygon reports whether p lies within a closed polygon (even-odd rule).
func InPolygon(p Pt, polygon []Pt) bool {
	in := false
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// Cross reports whether the stretches ab and cd cross.
func Cross(a, b, c, d Pt) bool {
	side := func(p, q, r Pt) bool { return (q.X-p.X)*(r.Y-p.Y)-(q.Y-p.Y)*(r.X-p.X) > 0 }
	return side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b)
}
