package chart

import (
	"fmt"
	"math"
	"strings"

	"rillkey/taxa/plain"
)

// strip is what the scale and the arrow take below the frame, in millimetres.
const strip = 8

// SVG draws the places in a frame, with a bar of distance and an arrow to the north
// below it. A label stands where it covers no other and no place; a name without
// room is left to the table, then its number too.
func (s Sketch) SVG(size PaperSize) string {
	size = size.atLeast(least)
	p := newPen(size, s.Title, s.Alt())
	a := axes{left: 0.3, top: 0.3, right: size.Width - 0.3, bottom: size.Height - strip}
	if s.Grid.Columns > 0 {
		a.left, a.top = a.left+6, a.top+lead+1
	}
	p.path([]point{{a.left, a.top}, {a.right, a.top}, {a.right, a.bottom}, {a.left, a.bottom}}, style{width: medium, closed: true})
	if len(s.Places) == 0 {
		return p.done()
	}
	g := s.ground(a)
	s.squares(p, g, a)
	s.marks(p, g)
	s.labels(p, g, a)
	g.bar(p, a)
	arrow(p, point{size.Width - 5, size.Height - strip/2})
	return p.done()
}

// squares draws the grid, and names its columns and rows outside the frame.
func (s Sketch) squares(p *pen, g ground, a axes) {
	if s.Grid.Columns == 0 || s.Grid.Rows == 0 {
		return
	}
	dashes := style{width: thin, dash: "0.5 0.7"}
	wide, high := g.East-g.West, g.North-g.South
	for i := range s.Grid.Columns + 1 {
		x := g.pointAt(wide*float64(i)/float64(s.Grid.Columns), 0).x
		p.path([]point{{x, a.top}, {x, a.bottom}}, dashes)
		if i < s.Grid.Columns {
			next := g.pointAt(wide*float64(i+1)/float64(s.Grid.Columns), 0).x
			name := strings.TrimSuffix(s.Grid.Square(i, 0), "1")
			p.text(point{(x + next) / 2, a.top - 1}, words{name, type8, atMiddle, false, next - x})
		}
	}
	for i := range s.Grid.Rows + 1 {
		y := g.pointAt(0, high*(1-float64(i)/float64(s.Grid.Rows))).y
		p.path([]point{{a.left, y}, {a.right, y}}, dashes)
		if next := g.pointAt(0, high*(1-float64(i+1)/float64(s.Grid.Rows))).y; i < s.Grid.Rows && next-y > lead*0.9 {
			p.text(point{a.left - 1, (y+next)/2 + 1}, words{fmt.Sprint(i + 1), type8, toEnd, false, 5})
		}
	}
}

const (
	dotRadius = 1.0
	manyDots  = 60 // above this many places they are drawn as one line of dots
)

func (s Sketch) marks(p *pen, g ground) {
	if len(s.Places) > manyDots {
		s.manyMarks(p, g)
		return
	}
	for _, place := range s.Places {
		at := g.place(place)
		switch {
		case place.Rough > 0:
			half := max(place.Rough/g.scale, 1.2)
			p.path([]point{{at.x - half, at.y - half}, {at.x + half, at.y - half}, {at.x + half, at.y + half}, {at.x - half, at.y + half}},
				style{width: medium, dash: "1.2 0.8", closed: true})
		default:
			p.dot(at, dotRadius, place.Hollow)
		}
		if place.This {
			const r = 2
			p.path([]point{{at.x - r, at.y - r}, {at.x + r, at.y - r}, {at.x + r, at.y + r}, {at.x - r, at.y + r}},
				style{width: medium, closed: true})
		}
	}
}

