package figure

// mayflyForm are the proportions by which the ways of life of mayflies differ.
type mayflyForm struct {
	head, chest    float64 // half widths
	neck           float64 // where the head ends
	belly          widths
	fore, mid, hnd limb
	spread, tail   float64 // of the tails: how far to the side, and their length
}

// The four ways of mayflies: darting through open water, clinging flat to
// stones, creeping in moss and litter, digging in mud.

func swimmer() mayflyForm {
	return mayflyForm{head: 0.062, chest: 0.092, neck: 0.105,
		belly: slim(0.36, 0.082, 0.5, 0.082, 0.8, 0.062, 1, 0.034), spread: 0.3, tail: 0.53,
		fore: limbAt(0.017, 0.16, 0.06, 0.13, 0.17, 0.04, 0.24, -0.01, 0.25),
		mid:  limbAt(0.017, 0.25, 0.08, 0.29, 0.2, 0.33, 0.31, 0.35, 0.35),
		hnd:  limbAt(0.019, 0.32, 0.08, 0.42, 0.19, 0.51, 0.28, 0.55, 0.31)}
}

func clinger() mayflyForm {
	return mayflyForm{head: 0.158, chest: 0.14, neck: 0.165,
		belly: slim(0.38, 0.11, 0.5, 0.105, 0.8, 0.07, 1, 0.036), spread: 0.42, tail: 0.62,
		fore: limbAt(0.04, 0.21, 0.11, 0.13, 0.27, 0.02, 0.35, -0.02, 0.4),
		mid:  limbAt(0.043, 0.3, 0.12, 0.33, 0.3, 0.31, 0.42, 0.33, 0.47),
		hnd:  limbAt(0.045, 0.37, 0.11, 0.5, 0.26, 0.58, 0.38, 0.63, 0.42)}
}

func creeper() mayflyForm {
	return mayflyForm{head: 0.085, chest: 0.118, neck: 0.12,
		belly: slim(0.38, 0.105, 0.55, 0.11, 0.8, 0.085, 1, 0.036), spread: 0.32, tail: 0.52,
		fore: limbAt(0.027, 0.18, 0.08, 0.11, 0.2, 0.02, 0.26, -0.03, 0.28),
		mid:  limbAt(0.027, 0.27, 0.1, 0.3, 0.24, 0.36, 0.33, 0.4, 0.36),
		hnd:  limbAt(0.029, 0.34, 0.1, 0.45, 0.22, 0.55, 0.3, 0.61, 0.32)}
}

func digger() mayflyForm {
	return mayflyForm{head: 0.07, chest: 0.088, neck: 0.12,
		belly: slim(0.36, 0.08, 0.6, 0.078, 0.85, 0.062, 1, 0.034), spread: 0.2, tail: 0.5,
		fore: limbAt(0.034, 0.17, 0.07, 0.115, 0.185, 0.05, 0.2, -0.04, 0.19),
		mid:  limbAt(0.026, 0.26, 0.08, 0.24, 0.19, 0.17, 0.25, 0.12, 0.26),
		hnd:  limbAt(0.034, 0.33, 0.08, 0.44, 0.17, 0.53, 0.21, 0.58, 0.2)}
}

// mayfly is the form of a mayfly's way of life, from the traits.
func (t Traits) mayfly() mayflyForm {
	switch {
	case t.is("forelegs", "digging"):
		return digger()
	case t.is("eyes", "top"):
		return clinger()
	case t.is("gills", "sides") && t.is("gill-form", "plates", "lids", "none"), t.is("gill-form", "none"):
		if !t.is("flat", "flat") {
			return swimmer()
		}
	}
	return creeper()
}

// mayfly draws a mayfly nymph from above: one pair of wing flaps, gills on the
// belly section, three tails, or two.
func mayfly(k *sketch) {
	m := k.is.mayfly()
	if k.is.has("tusks") {
		m.head *= 0.9
	}
	k.twoFeelers(m.head*0.45, 0.2)
	k.threePairs(m.fore, m.mid, m.hnd)
	mayflyTails(k, m)
	k.hindEnd(0.03)
	sideGills(k, m)
	k.ringed(m.belly, 0.36, 10)
	bellyMarks(k, m)
	backGills(k, m)
	if !k.is.is("gill-form", "feathers") { // the plumes hide them
		k.hairsOn(m.belly, 0.5)
	}
	mayflyChest(k, m)
	if k.is.is("shield", "hood") {
		hooded(k)
	}
	tuskPair(k, m)
	mayflyHead(k, m)
}

