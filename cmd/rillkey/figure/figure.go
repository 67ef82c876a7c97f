// Package figure draws stream animals from their traits: clean outlines in one
// weight of line, with the feature that a couplet asks about set off by a
// heavier line and a pointer, never by colour.
//
// Begin with [Atlas], [Traits] and [Figure].
//
// A figure is made of the traits alone, never of a taxon's name: what somebody
// adds to a catalog has figures too. The same shapes serve as SVG and as
// braille characters on a terminal, and the same traits make the same figure.
// Figures are schematic; they do not replace a picture of the animal.
package figure

import (
	"slices"

	"rillkey/cmd/rillkey/figure/draw"
	"rillkey/taxa"
)

// Figure is a drawing of one animal, or of the few that a lead or a large group
// speaks of. The zero Figure is empty.
type Figure struct {
	// Title names what is drawn, Alt says in a sentence what is to be seen.
	Title, Alt string
	// Length is the range of mature lengths that the bar shows; the zero Range
	// draws none.
	Length taxa.Range

	panels []panel
}

// panel is one drawing on its own part of the page.
type panel struct {
	canvas   *draw.Canvas
	plain    *draw.Canvas // what is drawn on few dots; nil for the same without texture
	frame    draw.Box     // what must be on the page; siblings share it
	features draw.Box     // where the features are, for small screens; may be empty
	aims     []aim
	inset    bool // an enlarged detail or a sign, not a whole body
	build    *plan
	model    model           // who sits for it; zero for an inset
	shows    map[string]bool // the features that the body shows
}

// aim is where a pointer points. Where the part is absent, a dotted ring marks
// the empty place.
type aim struct {
	point  draw.Pt
	absent bool
}

// Empty reports whether there is nothing to be seen.
func (f Figure) Empty() bool { return len(f.panels) == 0 }

// body draws a whole animal, these traits set off.
func body(t Traits, p *plan, features []string) panel {
	k := newSketch(t)
	p.draw(k)
	if len(features) == 0 { // a lead shows what is asked alone
		switch p {
		case planArmoured:
			hiddenTuft(k)
		case planStonefly:
			longFoot(k)
		}
	}
	out := panel{canvas: &k.Canvas, frame: k.Box(), build: p, shows: map[string]bool{}}
	for i, trait := range features {
		k.SetOff(trait)
		places, nowhere := k.places[trait], false
		if len(places) > 0 || trait == "posture" {
			out.shows[trait] = true
		}
		switch {
		case trait == "posture":
			k.SetOff("outline")
		case len(places) == 0 && absence(t[trait]) && signs()[trait] == nil:
			places, nowhere = []pt{out.frame.Center()}, true
		}
		if len(places) == 0 || i >= 2 || nowhere && len(out.aims) > 0 {
			continue
		}
		for _, at := range places[:min(len(places), 2)] {
			if slices.ContainsFunc(out.aims, func(a aim) bool { return a.point.Distance(at) < sameSpot }) {
				continue
			}
			out.aims = append(out.aims, aim{at, trait != "posture" && !k.Shows(trait)})
			out.features = out.features.Extended(at)
			if trait != "rings" {
				out.frame = out.frame.Extended(at)
			}
		}
	}
	for _, s := range k.Shapes {
		if s.Heavy {
			for _, p := range s.Flat() {
				out.features = out.features.Extended(p)
			}
		}
	}
	return out
}

// sameSpot is how close two places must lie for one pointer to do for both, in body
// lengths.
const sameSpot = 0.1

// absence reports whether a state says that a part is not there.
func absence(state string) bool {
	return state == "none" || state == "no" || state == "0" || state == "nobody"
}

// acted draws the sign of one state with an animal that does it; nil for any animal,
// which it is on few dots too.
func acted(trait, state string, set bool, actor *panel) panel {
	k := newSketch(Traits{trait: state})
	k.actor = actor
	signs()[trait](k, state)
	if set {
		k.SetOff(trait)
	}
	out := panel{canvas: &k.Canvas, frame: draw.NewBox(-0.5, -0.5, 0.5, 0.5).Union(k.Box()), inset: true}
	if actor != nil {
		out.plain = acted(trait, state, set, nil).canvas
	}
	return out
}

// underside is a detail that a view from above hides.
func underside(draws func(*sketch)) panel {
	k := newSketch(Traits{})
	draws(k)
	k.SetOff("mouth")
	return panel{canvas: &k.Canvas, frame: draw.NewBox(-0.5, -0.5, 0.5, 0.5).Union(k.Box()), inset: true}
}
