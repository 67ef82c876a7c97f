package figure

import "rillkey/cmd/rillkey/figure/draw"

// mite draws one small undivided round body with four pairs of legs set along
// its front half, from above.
func mite(k *sketch) {
	ry := 0.43
	if k.is.is("outline", "oval") {
		ry = 0.36
	}
	k.part(pt{X: 0.3, Y: 0.6}, "legs", "leg-place", "leg-length", "claws", "forelegs", "hindlegs")
	n := 4
	if k.is.is("legs", "6") {
		n = 3
	}
	for i := range n {
		d := 42 + 29*float64(i)
		sides(func(s float64) {
			hip := pt{X: 0.5}.Polar(ry*0.95, 180+s*d)
			knee := hip.Polar(0.2, 180+s*(d-10))
			k.leg(limb{hip, knee, knee.Polar(0.17, 180+s*(d+14)), knee.Polar(0.3, 180+s*(d+20)), 0.03})
			k.Texture(func() {
				for _, f := range []float64{0.3, 0.6, 0.9} {
					k.Line(knee.Polar(0.17*f, 180+s*(d+14)), knee.Polar(0.17*f, 180+s*(d+14)).Polar(0.07, 180+s*(d+60)))
				}
			})
		})
	}
	k.part(pt{X: 0.02, Y: 0}, "mouth", "antennae", "head")
	sides(func(s float64) { k.joint(pt{X: 0.05, Y: s * 0.03}, pt{X: -0.05, Y: s * 0.045}, 0.02, 0.012) })
	k.part(pt{X: 0.85, Y: ry * 0.72}, "rings", "outline", "flat", "pattern")
	k.Part("rings", "outline", "body")
	k.Toned(draw.Oval(pt{X: 0.5}, 0.5, ry)...)
	k.part(pt{X: 0.14, Y: 0.1}, "eyes")
	sides(func(s float64) {
		if k.is.has("eyes") {
			k.Dot(pt{X: 0.12, Y: s * 0.13}, 0.026)
			k.Dot(pt{X: 0.165, Y: s * 0.16}, 0.018)
		}
	})
}

// spider draws two body parts with a waist and eight long legs, from above.
func spider(k *sketch) {
	reach := k.is.reach()
	k.part(pt{X: 0.1, Y: 0.12 + reach*0.7}, "legs", "leg-place", "leg-length", "claws")
	n := 4
	if k.is.is("legs", "6", "10") {
		n = map[string]int{"6": 3, "10": 5}[k.is["legs"]]
	}
	for i := range n {
		d := 40 + 33*float64(i)
		sides(func(s float64) {
			hip := pt{X: 0.24}.Polar(0.13, 180+s*d)
			knee := hip.Polar(reach*0.7, 180+s*(d-14))
			ankle := knee.Polar(reach*0.5, 180+s*(d+14))
			k.leg(limb{hip, knee, ankle, ankle.Polar(reach*0.4, 180+s*(d+24)), 0.019})
		})
	}
	k.part(pt{X: 0.42, Y: 0}, "rings", "outline", "flat")
	k.Part("rings", "body")
	ry := 0.22
	if k.is.is("outline", "spindle") {
		ry = 0.17
	}
	sides(func(s float64) { k.joint(pt{X: 0.98, Y: s * 0.02}, pt{X: 1.03, Y: s * 0.03}, 0.012, 0.008) }) // it spins with them
	k.Toned(mirrored(0.38, 0.03, 0.44, ry*0.7, 0.58, ry*1.02, 0.74, ry, 0.9, ry*0.62, 1, 0.03)...)
	k.Blob(mirrored(0.03, 0.05, 0.06, 0.09, 0.14, 0.12, 0.24, 0.165, 0.34, 0.14, 0.4, 0.05)...)
	k.part(pt{X: 0.06, Y: 0}, "eyes", "head", "antennae", "mouth")
	sides(func(s float64) {
		if k.is.has("eyes") {
			k.Dot(pt{X: 0.07, Y: s * 0.03}, 0.016)
			k.Dot(pt{X: 0.1, Y: s * 0.075}, 0.014)
		}
		k.Curve(pt{X: 0.05, Y: s * 0.06}, pt{X: -0.04, Y: s * 0.09}, pt{X: -0.1, Y: s * 0.03})
	})
	k.Part("hair")
	if k.is.is("hair", "hairy") {
		for i := range 12 {
			d := -110 + 20*float64(i)
			u := pt{}.Polar(1, d)
			p := pt{X: 0.7 + 0.3*u.X, Y: ry * u.Y}
			k.Line(p, p.Polar(0.05, d))
		}
	}
}

