package figure

// stonefly draws a stonefly nymph from above: long feelers, a head as wide as
// the neck shield, two pairs of wing flaps, legs held out, two tails.
func stonefly(k *sketch) {
	f := 1.0
	switch {
	case k.is.is("outline", "oval"):
		f = 1.6
	case k.is.is("gills", "chest-belly"): // the heavy giants
		f = 1.3
	case k.is.roundPads():
		f = 0.85
	case k.is.is("pads", "straight"):
		f = 0.72
	case k.is.is("reach", "past") && k.is.is("foot", "second-short"): // squat
		f = 1.2
	case k.is.is("flat", "round"):
		f = 0.9
	}
	w := slim(0.4, 0.088, 0.7, 0.09, 0.9, 0.068, 1, 0.036).scaled(f)
	if k.is.is("outline", "oval") {
		w = slim(0.4, 0.15, 0.6, 0.135, 0.85, 0.08, 1, 0.03)
	}
	k.twoFeelers(0.05*f, 0.32)
	stoneflyLegs(k, f)
	chestTufts(k, f)
	k.cerci()
	k.hindEnd(0.03)
	k.ringed(w, 0.4, 10)
	stripes(k, w)
	foldAlong(k, w)
	stoneflyChest(k, f)
	neckTufts(k, f)
	stoneflyHead(k, f)
	roachPlates(k, f)
	k.hairsOn(w, 0.1)
}

// roachPlates draws a broad plate that reaches over the back of the head, as the next
// one lies over what is behind it.
func roachPlates(k *sketch, f float64) {
	k.part(pt{X: 0.16, Y: -0.1 * f}, "shield")
	if !k.is.is("shield", "roof") {
		return
	}
	k.Part("shield", "plates")
	k.Blob(wider(mirrored(0.085, 0.01, 0.09, 0.055, 0.125, 0.1, 0.19, 0.122, 0.25, 0.112, 0.275, 0.06, 0.28, 0.01), f)...)
}

// roundPads reports whether wing flaps that lie straight are short and rounded, as
// in those with short tails.
func (t Traits) roundPads() bool {
	return t.is("pads", "straight") && t.is("tail-length", "short")
}

// longFoot draws a hind foot enlarged, its second joint as long as the first.
func longFoot(k *sketch) {
	if !k.is.is("foot", "second-long") || !k.is.is("reach", "past") {
		return
	}
	k.Part("body")
	k.Blob(spot(0.93, 0.44, 0.37, 0.15)...) // a lens
	k.joint(pt{X: 0.6, Y: 0.4}, pt{X: 0.76, Y: 0.43}, 0.034, 0.034)
	for i := range 3 {
		x := 0.77 + 0.13*float64(i)
		k.Toned(path(x, 0.435, x+0.01, 0.4, x+0.115, 0.405, x+0.125, 0.44, x+0.115, 0.475, x+0.01, 0.47)...)
	}
	k.hook(pt{X: 1.155, Y: 0.43}, 0.06, -30, 60)
	k.hook(pt{X: 1.155, Y: 0.445}, 0.06, 20, 60)
}

// twoFeelers draws two whips that reach so far before the head if they are long.
func (k *sketch) twoFeelers(y, reach float64) { k.feelersOf(y, 0.1, reach) }

// feelersOf draws two whips that reach so far before the head.
func (k *sketch) feelersOf(y, short, reach float64) {
	l := map[string]float64{"long": reach, "short": short}[k.is["antennae"]]
	if l == 0 {
		k.part(pt{X: -reach * 0.6, Y: -y - reach*0.3}, "antennae", "feelers")
		return
	}
	k.part(pt{X: -l * 0.6, Y: -y - l*0.34}, "antennae", "feelers")
	sides(func(s float64) {
		k.whip(0.0055, pt{X: 0.03, Y: s * y}, pt{X: -l * 0.45, Y: s * (y + l*0.32)}, pt{X: -l, Y: s * (y + l*0.4)})
	})
}

func stoneflyLegs(k *sketch, f float64) {
	y := 0.085 * f
	fore := limbAt(0.03, 0.2, y, 0.13, y+0.12, 0.02, y+0.19, -0.04, y+0.21)
	middle := limbAt(0.03, 0.33, y, 0.36, y+0.15, 0.43, y+0.25, 0.5, y+0.28)
	hind := limbAt(0.032, 0.45, y, 0.57, y+0.13, 0.74, y+0.17, 0.82, y+0.18)
	switch k.is["reach"] {
	case "past":
		hind = limbAt(0.032, 0.45, y, 0.72, y+0.09, 1.04, y+0.08, 1.24, y+0.06)
	case "short":
		hind = limbAt(0.028, 0.45, y, 0.56, y+0.06, 0.68, y+0.06, 0.76, y+0.05)
	}
	k.threePairs(fore, middle, hind)
	if k.is.is("legs", "0") || !k.is.is("hair", "hairy") {
		return
	}
	k.Part("legs", "hair")
	for _, l := range []limb{fore, middle, hind} {
		sides(func(s float64) { fringeOf(k, l.flipped(s).hip, l.flipped(s).knee, s) })
	}
}

