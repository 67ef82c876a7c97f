package figure

// bugForm are the proportions of a water bug seen from above.
type bugForm struct {
	head  []pt
	eye   pt // where an eye lies, and below how large it is
	size  pt
	body  widths
	start float64 // where the wings begin
	legs  [3]limb
}

// The builds of water bugs.

func boatman() bugForm {
	return bugForm{head: mirrored(0, 0.03, 0.005, 0.11, 0.03, 0.165, 0.075, 0.185, 0.085, 0.1, 0.07, 0.02),
		eye: pt{X: 0.05, Y: 0.14}, size: pt{X: 0.03, Y: 0.045},
		body: slim(0.08, 0.14, 0.16, 0.175, 0.4, 0.185, 0.65, 0.18, 0.85, 0.14, 0.96, 0.07, 1, 0.02), start: 0.25,
		legs: [3]limb{limbAt(0.03, 0.12, 0.1, 0.06, 0.2, 0.0, 0.2, -0.02, 0.17),
			limbAt(0.014, 0.28, 0.15, 0.34, 0.38, 0.52, 0.48, 0.66, 0.5), limbAt(0.03, 0.38, 0.16, 0.4, 0.3, 0.3, 0.46, 0.42, 0.62)}}
}

func backswimmer() bugForm {
	return bugForm{head: mirrored(0, 0.05, 0.005, 0.1, 0.05, 0.145, 0.11, 0.14, 0.12, 0.03),
		eye: pt{X: 0.065, Y: 0.115}, size: pt{X: 0.05, Y: 0.036},
		body: slim(0.1, 0.145, 0.2, 0.165, 0.4, 0.16, 0.6, 0.14, 0.8, 0.1, 0.95, 0.05, 1, 0.015), start: 0.26,
		legs: [3]limb{limbAt(0.018, 0.16, 0.12, 0.14, 0.22, 0.06, 0.26, 0, 0.26),
			limbAt(0.018, 0.25, 0.13, 0.3, 0.25, 0.38, 0.31, 0.43, 0.33), limbAt(0.026, 0.36, 0.14, 0.3, 0.34, 0.22, 0.52, 0.3, 0.64)}}
}

func giantBug() bugForm {
	return bugForm{head: mirrored(0, 0.02, 0.02, 0.06, 0.07, 0.1, 0.11, 0.09, 0.12, 0.03), eye: pt{X: 0.08, Y: 0.09},
		size: pt{X: 0.028, Y: 0.022},
		body: slim(0.1, 0.1, 0.16, 0.17, 0.26, 0.22, 0.5, 0.26, 0.75, 0.22, 0.92, 0.1, 1, 0.02), start: 0.25,
		legs: [3]limb{limbAt(0.045, 0.15, 0.12, 0.02, 0.24, -0.08, 0.12, -0.1, 0.08),
			limbAt(0.026, 0.32, 0.2, 0.36, 0.36, 0.48, 0.44, 0.56, 0.47), limbAt(0.034, 0.44, 0.22, 0.56, 0.36, 0.72, 0.42,
				0.86, 0.44)}}
}

func creepingBug() bugForm {
	return bugForm{head: mirrored(0.02, 0.04, 0.025, 0.1, 0.07, 0.15, 0.12, 0.15, 0.13, 0.03),
		eye: pt{X: 0.085, Y: 0.135}, size: pt{X: 0.03, Y: 0.022},
		body: slim(0.09, 0.17, 0.16, 0.24, 0.28, 0.3, 0.5, 0.34, 0.75, 0.28, 0.92, 0.13, 1, 0.03), start: 0.28,
		legs: [3]limb{limbAt(0.05, 0.15, 0.14, 0.02, 0.25, -0.07, 0.13, -0.09, 0.08),
			limbAt(0.024, 0.34, 0.26, 0.38, 0.42, 0.48, 0.48, 0.55, 0.5), limbAt(0.026, 0.48, 0.27, 0.6, 0.42, 0.74, 0.47, 0.82, 0.48)}}
}

func scorpion() bugForm {
	return bugForm{head: mirrored(0, 0.012, 0.01, 0.04, 0.045, 0.06, 0.08, 0.045, 0.085, 0.02),
		eye: pt{X: 0.045, Y: 0.056}, size: pt{X: 0.02, Y: 0.017},
		body: slim(0.08, 0.06, 0.12, 0.08, 0.24, 0.085, 0.4, 0.1, 0.65, 0.1, 0.88, 0.06, 1, 0.02), start: 0.24,
		legs: [3]limb{limbAt(0.026, 0.12, 0.06, -0.06, 0.17, -0.16, 0.1, -0.2, 0.06),
			limbAt(0.012, 0.3, 0.08, 0.34, 0.24, 0.42, 0.36, 0.46, 0.42), limbAt(0.012, 0.4, 0.08, 0.52, 0.25, 0.66, 0.36, 0.72, 0.4)}}
}