// flea draws a water flea from the side: a clear shell round the body, a head
// with one large eye and a beak, branched arms to hop with.
func flea(k *sketch) {
	ry := 0.3
	if k.is.is("outline", "disc") {
		ry = 0.38
	}
	k.part(pt{X: 0.1, Y: -ry}, "antennae", "move", "feelers")
	k.Part("antennae", "body")
	for _, d := range []float64{-118, 168} {
		elbow := pt{X: 0.26, Y: -ry * 0.35}.Polar(0.3, d)
		k.joint(pt{X: 0.26, Y: -ry * 0.35}, elbow, 0.03, 0.018)
		for _, e := range []float64{-24, 20} {
			tip := elbow.Polar(0.2, d+e)
			k.Line(elbow, tip)
			k.Texture(func() {
				for _, f := range []float64{0.5, 0.75, 1} {
					k.Line(elbow.Lerp(tip, f), elbow.Lerp(tip, f).Polar(0.1, d+e-38))
				}
			})
		}
	}
	k.part(pt{X: 0.72, Y: ry * 0.8}, "outline", "flat", "rings", "shell", "pattern", "hind")
	k.Part("outline", "head", "body")
	k.Blob(path(0.04, -ry*0.1, 0.08, -ry*0.5, 0.2, -ry*0.72, 0.36, -ry*0.78, 0.55, -ry*1.0, 0.78, -ry*0.8, 0.95,
		-ry*0.35, 1.16, -ry*0.3,
		0.98, -ry*0.12, 0.88, ry*0.5, 0.66, ry*0.98, 0.42, ry*0.95, 0.28, ry*0.5, 0.16, ry*0.32, 0.06, ry*0.5, 0.09, ry*0.15)...)
	k.Part("body")
	k.Texture(func() {
		for i := range 4 {
			x := 0.42 + 0.08*float64(i)
			k.Curve(pt{X: x, Y: 0}, pt{X: x + 0.02, Y: ry * 0.35}, pt{X: x - 0.04, Y: ry * 0.6})
		}
		for i := range 3 {
			k.Ring(pt{X: 0.7 + 0.06*float64(i%2), Y: -ry * (0.5 - 0.24*float64(i))}, 0.045)
		}
		k.Curve(path(0.16, -ry*0.2, 0.36, -ry*0.35, 0.6, ry*0.1, 0.72, ry*0.6)...)
	})
	k.part(pt{X: 0.14, Y: -ry * 0.3}, "eyes", "head", "head-colour", "mouth")
	k.Part("eyes")
	if k.is.has("eyes") {
		k.Dot(pt{X: 0.14, Y: -ry * 0.28}, 0.045)
	}
	k.part(pt{X: 0.5, Y: ry}, "legs", "leg-place", "gills", "tails")
}

// seedShrimp draws a tiny bean of two smooth halves, feelers and a foot out at
// its edge.
func seedShrimp(k *sketch) {
	k.part(pt{X: 0.0, Y: 0.1}, "antennae", "feelers", "head", "mouth", "legs", "leg-place")
	k.Part("antennae", "body")
	for _, d := range []float64{150, 168, 186} {
		k.Curve(pt{X: 0.08, Y: 0.08}, pt{X: 0.08, Y: 0.08}.Polar(0.14, d-8), pt{X: 0.08, Y: 0.08}.Polar(0.26, d-26))
	}
	k.Part("body")
	for _, x := range []float64{0.4, 0.6} {
		k.Curve(pt{X: x, Y: 0.22}, pt{X: x + 0.03, Y: 0.34}, pt{X: x - 0.05, Y: 0.4})
	}
	k.part(pt{X: 0.7, Y: -0.2}, "outline", "flat", "rings", "shell", "hair", "pattern", "hind", "gills", "tails")
	k.Part("outline", "body")
	k.Toned(path(0.02, 0.05, 0.06, -0.14, 0.25, -0.28, 0.55, -0.33, 0.84, -0.22, 0.99, 0.0, 0.96, 0.18, 0.8, 0.26, 0.5,
		0.22, 0.2, 0.25, 0.06, 0.2)...)
	k.Curve(path(0.2, -0.25, 0.55, -0.29, 0.85, -0.19)...)
	k.Texture(func() {
		for _, d := range []float64{0, 60, 120, 180, 240, 300} {
			k.Ring(pt{X: k.varied(0.46, 0.08, 0)}.Polar(k.varied(0.04, 0.2, 1), d), 0.016)
		}
	})
	k.part(pt{X: 0.2, Y: -0.12}, "eyes")
	k.Part("eyes", "body")
	if k.is.has("eyes") {
		k.Dot(pt{X: 0.22, Y: -0.13}, 0.022)
	}
}

