package draw

import (
	"math"
	"slices"
	"strings"

	"rillkey/taxa/lineart"
)

// bits are a canvas of dots, row by row.
type bits struct {
	w, h int
	dots []bool
}

func (b *bits) set(x, y int, on bool) {
	if x >= 0 && y >= 0 && x < b.w && y < b.h {
		b.dots[y*b.w+x] = on
	}
}

// Braille is the drawing in braille characters, two dots by four to the cell,
// in lines that are all cols cells wide. The drawing's unit is one dot; what
// lies outside is cut off. Writing is left out.
func (c *Canvas) Braille(cols, rows int) []string {
	cols, rows = max(1, min(cols, 400)), max(1, min(rows, 200))
	b := &bits{w: cols * 2, h: rows * 4, dots: make([]bool, cols*rows*8)}
	for i := range c.Shapes {
		b.shape(&c.Shapes[i])
	}
	lines := make([]string, rows)
	for r := range lines {
		var line strings.Builder
		for col := range cols {
			line.WriteRune(b.cell(col, r))
		}
		lines[r] = line.String()
	}
	return lines
}

// cell is one character: Unicode numbers the dots of a cell 1 to 3 down the
// left, 4 to 6 down the right, then 7 and 8 below.
func (b *bits) cell(col, row int) rune {
	order := [8][2]int{{0, 0}, {0, 1}, {0, 2}, {1, 0}, {1, 1}, {1, 2}, {0, 3}, {1, 3}}
	r := rune(0x2800)
	for i, d := range order {
		if b.dots[(row*4+d[1])*b.w+col*2+d[0]] {
			r |= 1 << i
		}
	}
	return r
}

func (b *bits) shape(s *Shape) {
	points := s.Flat()
	if len(points) == 0 {
		return
	}
	if s.Closed && s.Fill != lineart.Open {
		b.fill(points, s.Fill)
	}
	if s.Bare {
		return
	}
	step := 0
	for i := 0; i+1 < len(points); i++ {
		step = b.stroke(points[i], points[i+1], s, step)
	}
	if s.Closed {
		b.stroke(points[len(points)-1], points[0], s, step)
	}
	if len(points) == 1 {
		b.stroke(points[0], points[0], s, 0)
	}
}

func (b *bits) stroke(p, q Pt, s *Shape, step int) int {
	n := int(math.Ceil(max(math.Abs(p.X-q.X), math.Abs(p.Y-q.Y))))
	n = min(n, 4*(b.w+b.h))
	for k := range n + 1 {
		at := p.Lerp(q, float64(k)/float64(max(n, 1)))
		x, y := int(math.Floor(at.X)), int(math.Floor(at.Y))
		step++
		if s.Dashed && step%4 >= 2 {
			continue
		}
		b.set(x, y, true)
		if s.Heavy && !s.Fine {
			b.set(x+1, y, true)
			b.set(x, y+1, true)
			b.set(x+1, y+1, true)
		}
	}
	return step
}

func (b *bits) fill(polygon []Pt, with lineart.Fill) {
	var box Box
	for _, p := range polygon {
		box = box.Extended(p)
	}
	for y := max(0, int(box.Min.Y)-1); y < min(b.h, int(box.Max.Y)+2); y++ {
		xs := crossings(polygon, float64(y)+0.5)
		for i := 0; i+1 < len(xs); i += 2 {
			from := int(math.Ceil(max(xs[i], 0) - 0.5))
			to := int(math.Floor(min(xs[i+1], float64(b.w)) - 0.5))
			for x := from; x <= to; x++ {
				b.set(x, y, with == lineart.Ink || with == lineart.Shade && (x+y)%2 == 0)
			}
		}
	}
}

// crossings are where a level line crosses a closed polygon, left to right.
func crossings(polygon []Pt, y float64) []float64 {
	var xs []float64
	for i, p := range polygon {
		q := polygon[(i+1)%len(polygon)]
		if (p.Y > y) != (q.Y > y) {
			xs = append(xs, p.X+(y-p.Y)/(q.Y-p.Y)*(q.X-p.X))
		}
	}
	slices.Sort(xs)
	return xs
}
