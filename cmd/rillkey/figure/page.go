package figure

import (
	"math"
	"slices"
	"strings"

	"rillkey/cmd/rillkey/figure/draw"
)

// Size is the size of a figure on paper in millimetres.
type Size struct{ Width, Height float64 }

// The widths of lines on paper in millimetres.
const (
	lineWidth  = 0.25
	heavyWidth = 0.7
	thinHeight = 25 // up to this height of a figure lines are thinner
	thinLine   = 0.18
	thinHeavy  = 0.5
	rowLine    = 0.26 // of a row, which is shown smaller
	barHeight  = 8    // the strip below the drawing that holds the length bar
)

// smallest are sides under which no figure is drawn smaller, in millimetres.
const smallest = 12

// rowHeight is the height in millimetres up to which a figure stands in a row of
// a sheet: hairs, grains and rings would run together there, and are left out.
const rowHeight = 13

// mostInRow are how many builds a group is shown by in a row: more would be too small.
const mostInRow = 2

// SVG is the figure as one svg element of the size given, at least 12 mm by 12:
// no script, style, reference or font comes with it. Text in it is escaped. If
// the length is known, a bar at the bottom shows it at life size where the page
// is printed at its own scale.
func (f Figure) SVG(s Size) string {
	s.Width, s.Height = max(smallest, finite(s.Width)), max(smallest, finite(s.Height))
	page := &draw.Canvas{}
	area := draw.NewBox(0, 0, s.Width, s.Height).Inset(1)
	if f.Length.Known() {
		area.Max.Y = max(area.Min.Y+1, area.Max.Y-barHeight)
	}
	if s.Height <= rowHeight && len(f.panels) > mostInRow {
		f.panels = f.panels[:mostInRow]
	}
	for i, cell := range f.cells(area) {
		p := f.panels[i]
		if s.Height <= rowHeight && len(p.aims) == 0 && !p.inset {
			p.canvas = p.canvas.Plain()
		}
		p.place(page, cell, p.frame)
	}
	f.bar(page, s)
	line, heavy := lineWidth, heavyWidth
	if s.Height <= thinHeight {
		line, heavy = thinLine, thinHeavy
	}
	if s.Height <= rowHeight {
		line = rowLine
	}
	return page.SVG(draw.Frame{Width: s.Width, Height: s.Height, Line: line, Heavy: heavy, Title: f.Title, Alt: f.Alt})
}

func finite(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	return min(v, 2000)
}

// smallScreen is how many cells a panel needs to show a whole body with a
// feature in it; with fewer, the part with the feature alone is shown.
const smallScreen = 420

// manyCells are needed to show texture that is not set off: hairs, grains,
// marks. On fewer it would clog the outline.
const manyCells = 500

// Braille is the figure in braille characters: rows lines, each cols cells wide.
// On few cells a lead's figure shows the part of the body that it speaks of.
func (f Figure) Braille(cols, rows int) []string {
	cols, rows = max(1, min(cols, 400)), max(1, min(rows, 200))
	shown := f.fewer(cols, rows)
	perRow := shown.columns(float64(cols)*2, float64(rows)*4)
	lines := make([]string, 0, rows)
	down := (len(shown.panels) + perRow - 1) / max(perRow, 1)
	for r := range down {
		height := rows*(r+1)/down - rows*r/down
		group := make([]string, height)
		for c := range perRow {
			width := cols*(c+1)/perRow - cols*c/perRow
			for i, l := range shown.panelBraille(r*perRow+c, width, height) {
				group[i] += l
			}
		}
		lines = append(lines, group...)
	}
	for len(lines) < rows {
		lines = append(lines, strings.Repeat("\u2800", cols))
	}
	return lines
}

// Terminal is [Figure.Braille] for a screen: blank cells are blanks, since some
// fonts show the braille character without dots as eight hollow ones, and lines
// end with their last dot.
func (f Figure) Terminal(cols, rows int) []string {
	lines := f.Braille(cols, rows)
	for i, l := range lines {
		lines[i] = strings.TrimRight(strings.ReplaceAll(l, "\u2800", " "), " ")
	}
	return lines
}

