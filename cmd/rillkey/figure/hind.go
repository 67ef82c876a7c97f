package figure

// hindEnd draws what the hind end bears besides tails and hooks. It serves
// views from above and from the side; half is the half width of the last ring.
func (k *sketch) hindEnd(half float64) {
	k.part(pt{X: 1.05, Y: 0}, "hind", "oars", "tube", "point-length")
	k.Part("hind")
	switch k.is["hind"] {
	case "plates":
		k.Part("hind", "oars")
		if !absence(k.is["gills"]) {
			k.Part("hind", "oars", "gills", "gill-form")
		}
		oars(k)
	case "points":
		points(k, half)
	case "lobes":
		for _, d := range []float64{-58, -20, 20, 58} {
			k.finger(pt{X: 0.975, Y: d / 58 * half * 0.7}, 0.12, 0.036, d)
		}
	case "tube":
		k.Part("hind", "tube")
		tube(k, half)
	case "feathery":
		for _, d := range []float64{-24, 24} {
			k.feather(pt{X: 0.98, Y: d / 24 * half * 0.4}, 0.2, d, 0.05)
		}
	case "fan":
		for _, d := range []float64{-50, 50, -26, 26, 0} {
			k.leaf(pt{X: 0.965}, 0.18, 0.05, d)
		}
	case "rim":
		k.Blob(pt{X: 0.9, Y: -half}, pt{X: 0.99, Y: -half - 0.06}, pt{X: 1.12, Y: -0.04}, pt{X: 1.15}, pt{X: 1.12, Y: 0.04},
			pt{X: 0.99, Y: half + 0.06}, pt{X: 0.9, Y: half})
	}
}

func tube(k *sketch, half float64) {
	if k.is.is("tube", "long") {
		k.Blob(pt{X: 0.97, Y: -half * 0.6}, pt{X: 1.15, Y: -0.028}, pt{X: 1.5, Y: -0.018}, pt{X: 1.62, Y: 0}, pt{X: 1.5, Y: 0.018},
			pt{X: 1.15, Y: 0.028}, pt{X: 0.97, Y: half * 0.6})
		k.Line(pt{X: 1.22, Y: -0.025}, pt{X: 1.22, Y: 0.025})
		k.Line(pt{X: 1.42, Y: -0.02}, pt{X: 1.42, Y: 0.02})
		return
	}
	k.Poly(pt{X: 0.97, Y: -0.035}, pt{X: 1.16, Y: -0.026}, pt{X: 1.16, Y: 0.026}, pt{X: 0.97, Y: 0.035})
}

// points are the short stiff points of a dragonfly: long ones in the middle,
// the outer ones as the trait says.
func points(k *sketch, half float64) {
	k.Part("hind", "point-length")
	y := half * 0.75
	k.Poly(pt{X: 0.965, Y: -y * 0.35}, pt{X: 1.1}, pt{X: 0.965, Y: y * 0.35})
	sides(func(s float64) {
		k.Poly(pt{X: 0.965, Y: s * y * 0.5}, pt{X: 1.1, Y: s * y * 0.62}, pt{X: 0.965, Y: s * y})
		outer := 0.075
		if k.is.is("point-length", "short") {
			outer = 0.03
		}
		k.Poly(pt{X: 0.95, Y: s * y}, pt{X: 0.965 + outer, Y: s * y * 1.3}, pt{X: 0.95, Y: s * y * 1.35})
	})
}

// oars are the three plates of a damselfly, spread.
func oars(k *sketch) {
	for _, d := range []float64{-27, 27, 0} {
		root := pt{X: 0.985, Y: d * 0.0006}
		switch k.is["oars"] {
		case "blade":
			tip := root.Polar(0.38, d)
			k.Blob(root, root.Polar(0.06, d-40), tip.Polar(0.045, d-115), tip, tip.Polar(0.045, d+115), root.Polar(0.06, d+40))
			k.Line(root, tip)
		case "uneven":
			l := 0.4
			if d == 0 {
				l = 0.22
			}
			tip := root.Polar(l, d)
			k.Poly(root.Polar(0.015, d-90), tip.Polar(0.016, d-90), tip.Polar(0.03, d), tip.Polar(0.016, d+90), root.Polar(0.015, d+90))
		case "thread":
			k.leaf(root, 0.26, 0.055, d)
			k.Curve(root.Polar(0.25, d), root.Polar(0.34, d), root.Polar(0.5, d*1.12))
		default:
			k.leaf(root, 0.36, 0.062, d)
			k.Line(root, root.Polar(0.34, d))
		}
	}
}

