package lineart

import (
	"math"
	"strings"

	"rillkey/taxa/pattern"
	"rillkey/taxa/wording"
)

// perCurve is into how many stretches a curve is divided.
const perCurve = 12

// takes are how many numbers each command of a path takes.
var takes = map[byte]int{'m': 2, 'l': 2, 'h': 1, 'v': 1, 'c': 6, 's': 4, 'q': 4, 't': 2, 'a': 7, 'z': 0}

// not e, which numbers have
var command = pattern.New(`([A-DF-Za-df-z])([^A-DF-Za-df-z]*)`)

// pen walks a path.
type pen struct {
	strokes              []Stroke
	current, start, back Point // where it is, where its stroke began, the last control point
	last                 byte  // the last command in lower case
}

// path are the strokes of the d of a path.
func path(d string) ([]Stroke, error) {
	steps := command().FindAllStringSubmatch(d, -1)
	if first := strings.TrimSpace(d); first != "" && (len(steps) == 0 || first[0]|32 != 'm') {
		return nil, wording.Errorf("a path begins with M, not with %q", cut(first))
	}
	p := &pen{}
	for _, s := range steps {
		v, err := numbers(s[2])
		if err != nil {
			return nil, err
		}
		if err := p.walk(s[1][0], v); err != nil {
			return nil, err
		}
	}
	return p.strokes, nil
}

func (p *pen) walk(letter byte, v []float64) error {
	lower := letter | 32
	n, known := takes[lower]
	if !known || n == 0 && len(v) > 0 || n > 0 && (len(v) == 0 || len(v)%n != 0) {
		return wording.Errorf("the path's command %c does not take %d numbers", letter, len(v))
	}
	if n == 0 {
		p.close()
		return nil
	}
	for ; len(v) > 0; v = v[n:] {
		p.step(lower, letter == lower, v[:n])
		p.last = lower
		if lower == 'm' {
			lower, letter = 'l', letter-1 // more pairs are lines
		}
	}
	return nil
}

func (p *pen) close() {
	if n := len(p.strokes); n > 0 {
		p.strokes[n-1].Closed = true
	}
	p.current, p.last = p.start, 'z'
}

func (p *pen) step(c byte, relative bool, v []float64) {
	from := Point{}
	if relative {
		from = p.current
	}
	pt := func(i int) Point { return Point{from.X + v[i], from.Y + v[i+1]} }
	mirrored := func(kinds string) Point {
		if strings.IndexByte(kinds, p.last) >= 0 {
			return Point{2*p.current.X - p.back.X, 2*p.current.Y - p.back.Y}
		}
		return p.current
	}
	switch c {
	case 'm':
		p.current = pt(0)
		p.start = p.current
		p.strokes = append(p.strokes, Stroke{Points: []Point{p.current}})
	case 'l':
		p.lineTo(pt(0))
	case 'h':
		p.lineTo(Point{from.X + v[0], p.current.Y})
	case 'v':
		p.lineTo(Point{p.current.X, from.Y + v[0]})
	case 'c':
		p.curve(pt(0), pt(2), pt(4))
	case 's':
		p.curve(mirrored("cs"), pt(0), pt(2))
	case 'q':
		p.bend(pt(0), pt(2))
	case 't':
		p.bend(mirrored("qt"), pt(0))
	case 'a':
		p.arc(v[0], v[1], v[2], v[3] != 0, v[4] != 0, pt(5))
	}
}

func (p *pen) lineTo(q Point) {
	if p.last == 'z' { // goes on from where the closed stroke began
		p.strokes = append(p.strokes, Stroke{Points: []Point{p.start}})
		p.last = 'l'
	}
	n := len(p.strokes) - 1
	p.strokes[n].Points = append(p.strokes[n].Points, q)
	p.current = q
}

// curve is a cubic Bézier curve.
func (p *pen) curve(a, b, end Point) {
	from := p.current
	for i := 1; i <= perCurve; i++ {
		t := float64(i) / perCurve
		u := 1 - t
		w, x, y, z := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
		p.lineTo(Point{w*from.X + x*a.X + y*b.X + z*end.X, w*from.Y + x*a.Y + y*b.Y + z*end.Y})
	}
	p.back = b
}

// bend is a quadratic Bézier curve.
func (p *pen) bend(a, end Point) {
	from := p.current
	p.curve(Point{from.X + (a.X-from.X)*2/3, from.Y + (a.Y-from.Y)*2/3}, Point{end.X + (a.X-end.X)*2/3, end.Y + (a.Y-end.Y)*2/3}, end)
	p.back = a
}

// arc is a part of an ellipse; how its middle follows from its ends is in SVG 1.1,
// appendix F.6.5.
func (p *pen) arc(rx, ry, degrees float64, large, sweep bool, end Point) {
	from := p.current
	rx, ry = math.Abs(rx), math.Abs(ry)
	if rx == 0 || ry == 0 || from == end {
		p.lineTo(end)
		return
	}
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	dx, dy := (from.X-end.X)/2, (from.Y-end.Y)/2
	x, y := cos*dx+sin*dy, cos*dy-sin*dx
	if over := x*x/(rx*rx) + y*y/(ry*ry); over > 1 {
		rx, ry = rx*math.Sqrt(over), ry*math.Sqrt(over)
	}
	k := math.Sqrt(max(0, rx*rx*ry*ry-rx*rx*y*y-ry*ry*x*x) / (rx*rx*y*y + ry*ry*x*x))
	if large == sweep {
		k = -k
	}
	cx, cy := k*rx*y/ry, -k*ry*x/rx
	a := math.Atan2((y-cy)/ry, (x-cx)/rx)
	turn := math.Atan2((-y-cy)/ry, (-x-cx)/rx) - a
	switch {
	case sweep && turn < 0:
		turn += 2 * math.Pi
	case !sweep && turn > 0:
		turn -= 2 * math.Pi
	}
	for i := 1; i < perCurve; i++ {
		s, c := math.Sincos(a + turn*float64(i)/perCurve)
		ex, ey := cx+rx*c, cy+ry*s
		p.lineTo(Point{cos*ex - sin*ey + (from.X+end.X)/2, sin*ex + cos*ey + (from.Y+end.Y)/2})
	}
	p.lineTo(end)
}
