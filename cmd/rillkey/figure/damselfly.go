package figure

// damselfly draws a damselfly nymph from above: a head wider than the slim body,
// long legs, three plates at the hind end.
func damselfly(k *sketch) {
	w := slim(0.33, 0.05, 0.5, 0.046, 0.75, 0.04, 1, 0.03)
	damselLegs(k)
	lamellae(k)
	k.tails()
	k.ringed(w, 0.33, 10)
	k.part(pt{X: 0.7, Y: 0.02}, "pattern")
	k.hairsOn(w, 0.4)
	damselChest(k)
	damselFeelers(k)
	damselHead(k)
}

func damselLegs(k *sketch) {
	r := 1.0
	if k.is.is("leg-length", "long") {
		r = 1.25
	}
	k.threePairs(limbAt(0.015, 0.17, 0.045, 0.13, 0.15*r, 0.03, 0.23*r, -0.03, 0.25*r),
		limbAt(0.015, 0.25, 0.055, 0.29, 0.19*r, 0.34, 0.29*r, 0.37, 0.33*r), limbAt(0.016, 0.32, 0.055, 0.44, 0.19*r, 0.55,
			0.27*r, 0.59, 0.31*r))
}

// lamellae are the three plates at the hind end, which are its gills.
func lamellae(k *sketch) {
	k.part(pt{X: 1.2, Y: 0.06}, "hind", "oars", "tube", "point-length", "gills", "gill-form")
	if !k.is.is("hind", "plates") {
		k.hindEnd(0.03)
		return
	}
	k.Part("hind", "oars", "gills", "gill-form")
	turn := 21.0
	if k.is.is("oars", "blade", "uneven") {
		turn = 17
	}
	for _, d := range []float64{-turn, turn, 0} {
		lamella(k, pt{X: 0.985, Y: d * 0.0008}, d)
	}
}

// lamella draws one plate with its midrib and the branches of its air tubes.
func lamella(k *sketch, at pt, d float64) {
	l, w := 0.4, 0.055
	switch k.is["oars"] {
	case "blade":
		l, w = 0.44, 0.04
	case "uneven":
		l, w = 0.46, 0.032
		if d == 0 {
			l = 0.27
		}
	case "thread":
		l, w = 0.3, 0.05
	}
	tip := at.Polar(l, d)
	mid, far := at.Lerp(tip, 0.45), at.Lerp(tip, 0.8)
	end := w * 0.75
	switch k.is["oars"] {
	case "blade":
		end = w
		mid, far = at.Lerp(tip, 0.3), at.Lerp(tip, 0.93)
	case "uneven": // three-edged, widest before the point
		mid, far, end = at.Lerp(tip, 0.35), at.Lerp(tip, 0.78), w*0.95
	}
	k.Toned(at.Polar(w*0.25, d-90), mid.Polar(w, d-90), far.Polar(end, d-90), tip, far.Polar(end, d+90), mid.Polar(w,
		d+90), at.Polar(w*0.25, d+90))
	if k.is.is("oars", "thread") {
		k.whip(0.01, tip.Polar(-0.01, d), tip.Polar(0.07, d), tip.Polar(0.15, d))
	}
	k.Line(at, tip)
	lean, n := 0.16, 4
	switch k.is["oars"] {
	case "uneven":
		n = 0 // a keel along it, no veins to be seen
	case "blade": // the veins stand square on the midrib
		lean, n = 0.01, 6
	}
	k.Texture(func() {
		for i := range n {
			p := at.Lerp(tip, 0.25+0.64*float64(i)/float64(n))
			k.Line(p.Lerp(tip, lean).Polar(w*0.75, d-90), p, p.Lerp(tip, lean).Polar(w*0.75, d+90))
		}
	})
}

func damselChest(k *sketch) {
	k.part(pt{X: 0.2, Y: -0.05}, "plates")
	k.Part("plates", "body")
	k.Blob(mirrored(0.16, 0.03, 0.17, 0.052, 0.24, 0.066, 0.31, 0.062, 0.36, 0.046, 0.37, 0.02)...)
	k.Blob(mirrored(0.105, 0.02, 0.112, 0.044, 0.14, 0.052, 0.165, 0.044, 0.17, 0.02)...)
	k.part(pt{X: 0.46, Y: 0.045}, "wings", "pads")
	if !k.is.is("wings", "pads") {
		return
	}
	k.Part("wings", "pads")
	turn := 2.0
	if k.is.is("pads", "spread") {
		turn = 30
	}
	sides(func(s float64) {
		for _, p := range []struct{ x, y, l float64 }{{0.3, 0.026, 0.22}, {0.26, 0.042, 0.21}} {
			root := pt{X: p.x, Y: s * p.y}
			tip := root.Polar(p.l, s*turn)
			k.Toned(root.Polar(0.014, s*turn-90), root.Lerp(tip, 0.6).Polar(0.015, s*turn-90), tip, root.Lerp(tip,
				0.6).Polar(0.015, s*turn+90), root.Polar(0.014, s*turn+90))
		}
	})
}

// damselFeelers draws thin feelers, or those with one giant joint at the root.
func damselFeelers(k *sketch) {
	k.part(pt{X: -0.07, Y: -0.07}, "antennae", "feelers")
	sides(func(s float64) {
		root := pt{X: 0.02, Y: s * 0.04}
		switch k.is["antennae"] {
		case "giant":
			end := root.Polar(0.14, 180-s*28)
			k.joint(root, end, 0.014, 0.012)
			k.whip(0.006, end, end.Polar(0.06, 180-s*34), end.Polar(0.12, 180-s*42))
		case "none":
		case "long", "pairs":
			k.whip(0.005, root, root.Polar(0.1, 180-s*38), root.Polar(0.19, 180-s*30))
		default:
			k.whip(0.005, root, root.Polar(0.05, 180-s*42), root.Polar(0.1, 180-s*34))
		}
	})
}

func damselHead(k *sketch) {
	k.part(pt{X: -0.012}, "mouth", "mask", "tusks")
	k.Part("mouth", "mask")
	if k.is.is("mouth", "mask") {
		k.Toned(mirrored(-0.022, 0.02, -0.015, 0.034, 0.03, 0.04)...)
	}
	k.part(pt{X: 0.03, Y: 0.03}, "head", "head-colour")
	k.Part("head", "body")
	k.Blob(mirrored(0.002, 0.02, 0.008, 0.055, 0.04, 0.095, 0.075, 0.1, 0.1, 0.07, 0.108, 0.02)...)
	k.part(pt{X: 0.06, Y: -0.1}, "eyes")
	k.Part("eyes", "body")
	if k.is.has("eyes") {
		sides(func(s float64) { k.Solid(spot(0.06, s*0.1, 0.034, 0.024)...) })
	}
}
