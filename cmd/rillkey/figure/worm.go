package figure

import "math"

// wave bends a body into gentle waves.
func wave(p pt) pt { return pt{X: p.X, Y: p.Y + 0.075*math.Sin(p.X*11)} }

// worm draws a long ringed body without a head, with bristles and a saddle.
func worm(k *sketch) {
	w := k.is.form().scaled(0.42)
	w[0].Y, w[len(w)-1].Y = 0.012, 0.012
	if k.is.is("posture", "curled", "bent") {
		k.bend(k.is["posture"])
	} else {
		k.Warp(wave)
	}
	k.hindEnd(w.width(0.97))
	prolegsBelow(k, w)
	k.part(pt{X: 0.6, Y: -w.width(0.6)}, "outline", "flat", "rings")
	k.Part("outline", "body")
	k.Texture(func() {
		for i := range 18 {
			x := 0.08 + 0.05*float64(i)
			sides(func(s float64) {
				k.Line(pt{X: x, Y: s * w.width(x) * 0.9}, pt{X: x + 0.008, Y: s * (w.width(x) + 0.02)})
			})
		}
	})
	k.Blob(w.outline(0, 1)...)
	if k.is.is("rings", "rings") {
		k.Part("body")
		k.Toned(w.scaled(1.12).outline(0.24, 0.33)...)
	}
	k.Part("rings")
	if k.is.is("rings", "rings", "sections") {
		for i := range 34 {
			x := 0.05 + 0.027*float64(i)
			if k.is.is("rings", "rings") || x < 0.4 {
				k.Texture(func() { k.Line(pt{X: x, Y: -w.width(x) * 0.9}, pt{X: x, Y: w.width(x) * 0.9}) })
			}
		}
	}
	softEnds(k, w)
}

// roundworm draws a short smooth thread in an S, pointed at both ends.
func roundworm(k *sketch) {
	k.part(pt{X: 0.5, Y: 0.02}, "outline", "flat", "rings", "skin", "pattern", "posture")
	k.Part("outline", "body")
	bend := func(p pt) pt { return pt{X: p.X, Y: p.Y + 0.16*math.Sin(p.X*2*math.Pi)} }
	if k.is.is("posture", "curled") {
		bend = arc(5)
	}
	k.Warp(bend)
	k.Blob(widths(path(0, 0.002, 0.1, 0.016, 0.5, 0.02, 0.85, 0.014, 1, 0.001)).outline(0, 1)...)
	k.part(pt{X: 0.02}, "head", "eyes", "antennae", "suckers", "legs", "mouth", "hind", "tails", "gills", "hair")
	k.Warp(nil)
}

// softEnds marks what a soft body has or lacks at its ends.
func softEnds(k *sketch, w widths) {
	k.part(pt{X: 0.0, Y: 0}, "head", "mouth", "antennae")
	k.part(pt{X: 0.05, Y: 0}, "eyes")
	if k.is.is("eyes", "spots") {
		sides(func(s float64) { k.Dot(pt{X: 0.05, Y: s * w.width(0.05) * 0.4}, 0.012) })
	}
	k.part(pt{X: 0.4, Y: w.width(0.4)}, "legs", "leg-place", "gills", "shell", "tails")
	suckers(k, w)
	edges(k, w)
}

// suckers draws a sucker at each end, or at the hind end.
func suckers(k *sketch, w widths) {
	k.part(pt{X: 1, Y: 0}, "suckers")
	switch k.is["suckers"] {
	case "ends":
		k.places["suckers"] = []pt{k.Warped(pt{X: 1, Y: 0}), k.Warped(pt{X: 0.0, Y: 0})}
		cup(k, pt{X: 1.0}, max(w.width(0.9)*0.72, 0.05))
		cup(k, pt{X: 0.005}, max(w.width(0.03)*0.8, 0.026))
	case "hind":
		cup(k, pt{X: 0.98}, max(w.width(0.9), 0.05))
	case "row":
		for i := range 6 {
			k.Ring(pt{X: 0.2 + 0.13*float64(i)}, 0.03)
		}
	}
}

