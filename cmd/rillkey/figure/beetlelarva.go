package figure

// tiger draws the larva of a hunting beetle from above: a round flat head with
// sickle jaws on a neck, long legs, a belly section that tapers to a point.
func tiger(k *sketch) {
	w := slim(0.36, 0.08, 0.5, 0.108, 0.62, 0.108, 0.8, 0.07, 0.94, 0.03, 1, 0.02)
	k.twoFeelers(0.07, 0.1)
	k.threePairs(limbAt(0.02, 0.24, 0.055, 0.18, 0.2, 0.08, 0.28, 0.02, 0.31),
		limbAt(0.02, 0.31, 0.07, 0.33, 0.23, 0.38, 0.33, 0.42, 0.37), limbAt(0.02, 0.37, 0.075, 0.47, 0.22, 0.57, 0.3, 0.63, 0.33))
	k.cerci()
	tigerFringe(k)
	k.hooksAbove(0.03)
	k.hindEnd(0.025)
	gillsBehind(k, w)
	k.ringed(w, 0.36, 8)
	k.part(pt{X: 0.6, Y: 0.03}, "pattern")
	k.hairsOn(w, 0.5)
	tigerChest(k)
	k.part(pt{X: -0.06}, "mouth")
	k.Part("mouth")
	if k.is.is("mouth", "jaws") {
		k.sickles(0.1, 0.03)
	}
	k.part(pt{X: 0.07, Y: 0.03}, "head", "head-colour")
	k.Part("head", "body")
	k.Toned(mirrored(0.004, 0.03, 0.012, 0.07, 0.05, 0.103, 0.095, 0.1, 0.13, 0.06, 0.15, 0.035)...)
	k.part(pt{X: 0.05, Y: -0.09}, "eyes")
	if k.is.has("eyes") {
		sides(func(s float64) { k.Solid(spot(0.05, s*0.085, 0.016, 0.013)...) })
	}
}

// tigerFringe draws the hairs of the two tails, if they have any.
func tigerFringe(k *sketch) {
	if !k.is.is("tail-hair", "fringed") || !k.is.is("tails", "2") {
		return
	}
	l := 0.42
	if k.is.is("tail-length", "short") {
		l = 0.22
	}
	k.Part("tails", "tail-hair")
	k.Texture(func() {
		for i := range 5 {
			x := l * (0.2 + 0.17*float64(i))
			sides(func(s float64) {
				p := pt{X: 1 + x, Y: s * (0.02 + 0.34*x)}
				k.Line(p.Polar(0.05, s*70), p, p.Polar(0.05, -s*25))
			})
		}
	})
}

func tigerChest(k *sketch) {
	k.part(pt{X: 0.22, Y: 0.03}, "plates", "shoulders")
	k.Part("plates", "body", "rings")
	k.Toned(mirrored(0.3, 0.05, 0.305, 0.075, 0.33, 0.08, 0.368, 0.075, 0.37, 0.05)...)
	k.Toned(mirrored(0.25, 0.05, 0.255, 0.068, 0.28, 0.075, 0.308, 0.07, 0.31, 0.05)...)
	k.Toned(mirrored(0.14, 0.03, 0.15, 0.04, 0.19, 0.058, 0.24, 0.07, 0.257, 0.055, 0.26, 0.03)...)
	k.Texture(func() { k.Line(pt{X: 0.15}, pt{X: 0.37}) })
}

// armoured draws a larva of hard rings from end to end: a riffle beetle's, with
// a tuft that slides in and out at the tail, a crawling beetle's with a long
// tail, a marsh beetle's with long feelers.
func armoured(k *sketch) {
	w := slim(0.08, 0.06, 0.2, 0.082, 0.35, 0.084, 0.6, 0.074, 0.85, 0.052, 1, 0.028)
	switch {
	case k.is.has("tails"):
		w = slim(0.08, 0.05, 0.2, 0.065, 0.5, 0.058, 0.8, 0.04, 1, 0.02)
	case k.is.is("flat", "flat"):
		w = slim(0.08, 0.12, 0.2, 0.19, 0.4, 0.2, 0.65, 0.16, 0.85, 0.1, 1, 0.04)
	}
	k.feelersOf(0.04, 0.035, 0.42)
	y := w.width(0.25) * 0.85
	k.threePairs(limbAt(0.02, 0.16, y, 0.12, y+0.1, 0.06, y+0.13, 0.03, y+0.14),
		limbAt(0.02, 0.25, y, 0.26, y+0.1, 0.29, y+0.15, 0.31, y+0.17), limbAt(0.02, 0.34, y, 0.38, y+0.1, 0.44, y+0.14, 0.47, y+0.15))
	k.cerci()
	k.hooksAbove(0.03)
	tailTuft(k)
	k.part(pt{X: 0.6, Y: w.width(0.6)}, "rings", "outline", "flat", "skin")
	for i := 11; i >= 0; i-- {
		x := 0.1 + 0.0745*float64(i)
		k.Part("rings", "body")
		if i < 3 || k.is.is("plates", "all") {
			k.Part("rings", "plates", "body")
		}
		a, b := w.width(x), w.width(x+0.07)
		if i == 11 {
			b = w.width(1) * 0.7
		}
		k.Toned(mirrored(x, a*0.5, x+0.003, a*0.93, x+0.05, max(a, b)*1.03, x+0.082, b*1.05, x+0.085, b*0.5)...)
	}
	k.part(pt{X: 0.2, Y: 0.03}, "plates", "pattern")
	k.Texture(func() { k.Line(pt{X: 0.11}, pt{X: 0.33}) })
	spikes(k, w)
	k.part(pt{X: 0.02}, "head", "mouth", "head-colour")
	k.Part("head", "body")
	h := min(0.065, w.width(0.1)*0.9)
	k.Blob(mirrored(0, h*0.35, 0.015, h*0.8, 0.06, h, 0.105, h*0.9, 0.11, h*0.3)...)
	k.part(pt{X: 0.05, Y: -h * 0.8}, "eyes")
	if k.is.has("eyes") {
		sides(func(s float64) { k.Dot(pt{X: 0.05, Y: s * h * 0.75}, 0.011) })
	}
}

