package figure

// crayfish draws a long-bodied animal with a crust over head and chest, a jointed
// belly and a tail fan, from above.
func crayfish(k *sketch) {
	w := widths(path(0, 0.03, 0.1, 0.075, 0.3, 0.12, 0.48, 0.115, 0.6, 0.1, 0.9, 0.075, 1, 0.05))
	k.bend(k.is["posture"])
	longFeelers(k)
	walkingLegs(k, w)
	k.part(pt{X: 0.02, Y: -0.3}, "forelegs")
	k.Part("legs", "forelegs")
	sides(func(s float64) {
		hip, elbow := pt{X: 0.2, Y: s * 0.09}, pt{X: 0.06, Y: s * 0.23}
		if k.is.is("forelegs", "pincers") {
			k.stout(hip, elbow, 0.028)
			k.pincer(elbow, 0.34, 180+s*8)
			return
		}
		k.stout(hip, elbow, 0.014)
		k.pincer(elbow, 0.1, 180-s*10)
	})
	tailFan(k, w)
	k.part(pt{X: 0.7, Y: 0}, "rings", "outline", "flat", "plates")
	k.Part("rings", "body")
	for i := 5; i >= 0; i-- {
		x := 0.47 + 0.085*float64(i)
		k.Blob(section(w, x, x+0.1, 1)...)
	}
	k.part(pt{X: 0.32, Y: 0}, "shield", "head")
	k.Part("shield", "head", "body")
	k.Blob(pt{X: -0.02}, pt{X: 0.07, Y: -0.045}, pt{X: 0.16, Y: -0.1}, pt{X: 0.34, Y: -0.128}, pt{X: 0.48, Y: -0.1}, pt{X: 0.5},
		pt{X: 0.48, Y: 0.1}, pt{X: 0.34, Y: 0.128}, pt{X: 0.16, Y: 0.1}, pt{X: 0.07, Y: 0.045})
	k.Curve(pt{X: 0.27, Y: -0.115}, pt{X: 0.33}, pt{X: 0.27, Y: 0.115})
	k.part(pt{X: 0.06, Y: -0.07}, "eyes")
	sides(func(s float64) {
		if k.is.has("eyes") {
			k.Dot(pt{X: 0.06, Y: s * 0.07}, 0.024)
		}
	})
	edges(k, w)
}

// crab draws a body as broad as long, with pincers in front, from above.
func crab(k *sketch) {
	sides(func(s float64) {
		k.part(pt{X: 0.5, Y: s * 0.5}, "legs", "leg-place", "leg-length", "hindlegs")
		k.Part("legs")
		for i := range 4 {
			x := 0.4 + 0.13*float64(i)
			lean := -0.05 + 0.09*float64(i)
			k.leg(limbAt(0.03, x, 0.3, x+lean*0.6, 0.55, x+lean*1.5, 0.72, x+lean*2.1, 0.8).flipped(s))
		}
		k.part(pt{X: 0.1, Y: s * 0.4}, "forelegs")
		k.Part("legs", "forelegs")
		elbow := pt{X: 0.12, Y: s * 0.48}
		k.stout(pt{X: 0.28, Y: s * 0.28}, elbow, 0.035)
		k.pincer(elbow, 0.3, 180-s*14)
		k.Texture(func() { // a muff of fur
			for i := range 9 {
				p := elbow.Polar(0.05+0.014*float64(i), 180-s*14)
				k.Line(p.Polar(0.03, 90), p.Polar(0.085, 70))
				k.Line(p.Polar(0.03, -90), p.Polar(0.085, -70))
			}
		})
	})
	k.part(pt{X: 0.5, Y: 0}, "outline", "flat", "rings", "shield", "head")
	k.Part("outline", "shield", "body")
	k.Blob(pt{X: 0.2, Y: -0.22}, pt{X: 0.4, Y: -0.36}, pt{X: 0.65, Y: -0.34}, pt{X: 0.85, Y: -0.18}, pt{X: 0.88, Y: 0},
		pt{X: 0.85, Y: 0.18}, pt{X: 0.65, Y: 0.34}, pt{X: 0.4, Y: 0.36}, pt{X: 0.2, Y: 0.22}, pt{X: 0.18, Y: 0})
	k.part(pt{X: 0.18, Y: -0.12}, "eyes")
	sides(func(s float64) {
		if k.is.has("eyes") {
			k.Dot(pt{X: 0.19, Y: s * 0.12}, 0.028)
		}
	})
}