// cup draws a sucker: a disc with a rim.
func cup(k *sketch, at pt, r float64) {
	if k.is.is("flat", "round") { // wider than the slim body
		r *= 1.7
	}
	k.Toned(spot(at.X, at.Y, r*0.85, r)...)
	k.Texture(func() { k.Blob(spot(at.X, at.Y, r*0.5, r*0.62)...) })
}

// leech draws a ringed body with its suckers, from above: a ribbon, a leaf that
// is broad behind, or a slim cylinder between two wide discs.
func leech(k *sketch) {
	w := leechForm(k.is)
	if k.is.is("posture", "straight") && k.is.is("outline", "long", "thread") {
		k.Warp(func(p pt) pt { return pt{X: p.X, Y: p.Y + 0.06*math.Sin(p.X*5.5)} })
	} else {
		k.bend(k.is["posture"])
	}
	suckers(k, w)
	k.part(pt{X: 0.6, Y: -w.width(0.6)}, "outline", "flat", "rings")
	k.Part("outline", "flat", "body")
	k.Blob(w.outline(0.01, 0.985)...)
	k.part(pt{X: 0.45, Y: w.width(0.45) * 0.4}, "pattern")
	leechMarks(k, w)
	k.Part("rings")
	if !k.is.is("rings", "none") {
		for i := range 24 {
			x := 0.1 + 0.036*float64(i)
			h := w.width(x) * 0.95
			k.Texture(func() { k.Line(pt{X: x, Y: -h}, pt{X: x, Y: h}) })
		}
	}
	k.part(pt{X: 0.05, Y: 0}, "eyes", "eye-dots", "head", "mouth", "antennae", "head-colour")
	k.Part("eyes", "eye-dots", "body")
	if k.is.has("eyes") {
		for _, p := range k.is.leechEyes() {
			sides(func(s float64) { k.Dot(pt{X: p.X, Y: s * w.width(p.X) * p.Y}, 0.008) })
		}
	}
	k.part(pt{X: 0.4, Y: w.width(0.4)}, "legs", "leg-place", "gills", "shell", "tails", "hind", "hair")
}

// leechEyes are where the eye dots of one side lie: along the body, and as a share of
// its half width.
func (t Traits) leechEyes() []pt {
	switch t["eye-dots"] {
	case "arch":
		return path(0.03, 0.2, 0.042, 0.55, 0.062, 0.75, 0.085, 0.8, 0.115, 0.82)
	case "rows":
		return path(0.045, 0.25, 0.045, 0.7, 0.1, 0.35, 0.1, 0.75)
	}
	return path(0.05, 0.3, 0.085, 0.5)
}

// leechMarks draws a pattern: bands across a slim one, dots in rows on others.
func leechMarks(k *sketch, w widths) {
	if !k.is.is("pattern", "marked") {
		return
	}
	for i := range 9 {
		x := 0.16 + 0.085*float64(i)
		h := w.width(x)
		if k.is.is("flat", "round") {
			k.Shaded(mirrored(x, h*0.9, x+0.035, h*0.9)...)
			continue
		}
		sides(func(s float64) { k.Shaded(spot(x, s*h*0.45, 0.014, h*0.12)...) })
	}
}

func leechForm(t Traits) widths {
	switch {
	case t.is("outline", "tapered"): // wider behind: it goes narrow end first
		return slim(0, 0.035, 0.15, 0.06, 0.4, 0.11, 0.7, 0.165, 0.88, 0.14, 1, 0.06)
	case t.is("outline", "oval", "spindle", "disc"):
		return slim(0, 0.03, 0.1, 0.06, 0.3, 0.13, 0.6, 0.19, 0.82, 0.165, 0.94, 0.1, 1, 0.05)
	case t.is("flat", "round"):
		return slim(0, 0.022, 0.15, 0.032, 0.7, 0.042, 1, 0.03)
	}
	return slim(0, 0.02, 0.06, 0.035, 0.2, 0.055, 0.5, 0.075, 0.85, 0.075, 1, 0.045)
}