// tailTuft draws the gill tuft at the hind end, or what else there is.
func tailTuft(k *sketch) {
	k.part(pt{X: 1.06, Y: 0.0}, "gills", "gill-form", "hind", "tube", "oars", "point-length")
	if k.is.is("gills", "hind") {
		k.Part("gills", "gill-form")
		for _, d := range []float64{-34, 0, 34} {
			k.bush(pt{X: 0.99, Y: d * 0.0004}, 0.1, d)
		}
	}
	if k.is.is("hind", "points") {
		k.Part("hind")
		sides(func(s float64) { k.Poly(pt{X: 0.97, Y: s * 0.006}, pt{X: 1.05, Y: s * 0.03}, pt{X: 0.96, Y: s * 0.03}) })
		return
	}
	k.hindEnd(0.03)
}

// hiddenTuft draws in dashes the gills at the hind end that a riffle beetle larva can
// draw in: most do when they are looked at.
func hiddenTuft(k *sketch) {
	if k.is.has("gills") || k.is.has("tails") || k.is.is("flat", "flat") || !k.is.is("plates", "all") {
		return
	}
	k.Part("body")
	k.Texture(func() {
		for _, d := range []float64{-40, -20, 0, 20, 40} {
			k.Dashes(pt{X: 1.0, Y: d * 0.0006}, pt{X: 1.0}.Polar(0.13, d))
		}
	})
}

// spikes draws pairs of spines along the back and edge of the rings.
func spikes(k *sketch, w widths) {
	k.part(pt{X: 0.7, Y: w.width(0.7)}, "hair")
	if k.is.is("hair", "hairy") {
		k.hairsOn(w, 0.12)
		return
	}
	if !k.is.is("hair", "spiny") {
		return
	}
	for i := range 11 {
		x := 0.14 + 0.0745*float64(i)
		sides(func(s float64) {
			k.whip(0.008, pt{X: x, Y: s * w.width(x) * 0.9}, pt{X: x + 0.02, Y: s * (w.width(x) + 0.025)},
				pt{X: x + 0.05, Y: s * (w.width(x) + 0.04)})
		})
	}
}

// scavenger draws a plump wrinkled larva with a small jawed head and short legs.
func scavenger(k *sketch) {
	w := slim(0.14, 0.07, 0.3, 0.1, 0.55, 0.118, 0.8, 0.095, 0.94, 0.055, 1, 0.03)
	k.twoFeelers(0.04, 0.09)
	y := w.width(0.25) * 0.8
	k.threePairs(limbAt(0.018, 0.19, y, 0.15, y+0.09, 0.1, y+0.12, 0.08, y+0.13),
		limbAt(0.018, 0.27, y, 0.28, y+0.1, 0.3, y+0.14, 0.32, y+0.16), limbAt(0.018, 0.34, y, 0.38, y+0.1, 0.43, y+0.13, 0.45, y+0.14))
	k.cerci()
	k.hooksAbove(0.03)
	threadsAlong(k, w)
	k.ringed(w, 0.14, 11)
	k.Part("rings", "body")
	k.Texture(func() {
		for i := range 8 {
			x := 0.42 + 0.066*float64(i)
			k.Curve(pt{X: x, Y: -w.width(x) * 0.6}, pt{X: x + 0.01}, pt{X: x, Y: w.width(x) * 0.6})
		}
	})
	k.part(pt{X: 0.18, Y: 0.03}, "plates", "pattern")
	k.Part("plates", "body")
	if k.is.has("plates") {
		k.Toned(mirrored(0.13, 0.03, 0.135, 0.062, 0.17, 0.078, 0.21, 0.075, 0.215, 0.03)...)
	}
	k.hindEnd(0.03)
	k.hairsOn(w, 0.2)
	k.part(pt{X: -0.04}, "mouth")
	k.Part("mouth")
	if k.is.is("mouth", "jaws") {
		k.sickles(0.065, 0.025)
	}
	k.part(pt{X: 0.06, Y: 0.02}, "head", "head-colour")
	k.Part("head", "body")
	k.Toned(mirrored(0.004, 0.02, 0.01, 0.045, 0.05, 0.065, 0.1, 0.068, 0.135, 0.05, 0.14, 0.02)...)
	k.part(pt{X: 0.05, Y: -0.055}, "eyes")
	if k.is.has("eyes") {
		sides(func(s float64) { k.Dot(pt{X: 0.05, Y: s * 0.05}, 0.01) })
	}
}

