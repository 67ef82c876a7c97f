package figure

// dragonflyForm are the proportions by which the ways of dragonfly nymphs differ.
type dragonflyForm struct {
	head, headEnd, chest float64 // half width of the head, where it ends, half width of the chest
	belly                widths
	legs                 [3]limb
}

// The builds of dragonfly nymphs: a long stalker, a flat digger with a blunt
// wedge of a head, a squat sprawler, a round one on long legs.

func stalker() dragonflyForm {
	return dragonflyForm{head: 0.12, headEnd: 0.15, chest: 0.098,
		belly: slim(0.34, 0.09, 0.5, 0.095, 0.7, 0.105, 0.85, 0.088, 0.96, 0.05, 1, 0.035),
		legs: [3]limb{limbAt(0.022, 0.2, 0.07, 0.17, 0.2, 0.06, 0.27, 0, 0.29),
			limbAt(0.022, 0.28, 0.08, 0.33, 0.23, 0.36, 0.35, 0.38, 0.41), limbAt(0.024, 0.34, 0.08, 0.47, 0.22, 0.57, 0.32,
				0.6, 0.37)}}
}

func sprawler() dragonflyForm {
	return dragonflyForm{head: 0.145, headEnd: 0.155, chest: 0.14,
		belly: slim(0.34, 0.14, 0.45, 0.2, 0.62, 0.235, 0.8, 0.2, 0.93, 0.09, 1, 0.03),
		legs: [3]limb{limbAt(0.022, 0.2, 0.1, 0.16, 0.27, 0.04, 0.37, -0.04, 0.39),
			limbAt(0.022, 0.28, 0.12, 0.33, 0.33, 0.36, 0.47, 0.38, 0.54), limbAt(0.024, 0.35, 0.13, 0.53, 0.33, 0.68, 0.44,
				0.74, 0.5)}}
}

func digging() dragonflyForm {
	return dragonflyForm{head: 0.125, headEnd: 0.15, chest: 0.13,
		belly: slim(0.34, 0.13, 0.45, 0.17, 0.62, 0.19, 0.8, 0.145, 0.93, 0.07, 1, 0.04),
		legs: [3]limb{limbAt(0.034, 0.21, 0.09, 0.15, 0.22, 0.05, 0.21, -0.01, 0.2),
			limbAt(0.03, 0.28, 0.11, 0.25, 0.23, 0.15, 0.3, 0.1, 0.31), limbAt(0.028, 0.35, 0.12, 0.46, 0.26, 0.56, 0.32, 0.6, 0.33)}}
}

// dragonfly is the form of a dragonfly nymph, from the traits.
func (t Traits) dragonfly() dragonflyForm {
	switch {
	case t.is("antennae", "thick"):
		return digging()
	case t.is("outline", "long", "spindle", "thread"):
		return stalker()
	case t.is("outline", "disc"):
		d := sprawler()
		d.belly = slim(0.34, 0.16, 0.39, 0.26, 0.5, 0.34, 0.64, 0.37, 0.8, 0.33, 0.91, 0.22, 0.96, 0.1, 1, 0.03)
		for i, l := range d.legs {
			l.knee.Y, l.ankle.Y, l.toe.Y = l.knee.Y*1.15, l.ankle.Y*1.28, l.toe.Y*1.35
			d.legs[i] = l
		}
		return d
	}
	return sprawler()
}

// dragonfly draws a dragonfly nymph from above: great eyes, two pairs of flaps
// laid back, short stiff points at the hind end.
func dragonfly(k *sketch) {
	d := k.is.dragonfly()
	k.threePairs(d.legs[0], d.legs[1], d.legs[2])
	stiffPoints(k)
	k.tails()
	gillsBehind(k, d.belly)
	k.ringed(d.belly, 0.34, 10)
	k.hairsOn(d.belly, 0.45)
	dragonMarks(k, d)
	dragonChest(k, d)
	dragonPads(k, d)
	shieldAbove(k, d.belly)
	dragonFeelers(k, d)
	dragonMask(k, d)
	dragonHead(k, d)
}