// mayflyTails draws the tails: thin, spread, their hairs like a web where they
// swim with them.
func mayflyTails(k *sketch, m mayflyForm) {
	l := m.tail
	if k.is.is("tail-length", "short") {
		l = 0.22
	}
	k.part(pt{X: 1 + l*0.7, Y: -l * m.spread * 0.6}, "tails", "tail-length", "tail-hair")
	k.part(pt{X: 1 + l*0.45}, "tail-middle")
	k.Part("tails", "tail-length", "tail-hair")
	if k.is.is("tails", "2", "3") {
		sides(func(s float64) {
			k.whip(0.008, pt{X: 0.985, Y: s * 0.022}, pt{X: 1 + l*0.5, Y: s * l * m.spread * 0.62}, pt{X: 1 + l, Y: s * l * m.spread})
			tailWeb(k, l, s, s*m.spread, true)
		})
	}
	k.Part("tails", "tail-length", "tail-hair", "tail-middle")
	if k.is.is("tails", "1", "3") {
		if k.is.is("tail-middle", "short") {
			l *= 0.45
		}
		k.whip(0.008, pt{X: 0.985}, pt{X: 1 + l*0.5}, pt{X: 1 + l})
		tailWeb(k, l, 1, 0, false)
		tailWeb(k, l, -1, 0, false)
	}
}

// tailWeb draws the hairs on the inner side of an outer tail, or on one side of
// the middle tail.
func tailWeb(k *sketch, l, s, slope float64, inner bool) {
	if !k.is.is("tail-hair", "fringed") {
		return
	}
	k.Texture(func() {
		for i := 1; i <= 9; i++ {
			x := l * (0.08 + 0.08*float64(i))
			root := pt{X: 1 + x, Y: slope * x * 1.1}
			to := -s
			if !inner {
				to = s
			}
			k.Line(root, root.Polar(0.05, to*42))
		}
	})
}

// sideGills draws the gills along both sides of the belly section.
func sideGills(k *sketch, m mayflyForm) {
	first, last := k.is.gillRings()
	x := 0.39 + 0.064*float64(first+2)
	at := pt{X: x, Y: m.belly.width(x) + 0.05}
	if k.is.is("gills", "back") {
		at = pt{X: x + 0.04, Y: 0.03}
	}
	k.part(at, "gills", "gill-form", "gill-row", "gill-mark")
	if !k.is.is("gills", "sides", "under") {
		return
	}
	k.Part("gills", "gill-form", "gill-row", "gill-mark")
	for i := last; i >= first; i-- {
		x := 0.4 + 0.064*float64(i)
		sides(func(s float64) {
			at := pt{X: x, Y: s * m.belly.width(x) * 0.9}
			if k.is.is("gill-mark", "double") && i < first+2 {
				gillPlate(k, at.Polar(0.015, 180), s*82, 0.125)
			}
			sideGill(k, at, s)
		})
	}
}

// sideGill draws one gill that stands out from the side.
func sideGill(k *sketch, at pt, s float64) {
	switch k.is["gill-form"] {
	case "feathers":
		plume(k, at, 0.13, s*52)
	case "forks":
		fork := at.Polar(0.04, s*55)
		k.Line(at, fork)
		k.whip(0.006, fork, fork.Polar(0.06, s*40), fork.Polar(0.12, s*28))
		k.whip(0.006, fork, fork.Polar(0.06, s*66), fork.Polar(0.12, s*62))
	case "tufts", "threads":
		k.bush(at, 0.09, s*60)
	default:
		l := 0.1
		switch {
		case k.is.is("eyes", "top"), k.is.is("gill-mark", "double"):
			l = 0.125
		case k.is.is("gill-mark", "edged"):
			l = 0.078
		}
		gillPlate(k, at, s*48, l)
		if k.is.is("gill-mark", "edged") { // a dark band along its outer edge
			tip := at.Polar(l, s*48)
			k.Solid(at, at.Lerp(tip, 0.35).Polar(l*0.4, s*(48+90)), tip.Polar(l*0.2, s*(48+90)), tip.Polar(l*0.05, s*(48+90)),
				at.Lerp(tip, 0.4).Polar(l*0.2, s*(48+90)))
		}
	}
}

