package figure

import (
	"math"
	"slices"

	"rillkey/cmd/rillkey/figure/draw"
)

// Pose is how one animal lies, how large it is seen and how it is proportioned, so that
// no two of a kind are the same picture. The zero Pose is the usual one.
type Pose struct {
	Turn   float64 // degrees, clockwise
	Stout  float64 // how much wider than usual, as a share; -0.1 is slimmer by a tenth
	Bend   float64 // how far the middle lies beside the line from end to end, in body lengths
	Front  float64 // how much more of the length its front half takes than usual, as a share
	Small  float64 // share of the room beside it that stays empty, 0 to below 1
	Mirror bool    // its head at the right
}

// Posed is the figure with its whole animals in a pose. What a side of the drawing tells
// stays: a snail is never turned into its mirror image. A shell, a hard case of wings and
// what lives in a case do not bend, and are proportioned half as variously.
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

// stiff are the builds that no animal bends.
var stiff = [...]*plan{
	planSnail, planLimpet, planClam, planSeedShrimp, planCased, planBeetle, planBeetleParallel,
	planBeetleDotted, planBeetleWaisted, planBug, planBackswimmer, planBugDomed, planPenny, planFlea, planCrab,
	planRemains, planSponge, planMossAnimals,
}

// moved is where a pose puts a point.
func (p panel) moved(pose Pose) func(pt) pt {
	sin, cos := math.Sincos(pose.Turn * math.Pi / 180)
	mirror := pose.Mirror && p.build != planSnail && p.build != planLimpet
	if slices.Contains(stiff[:], p.build) {
		pose.Bend, pose.Front = 0, pose.Front/2
	}
	return func(at pt) pt {
		at.Y *= 1 + pose.Stout
		if x := at.X; x > 0 && x < 1 { // the body itself; tails and feelers go on from its ends
			at.X += pose.Front * x * (1 - x)
			at.Y += pose.Bend * 4 * x * (1 - x)
		} else { // straight on, at the slope of the end
			at.Y += pose.Bend * 4 * min(x, 1-x)
		}
		if mirror {
			at.X = 1 - at.X
		}
		return pt{X: at.X*cos - at.Y*sin, Y: at.X*sin + at.Y*cos}
	}
}

func (p panel) posed(pose Pose) panel {
	move := p.moved(pose)
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
		t.Anchor = move(t.Anchor)
		c.Texts[i] = t
	}
	out := p
	out.canvas, out.frame, out.features, out.aims = &c, c.Box(), draw.Box{}, make([]aim, len(p.aims))
	for i, a := range p.aims {
		a.point = move(a.point)
		out.aims[i] = a
		out.frame, out.features = out.frame.Extended(a.point), out.features.Extended(a.point)
	}
	room := pose.Small / (1 - pose.Small) / 2
	out.frame = out.frame.Inset(-room * max(out.frame.Width(), out.frame.Height()))
	if !p.features.Empty() {
		for _, corner := range []pt{p.features.Min, p.features.Max} {
			out.features = out.features.Extended(move(corner))
		}
	}
	return out
}
