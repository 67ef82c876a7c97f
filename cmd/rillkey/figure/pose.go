package figure

import (
	"math"

	"rillkey/cmd/rillkey/figure/draw"
)

// Pose is how one animal lies and how stout it is, so that no two of a kind are the same
// picture. The zero Pose is the usual one.
type Pose struct {
	Turn   float64 // degrees, clockwise
	Stout  float64 // how much wider than usual, as a share; -0.1 is slimmer by a tenth
	Mirror bool    // its head at the right
}

// Posed is the figure with its whole animals in a pose. What a side of the drawing tells
// stays: a snail is never turned into its mirror image.
func (f Figure) Posed(p Pose) Figure {
	panels := make([]panel, len(f.panels))
	for i, one := range f.panels {
		if panels[i] = one; !one.inset {
			panels[i] = one.posed(p)
		}
	}
	f.panels = panels
	return f
}

func (p panel) posed(pose Pose) panel {
	sin, cos := math.Sincos(pose.Turn * math.Pi / 180)
	mirror := pose.Mirror && p.build != planSnail && p.build != planLimpet
	move := func(at pt) pt {
		at.Y *= 1 + pose.Stout
		if mirror {
			at.X = 1 - at.X
		}
		return pt{X: at.X*cos - at.Y*sin, Y: at.X*sin + at.Y*cos}
	}
	c := *p.canvas
	c.Shapes, c.Texts = make([]draw.Shape, len(p.canvas.Shapes)), make([]draw.Label, len(p.canvas.Texts))
	for i, s := range p.canvas.Shapes {
		points := make([]pt, len(s.Points))
		for j, at := range s.Points {
			points[j] = move(at)
		}
		s.Points = points
		c.Shapes[i] = s
	}
	for i, t := range p.canvas.Texts {
		t.At = move(t.At)
		c.Texts[i] = t
	}
	out := p
	out.canvas, out.frame, out.near, out.aims = &c, c.Box(), draw.Box{}, make([]aim, len(p.aims))
	for i, a := range p.aims {
		a.at = move(a.at)
		out.aims[i] = a
		out.frame, out.near = out.frame.Extended(a.at), out.near.Extended(a.at)
	}
	if !p.near.Empty() {
		for _, corner := range []pt{p.near.Min, p.near.Max} {
			out.near = out.near.Extended(move(corner))
		}
	}
	return out
}
