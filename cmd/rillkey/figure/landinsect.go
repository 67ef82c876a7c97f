package figure

// landInsect draws an insect of the land from above, an ant with its waist, on the wing
// or not.
func landInsect(k *sketch) {
	k.part(pt{X: -0.1, Y: -0.16}, "antennae", "feelers")
	k.Part("antennae", "feelers")
	if k.is.has("antennae") {
		sides(func(s float64) {
			elbow := pt{X: -0.06, Y: s * 0.1}
			k.Line(pt{X: 0.04, Y: s * 0.05}, elbow)
			k.whip(0.007, elbow, elbow.Polar(0.09, 180-s*58), elbow.Polar(0.18, 180-s*70))
		})
	}
	k.threePairs(limbAt(0.016, 0.28, 0.05, 0.19, 0.2, 0.05, 0.27, -0.03, 0.27),
		limbAt(0.016, 0.35, 0.06, 0.36, 0.24, 0.4, 0.38, 0.44, 0.45),
		limbAt(0.018, 0.42, 0.05, 0.54, 0.23, 0.7, 0.35, 0.8, 0.4))
	k.part(pt{X: 0.78, Y: 0.15}, "rings", "outline", "flat", "skin", "hair", "pattern", "gills", "tails", "hind", "prolegs")
	k.Part("rings", "outline", "body")
	k.Blob(spot(0.515, 0, 0.035, 0.035)...) // the waist
	w := slim(0.53, 0.04, 0.6, 0.125, 0.72, 0.16, 0.85, 0.13, 0.95, 0.06, 1, 0.015)
	k.Toned(w.outline(0.54, 1)...)
	k.Part("rings", "body")
	for i := range 3 {
		x := 0.66 + 0.095*float64(i)
		k.Texture(func() { k.Curve(pt{X: x, Y: -w.width(x) * 0.97}, pt{X: x + 0.02}, pt{X: x, Y: w.width(x) * 0.97}) })
	}
	k.part(pt{X: 0.32, Y: 0.04}, "plates", "shield")
	k.Part("plates", "body")
	k.Blob(mirrored(0.2, 0.03, 0.22, 0.075, 0.29, 0.105, 0.38, 0.09, 0.47, 0.05, 0.49, 0.02)...)
	k.part(pt{X: 0.6, Y: 0.3}, "wings", "pads")
	k.Part("wings")
	switch {
	case k.is.is("wings", "flying"):
		sides(func(s float64) {
			for _, f := range []struct{ x, length, width, turn float64 }{{0.36, 0.5, 0.07, 30}, {0.29, 0.74, 0.085, 40}} {
				root := pt{X: f.x, Y: s * 0.07}
				k.leaf(root, f.length, f.width, s*f.turn)
				k.Texture(func() {
					k.Line(root, root.Polar(f.length*0.8, s*(f.turn-4)))
					k.Line(root.Polar(f.length*0.35, s*f.turn), root.Polar(f.length*0.75, s*(f.turn+5)))
				})
			}
		})
	case k.is.is("wings", "crossed", "hard"):
		hardWings(k, w.scaled(1.1), 0.45)
	case k.is.has("wings"):
		pads(k, w)
	}
	k.part(pt{X: 0.02}, "head", "mouth", "head-colour")
	k.Part("head", "body")
	k.Blob(mirrored(0, 0.05, 0.02, 0.085, 0.1, 0.115, 0.17, 0.09, 0.21, 0.03)...)
	k.part(pt{X: 0.1, Y: -0.11}, "eyes")
	if k.is.has("eyes") {
		sides(func(s float64) { k.Solid(spot(0.1, s*0.105, 0.03, 0.022)...) })
	}
}