// gillPlate draws one gill like a leaf.
func gillPlate(k *sketch, at pt, degrees, l float64) {
	tip := at.Polar(l, degrees)
	k.Toned(at, at.Lerp(tip, 0.35).Polar(l*0.42, degrees-90), tip.Polar(l*0.2, degrees-90), tip.Polar(l*0.2, degrees+90),
		at.Lerp(tip, 0.35).Polar(l*0.36, degrees+90))
}

// plume draws a long gill fringed on both sides.
func plume(k *sketch, at pt, length, degrees float64) {
	tip, half := at.Polar(length, degrees), length*0.1
	k.Texture(func() {
		for i := 1; i <= 6; i++ {
			p := at.Lerp(tip, float64(i)/6.5)
			k.Line(p.Polar(length*0.25, degrees-42), p, p.Polar(length*0.25, degrees+42))
		}
	})
	k.Toned(at, at.Lerp(tip, 0.3).Polar(half, degrees-90), at.Lerp(tip, 0.7).Polar(half*0.8, degrees-90), tip,
		at.Lerp(tip, 0.7).Polar(half*0.8, degrees+90), at.Lerp(tip, 0.3).Polar(half, degrees+90))
}

// backGills draws the gills that lie on the back.
func backGills(k *sketch, m mayflyForm) {
	k.part(pt{X: 0.62, Y: 0.05}, "lids")
	if !k.is.is("gills", "back") {
		return
	}
	k.Part("gills", "gill-form", "gill-row", "lids")
	first, last := k.is.gillRings()
	switch k.is["gill-form"] {
	case "lids":
		gillLids(k, m)
	case "feathers":
		for i := last; i >= first; i-- {
			x := 0.4 + 0.062*float64(i)
			sides(func(s float64) { plume(k, pt{X: x, Y: s * m.belly.width(x) * 0.45}, 0.16, s*38) })
		}
	default:
		for i := last; i >= first; i-- {
			x := 0.38 + 0.062*float64(i)
			h := m.belly.width(x)
			sides(func(s float64) {
				k.Toned(flank(path(x, h*0.72, x+0.01, h*0.25, x+0.07, h*0.2, x+0.1, h*0.5, x+0.075, h*0.85)).flipped(s)...)
			})
		}
	}
}

// gillLids draws the one pair of gills that covers the others.
func gillLids(k *sketch, m mayflyForm) {
	h := m.belly.width(0.55)
	x0 := 0.47
	if k.is.is("gill-row", "gap") {
		x0 = 0.55
	}
	sides(func(s float64) {
		if k.is.is("lids", "triangle") {
			k.Toned(flank(path(x0, h*0.9, x0+0.01, h*0.35, x0+0.1, h*0.2, x0+0.23, h*0.45, x0+0.12, h*0.85)).flipped(s)...)
			return
		}
		k.Toned(flank(path(x0, 0.004, x0-0.005, h*0.5, x0+0.01, h*0.95, x0+0.1, h*1.0, x0+0.21, h*0.9, x0+0.235, h*0.45,
			x0+0.22, 0.004, x0+0.11, 0.003)).flipped(s)...)
	})
}

// bellyMarks draws a pattern on the belly section.
func bellyMarks(k *sketch, m mayflyForm) {
	k.part(pt{X: 0.78, Y: 0}, "pattern")
	if !k.is.is("pattern", "marked") || k.is.is("gills", "back") {
		return
	}
	for i := range 7 {
		x := 0.43 + 0.064*float64(i)
		h := m.belly.width(x)
		sides(func(s float64) {
			k.Shaded(flank(path(x, h*0.15, x, h*0.75, x+0.03, h*0.7, x+0.035, h*0.25)).flipped(s)...)
		})
	}
}

