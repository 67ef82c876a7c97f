package figure

import "math"

// fish draws a fish from the side.
func fish(k *sketch) {
	h := 0.15
	if k.is.is("outline", "spindle") {
		h = 0.18
	}
	k.part(pt{X: 1.02, Y: 0}, "hind")
	if k.is.is("hind", "fan") {
		k.Blob(pt{X: 0.84, Y: -0.03}, pt{X: 1.0, Y: -0.17}, pt{X: 1.04, Y: -0.15}, pt{X: 0.96, Y: 0}, pt{X: 1.04, Y: 0.15},
			pt{X: 1.0, Y: 0.17}, pt{X: 0.84, Y: 0.03})
	}
	k.Part("body")
	k.Blob(pt{X: 0.42, Y: -h * 0.8}, pt{X: 0.5, Y: -h * 1.75}, pt{X: 0.68, Y: -h * 1.3}, pt{X: 0.72, Y: -h * 0.5})
	k.Blob(pt{X: 0.6, Y: h * 0.6}, pt{X: 0.66, Y: h * 1.5}, pt{X: 0.76, Y: h * 1.1}, pt{X: 0.76, Y: h * 0.4})
	k.part(pt{X: 0.5, Y: 0}, "outline", "flat", "rings", "skin", "backbone")
	k.Part("outline", "backbone", "body")
	k.Blob(pt{X: 0, Y: 0.01}, pt{X: 0.1, Y: -h * 0.6}, pt{X: 0.32, Y: -h}, pt{X: 0.6, Y: -h * 0.8}, pt{X: 0.88, Y: -0.04},
		pt{X: 0.88, Y: 0.04}, pt{X: 0.6, Y: h * 0.8}, pt{X: 0.32, Y: h}, pt{X: 0.1, Y: h * 0.65})
	k.part(pt{X: 0.33, Y: h * 0.5}, "limbs")
	k.leaf(pt{X: 0.27, Y: h * 0.25}, 0.15, 0.045, 28)
	k.leaf(pt{X: 0.42, Y: h * 0.92}, 0.14, 0.04, 50)
	k.Part("body", "head")
	k.Curve(pt{X: 0.2, Y: -h * 0.6}, pt{X: 0.25, Y: 0.02}, pt{X: 0.2, Y: h * 0.7})
	k.Line(pt{X: 0.005, Y: 0.025}, pt{X: 0.06, Y: 0.035})
	k.part(pt{X: 0.09, Y: -0.03}, "eyes", "head")
	k.Ring(pt{X: 0.095, Y: -0.03}, 0.026)
	k.Dot(pt{X: 0.095, Y: -0.03}, 0.012)
	legMarks(k)
}

// legMarks marks where jointed legs, shell or gills would be.
func legMarks(k *sketch) {
	k.part(pt{X: 0.4, Y: 0.13}, "legs", "leg-place", "shell", "gills", "tails")
}

// tadpole draws a tadpole from the side: a round body, a high clear fin above
// and below a muscled tail; its hind limbs come first.
func tadpole(k *sketch) {
	k.part(pt{X: 0.85, Y: 0}, "hind")
	k.Part("hind", "body")
	k.Blob(path(0.28, -0.13, 0.42, -0.19, 0.62, -0.2, 0.85, -0.12, 1, 0.02, 0.85, 0.13, 0.62, 0.18, 0.42, 0.15, 0.36, 0.08)...)
	k.Toned(path(0.36, -0.06, 0.6, -0.05, 0.96, 0.015, 0.6, 0.06, 0.36, 0.07)...)
	k.Texture(func() {
		for i := range 5 {
			x := 0.47 + 0.08*float64(i)
			k.Line(path(x, -0.045, x+0.02, 0.005, x, 0.05)...)
		}
	})
	k.part(pt{X: 0.45, Y: 0.16}, "limbs")
	if k.is.is("limbs", "two") {
		softLimb(k, pt{X: 0.39, Y: 0.08}, 50, 45, 0.18)
	}
	k.part(pt{X: 0.25, Y: 0}, "outline", "flat", "rings", "skin", "backbone", "pattern")
	k.Part("outline", "backbone", "body")
	k.Toned(path(0, 0.02, 0.03, -0.08, 0.14, -0.15, 0.28, -0.14, 0.4, -0.06, 0.42, 0.02, 0.36, 0.12, 0.22, 0.17, 0.08, 0.13)...)
	k.Part("body", "mouth")
	k.Blob(path(0.0, 0.03, -0.025, 0.05, -0.01, 0.09, 0.03, 0.085)...)
	k.part(pt{X: 0.12, Y: -0.06}, "eyes", "head")
	k.Ring(pt{X: 0.12, Y: -0.055}, 0.03)
	k.Dot(pt{X: 0.12, Y: -0.055}, 0.016)
	legMarks(k)
}