// flatworm draws a smooth flat body with an arrow-shaped head and two eyes.
func flatworm(k *sketch) {
	k.bend(k.is["posture"])
	k.part(pt{X: 0.6, Y: -0.105}, "outline", "flat", "rings")
	k.Part("outline", "flat", "body", "head")
	y := 0.115
	if k.is.is("outline", "tapered") {
		y = 0.15
	}
	head := []float64{0, 0.01, 0.05, 0.06, 0.13, 0.16, 0.2, y * 0.75} // an arrow
	if k.is.is("colour", "pale") {                                    // cut off straight, a lappet at each corner
		head = []float64{0.03, 0.02, 0.02, 0.05, 0.005, 0.085, 0.06, 0.095, 0.2, y * 0.85}
	}
	k.Blob(mirrored(append(head, 0.4, y, 0.75, y*0.85, 0.98, 0.02)...)...)
	k.Part("body")
	k.Curve(pt{X: 0.3, Y: 0}, pt{X: 0.6, Y: 0.02}, pt{X: 0.88, Y: 0})
	if k.is.is("colour", "pale") {
		gutBranches(k, y)
	}
	k.part(pt{X: 0.12, Y: 0}, "eyes")
	sides(func(s float64) {
		if k.is.is("eyes", "row") {
			for i := range 5 {
				k.Dot(pt{X: 0.015 + 0.035*float64(i), Y: s * (0.02 + 0.024*float64(i))}, 0.009)
			}
			return
		}
		if k.is.has("eyes") {
			k.Ring(pt{X: 0.115, Y: s * 0.045}, 0.028)
			k.Dot(pt{X: 0.108, Y: s * 0.04}, 0.014)
		}
	})
	k.part(pt{X: 0.02, Y: 0}, "head", "antennae", "mouth")
	w := widths(path(0, 0.05, 0.3, y, 0.75, y*0.85, 1, 0.02))
	suckers(k, w)
	k.part(pt{X: 0.5, Y: y}, "legs", "shell", "gills", "tails")
	k.hindEnd(0.03)
	edges(k, w)
}

// gutBranches draws the gut that shows through a white flatworm, branch by branch.
func gutBranches(k *sketch, y float64) {
	for i := range 7 {
		x := 0.26 + 0.08*float64(i)
		sides(func(s float64) {
			fork := pt{X: x + 0.03, Y: s * y * 0.4}
			k.Line(pt{X: x, Y: 0.01}, fork, pt{X: x + 0.07, Y: s * y * 0.68})
			k.Line(fork, pt{X: x + 0.01, Y: s * y * 0.66})
		})
	}
}

// wire draws a thread of a worm in loose loops.
func wire(k *sketch) {
	k.part(pt{X: 0.62, Y: -0.12}, "outline", "flat", "rings", "skin")
	k.Part("outline", "body")
	loops := []pt{{X: 0.02, Y: 0.16}, {X: 0.12, Y: -0.05}, {X: 0.3, Y: -0.14}, {X: 0.45, Y: 0.02}, {X: 0.36, Y: 0.18},
		{X: 0.24, Y: 0.08}, {X: 0.38, Y: -0.12},
		{X: 0.6, Y: -0.2}, {X: 0.75, Y: -0.02}, {X: 0.64, Y: 0.17}, {X: 0.5, Y: 0.1}, {X: 0.62, Y: -0.06}, {X: 0.84,
			Y: -0.12}, {X: 1, Y: 0.06}}
	for i := range loops {
		loops[i] = pt{X: k.varied(loops[i].X, 0.06, i), Y: k.varied(loops[i].Y, 0.4, i+1)}
	}
	k.Curve(loops...)
	k.Part("body")
	moved := make([]pt, len(loops))
	for i, p := range loops {
		moved[i] = pt{X: p.X + 0.008, Y: p.Y + 0.012}
	}
	k.Curve(moved...)
	k.part(pt{X: 0.02, Y: 0.15}, "head", "eyes", "antennae", "suckers", "legs", "mouth")
}
