package chart

import "math"

// frameOf says what axes are to be drawn.
type frameOf struct {
	top          float64 // where the frame may begin
	right        float64 // room kept free at the right
	maxX, maxY   float64
	whole        bool // both axes count things
	nameX, nameY string
	bare         bool // the x axis gets no ticks
	bottom       float64
}

// frame draws two axes with ticks at round numbers, named beside their ends, and
// gives the plot's area.
func frame(p *pen, f frameOf) axes {
	down := p.size.Height - f.top
	ys := ticks(f.maxY, max(2, min(6, int(down/9))), f.whole)
	labels := 0.0
	for _, y := range ys {
		labels = max(labels, width(number(y, 6), type8))
	}
	a := axes{
		left: min(labels+2.5, p.size.Width*0.4), top: f.top + lead + 2, right: p.size.Width - max(f.right, 3),
		bottom: p.size.Height - lead*1.3 - f.bottom, maxX: f.maxX, maxY: ys[len(ys)-1],
	}
	a.bottom = max(a.bottom, a.top+1)
	for _, y := range ys {
		at := a.pointAt(0, y)
		p.line(at, point{a.left - 1, at.y}, thin)
		p.text(point{a.left - 1.6, at.y + 0.9}, words{number(y, 6), type8, toEnd, false, a.left - 1.6})
	}
	p.text(point{0, f.top + lead - 0.4}, words{f.nameY, type8, fromStart, false, p.size.Width})
	if !f.bare {
		a = f.drawXTicks(p, a)
	}
	p.path([]point{{a.left, a.top}, {a.left, a.bottom}, {a.right, a.bottom}}, style{width: medium})
	return a
}

// drawXTicks draws the ticks of the x axis, as many as have room.
func (f frameOf) drawXTicks(p *pen, a axes) axes {
	room := width(f.nameX, type8) + 2
	most := width(number(f.maxX, 0)+"0", type8) + 2
	xs := ticks(f.maxX, max(1, min(10, int((a.right-a.left-room)/most))), f.whole)
	a.right -= room
	a.maxX = math.Max(a.maxX, 1)
	for _, x := range xs {
		if x > a.maxX*(1+1e-9) {
			continue
		}
		at := a.pointAt(x, 0)
		p.line(at, point{at.x, at.y + 1}, thin)
		p.text(point{at.x, at.y + lead}, words{number(x, 6), type8, atMiddle, false, most})
	}
	p.text(point{a.right + 2, a.bottom + 0.9}, words{f.nameX, type8, fromStart, false, room})
	return a
}
