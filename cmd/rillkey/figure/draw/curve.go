package draw

import "math"

// cubic is one stretch of a curve with its two handles.
type cubic struct{ a, b, c, d Pt }

// cubics are the stretches of a smooth shape: through every point, with the
// tangent parallel to the line between its neighbours.
func (s *Shape) cubics() []cubic {
	n := len(s.Points)
	at := func(i int) Pt {
		if s.Closed {
			return s.Points[(i+n)%n]
		}
		return s.Points[max(0, min(n-1, i))]
	}
	last := n - 1
	if s.Closed {
		last = n
	}
	out := make([]cubic, 0, max(0, last))
	for i := range last {
		p0, p1, p2, p3 := at(i-1), at(i), at(i+1), at(i+2)
		out = append(out, cubic{p1,
			Pt{p1.X + (p2.X-p0.X)/6, p1.Y + (p2.Y-p0.Y)/6},
			Pt{p2.X - (p3.X-p1.X)/6, p2.Y - (p3.Y-p1.Y)/6}, p2})
	}
	return out
}

// hull are the points of the shape with the handles of its curve, between which
// the curve lies.
func (s *Shape) hull() []Pt {
	if !s.Smooth {
		return s.Points
	}
	points := append(make([]Pt, 0, 3*len(s.Points)), s.Points...)
	for _, q := range s.cubics() {
		points = append(points, q.b, q.c)
	}
	return points
}

// Flat are the corners of straight stretches that follow the shape.
func (s *Shape) Flat() []Pt {
	if !s.Smooth || len(s.Points) < 3 {
		return s.Points
	}
	const steps = 8
	out := append(make([]Pt, 0, steps*len(s.Points)+1), s.Points[0])
	for _, q := range s.cubics() {
		for k := 1; k <= steps; k++ {
			out = append(out, q.point(float64(k)/steps))
		}
	}
	if s.Closed {
		out = out[:len(out)-1]
	}
	return out
}

func (q cubic) point(t float64) Pt {
	u := 1 - t
	a, b, c, d := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
	return Pt{a*q.a.X + b*q.b.X + c*q.c.X + d*q.d.X, a*q.a.Y + b*q.b.Y + c*q.c.Y + d*q.d.Y}
}

// Hatch are parallel stretches inside a closed polygon, a gap apart, in a
// direction in degrees.
func Hatch(polygon []Pt, gap, degrees float64) [][2]Pt {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	turn := func(p Pt) Pt { return Pt{p.X*cos + p.Y*sin, p.Y*cos - p.X*sin} }
	back := func(p Pt) Pt { return Pt{p.X*cos - p.Y*sin, p.Y*cos + p.X*sin} }
	var box Box
	turned := make([]Pt, len(polygon))
	for i, p := range polygon {
		turned[i] = turn(p)
		box = box.Extended(turned[i])
	}
	var out [][2]Pt
	if box.Empty() || gap <= 0 {
		return out
	}
	for k := math.Ceil(box.Min.Y/gap + 0.01); k*gap < box.Max.Y; k++ {
		xs := crossings(turned, k*gap)
		for i := 0; i+1 < len(xs); i += 2 {
			out = append(out, [2]Pt{back(Pt{xs[i], k * gap}), back(Pt{xs[i+1], k * gap})})
		}
	}
	return out
}
