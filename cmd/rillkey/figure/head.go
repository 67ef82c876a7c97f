package figure

// headAbove draws a head seen from above, its hind edge as wide as half allows.
func headAbove(k *sketch, half float64) {
	w := min(max(half*0.95, 0.06), 0.13)
	if k.is.is("eyes", "top") {
		w = half * 1.25
	}
	k.part(pt{X: 0.02}, "head", "mouth")
	switch k.is["head"] {
	case "none":
		k.Blob(pt{X: 0.02}, pt{X: 0.06, Y: -half * 0.8}, pt{X: 0.16, Y: -half}, pt{X: 0.16, Y: half}, pt{X: 0.06, Y: half * 0.8})
		mouth(k, w)
		return
	case "covered":
		if !k.is.is("shield", "saucer") {
			coveredHead(k, half)
		}
		return
	case "sunk":
		w *= 0.55
		k.Blob(pt{X: 0.09}, pt{X: 0.11, Y: -w}, pt{X: 0.17, Y: -w}, pt{X: 0.17, Y: w}, pt{X: 0.11, Y: w})
	case "soft":
		k.Blob(pt{X: 0}, pt{X: 0.03, Y: -w * 0.7}, pt{X: 0.15, Y: -w}, pt{X: 0.15, Y: w}, pt{X: 0.03, Y: w * 0.7})
	default:
		k.Blob(pt{X: 0}, pt{X: 0.025, Y: -w * 0.75}, pt{X: 0.085, Y: -w}, pt{X: 0.14, Y: -w * 0.85},
			pt{X: 0.15}, pt{X: 0.14, Y: w * 0.85}, pt{X: 0.085, Y: w}, pt{X: 0.025, Y: w * 0.75})
	}
	k.part(pt{X: 0.09, Y: 0}, "head-colour")
	shadeHead(k, w)
	eyesAbove(k, w)
	mouth(k, w)
}

// coveredHead draws a head that a shield hides: the rim of the shield, the head
// beneath it in dashes.
func coveredHead(k *sketch, half float64) {
	h := max(half*1.5, 0.15)
	k.Blob(pt{X: -0.05}, pt{X: 0, Y: -h * 0.7}, pt{X: 0.15, Y: -h}, pt{X: 0.27, Y: -h * 0.8}, pt{X: 0.24}, pt{X: 0.27, Y: h * 0.8},
		pt{X: 0.15, Y: h}, pt{X: 0, Y: h * 0.7})
	k.Dotted(pt{X: 0.1}, 0.07, 0.07)
}

// shadeHead marks the colour of the head by lines: close ones for dark, dots
// for orange, stripes for striped, four spots for spotted.
func shadeHead(k *sketch, w float64) {
	outline := []pt{{X: 0.01}, {X: 0.03, Y: -w * 0.7}, {X: 0.085, Y: -w * 0.9}, {X: 0.135, Y: -w * 0.8}, {X: 0.135, Y: w * 0.8},
		{X: 0.085, Y: w * 0.9}, {X: 0.03, Y: w * 0.7}}
	switch k.is["head-colour"] {
	case "dark":
		k.hatch(outline, 0.018, 45)
		k.hatch(outline, 0.018, -45)
	case "orange":
		k.speckle(outline, 0.026, 0.004)
	case "striped":
		k.hatch(outline, w/2.2, 0)
	case "spotted":
		sides(func(s float64) {
			k.Dot(pt{X: 0.06, Y: s * w * 0.3}, 0.012)
			k.Dot(pt{X: 0.11, Y: s * w * 0.5}, 0.012)
		})
	}
}

func eyesAbove(k *sketch, w float64) {
	k.part(pt{X: 0.06, Y: -w}, "eyes")
	sides(func(s float64) {
		switch k.is["eyes"] {
		case "spots":
			k.Dot(pt{X: 0.055, Y: s * w * 0.72}, 0.009)
		case "sides":
			k.Solid(ovalAt(0.075, s*w*0.93, 0.026, 0.017)...)
		case "top":
			k.Blob(ovalAt(0.085, s*w*0.5, 0.034, 0.026)...)
			k.Dot(pt{X: 0.085, Y: s * w * 0.5}, 0.012)
		case "big":
			k.Blob(ovalAt(0.07, s*(w+0.005), 0.042, 0.034)...)
			k.Dot(pt{X: 0.07, Y: s * (w + 0.008)}, 0.016)
		case "four":
			k.Solid(ovalAt(0.045, s*w*0.75, 0.018, 0.016)...)
			k.Solid(ovalAt(0.1, s*w*0.98, 0.018, 0.016)...)
		case "midway":
			k.Line(pt{X: 0.02, Y: s * 0.03}, pt{X: -0.26, Y: s * 0.02})
			k.Solid(ovalAt(-0.11, s*0.04, 0.024, 0.02)...)
		case "row":
			for i := range 5 {
				k.Dot(pt{X: 0.015 + 0.025*float64(i), Y: s * w * (0.15 + 0.2*float64(i))}, 0.006)
			}
		}
	})
}