// manyMarks draws dots as lines of no length with round ends, a tenth of the size of
// circles.
func (s Sketch) manyMarks(p *pen, g ground) {
	var d strings.Builder
	for _, place := range s.Places {
		if place.Rough > 0 {
			continue // a dot would be too exact, thousands of squares would hide them
		}
		at := g.place(place)
		x, y := mm(at.x), mm(at.y)
		d.WriteString("M" + x + " " + y + "L" + x + " " + y)
	}
	p.svg.Empty("path", "stroke-linecap", "round", "stroke-width", "1.1", "d", d.String())
}

// area is a rectangle on paper.
type area struct{ left, top, right, bottom float64 }

func (r area) overlaps(o area) bool {
	return r.left < o.right && o.left < r.right && r.top < o.bottom && o.top < r.bottom
}

// labels writes beside each place its number and name, else its number, else nothing.
func (s Sketch) labels(p *pen, g ground, a axes) {
	var taken []area
	for _, place := range s.Places {
		at, r := g.place(place), dotRadius+0.3
		taken = append(taken, area{at.x - r, at.y - r, at.x + r, at.y + r})
	}
	const longest = 34
	for _, place := range s.Places {
		if place.Number == 0 {
			continue
		}
		digits := fmt.Sprint(place.Number)
		full := cut(plain.Printable(digits+" "+place.Name), type8, longest)
		for _, text := range []string{full, digits} {
			if at, box, ok := room(g.place(place), width(text, type8), taken, a); ok {
				taken = append(taken, box)
				p.text(at, words{text, type8, fromStart, false, longest + 1})
				break
			}
		}
	}
}

// room is where a text of a width has room beside a place.
func room(at point, wide float64, taken []area, a axes) (point, area, bool) {
	const away, high = dotRadius + 0.7, type8 * 0.95
	for _, try := range []point{
		{at.x + away, at.y + high/2 - 0.3}, {at.x - away - wide, at.y + high/2 - 0.3},
		{at.x - wide/2, at.y - away}, {at.x - wide/2, at.y + away + high},
		{at.x + away*0.7, at.y - away*0.7}, {at.x + away*0.7, at.y + away*0.7 + high},
		{at.x - away*0.7 - wide, at.y - away*0.7}, {at.x - away*0.7 - wide, at.y + away*0.7 + high},
	} {
		box := area{try.x - 0.2, try.y - high, try.x + wide + 0.2, try.y + 0.5}
		if box.left < a.left+0.5 || box.right > a.right-0.5 || box.top < a.top+0.5 || box.bottom > a.bottom-0.5 {
			continue
		}
		free := true
		for _, t := range taken {
			free = free && !box.overlaps(t)
		}
		if free {
			return try, box, true
		}
	}
	return point{}, area{}, false
}

// mile is in metres.
const mile = 1609.344

// bar is a round distance, at most a third of the frame.
func (g ground) bar(p *pen, a axes) {
	most := (a.right - a.left) / 3 * g.scale
	step := math.Pow10(int(math.Floor(math.Log10(most))))
	for _, m := range []float64{5, 2} {
		if step*m <= most {
			step *= m
			break
		}
	}
	x, y := a.left+0.5, a.bottom+3
	end := x + step/g.scale
	p.path([]point{{x, y - 1}, {x, y + 1}, {x, y}, {end, y}, {end, y - 1}, {end, y + 1}}, style{width: medium})
	decimals := 2
	if step > mile {
		decimals = 1
	}
	text := distance(step) + " (" + number(step/mile, decimals) + " mi)"
	p.text(point{end + 1.5, y + 1}, words{text, type8, fromStart, false, a.right - 12 - end})
}

// arrow points to the north.
func arrow(p *pen, at point) {
	p.path([]point{{at.x, at.y + 3}, {at.x, at.y - 2.6}}, style{width: medium})
	p.path([]point{{at.x - 1.2, at.y - 0.6}, {at.x, at.y - 3}, {at.x + 1.2, at.y - 0.6}}, style{fill: ink, width: thin, closed: true})
	p.text(point{at.x + 1.6, at.y + 1}, words{"N", type8, fromStart, true, 4})
}