func longFeelers(k *sketch) {
	k.part(pt{X: -0.2, Y: -0.1}, "antennae")
	if !k.is.has("antennae") {
		return
	}
	sides(func(s float64) {
		k.Curve(pt{X: 0.03, Y: s * 0.03}, pt{X: -0.2, Y: s * 0.07}, pt{X: -0.48, Y: s * 0.2})
		if k.is.is("antennae", "pairs") {
			k.Curve(pt{X: 0, Y: s * 0.015}, pt{X: -0.09, Y: s * 0.02}, pt{X: -0.18, Y: s * 0.045})
		}
	})
}

func walkingLegs(k *sketch, w widths) {
	k.part(pt{X: 0.4, Y: w.width(0.4) + 0.18}, "legs", "leg-place", "leg-length", "claws")
	n := 4
	if k.is.is("legs", "6") {
		n = 3
	}
	for i := range n {
		x := 0.27 + 0.055*float64(i)
		sides(func(s float64) {
			hip := pt{X: x, Y: s * w.width(x) * 0.8}
			lean := -0.1 + 0.075*float64(i)
			k.thinLeg(hip, pt{X: x + lean, Y: hip.Y + s*0.15}, pt{X: x + lean*2, Y: hip.Y + s*0.27})
		})
	}
}

func tailFan(k *sketch, w widths) {
	k.part(pt{X: 1.12, Y: 0}, "hind")
	if !k.is.is("hind", "fan") {
		k.hindEnd(w.width(0.97))
		return
	}
	for _, d := range []float64{-62, 62, -32, 32, 0} {
		k.leaf(pt{X: 0.955, Y: d * 0.0006}, 0.2, 0.062, d)
	}
}

// shrimp draws a crusted animal that is higher than wide from the side.
func shrimp(k *sketch) {
	w := widths(path(0, 0.05, 0.15, 0.09, 0.35, 0.11, 0.55, 0.1, 0.8, 0.065, 1, 0.035))
	k.Warp(func(p pt) pt { return pt{X: p.X, Y: p.Y + 0.5*max(0, p.X-0.55)*max(0, p.X-0.55)*1.6} })
	k.part(pt{X: -0.2, Y: -0.1}, "antennae")
	if k.is.has("antennae") {
		k.Curve(pt{X: 0.04, Y: 0}, pt{X: -0.2, Y: 0.0}, pt{X: -0.5, Y: 0.16})
		k.Curve(pt{X: 0.03, Y: -0.02}, pt{X: -0.12, Y: -0.09}, pt{X: -0.3, Y: -0.1})
	}
	k.part(pt{X: 0.3, Y: 0.25}, "legs", "leg-place", "leg-length", "claws")
	for i := range 4 {
		x := 0.22 + 0.06*float64(i)
		k.Line(pt{X: x, Y: 0.08}, pt{X: x - 0.01, Y: 0.2}, pt{X: x - 0.06, Y: 0.3})
	}
	k.part(pt{X: 0.05, Y: 0.22}, "forelegs")
	k.Part("legs", "forelegs")
	if k.is.is("forelegs", "pincers") {
		k.stout(pt{X: 0.18, Y: 0.07}, pt{X: 0.06, Y: 0.18}, 0.025)
		k.pincer(pt{X: 0.06, Y: 0.18}, 0.28, 175)
	} else if k.is.is("forelegs", "nippers") {
		for i := range 2 {
			wrist := pt{X: 0.02 + 0.02*float64(i), Y: 0.13 + 0.14*float64(i)}
			k.stout(pt{X: 0.17, Y: 0.07}, wrist, 0.012)
			k.pincer(wrist, 0.17, 178-14*float64(i))
		}
	} else {
		k.Line(pt{X: 0.17, Y: 0.07}, pt{X: 0.12, Y: 0.18})
		k.pincer(pt{X: 0.12, Y: 0.18}, 0.08, 165)
	}
	k.Part("body")
	for i := range 5 {
		x := 0.56 + 0.075*float64(i)
		k.finger(pt{X: x, Y: w.width(x) * 0.7}, 0.1, 0.03, 70)
	}
	tailFan(k, w)
	k.part(pt{X: 0.7, Y: 0}, "rings", "outline", "flat", "plates")
	k.Part("rings", "body")
	for i := 5; i >= 0; i-- {
		x := 0.46 + 0.088*float64(i)
		k.Blob(section(w, x, x+0.105, 1)...)
	}
	k.part(pt{X: 0.3, Y: 0}, "shield", "head")
	k.Part("shield", "head", "body")
	k.Blob(pt{X: -0.12, Y: -0.09}, pt{X: 0.05, Y: -0.085}, pt{X: 0.3, Y: -0.115}, pt{X: 0.48, Y: -0.1}, pt{X: 0.5, Y: 0.05},
		pt{X: 0.4, Y: 0.1}, pt{X: 0.15, Y: 0.085}, pt{X: 0.04, Y: 0}, pt{X: 0.03, Y: -0.06})
	k.part(pt{X: 0.08, Y: -0.045}, "eyes")
	if k.is.has("eyes") {
		k.Dot(pt{X: 0.075, Y: -0.045}, 0.028)
	}
	k.Warp(nil)
	edges(k, w)
}