func skater() bugForm {
	return bugForm{head: mirrored(0, 0.015, 0.008, 0.04, 0.05, 0.055, 0.09, 0.045, 0.1, 0.015),
		eye: pt{X: 0.06, Y: 0.054}, size: pt{X: 0.024, Y: 0.02},
		body: slim(0.09, 0.045, 0.16, 0.065, 0.32, 0.082, 0.5, 0.078, 0.8, 0.05, 0.95, 0.03, 1, 0.015), start: 0.34,
		legs: [3]limb{limbAt(0.018, 0.16, 0.05, 0.04, 0.15, -0.08, 0.13, -0.12, 0.11),
			limbAt(0.014, 0.4, 0.07, 0.2, 0.42, -0.12, 0.66, -0.3, 0.72), limbAt(0.014, 0.44, 0.07, 0.72, 0.42, 1.02, 0.62,
				1.18, 0.66)}}
}

func waterCricket() bugForm {
	return bugForm{head: mirrored(0, 0.02, 0.008, 0.06, 0.06, 0.085, 0.11, 0.08, 0.12, 0.02),
		eye: pt{X: 0.085, Y: 0.08}, size: pt{X: 0.026, Y: 0.02},
		body: slim(0.1, 0.08, 0.16, 0.12, 0.3, 0.165, 0.4, 0.16, 0.7, 0.11, 0.92, 0.06, 1, 0.03), start: 0.34,
		legs: [3]limb{limbAt(0.024, 0.18, 0.1, 0.1, 0.23, -0.02, 0.28, -0.08, 0.29),
			limbAt(0.024, 0.3, 0.14, 0.34, 0.33, 0.42, 0.46, 0.48, 0.52), limbAt(0.026, 0.42, 0.14, 0.56, 0.32, 0.72, 0.42,
				0.82, 0.46)}}
}

func treader() bugForm {
	return bugForm{head: mirrored(0, 0.02, 0.008, 0.05, 0.06, 0.065, 0.11, 0.06, 0.12, 0.02),
		eye: pt{X: 0.085, Y: 0.062}, size: pt{X: 0.024, Y: 0.018},
		body: slim(0.1, 0.055, 0.16, 0.08, 0.3, 0.092, 0.45, 0.098, 0.75, 0.08, 0.92, 0.05, 1, 0.02), start: 0.32,
		legs: [3]limb{limbAt(0.018, 0.18, 0.07, 0.1, 0.24, -0.02, 0.34, -0.08, 0.36),
			limbAt(0.018, 0.28, 0.08, 0.33, 0.32, 0.42, 0.47, 0.48, 0.52), limbAt(0.02, 0.4, 0.08, 0.58, 0.32, 0.76, 0.46,
				0.88, 0.5)}}
}

func measurer() bugForm {
	return bugForm{head: mirrored(-0.02, 0.012, 0, 0.016, 0.12, 0.018, 0.17, 0.02, 0.27, 0.018, 0.28, 0.01),
		eye: pt{X: 0.16, Y: 0.024}, size: pt{X: 0.018, Y: 0.012},
		body: slim(0.27, 0.018, 0.34, 0.026, 0.5, 0.03, 0.8, 0.03, 0.95, 0.022, 1, 0.008), start: 0.44,
		legs: [3]limb{limbAt(0.008, 0.33, 0.02, 0.22, 0.2, 0.1, 0.34, 0.05, 0.36),
			limbAt(0.008, 0.44, 0.02, 0.46, 0.26, 0.4, 0.44, 0.36, 0.5), limbAt(0.008, 0.56, 0.02, 0.74, 0.28, 0.92, 0.44, 0.98, 0.5)}}
}

// bug is the form of a water bug, from the traits.
func (t Traits) bug() bugForm {
	grasping := t.is("forelegs", "grasping")
	switch {
	case t.is("hindlegs", "both"):
		return skater()
	case t.is("outline", "thread"):
		return measurer()
	case t.is("hind", "tube") && grasping:
		return scorpion()
	case t.is("forelegs", "scoops"):
		return boatman()
	case grasping && t.is("hindlegs", "oars"):
		return giantBug()
	case grasping, t.is("outline", "disc"):
		return creepingBug()
	case t.is("hindlegs", "oars"):
		return backswimmer()
	}
	if t.is("outline", "long") {
		return treader()
	}
	return waterCricket()
}