// fringeOf draws hairs along the outer edge of a leg.
func fringeOf(k *sketch, a, b pt, s float64) {
	d := direction(a, b)
	k.Texture(func() {
		for i := range 4 {
			p := a.Lerp(b, 0.35+0.2*float64(i)).Polar(0.025, d+90*s)
			k.Line(p, p.Polar(0.035, d+60*s))
		}
	})
}

// chestTufts draws gills where the legs join the chest and behind.
func chestTufts(k *sketch, f float64) {
	k.part(pt{X: 0.27, Y: 0.11 * f}, "gills", "gill-form", "gill-row")
	var xs []float64
	switch k.is["gills"] {
	case "chest":
		xs = []float64{0.255, 0.385}
	case "chest-belly":
		xs = []float64{0.255, 0.385, 0.6, 0.7}
	}
	for _, x := range xs {
		sides(func(s float64) {
			at := pt{X: x, Y: s * 0.075 * f}
			if k.is.is("gills", "chest-belly") {
				fluff(k, at, 0.1, s*80)
				return
			}
			if k.is.is("gill-form", "threads") {
				k.Curve(at, at.Polar(0.06, s*70), at.Polar(0.1, s*95))
				return
			}
			k.bush(at, 0.085, s*85)
		})
	}
}

// fluff draws a thick tuft of branched gills, in one outline with a few of its threads.
func fluff(k *sketch, at pt, length, degrees float64) {
	c, r := at.Polar(length*0.6, degrees), length*0.5
	var edge []pt
	for i := range 18 {
		edge = append(edge, c.Polar(r*(1-0.24*float64(i%2)), float64(i)*20))
	}
	k.Blob(edge...)
	k.Texture(func() {
		for _, d := range []float64{-40, 0, 40} {
			k.Line(at.Polar(length*0.3, degrees), c.Polar(r*0.62, degrees+d))
		}
	})
}

// bush draws a bushy tuft of gill threads.
func (k *sketch) bush(at pt, length, degrees float64) {
	for _, d := range []float64{-60, -36, -12, 12, 36, 60} {
		k.Curve(at, at.Polar(length*0.55, degrees+d*0.7), at.Polar(length*(1-0.003*d*d/60), degrees+d))
	}
}

// cerci draws the two tails, or as many as there are, spread at the hind end.
func (k *sketch) cerci() {
	l := 0.54
	switch {
	case k.is.roundPads():
		l = 0.16
	case k.is.is("tail-length", "short"):
		l = 0.22
	}
	k.part(pt{X: 1 + l*0.7, Y: -l * 0.25}, "tails", "tail-length", "tail-hair", "tail-middle")
	var spread []float64
	switch k.is["tails"] {
	case "1":
		spread = []float64{0}
	case "2":
		spread = []float64{-1, 1}
	case "3":
		spread = []float64{-1, 0, 1}
	}
	k.Part("tails", "tail-length", "tail-hair", "tail-middle")
	for _, s := range spread {
		root, mid, tip := pt{X: 0.985, Y: s * 0.022}, pt{X: 1 + l*0.5, Y: s * l * 0.22}, pt{X: 1 + l, Y: s * l * 0.36}
		k.whip(0.008, root, mid, tip)
	}
}

// stripes draws a light and dark pattern on a belly section: bands across on
// what has tufts at the chest, else stripes along.
func stripes(k *sketch, w widths) {
	k.part(pt{X: 0.2, Y: 0.03}, "pattern")
	if !k.is.is("pattern", "marked") {
		return
	}
	if !k.is.is("gills", "chest") {
		sides(func(s float64) {
			k.Shaded(flank(path(0.46, 0.03, 0.7, 0.03, 0.96, 0.012, 0.94, 0.03, 0.7, 0.065, 0.46, 0.065)).flipped(s)...)
		})
		return
	}
	for i := range 8 {
		x := 0.49 + 0.06*float64(i)
		h := w.width(x) * 0.9
		k.Shaded(mirrored(x, h*0.9, x+0.012, h, x+0.028, h*0.9)...)
	}
}

// foldAlong draws the soft seam along the side of the belly section.
func foldAlong(k *sketch, w widths) {
	k.part(pt{X: 0.52, Y: w.width(0.52)}, "side-fold")
	last := map[string]float64{"part": 0.66, "whole": 0.93}[k.is["side-fold"]]
	if last == 0 {
		return
	}
	sides(func(s float64) {
		var edge []pt
		for i := range 6 {
			x := 0.46 + (last-0.46)*float64(i)/5
			edge = append(edge, pt{X: x, Y: s * (w.width(x)*0.72 + 0.004*float64(i%2))})
		}
		k.Curve(edge...)
	})
}