// stiffPoints are the five short points at the hind end, closed to a pyramid:
// the outer two as long as the trait says.
func stiffPoints(k *sketch) {
	k.part(pt{X: 1.05, Y: -0.03}, "hind", "oars", "tube", "point-length")
	if !k.is.is("hind", "points") {
		k.hindEnd(0.035)
		return
	}
	k.Part("hind", "point-length")
	outer := 0.045
	if k.is.is("point-length", "long") {
		outer = 0.125
	}
	k.Toned(pt{X: 0.97, Y: -0.018}, pt{X: 1.07, Y: -0.009}, pt{X: 1.125}, pt{X: 1.07, Y: 0.009}, pt{X: 0.97, Y: 0.018})
	sides(func(s float64) {
		k.Poly(pt{X: 0.975, Y: s * 0.012}, pt{X: 1.16, Y: s * 0.016}, pt{X: 0.975, Y: s * 0.036})
		k.Poly(pt{X: 0.965, Y: s * 0.036}, pt{X: 0.98 + outer, Y: s * 0.052}, pt{X: 0.955, Y: s * 0.058})
	})
}

// dragonMarks draws a pattern of pale and dark on the belly section.
func dragonMarks(k *sketch, d dragonflyForm) {
	k.part(pt{X: 0.72, Y: 0.03}, "pattern")
	if !k.is.is("pattern", "marked") {
		return
	}
	for i := range 6 {
		x := 0.56 + 0.064*float64(i)
		h := d.belly.width(x)
		sides(func(s float64) {
			k.Shaded(flank(path(x, h*0.3, x+0.005, h*0.62, x+0.035, h*0.5, x+0.03, h*0.3)).flipped(s)...)
		})
	}
}

func dragonChest(k *sketch, d dragonflyForm) {
	c, n := d.chest, d.headEnd
	k.part(pt{X: n + 0.06, Y: -c * 0.7}, "plates")
	k.Part("plates", "body")
	k.Blob(mirrored(n+0.05, c*0.4, n+0.06, c*0.95, n+0.13, c*1.05, n+0.22, c*0.95, n+0.24, c*0.3)...)
	k.Blob(mirrored(n-0.01, c*0.35, n, c*0.75, n+0.03, c*0.88, n+0.06, c*0.78, n+0.065, c*0.3)...)
}

// dragonPads draws two pairs of flaps, the hind pair the longer.
func dragonPads(k *sketch, d dragonflyForm) {
	k.part(pt{X: 0.52, Y: 0.05}, "wings", "pads")
	if !k.is.is("wings", "pads") {
		return
	}
	k.Part("wings", "pads")
	turn := 3.0
	if k.is.is("pads", "spread") {
		turn = 30
	}
	sides(func(s float64) {
		for _, p := range []struct{ x, y, l float64 }{{0.32, 0.45, 0.25}, {0.27, 0.62, 0.24}} {
			root := pt{X: p.x, Y: s * d.chest * p.y}
			a := s * turn
			tip := root.Polar(p.l, a)
			k.Toned(root.Polar(0.03, a-90), root.Lerp(tip, 0.6).Polar(0.03, a-90), tip, root.Lerp(tip, 0.6).Polar(0.034,
				a+90), root.Polar(0.036, a+90))
			k.Texture(func() { k.Line(root.Lerp(tip, 0.25), root.Lerp(tip, 0.85)) })
		}
	})
}

