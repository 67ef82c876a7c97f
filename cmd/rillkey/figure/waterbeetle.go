package figure

// coverForm are the proportions of a grown beetle, half widths along it.
type coverForm struct {
	head, shield []pt // outlines
	covers       widths
	start        float64 // where the covers begin
	legs         [3]limb
}

// The outlines of grown water beetles: one smooth oval; sides that run parallel,
// legs long; pointed at both ends; a waist before the covers.

func smoothBeetle() coverForm {
	return coverForm{
		head:   mirrored(0, 0.06, 0.012, 0.11, 0.06, 0.135, 0.13, 0.15),
		shield: mirrored(0.095, 0.1, 0.1, 0.155, 0.17, 0.215, 0.24, 0.252, 0.268, 0.262, 0.286, 0.22, 0.29, 0.05),
		covers: slim(0.18, 0.2, 0.26, 0.262, 0.32, 0.28, 0.4, 0.29, 0.6, 0.288, 0.75, 0.258, 0.87, 0.198, 0.95,
			0.125, 1, 0.05), start: 0.27,
		legs: [3]limb{limbAt(0.024, 0.2, 0.15, 0.14, 0.25, 0.05, 0.3, -0.01, 0.32),
			limbAt(0.024, 0.33, 0.2, 0.34, 0.34, 0.42, 0.41, 0.48, 0.43), limbAt(0.034, 0.5, 0.2, 0.6, 0.36, 0.76, 0.44, 0.92, 0.46)}}
}

func parallelBeetle() coverForm {
	return coverForm{
		head:   mirrored(0.02, 0.05, 0.03, 0.085, 0.08, 0.1, 0.14, 0.1),
		shield: mirrored(0.1, 0.07, 0.11, 0.12, 0.2, 0.165, 0.3, 0.185, 0.33, 0.185, 0.335, 0.05),
		covers: slim(0.3, 0.185, 0.36, 0.215, 0.7, 0.215, 0.85, 0.183, 0.94, 0.125, 1, 0.045), start: 0.3,
		legs: [3]limb{limbAt(0.024, 0.22, 0.1, 0.14, 0.27, -0.02, 0.33, -0.12, 0.32),
			limbAt(0.024, 0.38, 0.15, 0.4, 0.35, 0.52, 0.46, 0.6, 0.5), limbAt(0.026, 0.52, 0.16, 0.64, 0.33, 0.82, 0.42, 0.92, 0.46)}}
}

func pointedBeetle() coverForm {
	return coverForm{
		head:   mirrored(0, 0.03, 0.012, 0.06, 0.05, 0.085, 0.1, 0.08),
		shield: mirrored(0.075, 0.06, 0.085, 0.09, 0.16, 0.14, 0.24, 0.19, 0.25, 0.04),
		covers: slim(0.24, 0.2, 0.34, 0.26, 0.48, 0.275, 0.68, 0.22, 0.88, 0.1, 1, 0.01), start: 0.24,
		legs: [3]limb{limbAt(0.02, 0.18, 0.09, 0.12, 0.2, 0.02, 0.24, -0.04, 0.25),
			limbAt(0.02, 0.3, 0.16, 0.32, 0.32, 0.42, 0.39, 0.49, 0.41), limbAt(0.022, 0.44, 0.18, 0.53, 0.34, 0.68, 0.41, 0.78, 0.43)}}
}

func waistedBeetle() coverForm {
	return coverForm{
		head:   mirrored(0, 0.05, 0.012, 0.09, 0.07, 0.11, 0.14, 0.1),
		shield: mirrored(0.12, 0.06, 0.13, 0.12, 0.2, 0.165, 0.27, 0.13, 0.33, 0.105, 0.335, 0.04),
		covers: slim(0.33, 0.12, 0.38, 0.19, 0.6, 0.225, 0.8, 0.19, 0.94, 0.09, 1, 0.02), start: 0.33,
		legs: [3]limb{limbAt(0.018, 0.22, 0.1, 0.15, 0.24, 0.03, 0.29, -0.03, 0.3),
			limbAt(0.018, 0.38, 0.13, 0.4, 0.3, 0.5, 0.38, 0.57, 0.4), limbAt(0.02, 0.5, 0.15, 0.62, 0.3, 0.78, 0.37, 0.86, 0.39)}}
}

func smoothOval(k *sketch)    { waterBeetle(k, smoothBeetle()) }
func parallelSided(k *sketch) { waterBeetle(k, parallelBeetle()); rows(k, parallelBeetle(), 0.07) }
func dotted(k *sketch) {
	waterBeetle(k, pointedBeetle())
	rows(k, pointedBeetle(), 0.05)
	blotches(k, pointedBeetle())
}
func waisted(k *sketch) {
	waterBeetle(k, waistedBeetle())
	rows(k, waistedBeetle(), 0.06)
	if k.is.has("grooves") {
		k.Part("grooves")
		k.Line(pt{X: 0.14}, pt{X: 0.32})
		sides(func(s float64) {
			k.Curve(pt{X: 0.14, Y: s * 0.035}, pt{X: 0.2, Y: s * 0.06}, pt{X: 0.26, Y: s * 0.035}, pt{X: 0.32, Y: s * 0.05})
			k.Curve(pt{X: 0.15, Y: s * 0.08}, pt{X: 0.2, Y: s * 0.11}, pt{X: 0.26, Y: s * 0.08}, pt{X: 0.31, Y: s * 0.085})
		})
	}
}