// mayflyChest draws the neck shield, the broad middle section and its one pair
// of wing flaps.
func mayflyChest(k *sketch, m mayflyForm) {
	c, n := m.chest, m.neck
	k.part(pt{X: n + 0.12, Y: -c * 0.6}, "plates")
	k.Part("plates", "body", "rings")
	k.Blob(mirrored(n+0.05, c*0.3, n+0.055, c*0.9, n+0.12, c*1.02, n+0.22, c*0.95, n+0.27, c*0.7, n+0.28, c*0.3)...)
	k.Blob(mirrored(n-0.012, c*0.3, n-0.008, c*0.75, n+0.03, c*0.95, n+0.068, c*0.85, n+0.07, c*0.3)...)
	k.Texture(func() { k.Line(pt{X: n}, pt{X: n + 0.24}) })
	k.part(pt{X: n + 0.33, Y: 0.06}, "wings", "pads")
	if !k.is.is("wings", "pads") {
		return
	}
	k.Part("wings", "pads")
	sides(func(s float64) {
		tip := pt{X: n + 0.37, Y: s * c * 0.42}
		if k.is.is("pads", "spread") {
			tip = pt{X: n + 0.34, Y: s * c * 0.95}
		}
		k.Toned(pt{X: n + 0.15, Y: s * c * 0.2}, pt{X: n + 0.16, Y: s * c * 0.8}, pt{X: n + 0.26, Y: s * c * 0.88}, tip,
			tip.Polar(0.04, s*(-120)), pt{X: n + 0.22, Y: s * c * 0.2})
	})
}

// hooded draws the humped shield that hides chest and half the belly section.
func hooded(k *sketch) {
	k.part(pt{X: 0.42, Y: 0.04}, "shield")
	k.Part("shield", "body")
	k.Toned(mirrored(0.11, 0.05, 0.13, 0.11, 0.2, 0.16, 0.27, 0.235, 0.31, 0.17, 0.5, 0.2, 0.64, 0.13, 0.72, 0.03)...)
	k.Line(pt{X: 0.12}, pt{X: 0.72})
	sides(func(s float64) {
		k.Curve(pt{X: 0.3, Y: s * 0.05}, pt{X: 0.45, Y: s * 0.1}, pt{X: 0.62, Y: s * 0.05})
		k.Solid(spot(0.36, s*0.09, 0.014, 0.012)...)
	})
}

// tuskPair draws two tusks that reach out in front of the head.
func tuskPair(k *sketch, m mayflyForm) {
	k.part(pt{X: -0.07, Y: -m.head * 0.7}, "tusks")
	if !k.is.is("mouth", "tusks") {
		return
	}
	k.Part("mouth", "tusks")
	end := m.head * 1.35
	if k.is.is("tusks", "low") {
		end = m.head * 0.12
	}
	sides(func(s float64) {
		k.whip(0.018, pt{X: 0.03, Y: s * m.head * 0.5}, pt{X: -0.04, Y: s * m.head * 0.72},
			pt{X: -0.09, Y: s * (m.head*0.5 + end*0.3)}, pt{X: -0.14, Y: s * end})
	})
}

// mayflyHead draws the head: a broad flat shield with eyes on top, or a small
// one with eyes at its sides.
func mayflyHead(k *sketch, m mayflyForm) {
	h, n := m.head, m.neck
	k.part(pt{X: 0.01}, "head", "mouth")
	k.Part("head", "body")
	if k.is.is("eyes", "top") {
		k.Blob(mirrored(0, h*0.25, 0.02, h*0.7, 0.07, h*0.97, 0.12, h, n-0.01, h*0.75, n, h*0.3)...)
		k.part(pt{X: 0.1, Y: -h * 0.55}, "eyes")
		sides(func(s float64) { k.Solid(spot(n*0.66, s*h*0.56, 0.03, 0.024)...) })
	} else {
		k.Blob(mirrored(0, h*0.3, 0.015, h*0.65, 0.05, h*0.88, 0.085, h*0.95, n-0.005, h*0.7, n, h*0.3)...)
		k.part(pt{X: n * 0.7, Y: -h * 0.85}, "eyes")
		sides(func(s float64) {
			if k.is.has("eyes") {
				k.Solid(spot(n*0.68, s*h*0.86, 0.026, 0.018)...)
			}
		})
	}
	k.part(pt{X: n * 0.4}, "head-colour")
	k.Part("pattern")
	if k.is.is("pattern", "marked") {
		k.Shaded(mirrored(n*0.25, h*0.1, n*0.35, h*0.45, n*0.5, h*0.3, n*0.45, h*0.05)...)
	}
}