// copepod draws a drop with two long feelers, one eye, a forked tail, and the two
// bags of eggs that a female carries.
func copepod(k *sketch) {
	k.part(pt{X: 0.3, Y: -0.4}, "antennae", "feelers")
	k.Part("antennae", "body")
	sides(func(s float64) {
		if k.is.has("antennae") {
			k.whip(0.014, pt{X: 0.06, Y: s * 0.07}, pt{X: 0.06, Y: s * 0.26}, pt{X: 0.26, Y: s * 0.5})
		}
	})
	k.part(pt{X: 0.9, Y: 0.05}, "hind", "tails", "gills")
	k.Part("body")
	sides(func(s float64) {
		k.Line(pt{X: 0.94, Y: s * 0.02}, pt{X: 1.02, Y: s * 0.05}, pt{X: 1.2, Y: s * 0.09})
		k.Line(pt{X: 1.02, Y: s * 0.05}, pt{X: 1.19, Y: s * 0.03})
		k.Toned(pt{X: 0.6, Y: s * 0.07}, pt{X: 0.7, Y: s * 0.2}, pt{X: 0.88, Y: s * 0.22}, pt{X: 0.92, Y: s * 0.13},
			pt{X: 0.76, Y: s * 0.07})
	})
	k.Blob(mirrored(0.5, 0.06, 0.6, 0.055, 0.8, 0.04, 0.95, 0.035, 0.97, 0.01)...)
	k.part(pt{X: 0.35, Y: -0.18}, "outline", "flat", "rings", "skin", "pattern", "plates", "hair")
	k.Part("outline", "body")
	k.Blob(mirrored(0, 0.03, 0.03, 0.09, 0.15, 0.17, 0.3, 0.18, 0.45, 0.13, 0.58, 0.06, 0.6, 0.02)...)
	k.Part("body")
	for _, x := range []float64{0.36, 0.45, 0.53} {
		h := 0.16 - (x-0.36)*0.5
		k.Curve(pt{X: x, Y: -h}, pt{X: x + 0.02}, pt{X: x, Y: h})
	}
	k.part(pt{X: 0.06}, "eyes", "head", "mouth", "legs", "leg-place")
	k.Part("eyes", "body")
	if k.is.has("eyes") {
		k.Dot(pt{X: 0.06}, 0.028)
	}
}

// springtail draws a springtail from the side, its fork folded beneath.
func springtail(k *sketch) {
	k.part(pt{X: -0.1, Y: -0.06}, "antennae", "feelers")
	k.Part("antennae", "body")
	if k.is.has("antennae") {
		k.joint(pt{X: 0.04, Y: -0.04}, pt{X: -0.06, Y: -0.1}, 0.016, 0.014)
		k.joint(pt{X: -0.05, Y: -0.095}, pt{X: -0.17, Y: -0.06}, 0.013, 0.009)
	}
	k.part(pt{X: 0.3, Y: 0.2}, "legs", "leg-place", "leg-length", "forelegs", "hindlegs", "claws")
	k.Part("legs", "leg-place", "leg-length")
	for i := range 3 {
		x := 0.24 + 0.11*float64(i)
		k.leg(limbAt(0.022, x, 0.08, x-0.02, 0.17, x-0.05, 0.25, x-0.09, 0.26))
	}
	k.part(pt{X: 0.72, Y: 0.17}, "hind", "tails", "tube", "move")
	k.Part("hind", "body")
	k.joint(pt{X: 0.86, Y: 0.08}, pt{X: 0.8, Y: 0.17}, 0.03, 0.022)
	k.whip(0.016, pt{X: 0.8, Y: 0.16}, pt{X: 0.68, Y: 0.2}, pt{X: 0.55, Y: 0.2})
	k.whip(0.014, pt{X: 0.8, Y: 0.17}, pt{X: 0.7, Y: 0.24}, pt{X: 0.58, Y: 0.26})
	k.part(pt{X: 0.6, Y: -0.13}, "outline", "flat", "rings", "wings", "plates", "pattern", "hair", "gills")
	k.Part("outline", "rings", "body")
	w := slim(0.16, 0.08, 0.3, 0.11, 0.6, 0.125, 0.85, 0.1, 1, 0.04)
	k.Toned(w.outline(0.14, 1)...)
	for i := range 6 {
		x := 0.25 + 0.12*float64(i)
		k.Curve(pt{X: x, Y: -w.width(x) * 0.97}, pt{X: x + 0.015}, pt{X: x, Y: w.width(x) * 0.97})
	}
	k.part(pt{X: 0.04, Y: 0.02}, "head", "mouth", "head-colour")
	k.Part("head", "body")
	k.Blob(path(0, 0.03, 0.02, -0.06, 0.1, -0.09, 0.17, -0.04, 0.16, 0.07, 0.06, 0.1)...)
	k.part(pt{X: 0.08, Y: -0.03}, "eyes")
	if k.is.has("eyes") {
		k.Dot(pt{X: 0.08, Y: -0.03}, 0.016)
	}
}