// bug draws a water bug from above: eyes at the corners of the head, wings that
// cross at their thin tips, or none; its beak is folded beneath, out of sight.
func bug(k *sketch) {
	b := k.is.bug()
	bugFeelers(k, b)
	bugLegs(k, b)
	snorkel(k)
	k.tails()
	gillsBehind(k, b.body)
	k.part(pt{X: 0.8, Y: b.body.width(0.8)}, "outline", "flat", "rings", "hair")
	k.Part("outline", "body", "rings")
	k.Blob(b.body.outline(b.body[0].X, 1)...)
	bugRings(k, b)
	k.part(pt{X: b.start - 0.06, Y: 0.03}, "plates", "shield")
	k.Part("body", "plates")
	h := b.body.width(b.start)
	k.Blob(mirrored(b.body[0].X, b.body.width(b.body[0].X)*0.7, b.body[0].X+0.02, b.body.width(b.body[0].X+0.02)*0.97,
		b.start-0.02, h*0.98, b.start, h*0.8, b.start+0.015, h*0.2)...)
	bugWings(k, b)
	bandsOn(k, b)
	bugHead(k, b)
}

// bugFeelers draws feelers, if they are to be seen at all.
func bugFeelers(k *sketch, b bugForm) {
	k.part(pt{X: -0.06, Y: -b.eye.Y}, "antennae", "feelers")
	if !k.is.is("antennae", "long", "short") {
		return
	}
	l := map[string]float64{"long": 0.24, "short": 0.1}[k.is["antennae"]]
	sides(func(s float64) {
		root := pt{X: 0.02, Y: s * b.eye.Y * 0.5}
		k.whip(0.008, root, root.Polar(l*0.5, 180-s*40), root.Polar(l, 180-s*24))
	})
}

// bugLegs draws the legs: scoops, jackknives and oars among them.
func bugLegs(k *sketch, b bugForm) {
	if !k.is.is("forelegs", "scoops") {
		k.threePairs(b.legs[0], b.legs[1], b.legs[2])
		return
	}
	k.threePairs(b.legs[1], b.legs[1], b.legs[2])
	k.part(pt{X: -0.005, Y: 0.17}, "forelegs")
	k.Part("legs", "forelegs")
	sides(func(s float64) {
		k.Toned(flank(path(0.06, 0.13, 0.02, 0.2, -0.03, 0.2, -0.05, 0.14, -0.02, 0.12, 0.0, 0.15, 0.03, 0.12)).flipped(s)...)
	})
}

// snorkel draws the breathing tube of a water scorpion, or what else the hind
// end bears.
func snorkel(k *sketch) {
	k.part(pt{X: 1.15, Y: 0}, "hind", "oars", "tube", "point-length", "air-spots")
	k.Part("hind")
	if k.is.is("hind", "tube") {
		k.Part("hind", "tube")
	}
	switch {
	case k.is.is("hind", "tube") && k.is.is("tube", "short"):
		k.whip(0.014, pt{X: 0.98}, pt{X: 1.1}, pt{X: 1.22})
	case k.is.is("hind", "tube"):
		k.whip(0.014, pt{X: 0.98}, pt{X: 1.3}, pt{X: 1.6})
	case k.is.is("hind", "points"):
		sides(func(s float64) { k.joint(pt{X: 0.98, Y: s * 0.02}, pt{X: 1.07, Y: s * 0.03}, 0.012, 0.008) })
	default:
		k.hindEnd(0.03)
	}
}

// bugRings draws the rings of a belly section that no wings cover.
func bugRings(k *sketch, b bugForm) {
	k.Part("rings", "body")
	if k.is.is("wings", "hard", "crossed") {
		return
	}
	for i := range 6 {
		x := b.start + (0.95-b.start)*(0.32+0.12*float64(i))
		h := b.body.width(x) * 0.97
		k.Texture(func() { k.Curve(pt{X: x - 0.01, Y: -h}, pt{X: x + 0.005}, pt{X: x - 0.01, Y: h}) })
	}
}