// mouth draws what stands out at the mouth, seen from above.
func mouth(k *sketch, w float64) {
	k.part(pt{X: -0.01}, "mouth")
	switch k.is["mouth"] {
	case "jaws":
		sides(func(s float64) {
			k.Solid(pt{X: 0.02, Y: s * w * 0.75}, pt{X: -0.06, Y: s * w * 0.85}, pt{X: -0.105, Y: s * w * 0.1},
				pt{X: -0.05, Y: s * w * 0.55}, pt{X: 0.02, Y: s * w * 0.45})
		})
	case "tusks":
		tusksAbove(k, w)
	case "beak":
		if k.is.has("gills") { // no bug has gills: two straight needles
			sides(func(s float64) {
				k.whip(0.009, pt{X: 0.02, Y: s * 0.02}, pt{X: -0.12, Y: s * 0.035}, pt{X: -0.28, Y: s * 0.05})
			})
			return
		}
		k.Solid(pt{X: 0.01, Y: -0.018}, pt{X: -0.09, Y: 0}, pt{X: 0.01, Y: 0.018})
	case "mask":
		k.Blob(pt{X: 0.02, Y: -w * 0.55}, pt{X: -0.035, Y: -w * 0.5}, pt{X: -0.045, Y: 0}, pt{X: -0.035, Y: w * 0.5},
			pt{X: 0.02, Y: w * 0.55})
	case "fans":
		sides(func(s float64) { k.tuft(pt{X: 0.01, Y: s * w * 0.5}, 0.11, 180-s*38) })
	case "hooks":
		sides(func(s float64) {
			k.Solid(pt{X: 0.1, Y: s * 0.008}, pt{X: 0.02, Y: s * 0.012}, pt{X: -0.045, Y: s * 0.045}, pt{X: 0.01, Y: s * 0.03},
				pt{X: 0.1, Y: s * 0.024})
		})
	case "hood":
		k.Blob(path(0.04, -w*0.7, -0.05, -w*0.75, -0.1, 0, -0.05, w*0.75, 0.04, w*0.7)...)
		k.Curve(path(0.02, -w*0.45, -0.05, 0, 0.02, w*0.45)...)
	case "thread":
		k.Curve(path(0, 0, -0.12, 0.05, -0.24, -0.05, -0.36, 0.04, -0.48, 0)...)
	}
}

func tusksAbove(k *sketch, w float64) {
	k.part(pt{X: -0.08, Y: -w * 0.5}, "tusks")
	k.Part("mouth", "tusks")
	out := 1.0
	if k.is.is("tusks", "low") {
		out = -0.5
	}
	sides(func(s float64) {
		k.Curve(pt{X: 0.02, Y: s * w * 0.5}, pt{X: -0.07, Y: s * w * 0.5}, pt{X: -0.13, Y: s * w * (0.5 + 0.5*out)})
		k.Curve(pt{X: 0.02, Y: s * w * 0.3}, pt{X: -0.06, Y: s * w * 0.32}, pt{X: -0.13, Y: s * w * (0.5 + 0.5*out)})
	})
}

// feelers draws the feelers on a head seen from above.
func feelersAbove(k *sketch, w float64) {
	k.part(pt{X: -0.02, Y: -w * 0.8}, "antennae", "feelers")
	sides(func(s float64) {
		root := pt{X: 0.025, Y: s * w * 0.6}
		switch k.is["antennae"] {
		case "short":
			k.Line(root, root.Polar(0.1, 180-s*35))
		case "long":
			k.Curve(root, root.Polar(0.2, 180-s*38), root.Polar(0.42, 180-s*22))
		case "thick":
			k.finger(root, 0.09, 0.035, 180-s*30)
			k.Line(root.Polar(0.045, 180-s*30).Polar(0.017, 90), root.Polar(0.045, 180-s*30).Polar(0.017, -90))
		case "club":
			tip := root.Polar(0.085, 180-s*45)
			k.Line(root, tip)
			k.Dot(tip, 0.024)
		case "giant":
			base := root.Polar(0.15, 180-s*25)
			k.finger(root, 0.15, 0.03, 180-s*25)
			k.Line(base, base.Polar(0.11, 180-s*30))
		case "arms":
			elbow := root.Polar(0.16, 180-s*50)
			k.finger(root, 0.16, 0.05, 180-s*50)
			k.finger(elbow, 0.14, 0.035, 180-s*10)
			k.Line(elbow, elbow.Polar(0.12, 180-s*70))
		case "pairs":
			upper, lower := 0.3, 0.19
			if k.is.is("feelers", "lower") {
				upper, lower = 0.16, 0.28
			}
			k.Curve(root, root.Polar(upper*0.5, 180-s*20), root.Polar(upper, 180-s*8))
			k.Curve(root, root.Polar(lower*0.5, 180-s*60), root.Polar(lower, 180-s*48))
		}
	})
}