// scud draws a side-swimmer from the side, bent like a bow.
func scud(k *sketch) {
	w := widths(path(0, 0.05, 0.1, 0.09, 0.3, 0.12, 0.6, 0.11, 0.85, 0.075, 1, 0.03))
	held := "bowed"
	if k.is.is("posture", "straight") {
		held = "straight"
	}
	k.bend(held)
	scudFeelers(k)
	k.bend(held)
	scudLegs(k, w)
	if k.is.is("upside", "back") && k.is.is("feelers", "upper") && held == "straight" { // it walks upright
		k.Part("body")
		k.Curve(path(-0.2, 0.325, 0.2, 0.315, 0.6, 0.32, 1.05, 0.315)...)
	}
	k.hindEnd(0.03)
	k.part(pt{X: 0.55, Y: -0.1}, "rings", "outline", "flat", "plates")
	k.Part("rings", "body")
	for i := 11; i >= 0; i-- {
		x := 0.09 + 0.075*float64(i)
		a, b := w.width(x), w.width(x+0.08)
		k.Blob(pt{X: x, Y: -a * 0.9}, pt{X: x + 0.04, Y: -a}, pt{X: x + 0.085, Y: -b * 0.95}, pt{X: x + 0.09, Y: b * 0.6},
			pt{X: x + 0.05, Y: b}, pt{X: x, Y: a * 0.85})
	}
	for i := 3; i >= 0; i-- { // the side plates
		x := 0.1 + 0.076*float64(i)
		a, deep := w.width(x+0.04), 0.09+0.012*float64(i)
		k.Blob(pt{X: x, Y: a * 0.25}, pt{X: x + 0.08, Y: a * 0.2}, pt{X: x + 0.09, Y: a*0.25 + deep*0.8},
			pt{X: x + 0.045, Y: a*0.25 + deep}, pt{X: x + 0.002, Y: a*0.25 + deep*0.8})
	}
	k.part(pt{X: 0.04, Y: 0}, "head")
	k.Part("head", "body")
	k.Blob(pt{X: -0.01, Y: -0.02}, pt{X: 0.03, Y: -0.075}, pt{X: 0.11, Y: -0.085}, pt{X: 0.12, Y: 0.06}, pt{X: 0.04, Y: 0.065})
	k.part(pt{X: 0.055, Y: -0.02}, "eyes")
	if k.is.has("eyes") {
		k.Solid(ovalAt(0.055, -0.02, 0.017, 0.026)...)
	}
	edges(k, w)
}

// scudFeelers draws two pairs of feelers that reach forward, whatever the bend of
// the body, which it ends.
func scudFeelers(k *sketch) {
	root, low := k.Warped(pt{X: 0.02, Y: -0.04}), k.Warped(pt{X: 0.02, Y: 0.02})
	k.Warp(nil)
	k.part(pt{X: root.X - 0.16, Y: root.Y - 0.08}, "antennae", "feelers")
	if !k.is.has("antennae") {
		return
	}
	upper, lower := 0.38, 0.26
	switch {
	case k.is.is("feelers", "lower"):
		upper, lower = 0.2, 0.36
	case k.is.is("feelers", "upper"):
		upper, lower = 0.42, 0.24
	}
	k.joint(root, root.Polar(upper*0.35, 194), 0.018, 0.012)
	k.whip(0.008, root.Polar(upper*0.33, 194), root.Polar(upper*0.7, 188), root.Polar(upper, 176))
	if k.is.is("antennae", "pairs", "arms") {
		thick := 1.0
		if k.is.is("antennae", "arms") { // it pulls itself along by them
			thick = 2.6
		}
		k.joint(low, low.Polar(lower*0.45, 164), 0.018*thick, 0.013*thick)
		k.whip(0.008, low.Polar(lower*0.43, 164), low.Polar(lower*0.75, 158), low.Polar(lower, 146))
	}
}