// hooksAbove draws hooks at the hind end as seen from above.
func (k *sketch) hooksAbove(half float64) {
	k.part(pt{X: 1.08, Y: half * 0.6}, "hooks", "hook-stalk", "hook-size")
	sides(func(s float64) {
		switch k.is["hooks"] {
		case "two":
			k.Part("hooks", "hook-stalk", "hook-size")
			root, size := stalk(k, s, half), hookSize(k)
			k.hook(root, size, s*25, -s*75)
		case "stubs":
			root := pt{X: 0.965, Y: s * half * 0.6}
			k.finger(root, 0.11, 0.045, s*28)
			k.hook(root.Polar(0.105, s*16), 0.065, s*18, s*55)
			k.hook(root.Polar(0.11, s*38), 0.065, s*45, s*55)
		case "four":
			k.hook(pt{X: 0.99, Y: s * 0.014}, 0.08, s*8, s*60)
			k.hook(pt{X: 0.985, Y: s * 0.03}, 0.08, s*38, s*60)
		case "tiny":
			root := pt{X: 0.97, Y: s * half * 0.5}
			k.finger(root, 0.08, 0.05, s*20)
			k.crown(root.Polar(0.085, s*20), s*20)
		}
	})
	if k.is.is("hooks", "ring") {
		k.Dotted(pt{X: 1.0}, 0.04, half)
	}
	k.part(pt{X: 0.955, Y: 0}, "end-plate")
	if k.is.has("end-plate") {
		k.Solid(ovalAt(0.95, 0, 0.026, half*0.55)...)
	}
}

func hookSize(k *sketch) float64 {
	if k.is.is("hook-size", "large") {
		return 0.12
	}
	return 0.06
}

// stalk draws what carries a hook and is where the hook begins.
func stalk(k *sketch, s, half float64) pt {
	root := pt{X: 0.96, Y: s * half * 0.6}
	if k.is.is("hook-stalk", "long") {
		k.finger(root, 0.17, 0.042, s*20)
		return root.Polar(0.165, s*20)
	}
	k.finger(root, 0.045, 0.042, s*30)
	return root.Polar(0.04, s*30)
}

// crown draws a wreath of tiny hooks on the end of a soft foot.
func (k *sketch) crown(at pt, degrees float64) {
	k.Texture(func() {
		for _, d := range []float64{-75, -45, -15, 15, 45, 75} {
			k.Line(at.Polar(0.012, degrees+d), at.Polar(0.036, degrees+d))
		}
	})
}

// hooksBelow draws hooks at the hind end as seen from the side: on feet that
// reach down and back.
func (k *sketch) hooksBelow(half float64) {
	k.part(pt{X: 1.03, Y: half + 0.09}, "hooks", "hook-stalk", "hook-size")
	root := pt{X: 0.955, Y: half * 0.75}
	switch k.is["hooks"] {
	case "two":
		k.Part("hooks", "hook-stalk", "hook-size")
		length := 0.05
		if k.is.is("hook-stalk", "long") {
			length = 0.19
		}
		k.finger(root.Polar(0.03, -10), length, 0.04, 25)
		k.finger(root, length, 0.045, 42)
		k.hook(root.Polar(0.03+length*0.95, 22), hookSize(k), 30, 70)
		k.hook(root.Polar(length*0.97, 42), hookSize(k)*1.05, 52, 70)
	case "tiny":
		k.finger(root.Polar(0.03, -10), 0.085, 0.045, 40)
		k.finger(root, 0.09, 0.05, 60)
		k.crown(root.Polar(0.095, 60), 60)
		k.crown(root.Polar(0.03, -10).Polar(0.09, 40), 40)
	case "stubs":
		for _, d := range []float64{25, 58} {
			k.finger(root, 0.11, 0.045, d)
			k.hook(root.Polar(0.105, d-8), 0.06, d-10, 60)
			k.hook(root.Polar(0.105, d+8), 0.06, d+20, 60)
		}
	case "four":
		for _, d := range []float64{-5, 20, 45, 70} {
			k.hook(root.Polar(0.02, d), 0.075, d, 60)
		}
	case "ring":
		k.Blob(ovalAt(1.0, half*0.25, 0.022, half*0.85)...)
		for i := range 5 {
			y := half * (0.25 + 0.34*float64(i-2))
			k.Line(pt{X: 1.01, Y: y}, pt{X: 1.045, Y: y})
		}
	}
}

// endPlate draws the hard plate before the hooks, on a body seen from the side.
func endPlate(k *sketch, half float64) {
	k.part(pt{X: 0.955, Y: -half - 0.02}, "end-plate")
	if k.is.has("end-plate") {
		k.Toned(pt{X: 0.9, Y: -half * 1.15}, pt{X: 0.95, Y: -half * 1.3}, pt{X: 1.0, Y: -half * 0.6}, pt{X: 0.985, Y: -half * 0.1},
			pt{X: 0.94, Y: -half * 0.55})
	}
}
