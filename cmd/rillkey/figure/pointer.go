package figure

import "rillkey/cmd/rillkey/figure/draw"

// point draws a pointer to a place on the page, from the side where it crosses
// the fewest lines of the drawing. Where a part is absent, a dotted ring marks
// the empty place.
func point(page, drawing *draw.Canvas, cell draw.Box, at draw.Pt, side float64, absent bool) {
	at = draw.Pt{X: min(max(at.X, cell.Min.X), cell.Max.X), Y: min(max(at.Y, cell.Min.Y), cell.Max.Y)}
	length, head := side*0.26, side*0.075
	gap := side * 0.02
	if absent {
		r := min(side*0.075, room(cell, at))
		page.Part()
		page.Dotted(at, r, r)
		gap += r
	}
	lines := outlines(drawing)
	best, least := 0.0, 1e9
	for i := range 16 {
		d := 22.5 * float64((i*5+12)%16)
		tip, tail := at.Polar(gap, d), at.Polar(gap+length, d)
		cost := float64(crossed(lines, tip, tail))
		if !cell.Holds(tail) {
			cost += 40 + 100*distanceTo(cell, tail)/side
		}
		if cost < least {
			best, least = d, cost
		}
	}
	tip := at.Polar(gap, best)
	tail := reach(cell, tip, best, length)
	page.Line(tail, tip)
	if tip.Distance(tail) < head {
		return
	}
	page.Solid(tip, tip.Polar(head, best+24), tip.Polar(head*0.8, best), tip.Polar(head, best-24))
}

// reach is the far end of a stretch that stays in the box.
func reach(box draw.Box, from draw.Pt, degrees, length float64) draw.Pt {
	for length > 0 {
		if p := from.Polar(length, degrees); box.Holds(p) {
			return p
		}
		length -= length*0.1 + 1e-3
	}
	return from
}

// room is how large a circle about a point may be to stay in the box.
func room(box draw.Box, p draw.Pt) float64 {
	return max(0, min(p.X-box.Min.X, box.Max.X-p.X, p.Y-box.Min.Y, box.Max.Y-p.Y))
}

func distanceTo(box draw.Box, p draw.Pt) float64 {
	return max(0, box.Min.X-p.X, p.X-box.Max.X, box.Min.Y-p.Y, p.Y-box.Max.Y)
}

// outline is a stroke of a drawing as straight stretches, corner by corner.
type outline struct {
	points []draw.Pt
	box    draw.Box
}

func outlines(c *draw.Canvas) []outline {
	out := make([]outline, len(c.Shapes))
	for i := range c.Shapes {
		points := c.Shapes[i].Flat()
		if c.Shapes[i].Closed && len(points) > 2 {
			points = append(points[:len(points):len(points)], points[0])
		}
		out[i].points = points
		for _, p := range points {
			out[i].box = out[i].box.Extended(p)
		}
	}
	return out
}

// crossed counts the strokes that a stretch would cross.
func crossed(lines []outline, a, b draw.Pt) int {
	n, around := 0, draw.NewBox(a.X, a.Y, b.X, b.Y)
	for _, l := range lines {
		if !l.box.Meets(around) {
			continue
		}
		for j := 0; j+1 < len(l.points); j++ {
			if draw.Cross(a, b, l.points[j], l.points[j+1]) {
				n++
			}
		}
	}
	return n
}