// threadsAlong draws single gill threads along the sides of the belly section.
func threadsAlong(k *sketch, w widths) {
	k.part(pt{X: 0.6, Y: w.width(0.6) + 0.05}, "gills", "gill-form", "gill-row", "side-arms")
	if !k.is.has("gills") {
		return
	}
	k.Part("gills", "gill-form")
	for i := range 7 {
		x := 0.44 + 0.07*float64(i)
		sides(func(s float64) {
			k.whip(0.007, pt{X: x, Y: s * w.width(x) * 0.95}, pt{X: x + 0.03, Y: s * (w.width(x) + 0.05)},
				pt{X: x + 0.08, Y: s * (w.width(x) + 0.09)})
		})
	}
}

// penny draws a water penny: its saucer from above and, smaller, from beneath,
// where head, legs and gills are.
func penny(k *sketch) {
	k.part(pt{X: 0.5, Y: 0}, "shield", "outline", "flat", "plates", "pattern")
	k.Part("shield", "body", "outline")
	k.Toned(spot(0.5, 0, 0.5, 0.4)...)
	k.part(pt{X: 0.8, Y: 0.3}, "hair", "hind", "tails", "wings")
	k.Part("body")
	k.Texture(func() {
		for i := range 44 {
			d := 360 / 44.0 * float64(i)
			u := pt{}.Polar(1, d)
			p := pt{X: 0.5 + 0.5*u.X, Y: 0.4 * u.Y}
			k.Line(p, p.Polar(0.03, d))
		}
	})
	k.part(pt{X: 0.7, Y: -0.2}, "rings")
	k.Part("rings", "plates", "body")
	k.Line(pt{X: 0.06}, pt{X: 0.97})
	for i := range 10 {
		x := 0.17 + 0.075*float64(i)
		sides(func(s float64) {
			k.Curve(pt{X: x}, pt{X: x + 0.01, Y: s * 0.15}, pt{X: x + 0.05, Y: s * 0.39 * saucerEdge(min(0.97, x+0.05))})
		})
	}
	pennyBeneath(k, pt{X: 1.52, Y: 0.12}, 0.68)
}

// pennyBeneath is the underside of the saucer.
func pennyBeneath(k *sketch, c pt, size float64) {
	at := func(x, y float64) pt { return pt{X: c.X + (x-0.5)*size, Y: c.Y + y*size} }
	k.Part("body")
	k.Blob(spot(c.X, c.Y, 0.5*size, 0.4*size)...)
	k.part(at(0.45, -0.2), "legs", "leg-place", "leg-length", "claws", "forelegs", "hindlegs")
	k.Part("legs", "leg-place", "leg-length")
	for i := range 3 {
		x, lean := 0.32+0.1*float64(i), -0.08+0.07*float64(i)
		sides(func(s float64) {
			k.leg(limb{at(x, s*0.05), at(x+lean, s*0.19), at(x+lean*2.2, s*0.25), at(x+lean*2.9, s*0.26), 0.02})
		})
	}
	k.part(at(0.7, 0.12), "gills", "gill-form", "gill-row")
	if k.is.has("gills") {
		k.Part("gills", "gill-form")
		for i := range 4 {
			sides(func(s float64) { k.bush(at(0.62+0.07*float64(i), s*0.05), 0.07, s*80) })
		}
	}
	k.Part("body")
	k.Blob(at(0.24, -0.05), at(0.4, -0.07), at(0.6, -0.06), at(0.88, -0.03), at(0.88, 0.03), at(0.6, 0.06), at(0.4,
		0.07), at(0.24, 0.05))
	k.part(at(0.2, 0), "head", "mouth", "antennae", "eyes", "head-colour")
	k.Part("head", "body")
	k.Toned(at(0.14, 0), at(0.17, -0.06), at(0.25, -0.06), at(0.27, 0), at(0.25, 0.06), at(0.17, 0.06))
}