// eel draws a long smooth body with one fin round its tail and a row of holes
// behind the head, from the side.
func eel(k *sketch) {
	k.Warp(func(p pt) pt { return pt{X: p.X, Y: p.Y + 0.05*math.Sin(p.X*5.5)} })
	k.part(pt{X: 0.9, Y: 0}, "hind")
	k.Part("hind", "body")
	if k.is.is("hind", "fan") {
		k.Blob(pt{X: 0.92, Y: -0.01}, pt{X: 1.03, Y: -0.11}, pt{X: 1.01, Y: 0}, pt{X: 1.03, Y: 0.11}, pt{X: 0.92, Y: 0.01})
	} else {
		k.Blob(pt{X: 0.5, Y: -0.04}, pt{X: 0.7, Y: -0.1}, pt{X: 0.95, Y: -0.07},
			pt{X: 1.02, Y: 0}, pt{X: 0.95, Y: 0.07}, pt{X: 0.75, Y: 0.08}, pt{X: 0.6, Y: 0.04})
	}
	k.part(pt{X: 0.5, Y: 0}, "outline", "flat", "rings", "skin", "backbone", "limbs")
	k.Part("outline", "backbone", "body")
	k.Toned(path(0, 0.005, 0.03, -0.034, 0.12, -0.044, 0.3, -0.048, 0.5, -0.045, 0.7, -0.036, 0.98, 0, 0.7, 0.036, 0.5, 0.045, 0.3,
		0.048, 0.12, 0.044, 0.03, 0.036)...)
	k.part(pt{X: 0.05, Y: -0.01}, "eyes", "head")
	if k.is.has("eyes") {
		k.Dot(pt{X: 0.05, Y: -0.012}, 0.012)
	}
	k.part(pt{X: 0, Y: 0.01}, "mouth")
	if k.is.is("mouth", "hood") {
		k.Part("mouth")
		k.Blob(path(0.05, -0.05, -0.02, -0.06, -0.05, 0.02, -0.02, 0.06, 0.03, 0.035)...)
	}
	k.part(pt{X: 0.17, Y: 0.01}, "neck")
	if k.is.is("neck", "holes") {
		k.Part("neck", "body")
		for i := range 7 {
			k.Dot(pt{X: 0.1 + 0.025*float64(i), Y: 0.005}, 0.006)
		}
	}
	legMarks(k)
	k.Warp(nil)
}

// softLimb draws a soft limb with toes that bends by so many degrees.
func softLimb(k *sketch, at pt, degrees, bend, length float64) {
	elbow := at.Polar(length*0.55, degrees)
	end := elbow.Polar(length*0.5, degrees+bend)
	k.joint(elbow, end, 0.022, 0.02)
	k.joint(at, elbow, 0.03, 0.023)
	for _, d := range []float64{-54, -18, 18, 54} {
		k.Line(end, end.Polar(0.055, degrees+bend+d))
	}
}

// salamander draws an animal with soft limbs and a finned tail, from above.
func salamander(k *sketch) {
	k.part(pt{X: 0.25, Y: 0.2}, "limbs", "legs")
	sides(func(s float64) {
		if k.is.is("limbs", "four") {
			softLimb(k, pt{X: 0.28, Y: s * 0.06}, s*70, s*40, 0.19)
		}
		softLimb(k, pt{X: 0.55, Y: s * 0.05}, s*65, s*35, 0.19)
	})
	k.part(pt{X: 0.175, Y: 0.12}, "neck", "gills")
	k.Part("neck")
	if k.is.has("neck") {
		sides(func(s float64) {
			for _, d := range []float64{28, 58, 88} {
				k.feather(pt{X: 0.15, Y: s * 0.07}, 0.12, s*d, 0.028)
			}
		})
	}
	k.part(pt{X: 0.4, Y: 0}, "outline", "flat", "rings", "skin", "backbone")
	k.Part("outline", "backbone", "body")
	k.Toned(mirrored(0, 0.02, 0.01, 0.05, 0.05, 0.082, 0.1, 0.09, 0.16, 0.068, 0.22, 0.066, 0.36, 0.082, 0.5, 0.072, 0.6, 0.042, 0.8,
		0.024, 1, 0.004)...)
	k.part(pt{X: 0.8, Y: 0}, "hind")
	k.Line(pt{X: 0.24}, pt{X: 0.99})
	k.Texture(func() { // the furrows between its ribs
		for i := range 6 {
			x := 0.3 + 0.04*float64(i)
			sides(func(s float64) { k.Line(pt{X: x, Y: s * 0.03}, pt{X: x + 0.008, Y: s * 0.062}) })
		}
	})
	k.part(pt{X: 0.06, Y: -0.055}, "eyes", "head")
	sides(func(s float64) { k.Dot(pt{X: 0.06, Y: s * 0.058}, 0.016) })
}
