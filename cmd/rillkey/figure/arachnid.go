package figure

import "rillkey/cmd/rillkey/figure/draw"

// mite draws one small undivided body with legs set round it, from above.
func mite(k *sketch) {
	ry := 0.42
	if k.is.is("outline", "oval") {
		ry = 0.36
	}
	k.part(pt{X: 0.3, Y: 0.55}, "legs", "leg-place", "leg-length", "claws")
	n := 4
	if k.is.is("legs", "6") {
		n = 3
	}
	for i := range n {
		d := 25 + 42*float64(i)
		sides(func(s float64) {
			hip := pt{X: 0.42}.Polar(0.32, 180+s*d)
			knee := hip.Polar(0.26, 180+s*(d-14))
			k.stout(hip, knee, 0.028)
			k.Curve(knee, knee.Polar(0.12, 180+s*d), knee.Polar(0.26, 180+s*(d+18)))
		})
	}
	k.part(pt{X: 0.02, Y: 0}, "mouth", "antennae", "head")
	sides(func(s float64) { k.finger(pt{X: 0.06, Y: s * 0.04}, 0.1, 0.04, 180-s*12) })
	k.part(pt{X: 0.85, Y: ry * 0.72}, "rings", "outline", "flat")
	k.Part("rings", "outline", "body")
	k.Blob(draw.Oval(pt{X: 0.5}, 0.5, ry)...)
	k.part(pt{X: 0.14, Y: 0.1}, "eyes")
	sides(func(s float64) {
		if k.is.has("eyes") {
			k.Dot(pt{X: 0.13, Y: s * 0.11}, 0.028)
		}
	})
	k.Part("body")
	k.Curve(pt{X: 0.4, Y: -0.2}, pt{X: 0.55, Y: -0.1}, pt{X: 0.75, Y: -0.12})
	k.Curve(pt{X: 0.4, Y: 0.2}, pt{X: 0.55, Y: 0.1}, pt{X: 0.75, Y: 0.12})
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
			knee := hip.Polar(reach*0.75, 180+s*(d-8))
			k.stout(hip, knee, 0.014)
			k.Line(knee, knee.Polar(reach*0.8, 180+s*(d+16)))
		})
	}
	k.part(pt{X: 0.42, Y: 0}, "rings", "outline", "flat")
	k.Part("rings", "body")
	ry := 0.22
	if k.is.is("outline", "spindle") {
		ry = 0.17
	}
	k.Blob(ovalAt(0.7, 0, 0.3, ry)...)
	k.Blob(ovalAt(0.23, 0, 0.2, 0.165)...)
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

// flea draws a water flea from the side: a clear shell round the body, branched
// arms to hop with.
func flea(k *sketch) {
	ry := 0.3
	if k.is.is("outline", "disc") {
		ry = 0.4
	}
	k.part(pt{X: 0.72, Y: ry * 0.8}, "outline", "flat", "rings")
	k.Part("outline", "body")
	k.Blob(pt{X: 0.24, Y: -ry * 0.6}, pt{X: 0.45, Y: -ry * 0.95}, pt{X: 0.75, Y: -ry * 0.7}, pt{X: 0.95, Y: -ry * 0.3},
		pt{X: 1.12, Y: -ry * 0.3}, pt{X: 0.95, Y: -ry * 0.1}, pt{X: 0.85, Y: ry * 0.5}, pt{X: 0.6, Y: ry}, pt{X: 0.35, Y: ry * 0.9}, pt{X: 0.24, Y: ry * 0.3})
	k.part(pt{X: 0.08, Y: 0}, "head")
	k.Part("head", "body")
	k.Blob(pt{X: 0.28, Y: -ry * 0.65}, pt{X: 0.12, Y: -ry * 0.55}, pt{X: 0.02, Y: -ry * 0.1}, pt{X: 0.06, Y: ry * 0.35},
		pt{X: 0.02, Y: ry * 0.65}, pt{X: 0.14, Y: ry * 0.5}, pt{X: 0.28, Y: ry * 0.35})
	k.part(pt{X: 0.1, Y: -0.02}, "eyes")
	if k.is.has("eyes") {
		k.Dot(pt{X: 0.1, Y: -0.03}, 0.035)
	}
	k.part(pt{X: 0.1, Y: -ry}, "antennae", "move")
	k.Part("antennae", "body")
	arm := pt{X: 0.2, Y: -ry * 0.5}
	elbow := pt{X: 0.14, Y: -ry * 1.35}
	k.stout(arm, elbow, 0.02)
	for _, d := range []float64{-150, -120, -85, -60} {
		k.Line(elbow, elbow.Polar(0.2, d))
	}
	k.Part("body")
	for i := range 4 {
		x := 0.4 + 0.09*float64(i)
		k.Curve(pt{X: x, Y: -ry * 0.1}, pt{X: x + 0.02, Y: ry * 0.3}, pt{X: x - 0.03, Y: ry * 0.6})
	}
	k.part(pt{X: 0.5, Y: ry}, "legs", "leg-place", "shell")
}
