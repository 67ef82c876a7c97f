package figure

// centipede draws a long animal with a pair of legs on every ring, from above; coiled
// up where it rolls up.
func centipede(k *sketch) {
	k.bend(k.is["posture"])
	half := 0.055
	if k.is.is("flat", "flat") {
		half = 0.075
	}
	feelersAbove(k, half*1.1)
	const rings = 16
	k.part(pt{X: 0.5, Y: half + 0.1}, "legs", "leg-place", "leg-length", "claws")
	for i := range rings {
		x := 0.16 + 0.052*float64(i)
		back := 0.02 + 0.004*float64(i)
		if i == rings-1 && k.is.is("hindlegs", "long") {
			back = 0.16
		}
		k.Part("legs")
		sides(func(s float64) { k.Line(pt{X: x, Y: s * half}, pt{X: x + back, Y: s * (half + 0.1)}) })
	}
	k.places["forelegs"], k.places["hindlegs"] = []pt{{X: 0.16, Y: half + 0.1}}, []pt{{X: 0.95, Y: half + 0.1}}
	k.part(pt{X: 0.5, Y: 0}, "rings", "outline", "flat", "plates", "skin")
	k.Part("rings", "body", "outline")
	for i := range rings {
		x := 0.135 + 0.052*float64(i)
		k.Blob(mirrored(x, half*0.6, x+0.01, half, x+0.045, half, x+0.055, half*0.6)...)
	}
	k.part(pt{X: 1, Y: 0}, "hind", "tails")
	headAbove(k, half*1.1)
}

// slug draws a slug from the side: two pairs of horns, a mantle, a foot.
func slug(k *sketch) {
	k.part(pt{X: 0.06, Y: -0.1}, "antennae", "feelers", "eyes")
	k.Part("antennae")
	k.Line(pt{X: 0.1, Y: 0.02}, pt{X: -0.02, Y: -0.15})
	k.Line(pt{X: 0.13, Y: 0}, pt{X: 0.05, Y: -0.17})
	k.Line(pt{X: 0.06, Y: 0.1}, pt{X: -0.04, Y: 0.07})
	k.Line(pt{X: 0.06, Y: 0.12}, pt{X: -0.04, Y: 0.13})
	k.Dot(pt{X: -0.02, Y: -0.15}, 0.014)
	k.Dot(pt{X: 0.05, Y: -0.17}, 0.014)
	k.part(pt{X: 0.6, Y: 0}, "outline", "flat", "rings", "skin", "pattern")
	k.Part("outline", "body")
	k.Blob(path(0.03, 0.1, 0.08, 0, 0.2, -0.05, 0.4, -0.1, 0.7, -0.04, 0.9, 0.06, 1, 0.16, 0.5, 0.18, 0.1, 0.17)...)
	k.Part("body")
	k.Curve(path(0.2, -0.05, 0.24, 0.05, 0.4, 0.06, 0.52, 0, 0.5, -0.09)...)
	k.Curve(path(0.06, 0.14, 0.5, 0.145, 0.95, 0.15)...)
	k.part(pt{X: 0.05, Y: 0.06}, "head", "mouth")
	legMarks(k)
}

// ribbonWorm draws a thin smooth worm from above, which shoots a thread out of its front.
func ribbonWorm(k *sketch) {
	k.Warp(wave)
	k.part(pt{X: 0.6, Y: -0.05}, "outline", "flat", "rings", "skin")
	k.Part("outline", "body", "head")
	k.Blob(mirrored(0.2, 0.02, 0.23, 0.036, 0.4, 0.04, 0.8, 0.036, 1, 0.008)...)
	k.part(pt{X: 0.24, Y: 0}, "eyes")
	k.Part("eyes")
	for i := range 3 {
		sides(func(s float64) {
			if k.is.has("eyes") {
				k.Dot(pt{X: 0.235 + 0.03*float64(i), Y: s * 0.018}, 0.007)
			}
		})
	}
	k.part(pt{X: 0.19, Y: 0}, "mouth", "head", "antennae")
	k.Warp(nil)
	if k.is.is("mouth", "thread") {
		k.Part("mouth")
		k.Curve(path(0.2, 0.02, 0.12, 0.06, 0.05, -0.02, -0.05, 0.05, -0.15, 0)...)
	}
	legMarks(k)
}