// bugWings draws wings laid flat: leathery at the base, thin where one tip lies
// over the other; or the flaps of a young one.
func bugWings(k *sketch, b bugForm) {
	k.part(pt{X: 0.6, Y: 0.02}, "wings", "pads")
	k.Part("wings", "body")
	x, h := b.start, b.body.width(b.start)
	switch k.is["wings"] {
	case "crossed":
		k.Toned(b.body.scaled(0.97).outline(x+0.01, 0.985)...)
		apex := x + (1-x)*0.36
		k.Blob(pt{X: x + 0.005, Y: -h * 0.45}, pt{X: apex}, pt{X: x + 0.005, Y: h * 0.45})
		seam := apex + (1-apex)*0.5
		k.Line(pt{X: apex}, pt{X: seam, Y: 0.004})
		g := b.body.width(seam+0.06) * 0.9
		k.Blob(pt{X: seam - 0.02}, pt{X: seam + 0.05, Y: -g}, pt{X: 0.93, Y: -b.body.width(0.93) * 0.8}, pt{X: 0.985},
			pt{X: 0.93, Y: b.body.width(0.93) * 0.8}, pt{X: seam + 0.05, Y: g})
		k.Curve(pt{X: seam - 0.01}, pt{X: 0.86, Y: b.body.width(0.86) * 0.35}, pt{X: 0.96, Y: b.body.width(0.96) * 0.7})
	case "pads":
		k.Part("wings", "pads")
		sides(func(s float64) {
			k.Toned(flank(path(x, h*0.25, x+0.01, h*0.85, x+0.12, h*1.0, x+0.2, h*0.75, x+0.1, h*0.2)).flipped(s)...)
		})
	case "hard":
		hardWings(k, b.body, x)
	case "flying":
		flyingWings(k, b.body)
	}
}

// bandsOn draws fine dark bands across, as on the back of a boatman.
func bandsOn(k *sketch, b bugForm) {
	k.part(pt{X: 0.5, Y: b.body.width(0.5) * 0.6}, "pattern")
	if !k.is.is("pattern", "marked") {
		return
	}
	for i := range 5 {
		x := b.body[0].X + 0.045 + 0.03*float64(i)
		k.Line(pt{X: x, Y: -b.body.width(x) * 0.7}, pt{X: x, Y: b.body.width(x) * 0.7})
	}
	sides(func(s float64) {
		for i := range 4 {
			x := b.start + 0.12 + 0.08*float64(i)
			h := b.body.width(x)
			k.Shaded(flank(path(x, h*0.45, x+0.02, h*0.85, x+0.045, h*0.85, x+0.025, h*0.45)).flipped(s)...)
		}
	})
}

func bugHead(k *sketch, b bugForm) {
	k.part(pt{X: b.head[0].X + 0.01}, "head", "mouth", "head-colour", "tusks")
	k.Part("head", "body")
	k.Blob(b.head...)
	k.part(pt{X: b.eye.X, Y: -b.eye.Y}, "eyes")
	k.Part("eyes", "body")
	if k.is.has("eyes") {
		sides(func(s float64) { k.Solid(spot(b.eye.X, s*b.eye.Y, b.size.X, b.size.Y)...) })
	}
}

// hangingBug draws a backswimmer from above and, beside it, from the side as it
// hangs from the film: belly up, its back below like the keel of a boat.
func hangingBug(k *sketch) {
	bug(k)
	at := pt{X: 1.1, Y: 0.32}
	turned := func(p pt) pt { q := leaning(-26)(p); return pt{X: at.X + q.X*0.86, Y: at.Y + q.Y*0.86} }
	k.Part("body")
	film := turned(pt{X: 1.02, Y: -0.01})
	k.Line(pt{X: at.X + 0.1, Y: film.Y}, pt{X: film.X + 0.18, Y: film.Y})
	k.Warp(turned)
	k.leg(limbAt(0.02, 0.3, -0.06, 0.22, -0.16, 0.14, -0.17, 0.1, -0.15))
	k.leg(limbAt(0.02, 0.42, -0.06, 0.42, -0.16, 0.5, -0.19, 0.54, -0.18))
	k.leg(limbAt(0.026, 0.5, -0.05, 0.3, -0.24, 0.06, -0.34, -0.08, -0.34))
	k.Texture(func() {
		for i := range 8 {
			p := pt{X: 0.24, Y: -0.27}.Lerp(pt{X: -0.08, Y: -0.34}, float64(i)/7)
			k.Line(p, p.Polar(0.06, 235))
		}
	})
	k.Toned(path(0.1, -0.08, 0.08, 0.1, 0.2, 0.22, 0.38, 0.27, 0.6, 0.22, 0.84, 0.1, 1, -0.01, 0.8, -0.05, 0.5, -0.08, 0.25, -0.09)...)
	k.Blob(path(0.1, -0.08, 0.02, -0.06, -0.01, 0.02, 0.03, 0.1, 0.11, 0.14, 0.14, 0.02)...)
	k.Solid(spot(0.07, 0.03, 0.04, 0.06)...)
	k.Curve(path(0.26, -0.08, 0.24, 0.06, 0.28, 0.24)...)
	k.Texture(func() { k.Curve(path(0.3, 0.02, 0.6, 0.06, 0.92, 0)...) })
	k.Warp(nil)
}

