package figure

import "math"

// wave bends a body into gentle waves.
func wave(p pt) pt { return pt{X: p.X, Y: p.Y + 0.075*math.Sin(p.X*11)} }

// worm draws a long ringed body without a head.
func worm(k *sketch) {
	w := k.is.form().scaled(0.42)
	if k.is.is("posture", "curled", "bent") {
		k.bend(k.is["posture"])
	} else {
		k.Warp(wave)
	}
	k.hindEnd(w.width(0.97))
	k.prolegsBelow(w)
	k.part(pt{X: 0.6, Y: -w.width(0.6)}, "outline", "flat", "rings")
	k.Part("outline", "body")
	k.Blob(w.outline(0, 1)...)
	k.Part("rings")
	if k.is.is("rings", "rings", "sections") {
		for x := 0.05; x < 0.97; x += 0.026 {
			if k.is.is("rings", "rings") || x < 0.4 {
				k.Texture(func() { k.Line(pt{X: x, Y: -w.width(x) * 0.95}, pt{X: x, Y: w.width(x) * 0.95}) })
			}
		}
	}
	k.softEnds(w)
}

// softEnds marks what a soft body has or lacks at its ends.
func (k *sketch) softEnds(w widths) {
	k.part(pt{X: 0.0, Y: 0}, "head", "mouth", "antennae")
	k.part(pt{X: 0.05, Y: 0}, "eyes")
	if k.is.is("eyes", "spots") {
		sides(func(s float64) { k.Dot(pt{X: 0.05, Y: s * w.width(0.05) * 0.4}, 0.012) })
	}
	k.part(pt{X: 0.4, Y: w.width(0.4)}, "legs", "leg-place", "gills", "shell", "tails")
	k.suckers(w)
	k.edges(w)
}

// suckers draws a sucker at each end, or at the hind end.
func (k *sketch) suckers(w widths) {
	k.part(pt{X: 1, Y: 0}, "suckers")
	switch k.is["suckers"] {
	case "ends":
		k.places["suckers"] = []pt{k.Warped(pt{X: 0.98, Y: 0}), k.Warped(pt{X: 0.03, Y: 0})}
		r := max(w.width(0.9)*0.75, 0.042)
		if k.is.is("flat", "round") {
			r = 0.085
		}
		k.Ring(pt{X: 0.98}, r)
		k.Ring(pt{X: 0.98}, r*0.45)
		k.Ring(pt{X: 0.03}, r*0.75)
		k.Dot(pt{X: 0.03}, r*0.2)
	case "hind":
		k.Ring(pt{X: 0.98}, max(w.width(0.9), 0.05))
	case "row":
		for i := range 6 {
			k.Ring(pt{X: 0.2 + 0.13*float64(i)}, 0.03)
		}
	}
}

// leech draws a flat ringed body with its suckers, from above.
func leech(k *sketch) {
	w := leechForm(k.is)
	k.bend(k.is["posture"])
	k.part(pt{X: 0.6, Y: -w.width(0.6)}, "outline", "flat", "rings")
	k.Part("outline", "flat", "body")
	k.Blob(w.outline(0, 1)...)
	k.Part("rings")
	if !k.is.is("rings", "none") {
		for x := 0.1; x < 0.93; x += 0.045 {
			h := w.width(x) * 0.95
			k.Texture(func() { k.Curve(pt{X: x, Y: -h}, pt{X: x + 0.012}, pt{X: x, Y: h}) })
		}
	}
	k.softEnds(w)
}

func leechForm(t Traits) widths {
	switch {
	case t.is("outline", "tapered"): // wider behind: it goes narrow end first
		return widths(path(0, 0.045, 0.15, 0.065, 0.4, 0.11, 0.7, 0.16, 0.9, 0.13, 1, 0.06))
	case t.is("outline", "oval", "spindle", "disc"):
		return widths(path(0, 0.05, 0.15, 0.09, 0.4, 0.16, 0.65, 0.18, 0.88, 0.12, 1, 0.06))
	case t.is("flat", "round"):
		return widths(path(0, 0.03, 0.15, 0.04, 0.7, 0.048, 1, 0.035))
	}
	return widths(path(0, 0.05, 0.12, 0.075, 0.5, 0.09, 0.8, 0.095, 1, 0.06))
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
	k.Blob(pt{X: 0}, pt{X: 0.05, Y: -0.06}, pt{X: 0.13, Y: -0.16}, pt{X: 0.2, Y: -y * 0.75}, pt{X: 0.4, Y: -y}, pt{X: 0.75,
		Y: -y * 0.85}, pt{X: 0.98, Y: -0.02},
		pt{X: 0.98, Y: 0.02}, pt{X: 0.75, Y: y * 0.85}, pt{X: 0.4, Y: y}, pt{X: 0.2, Y: y * 0.75}, pt{X: 0.13, Y: 0.16}, pt{X: 0.05, Y: 0.06})
	k.Part("body")
	k.Curve(pt{X: 0.3, Y: 0}, pt{X: 0.6, Y: 0.02}, pt{X: 0.88, Y: 0})
	k.part(pt{X: 0.12, Y: 0}, "eyes")
	sides(func(s float64) {
		if k.is.has("eyes") {
			k.Ring(pt{X: 0.115, Y: s * 0.045}, 0.028)
			k.Dot(pt{X: 0.108, Y: s * 0.04}, 0.014)
		}
	})
	k.part(pt{X: 0.02, Y: 0}, "head", "antennae", "mouth")
	w := widths(path(0, 0.05, 0.3, y, 0.75, y*0.85, 1, 0.02))
	k.suckers(w)
	k.part(pt{X: 0.5, Y: y}, "legs", "shell", "gills", "tails")
	k.hindEnd(0.03)
	k.edges(w)
}

// wire draws a thread of a worm in loose loops.
func wire(k *sketch) {
	k.part(pt{X: 0.62, Y: -0.12}, "outline", "flat", "rings", "skin")
	k.Part("outline", "body")
	loops := []pt{{X: 0.02, Y: 0.16}, {X: 0.12, Y: -0.05}, {X: 0.3, Y: -0.14}, {X: 0.45, Y: 0.02}, {X: 0.36, Y: 0.18}, {X: 0.24, Y: 0.08}, {X: 0.38, Y: -0.12},
		{X: 0.6, Y: -0.2}, {X: 0.75, Y: -0.02}, {X: 0.64, Y: 0.17}, {X: 0.5, Y: 0.1}, {X: 0.62, Y: -0.06}, {X: 0.84, Y: -0.12}, {X: 1, Y: 0.06}}
	k.Curve(loops...)
	k.Part("body")
	moved := make([]pt, len(loops))
	for i, p := range loops {
		moved[i] = pt{X: p.X + 0.008, Y: p.Y + 0.012}
	}
	k.Curve(moved...)
	k.part(pt{X: 0.02, Y: 0.15}, "head", "eyes", "antennae", "suckers", "legs", "mouth")
}