// fewer leaves out what has no room on a small screen: the whole body beside a
// detail, and alternatives past the third.
func (f Figure) fewer(cols, rows int) Figure {
	if cols*rows >= 2*smallScreen {
		return f
	}
	if slices.ContainsFunc(f.panels, func(p panel) bool { return p.inset }) {
		f.panels = slices.DeleteFunc(slices.Clone(f.panels), func(p panel) bool { return !p.inset && len(p.aims) == 0 })
	}
	if len(f.panels) > 6 {
		f.panels = f.panels[:6]
	}
	return f
}

func (f Figure) panelBraille(i, cols, rows int) []string {
	page := &draw.Canvas{}
	if i < len(f.panels) && cols > 0 && rows > 0 {
		p := f.panels[i]
		area := draw.NewBox(0, 0, float64(cols*2)-1, float64(rows*4)-1).Inset(1)
		if cols*rows < manyCells {
			p.canvas = p.simple()
		}
		p.place(page, area, p.view(cols*rows))
	}
	if rows == 0 {
		return nil
	}
	return page.Braille(max(cols, 0), rows)
}

// simple is the drawing for few dots.
func (p panel) simple() *draw.Canvas {
	if p.plain != nil {
		return p.plain
	}
	return p.canvas.Plain()
}

// view is what part of the drawing is shown on so many cells.
func (p panel) view(cells int) draw.Box {
	if cells >= smallScreen || p.features.Empty() {
		return p.frame
	}
	near := p.features.Inset(-0.1)
	least := 0.62
	if grow := least - near.Width(); grow > 0 {
		near = draw.NewBox(near.Min.X-grow/2, near.Min.Y, near.Max.X+grow/2, near.Max.Y)
	}
	if grow := least*0.8 - near.Height(); grow > 0 {
		near = draw.NewBox(near.Min.X, near.Min.Y-grow/2, near.Max.X, near.Max.Y+grow/2)
	}
	if near.Width() > p.frame.Width()*0.8 && near.Height() > p.frame.Height()*0.8 {
		return p.frame
	}
	return near
}

// columns is in how many columns the panels are drawn largest.
func (f Figure) columns(width, height float64) int {
	best, most := 1, 0.0
	for n := 1; n <= len(f.panels); n++ {
		down := math.Ceil(float64(len(f.panels)) / float64(n))
		cell := draw.NewBox(0, 0, width/float64(n), height/down)
		least := math.Inf(1)
		for _, p := range f.panels {
			scale := draw.Fit(p.frame, cell).Scale
			least = min(least, scale*max(p.frame.Width(), p.frame.Height()))
		}
		if least > most+1e-9 {
			best, most = n, least
		}
	}
	return best
}

// cells divides an area among the panels.
func (f Figure) cells(area draw.Box) []draw.Box {
	n := f.columns(area.Width(), area.Height())
	down := (len(f.panels) + n - 1) / n
	out := make([]draw.Box, len(f.panels))
	w, h := area.Width()/float64(n), area.Height()/float64(max(down, 1))
	for i := range out {
		x, y := area.Min.X+w*float64(i%n), area.Min.Y+h*float64(i/n)
		out[i] = draw.NewBox(x, y, x+w, y+h)
	}
	return out
}

// place draws the panel into a cell of the page, so that what is in view just
// fits.
func (p panel) place(page *draw.Canvas, cell, view draw.Box) {
	side := min(cell.Width(), cell.Height())
	margin := side * 0.03
	if len(p.aims) > 0 {
		margin = side * 0.11
	}
	if p.inset {
		margin = side * 0.14
		c := cell.Center()
		ring := &draw.Canvas{}
		ring.Dotted(c, side*0.49, side*0.49)
		page.Place(ring, draw.Map{Scale: 1})
	}
	m := draw.Fit(view, cell.Inset(margin))
	placed := &draw.Canvas{}
	placed.Place(p.canvas, m)
	page.Add(placed)
	for _, a := range p.aims {
		point(page, placed, cell, m.Apply(a.point), side, a.absent)
	}
}