// pygmy draws a tiny domed bug from the side as it swims, belly up.
func pygmy(k *sketch) {
	k.part(pt{X: 0.45, Y: -0.25}, "legs", "leg-place", "leg-length", "claws", "foot", "stroke")
	k.places["forelegs"], k.places["hindlegs"] = []pt{{X: 0.2, Y: -0.28}}, []pt{{X: 0.7, Y: -0.26}}
	k.Part("legs", "leg-place", "leg-length", "forelegs", "hindlegs")
	if !k.is.is("legs", "0") {
		for _, l := range []limb{limbAt(0.022, 0.25, -0.1, 0.19, -0.23, 0.1, -0.27, 0.05, -0.25),
			limbAt(0.022, 0.38, -0.1, 0.38, -0.25, 0.46, -0.3, 0.51, -0.3), limbAt(0.026, 0.52, -0.1, 0.6, -0.25, 0.74, -0.3,
				0.83, -0.28)} {
			k.leg(l)
		}
		k.Texture(func() {
			for i := range 5 {
				p := pt{X: 0.63, Y: -0.26}.Lerp(pt{X: 0.83, Y: -0.28}, float64(i)/4)
				k.Line(p, p.Polar(0.05, 40))
			}
		})
	}
	k.part(pt{X: 0.8, Y: 0.3}, "outline", "flat", "rings", "hair", "plates", "shield", "hind", "pattern", "gills", "tails")
	k.part(pt{X: 0.6, Y: 0.3}, "wings", "pads")
	k.Part("wings", "outline", "body")
	back := path(0.06, -0.1, 0.02, 0.02, 0.05, 0.16, 0.2, 0.32, 0.42, 0.38, 0.65, 0.34, 0.86, 0.18, 1, -0.04, 0.8, -0.1, 0.5, -0.12)
	k.Toned(back...)
	k.Part("body", "wings")
	k.Line(path(0.06, -0.1, 0.3, -0.07, 0.6, -0.05, 0.98, -0.05)...)
	k.Curve(path(0.34, -0.08, 0.3, 0.15, 0.33, 0.36)...)
	k.Texture(func() {
		for _, p := range scatter(path(0.4, 0, 0.85, 0, 0.8, 0.16, 0.62, 0.3, 0.4, 0.33), k.varied(0.075, 0.12, 0)) {
			k.Dot(p, 0.006)
		}
	})
	k.part(pt{X: 0.08, Y: 0.03}, "head", "mouth", "eyes", "antennae", "head-colour")
	k.Part("head", "body")
	k.Curve(path(0.15, -0.1, 0.17, 0.05, 0.12, 0.23)...)
	k.Part("eyes", "body")
	k.Solid(spot(0.09, 0.02, 0.034, 0.06)...)
}

// beak draws the head of a bug from the side, its stiff beak folded beneath.
func beak(k *sketch) {
	k.Part("body")
	k.Curve(path(0.5, -0.3, 0.1, -0.34, -0.05, -0.3)...)
	k.Curve(path(0.5, 0.28, 0.25, 0.2, 0.1, 0.14)...)
	k.leg(limbAt(0.05, 0.3, 0.2, 0.22, 0.42, 0.34, 0.5, 0.42, 0.5))
	k.Blob(path(-0.05, -0.3, -0.3, -0.24, -0.42, -0.02, -0.34, 0.12, -0.1, 0.14, 0.02, 0.1, 0.06, -0.12)...)
	k.Solid(spot(-0.14, -0.1, 0.12, 0.11)...)
	k.Part("mouth")
	k.Solid(path(-0.4, 0.02, -0.36, 0.16, -0.1, 0.25, 0.2, 0.32, -0.1, 0.18, -0.28, 0.08)...)
}
