package figure

// landBeetle draws a beetle of the land from beneath, as it floats on its back and
// struggles: its legs in the air, the rim of its covers round it.
func landBeetle(k *sketch) {
	k.part(pt{X: 0.9, Y: 0.3}, "wings", "pads", "outline", "flat", "shield", "pattern")
	k.Part("wings", "outline", "body")
	k.Toned(mirrored(0.2, 0.1, 0.22, 0.26, 0.34, 0.37, 0.55, 0.41, 0.76, 0.36, 0.93, 0.2, 1, 0.03)...)
	k.part(pt{X: 0.75, Y: 0.05}, "rings", "skin", "plates", "hair", "gills")
	k.Part("rings", "body")
	k.Blob(mirrored(0.5, 0.2, 0.54, 0.31, 0.66, 0.31, 0.82, 0.23, 0.94, 0.09, 0.96, 0.02)...)
	k.Texture(func() {
		for i := range 4 {
			x, h := 0.6+0.085*float64(i), 0.3-0.065*float64(i)
			k.Curve(pt{X: x, Y: -h}, pt{X: x + 0.02}, pt{X: x, Y: h})
		}
	})
	k.Part("body", "plates")
	k.Blob(mirrored(0.2, 0.1, 0.23, 0.21, 0.36, 0.31, 0.5, 0.33, 0.53, 0.2, 0.54, 0.03)...)
	k.Curve(path(0.36, -0.3, 0.38, 0, 0.36, 0.3)...)
	k.part(pt{X: 0.05, Y: 0.05}, "head", "mouth", "head-colour")
	k.Part("head", "body")
	k.Blob(mirrored(0.02, 0.05, 0.04, 0.12, 0.12, 0.16, 0.21, 0.14, 0.22, 0.04)...)
	k.part(pt{X: 0.1, Y: -0.14}, "eyes")
	if k.is.has("eyes") {
		sides(func(s float64) { k.Solid(spot(0.1, s*0.14, 0.03, 0.024)...) })
	}
	k.part(pt{X: 0, Y: -0.14}, "antennae", "feelers")
	k.Part("antennae")
	if k.is.has("antennae") {
		sides(func(s float64) {
			k.Line(pt{X: 0.04, Y: s * 0.07}, pt{X: -0.03, Y: s * 0.13})
			k.Solid(spot(-0.04, s*0.145, 0.02, 0.016)...)
		})
	}
	k.part(pt{X: 0.4, Y: 0.2}, "tails", "hind", "prolegs")
	if k.is.is("legs", "0") {
		return
	}
	k.threePairs(limbAt(0.03, 0.28, 0.05, 0.2, 0.19, 0.06, 0.27, -0.01, 0.25), limbAt(0.03, 0.4, 0.06, 0.42, 0.25, 0.34, 0.42, 0.3, 0.49),
		limbAt(0.03, 0.5, 0.06, 0.62, 0.25, 0.74, 0.38, 0.8, 0.46))
}