// stoneflyChest draws the neck shield and two sections with their wing flaps.
func stoneflyChest(k *sketch, f float64) {
	k.part(pt{X: 0.44, Y: 0.09 * f}, "wings", "pads")
	tip, out := 0.055, 1.05
	if k.is.is("pads", "spread") {
		tip, out = 0.125, 1.18
	}
	long := 0.0
	if k.is.is("pads", "straight") {
		long = 0.03
	}
	flaps := mirrored(0.255, 0.02, 0.262, 0.07, 0.29, 0.088, 0.34, 0.1*out, 0.41+long, tip, 0.405+long, tip*0.8,
		0.375+long/2, tip*0.4, 0.375, 0.005)
	if k.is.roundPads() {
		flaps = mirrored(0.255, 0.02, 0.262, 0.075, 0.29, 0.1, 0.335, 0.112, 0.38, 0.1, 0.402, 0.065, 0.398, 0.03, 0.385, 0.004)
	}
	if !k.is.is("wings", "pads") {
		flaps = mirrored(0.255, 0.02, 0.262, 0.07, 0.3, 0.09, 0.36, 0.088, 0.38, 0.06, 0.385, 0.01)
		k.Part("body", "plates")
	} else {
		k.Part("wings", "pads", "plates")
	}
	if k.is.is("outline", "oval") { // which they make
		k.Part("wings", "pads", "plates", "outline")
	}
	k.Blob(wider(moved(flaps, 0.125), f)...)
	k.Blob(wider(flaps, f)...)
	k.part(pt{X: 0.2, Y: -0.08 * f}, "plates")
	k.Part("plates", "body")
	if k.is.is("gills", "chest-belly") { // a shield with pointed corners
		k.Poly(wider(mirrored(0.14, 0.01, 0.125, 0.112, 0.19, 0.098, 0.268, 0.118, 0.254, 0.01), f)...)
	} else {
		k.Blob(wider(mirrored(0.135, 0.02, 0.14, 0.075, 0.16, 0.1, 0.2, 0.108, 0.235, 0.092, 0.252, 0.05, 0.254, 0.01), f)...)
	}
	k.Part("pattern")
	if k.is.is("pattern", "marked") {
		sides(func(s float64) {
			k.Shaded(flank(path(0.155, 0.02, 0.165, 0.07, 0.2, 0.08, 0.235, 0.06, 0.24, 0.02, 0.2, 0.035)).flipped(s)...)
			k.Shaded(flank(path(0.27, 0.015, 0.28, 0.055, 0.33, 0.06, 0.35, 0.012, 0.31, 0.03)).flipped(s)...)
			k.Shaded(flank(path(0.395, 0.015, 0.405, 0.055, 0.455, 0.06, 0.475, 0.012, 0.435, 0.03)).flipped(s)...)
		})
	}
	k.Texture(func() { k.Line(pt{X: 0.14}, pt{X: 0.5}) })
	if k.is.is("plates", "all") {
		k.Part("plates")
		k.Texture(func() {
			for i := range 8 {
				x := 0.56 + 0.05*float64(i)
				k.Line(pt{X: x, Y: -0.05 * f}, pt{X: x, Y: 0.05 * f})
			}
		})
	}
}

// neckTufts draws gills at the neck.
func neckTufts(k *sketch, f float64) {
	k.part(pt{X: 0.135, Y: 0.09 * f}, "neck")
	if k.is.has("neck") {
		sides(func(s float64) { k.bush(pt{X: 0.135, Y: s * 0.06 * f}, 0.1, s*95) })
	}
}

// stoneflyHead draws a broad flat head with eyes at its hind corners.
func stoneflyHead(k *sketch, f float64) {
	if k.is.is("outline", "oval") {
		f *= 0.75
	}
	k.part(pt{X: 0.02}, "head", "mouth")
	k.Part("head", "body")
	k.Blob(wider(mirrored(0, 0.015, 0.012, 0.05, 0.05, 0.083, 0.09, 0.095, 0.125, 0.085, 0.138, 0.05), f)...)
	k.part(pt{X: 0.06}, "head-colour")
	if k.is.is("pattern", "marked") {
		k.Part("pattern")
		k.Shaded(wider(mirrored(0.05, 0.012, 0.07, 0.06, 0.105, 0.055, 0.085, 0.01), f)...)
	}
	k.part(pt{X: 0.1, Y: -0.085 * f}, "eyes")
	sides(func(s float64) {
		if k.is.has("eyes") {
			k.Solid(spot(0.1, s*0.083*f, 0.022, 0.015)...)
		}
	})
	k.Part("body")
	k.Texture(func() {
		k.Dot(pt{X: 0.075}, 0.005)
		sides(func(s float64) { k.Dot(pt{X: 0.095, Y: s * 0.03 * f}, 0.005) })
	})
}

// hairsOn draws hairs, or points, along the edge of a body from x0.
func (k *sketch) hairsOn(w widths, x0 float64) {
	k.part(pt{X: 0.8, Y: w.width(0.8)}, "hair")
	for x := x0; x < 0.98; x += 0.045 {
		sides(func(s float64) {
			p := pt{X: x, Y: s * w.width(x)}
			switch k.is["hair"] {
			case "hairy":
				k.Texture(func() { k.Line(p, p.Polar(0.04, s*55)) })
			case "spiny":
				k.Poly(pt{X: x - 0.015, Y: p.Y}, pt{X: x + 0.02, Y: p.Y + s*0.022}, pt{X: x + 0.015, Y: p.Y})
			}
		})
	}
}