func scudLegs(k *sketch, w widths) {
	k.part(pt{X: 0.4, Y: 0.25}, "legs", "leg-place", "leg-length")
	n := 7
	if k.is.is("legs", "6", "8", "10") {
		n = map[string]int{"6": 3, "8": 4, "10": 5}[k.is["legs"]]
	}
	for i := range n {
		x := 0.14 + 0.075*float64(i)
		hip := pt{X: x, Y: w.width(x) * 0.85}
		if i < 2 {
			k.part(pt{X: 0.13, Y: 0.19}, "forelegs")
			k.Part("legs", "forelegs")
			k.Line(hip, pt{X: x + 0.005, Y: hip.Y + 0.07})
			size := 0.035
			if k.is.is("forelegs", "grasping") {
				size = 0.055
			}
			k.Blob(ovalAt(x-0.015, hip.Y+0.09, size*0.75, size)...)
			continue
		}
		k.Part("legs", "leg-place", "leg-length")
		lean := -0.03
		if i >= 4 {
			lean = 0.06
		}
		k.leg(limb{hip, pt{X: x + lean, Y: hip.Y + 0.09}, pt{X: x + lean*0.6, Y: hip.Y + 0.16},
			pt{X: x + lean*0.3, Y: hip.Y + 0.2}, 0.02})
	}
	k.Part("body")
	for i := range 3 {
		x := 0.7 + 0.07*float64(i)
		k.Line(pt{X: x, Y: w.width(x) * 0.8}, pt{X: x + 0.03, Y: w.width(x) + 0.06})
		k.Line(pt{X: x, Y: w.width(x) * 0.8}, pt{X: x + 0.05, Y: w.width(x) + 0.04})
	}
}

// sowbug draws a flat animal with many legs along its body, from above.
func sowbug(k *sketch) {
	w := widths(path(0, 0.07, 0.1, 0.13, 0.3, 0.165, 0.65, 0.185, 0.85, 0.165, 1, 0.07))
	if k.is.is("outline", "long") {
		w = w.scaled(0.85)
	}
	k.bend(k.is["posture"])
	feelersAbove(k, 0.1)
	k.part(pt{X: 0.45, Y: w.width(0.45) + 0.12}, "legs", "leg-place", "leg-length", "claws")
	n := 7
	if k.is.is("legs", "6", "8", "10") {
		n = map[string]int{"6": 3, "8": 4, "10": 5}[k.is["legs"]]
	}
	for i := range n {
		x := 0.18 + 0.08*float64(i)
		lean := -0.09 + 0.045*float64(i)
		sides(func(s float64) {
			hip := pt{X: x, Y: s * w.width(x) * 0.9}
			out := 1.0
			if k.is.is("outline", "oval") { // tucked beneath
				out = 0.55
			}
			k.leg(limb{hip, pt{X: x + lean*0.6*out, Y: hip.Y + s*0.1*out}, pt{X: x + lean*1.3*out, Y: hip.Y + s*0.15*out},
				pt{X: x + lean*1.8*out, Y: hip.Y + s*0.18*out}, 0.015})
		})
		if i == 0 {
			k.part(pt{X: x - 0.1, Y: w.width(x) + 0.1}, "forelegs")
			k.Part("legs")
		}
	}
	k.part(pt{X: 1.08, Y: 0.05}, "hind")
	if k.is.is("hind", "points") {
		sides(func(s float64) {
			root := pt{X: 0.98, Y: s * 0.04}
			k.Line(root, root.Polar(0.06, s*20))
			k.Line(root.Polar(0.06, s*20), root.Polar(0.17, s*14))
			k.Line(root.Polar(0.06, s*20), root.Polar(0.15, s*40))
		})
	} else {
		k.hindEnd(0.06)
	}
	k.part(pt{X: 0.45, Y: 0}, "rings", "outline", "flat", "plates")
	k.Part("rings", "body", "outline")
	k.Blob(section(w, 0.72, 1, 1)...)
	for i := 6; i >= 0; i-- {
		x := 0.13 + 0.085*float64(i)
		k.Blob(section(w, x, x+0.1, 1.03)...)
	}
	headAbove(k, w.width(0.08))
	edges(k, w)
}
