package figure

// fishLouse draws a flat disc from beneath: two suckers side by side, four pairs of short
// legs, a tail of two lobes.
func fishLouse(k *sketch) {
	ry := 0.4
	if k.is.is("outline", "oval") {
		ry = 0.33
	}
	k.part(pt{X: 1, Y: 0.05}, "hind", "tails")
	k.Part("hind")
	sides(func(s float64) {
		k.Blob(path(0.76, s*0.01, 0.86, s*0.02, 0.99, s*0.05, 0.98, s*0.13, 0.86, s*0.15, 0.76, s*0.12)...)
	})
	k.part(pt{X: 0.7, Y: -ry * 0.75}, "outline", "flat", "rings", "skin", "pattern", "shield", "plates")
	k.Part("outline", "body", "shield")
	k.Blob(path(0, 0, 0.06, -ry*0.6, 0.3, -ry, 0.62, -ry*0.9, 0.82, -ry*0.5, 0.8, -0.14, 0.74, 0,
		0.8, 0.14, 0.82, ry*0.5, 0.62, ry*0.9, 0.3, ry, 0.06, ry*0.6)...)
	k.part(pt{X: 0.62, Y: 0.17}, "legs", "leg-place", "leg-length", "forelegs", "hindlegs", "claws")
	if k.is.has("legs") {
		k.Part("legs")
		for i := range 4 {
			x := 0.44 + 0.09*float64(i)
			sides(func(s float64) {
				k.Line(pt{X: x, Y: s * 0.04}, pt{X: x + 0.03, Y: s * 0.15}, pt{X: x + 0.09, Y: s * 0.24})
			})
		}
	}
	k.part(pt{X: 0.29, Y: 0.15}, "suckers")
	if k.is.has("suckers") {
		k.Part("suckers")
		sides(func(s float64) {
			k.Ring(pt{X: 0.29, Y: s * 0.15}, 0.085)
			k.Ring(pt{X: 0.29, Y: s * 0.15}, 0.045)
		})
	}
	k.part(pt{X: 0.14, Y: 0.1}, "eyes", "head", "antennae", "mouth")
	if k.is.has("eyes") {
		k.Part("eyes")
		sides(func(s float64) { k.Dot(pt{X: 0.13, Y: s * 0.1}, 0.025) })
	}
}

// ragworm draws a long ringed worm from above, a paddle with bristles on each side of
// every ring, feelers in front.
func ragworm(k *sketch) {
	k.Warp(wave)
	const rings = 17
	width := func(x float64) float64 { return 0.055 - 0.03*max(0, x-0.4) }
	k.part(pt{X: 0.5, Y: -0.12}, "side-arms", "legs", "leg-place", "leg-length", "prolegs", "hair", "gills")
	k.Part("body")
	for _, paddles := range []string{"side-arms", "legs"} {
		if k.is.has(paddles) {
			k.Part(paddles)
		}
	}
	for i := range rings {
		x := 0.14 + 0.05*float64(i)
		w := width(x)
		sides(func(s float64) {
			k.Line(pt{X: x - 0.012, Y: s * w}, pt{X: x + 0.005, Y: s * (w + 0.05)}, pt{X: x + 0.018, Y: s * w})
			k.Texture(func() {
				for b := range 3 {
					k.Line(pt{X: x + 0.005, Y: s * (w + 0.04)}, pt{X: x - 0.01 + 0.02*float64(b), Y: s * (w + 0.09)})
				}
			})
		})
	}
	k.part(pt{X: 0.7, Y: 0}, "outline", "flat", "rings", "skin", "pattern")
	k.Part("outline", "body", "rings")
	k.Blob(mirrored(0.09, 0.04, 0.14, 0.052, 0.4, 0.055, 0.7, 0.046, 0.95, 0.036, 1, 0.01)...)
	k.Texture(func() {
		for i := range rings {
			x := 0.165 + 0.05*float64(i)
			k.Line(pt{X: x, Y: -width(x)}, pt{X: x, Y: width(x)})
		}
	})
	k.part(pt{X: 1, Y: 0}, "hind", "tails", "suckers")
	if k.is.has("tails") {
		k.Part("tails")
		sides(func(s float64) { k.Curve(pt{X: 1, Y: s * 0.01}, pt{X: 1.06, Y: s * 0.03}, pt{X: 1.13, Y: s * 0.04}) })
	}
	k.part(pt{X: 0.03, Y: 0}, "antennae", "feelers", "head", "eyes", "mouth")
	k.Part("antennae")
	sides(func(s float64) {
		k.Curve(pt{X: 0.045, Y: s * 0.015}, pt{X: 0, Y: s * 0.02}, pt{X: -0.04, Y: s * 0.03})
		k.Curve(pt{X: 0.08, Y: s * 0.04}, pt{X: 0.04, Y: s * 0.1}, pt{X: -0.03, Y: s * 0.14})
	})
	k.Part("head")
	k.Blob(mirrored(0.035, 0.01, 0.04, 0.03, 0.07, 0.045, 0.1, 0.04)...)
	if k.is.has("eyes") {
		k.Part("eyes")
		sides(func(s float64) {
			k.Dot(pt{X: 0.06, Y: s * 0.02}, 0.007)
			k.Dot(pt{X: 0.08, Y: s * 0.025}, 0.007)
		})
	}
	k.Warp(nil)
}