// dragonFeelers draws short bristles, or the thick paddles of a digger.
func dragonFeelers(k *sketch, d dragonflyForm) {
	k.part(pt{X: -0.04, Y: -d.head * 0.5}, "antennae", "feelers")
	sides(func(s float64) {
		root := pt{X: 0.02, Y: s * d.head * 0.42}
		switch k.is["antennae"] {
		case "thick":
			k.joint(root, root.Polar(0.045, 180-s*25), 0.014, 0.016)
			k.joint(root.Polar(0.042, 180-s*25), root.Polar(0.115, 180-s*22), 0.02, 0.017)
		case "none":
		case "long", "giant", "pairs":
			k.whip(0.006, root, root.Polar(0.12, 180-s*40), root.Polar(0.22, 180-s*30))
		default:
			k.whip(0.006, root, root.Polar(0.05, 180-s*50), root.Polar(0.1, 180-s*40))
		}
	})
}

// dragonMask draws what shows of the folding lip from above: its edge beneath
// the head, or the bowl that covers the face.
func dragonMask(k *sketch, d dragonflyForm) {
	k.part(pt{X: -0.02}, "mouth", "mask", "tusks")
	k.Part("mouth", "mask")
	h := d.head
	switch {
	case k.is.is("mouth", "jaws"):
		k.sickles(h, 0.03)
	case !k.is.is("mouth", "mask"):
	case k.is.is("mask", "spoon", "toothed", "jagged"):
		k.Toned(mirrored(-0.035, h*0.12, -0.025, h*0.45, 0.02, h*0.66, 0.06, h*0.62)...)
		if k.is.is("mask", "jagged") {
			k.Line(path(-0.03, -h*0.1, -0.012, -h*0.03, -0.024, h*0.05, -0.006, h*0.1, -0.016, h*0.2)...)
		} else {
			k.Line(pt{X: -0.038}, pt{X: 0.02})
		}
	default:
		k.Toned(mirrored(-0.018, h*0.2, -0.012, h*0.4, 0.03, h*0.45)...)
	}
}

func dragonHead(k *sketch, d dragonflyForm) {
	h, n := d.head, d.headEnd
	k.part(pt{X: 0.04, Y: h * 0.4}, "head", "head-colour")
	k.Part("head", "body")
	front := 0.45
	if k.is.is("antennae", "thick") {
		front = 0.3
	}
	k.Blob(mirrored(0, h*0.18, 0.005, h*front, 0.04, h*0.8, 0.075, h*0.96, n-0.03, h*0.86, n, h*0.5, n, h*0.1)...)
	k.part(pt{X: 0.07, Y: -h * 0.9}, "eyes")
	k.Part("eyes", "body")
	if !k.is.has("eyes") {
		return
	}
	eye := path(0.03, h*0.66, 0.045, h*0.95, 0.075, h*1.06, 0.108, h*0.98, 0.112, h*0.8, 0.075, h*0.72)
	switch {
	case k.is.is("mask", "jagged"): // small, high at the front corners
		eye = path(0.012, h*0.66, 0.02, h*0.88, 0.045, h*0.97, 0.07, h*0.92, 0.075, h*0.78, 0.045, h*0.68)
	case k.is.is("mask", "spoon"): // knobs at the front corners
		eye = path(0.012, h*0.68, 0.018, h*0.94, 0.05, h*1.1, 0.085, h*1.06, 0.098, h*0.9, 0.06, h*0.76)
	case k.is.is("outline", "long", "spindle") && !k.is.is("antennae", "thick"): // they make most of the head
		eye = path(0.022, h*0.56, 0.035, h*0.9, 0.075, h*1.07, 0.115, h*0.98, 0.14, h*0.66, 0.142, h*0.26, 0.118, h*0.22, 0.095, h*0.55)
	}
	sides(func(s float64) { k.Solid(flank(eye).flipped(s)...) })
}

// sickles draws curved jaws at the front of a head of half width h.
func (k *sketch) sickles(h, x float64) {
	sides(func(s float64) {
		k.Solid(flank(path(x, h*0.75, -0.045, h*0.82, -0.1, h*0.45, -0.115, h*0.08, -0.075, h*0.38, -0.03, h*0.55, x,
			h*0.45)).flipped(s)...)
	})
}
