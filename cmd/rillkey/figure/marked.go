package figure

import (
	"math"
	"slices"

	"rillkey/cmd/rillkey/figure/draw"
	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// mostMarked are how many builds a large group is shown by where marks are
// pointed at: more would be too small to point at anything.
const mostMarked = 2

// Marked is the figure of a taxon with the traits set off and pointed at that it
// is known by, as far as its outline has a place for them.
func (a *Atlas) Marked(t *taxa.Taxon, traits []string) Figure {
	f := a.Taxon(t)
	if t.Drawing != nil {
		return f
	}
	for i, member := range a.shownBy(t) {
		if i == mostMarked {
			f.panels = f.panels[:mostMarked]
			break
		}
		l := a.look(member)
		drawn := body(l.traits(), l.plan(), placed(l.places(), traits))
		drawn.aims = slices.DeleteFunc(drawn.aims, func(a aim) bool { return a.absent }) // a mark is there
		f.panels[i] = drawn
	}
	return f
}

// Telling is the figure of a taxon with the marks ([taxa.Taxon].Marks) set off and
// pointed at, or at the place where they are not, that tell it from what looks nearly
// the same; the first of them that no body shows well is drawn large beside it.
func (a *Atlas) Telling(t *taxa.Taxon) Figure {
	f := a.Taxon(t)
	l := a.look(t)
	if t.Drawing != nil || len(f.panels) != 1 || l.plan() == nil || len(t.Marks) == 0 {
		return f
	}
	f.panels[0] = body(l.traits(), l.plan(), placed(l.places(), t.Marks))
	var told []couplets.Condition
	for _, trait := range t.Marks {
		told = append(told, couplets.Condition{Trait: trait, States: []string{l.traits()[trait]}})
	}
	f.Alt += wording.Sprintf(" Set off: %s.", a.labels(told))
	if i := slices.IndexFunc(t.Marks, func(trait string) bool { return enlarged(trait) != nil }); i >= 0 {
		f.panels[0].enlarge(t.Marks[i], l.traits()[t.Marks[i]])
	}
	return f
}

// enlarged draws a trait by itself; nil for one that a body shows well.
func enlarged(trait string) func(k *sketch, state string) {
	switch trait {
	case "point-length":
		return tipSign
	case "shoulders":
		return shouldersSign
	}
	return signs()[trait]
}

// enlargedSize is the width of what is drawn large, in body lengths.
const enlargedSize = 0.5

// enlarge draws a state large in the emptiest corner beside the body, in a dotted ring.
func (p *panel) enlarge(trait, state string) {
	at := p.emptiest(enlargedSize / 2)
	k := newSketch(Traits{trait: state})
	k.Warp(func(p pt) pt { return pt{X: at.X + p.X*enlargedSize*0.8, Y: at.Y + p.Y*enlargedSize*0.8} })
	enlarged(trait)(k, state)
	k.Warp(nil)
	k.SetOff(trait)
	k.Part("body")
	k.Dotted(at, enlargedSize/2, enlargedSize/2)
	p.canvas.Add(&k.Canvas)
	p.frame = p.frame.Union(k.Box())
}

// emptiest is where a ring of a radius beside the body covers fewest of its strokes: at
// a corner of its frame, within as far as it may.
func (p *panel) emptiest(radius float64) pt {
	f := p.frame
	var best pt
	least := math.Inf(1)
	size := func(b draw.Box) float64 { return 1 / draw.Fit(b, draw.NewBox(0, 0, 2, 1)).Scale } // on a page wider than high
	for _, x := range []float64{f.Max.X - radius, f.Min.X + radius, f.Center().X, f.Max.X + radius*0.5, f.Max.X + radius*1.1} {
		for _, y := range []float64{f.Min.Y + radius, f.Max.Y - radius, f.Min.Y - radius*0.2, f.Max.Y + radius*0.6, f.Max.Y + radius*1.1} {
			at := pt{X: x, Y: y}
			ring := draw.NewBox(x-radius, y-radius, x+radius, y+radius)
			grown := f.Union(ring)
			cost := 3 * size(grown) / size(f)
			for i := range p.canvas.Shapes {
				for _, q := range p.canvas.Shapes[i].Flat() {
					if q.Distance(at) < radius*1.08 {
						cost++
					}
				}
			}
			if cost < least {
				best, least = at, cost
			}
		}
	}
	return best
}

// placed are the traits that an outline has a place for.
func placed(places map[string][]pt, traits []string) (out []string) {
	for _, t := range traits {
		if len(places[t]) > 0 {
			out = append(out, t)
		}
	}
	return out
}