// falseScorpion draws a flat pear of rings from above, long pincers in front, no tail.
func falseScorpion(k *sketch) {
	k.part(pt{X: 0.45, Y: 0.4}, "legs", "leg-place", "leg-length", "claws", "hindlegs")
	for i := range 4 {
		d := 62 + 26*float64(i)
		sides(func(s float64) {
			hip := pt{X: 0.32}.Polar(0.17, 180+s*d)
			knee := hip.Polar(0.15, 180+s*(d-12))
			k.leg(limb{hip, knee, knee.Polar(0.12, 180+s*(d+14)), knee.Polar(0.2, 180+s*(d+20)), 0.022})
		})
	}
	k.part(pt{X: -0.3, Y: 0.22}, "forelegs", "antennae")
	k.Part("forelegs")
	sides(func(s float64) {
		shoulder, elbow := pt{X: 0.14, Y: s * 0.1}, pt{X: -0.02, Y: s * 0.36}
		k.joint(shoulder, elbow, 0.03, 0.035)
		if k.is.is("forelegs", "pincers") {
			k.pincer(elbow, 0.36, 180-s*20)
		}
	})
	k.part(pt{X: 0.75, Y: 0}, "rings", "outline", "flat", "skin", "plates", "hind", "tails", "pattern")
	k.Part("rings", "outline", "body")
	k.Blob(mirrored(0.34, 0.13, 0.4, 0.17, 0.6, 0.24, 0.8, 0.23, 0.95, 0.13, 1, 0.02)...)
	k.Texture(func() {
		for i, half := range []float64{0.2, 0.225, 0.24, 0.24, 0.225, 0.18} {
			x := 0.46 + 0.08*float64(i)
			k.Line(pt{X: x, Y: -half}, pt{X: x, Y: half})
		}
	})
	k.Blob(mirrored(0.04, 0.04, 0.1, 0.11, 0.24, 0.15, 0.36, 0.16, 0.37, 0.02)...)
	k.part(pt{X: 0.1, Y: 0}, "head", "eyes", "mouth")
	if k.is.has("eyes") {
		k.Part("eyes")
		sides(func(s float64) { k.Dot(pt{X: 0.11, Y: s * 0.08}, 0.014) })
	}
}

// harvestman draws one small pill on eight legs like threads, from above.
func harvestman(k *sketch) {
	ry := 0.3
	if k.is.is("outline", "disc") {
		ry = 0.4
	}
	k.part(pt{X: 0.2, Y: 1.1}, "legs", "leg-place", "leg-length", "claws", "forelegs", "hindlegs")
	k.Part("legs")
	for i := range 4 {
		d, long := 38+32*float64(i), []float64{0.8, 1.25, 0.9, 1.1}[i]
		sides(func(s float64) {
			hip := pt{X: 0.35}.Polar(ry*0.8, 180+s*d)
			knee := hip.Polar(long*0.5, 180+s*(d-10))
			ankle := knee.Polar(long*0.6, 180+s*(d+12))
			k.Curve(hip, knee, ankle, ankle.Polar(long*0.35, 180+s*(d+34)))
		})
	}
	k.part(pt{X: 0.75, Y: 0}, "rings", "outline", "flat", "skin", "pattern", "hair")
	k.Part("rings", "outline", "body")
	k.Toned(mirrored(0, 0.05, 0.06, ry*0.6, 0.3, ry*0.95, 0.6, ry, 0.9, ry*0.6, 1, 0.04)...)
	k.part(pt{X: 0.24, Y: 0}, "eyes", "head", "antennae", "mouth")
	k.Ring(pt{X: 0.24}, 0.07)
	if k.is.has("eyes") {
		k.Part("eyes")
		sides(func(s float64) { k.Dot(pt{X: 0.24, Y: s * 0.05}, 0.022) })
	}
}