// waterBeetle draws a grown beetle from above: head, neck shield, and covers
// that meet in a straight line.
func waterBeetle(k *sketch, b coverForm) {
	beetleFeelers(k, b)
	beetleLegs(k, b)
	k.tails()
	k.hindEnd(0.03)
	gillsBehind(k, b.covers)
	k.part(pt{X: 0.75, Y: b.covers.width(0.75)}, "outline", "flat", "rings", "hair")
	k.part(pt{X: 0.62, Y: 0}, "wings", "pads")
	k.Part("wings", "outline", "body")
	k.Toned(b.covers.outline(max(b.covers[0].X, b.start-0.09), 1)...)
	k.Part("wings", "body")
	k.Line(pt{X: b.start}, pt{X: 1})
	if k.is.is("hair", "hairy") {
		k.hairsOn(b.covers, b.start)
	}
	k.Part("head", "body")
	k.part(pt{X: 0.02}, "mouth", "head", "head-colour")
	k.Part("head", "body")
	k.Blob(b.head...)
	k.part(pt{X: 0.2, Y: 0.05}, "plates", "shield")
	k.Part("plates", "body")
	k.Blob(b.shield...)
	beetleEyes(k, b)
	k.part(pt{X: 0.62, Y: b.covers.width(0.62) * 0.5}, "pattern")
}

// beetleLegs draws legs to walk on, or the oars and paddles of a swimmer.
func beetleLegs(k *sketch, b coverForm) {
	l := b.legs
	if k.is.is("eyes", "four") { // arms in front, paddles behind
		l[0] = limbAt(0.026, 0.2, 0.15, 0.1, 0.33, -0.08, 0.4, -0.16, 0.4)
		k.threePairs(l[0], limbAt(0.03, 0.4, 0.2, 0.45, 0.34, 0.52, 0.38, 0.56, 0.38), limbAt(0.034, 0.53, 0.2, 0.6, 0.33,
			0.69, 0.36, 0.74, 0.35))
		return
	}
	if k.is.is("leg-length", "short") {
		for i := range l {
			l[i].ankle, l[i].toe = l[i].knee.Lerp(l[i].ankle, 0.6), l[i].knee.Lerp(l[i].toe, 0.6)
		}
	}
	k.threePairs(l[0], l[1], l[2])
	k.Part("legs", "claws", "leg-length")
	if k.is.is("leg-length", "long") { // large claws
		for _, leg := range l {
			sides(func(s float64) {
				toe, d := leg.flipped(s).toe, direction(leg.flipped(s).ankle, leg.flipped(s).toe)
				k.hook(toe, 0.05, d-25, 50)
				k.hook(toe, 0.05, d+25, -10)
			})
		}
	}
}

// beetleFeelers draws thread-like feelers, or short ones with a knob.
func beetleFeelers(k *sketch, b coverForm) {
	k.part(pt{X: -0.08, Y: -0.12}, "antennae", "feelers")
	sides(func(s float64) {
		root := pt{X: 0.03, Y: s * 0.08}
		switch k.is["antennae"] {
		case "club":
			k.Line(root, root.Polar(0.07, 180-s*55))
			k.Solid(flank(spot(-0.03, 0.16, 0.036, 0.022)).flipped(s)...)
			k.Part("body") // threads of the mouth, longer than the feelers
			k.whip(0.005, pt{X: 0.02, Y: s * 0.05}, pt{X: -0.08, Y: s * 0.06}, pt{X: -0.17, Y: s * 0.1})
			k.Part("antennae", "feelers")
		case "thick":
			k.joint(root, root.Polar(0.07, 180-s*45), 0.02, 0.026)
		case "long":
			k.whip(0.007, root, root.Polar(0.12, 180-s*45), root.Polar(0.25, 180-s*36))
		case "none":
		default:
			k.whip(0.008, root, root.Polar(0.07, 180-s*50), root.Polar(0.14, 180-s*40))
		}
	})
}

func beetleEyes(k *sketch, b coverForm) {
	at := b.head[2]
	k.part(pt{X: at.X, Y: at.Y}, "eyes")
	sides(func(s float64) {
		switch {
		case k.is.is("eyes", "four"):
			k.Solid(spot(0.055, s*0.085, 0.024, 0.022)...)
			k.Solid(spot(0.07, s*0.152, 0.026, 0.022)...)
		case k.is.has("eyes"):
			k.Solid(spot(at.X, -s*at.Y*0.9, 0.024, 0.018)...)
		}
	})
}

// rows draws rows of dots, or fine grooves, along the covers.
func rows(k *sketch, b coverForm, gap float64) {
	k.Part("body")
	k.Texture(func() {
		for y := gap * 0.6; y < 0.22; y += gap {
			for x := b.start + 0.06; x < 0.93; x += 0.045 {
				if y < b.covers.width(x)*0.88 {
					k.Dot(pt{X: x, Y: y}, 0.006)
					k.Dot(pt{X: x, Y: -y}, 0.006)
				}
			}
		}
	})
}

// blotches draws dark spots on the covers.
func blotches(k *sketch, b coverForm) {
	k.Part("pattern")
	if !k.is.is("pattern", "marked") {
		return
	}
	for i, x := range []float64{0.4, 0.56, 0.72} {
		sides(func(s float64) { k.Shaded(spot(x, s*b.covers.width(x)*(0.35+0.15*float64(i%2)), 0.035, 0.025)...) })
	}
}
