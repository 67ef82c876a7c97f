package figure

// mannerSign draws what an animal does when it is nudged.
func mannerSign(k *sketch, state string) {
	k.Part("manner")
	floor := func() { k.Line(pt{X: -0.5, Y: 0.3}, pt{X: 0.5, Y: 0.3}) }
	switch state {
	case "sideways": // over a stone seen from above
		k.Ring(pt{}, 0.47)
		k.bean(pt{X: -0.05, Y: -0.1}, 0.5, 0.12)
		k.arrow(pt{X: -0.05, Y: 0.06}, pt{X: -0.04, Y: 0.2}, pt{X: -0.05, Y: 0.38})
	case "backwards":
		k.bean(pt{X: -0.18}, 0.55, 0.13)
		k.legsUnder(pt{X: -0.18}, 1)
		k.arrow(pt{X: 0.12, Y: -0.06}, pt{X: 0.28, Y: -0.08}, pt{X: 0.48, Y: -0.06})
		k.Line(pt{X: -0.3, Y: -0.3}, pt{X: 0.1, Y: -0.3})
		k.Line(pt{X: -0.2, Y: -0.4}, pt{X: 0.2, Y: -0.4})
	case "curls":
		floor()
		k.Curve(path(0.1, -0.2, -0.12, -0.24, -0.26, -0.06, -0.2, 0.16, 0.02, 0.24, 0.2, 0.12)...)
		k.Curve(path(0.08, -0.08, -0.06, -0.1, -0.13, -0.02, -0.1, 0.09, 0.02, 0.13, 0.12, 0.05)...)
		k.Line(path(0.1, -0.2, 0.08, -0.08)...)
		k.Line(path(0.2, 0.12, 0.12, 0.05)...)
		k.Dot(pt{X: 0.04, Y: -0.15}, 0.025)
	case "tail-up":
		floor()
		k.Blob(path(-0.4, 0.16, -0.2, 0.06, 0.1, 0.08, 0.26, 0.0, 0.2, -0.22, 0.34, -0.08, 0.36, 0.1, 0.2, 0.24, -0.2, 0.26)...)
		for _, x := range []float64{-0.16, -0.04, 0.08} {
			k.Line(pt{X: 0.22, Y: -0.2}, pt{X: x, Y: -0.42})
		}
		k.legsUnder(pt{X: -0.15, Y: 0.12}, 1)
	case "jets":
		k.bean(pt{X: -0.16}, 0.55, 0.15)
		for _, y := range []float64{-0.1, 0, 0.1} {
			k.Line(pt{X: 0.16, Y: y * 0.5}, pt{X: 0.48, Y: y * 1.6})
		}
		k.arrow(pt{X: 0.1, Y: -0.32}, pt{X: -0.15, Y: -0.33}, pt{X: -0.42, Y: -0.32})
	case "push-ups":
		floor()
		k.bean(pt{Y: -0.08}, 0.6, 0.12)
		for _, x := range []float64{-0.2, 0, 0.2} {
			k.Line(pt{X: x, Y: 0.02}, pt{X: x - 0.05, Y: 0.3})
		}
		k.arrow(pt{X: 0.42, Y: 0.2}, pt{X: 0.42, Y: -0.05}, pt{X: 0.42, Y: -0.3})
		k.arrow(pt{X: -0.42, Y: -0.3}, pt{X: -0.42, Y: -0.05}, pt{X: -0.42, Y: 0.2})
	case "digs":
		k.Line(pt{X: -0.5, Y: -0.05}, pt{X: -0.12, Y: -0.05})
		k.Line(pt{X: 0.2, Y: -0.05}, pt{X: 0.5, Y: -0.05})
		k.Blob(path(-0.14, 0.24, -0.06, 0.02, 0.1, -0.3, 0.24, -0.36, 0.22, -0.2, 0.1, 0.06, 0, 0.28)...)
		k.speckle(path(-0.48, 0.02, 0.48, 0.02, 0.48, 0.44, -0.48, 0.44), 0.14, 0.014)
	default:
		floor()
		k.bean(pt{Y: 0.1}, 0.6, 0.12)
		k.legsUnder(pt{Y: 0.1}, 1)
	}
}

// caseHeldSign draws from the side how a case is carried.
func caseHeldSign(k *sketch, state string) {
	k.Line(pt{X: -0.5, Y: 0.3}, pt{X: 0.5, Y: 0.3})
	k.Part("case-held")
	legs := func(x, y, to float64) {
		for i := range 3 {
			k.Line(pt{X: x + 0.05*float64(i), Y: y}, pt{X: x - 0.06 + 0.06*float64(i), Y: to})
		}
	}
	switch state {
	case "behind":
		k.Poly(path(-0.16, 0.06, 0.46, -0.06, 0.48, 0.1, -0.14, 0.26)...)
		k.Blob(ovalAt(-0.28, 0.16, 0.13, 0.07)...)
		legs(-0.3, 0.2, 0.3)
	case "flat":
		k.Shaded(path(-0.44, 0.24, -0.26, 0.02, 0, -0.06, 0.26, 0.02, 0.44, 0.24)...)
		legs(-0.34, 0.24, 0.3)
		legs(0.24, 0.24, 0.3)
	case "edge":
		k.Blob(path(-0.2, 0.06, 0.1, -0.34, 0.44, 0.0, 0.4, 0.22, 0.1, 0.3, -0.16, 0.22)...)
		k.Line(pt{X: -0.12, Y: 0.13}, pt{X: 0.38, Y: 0.09})
		k.Blob(ovalAt(-0.29, 0.17, 0.1, 0.06)...)
		legs(-0.32, 0.2, 0.3)
	case "glued":
		k.Line(pt{X: -0.28, Y: -0.45}, pt{X: -0.28, Y: 0.3})
		k.Line(pt{X: -0.22, Y: -0.45}, pt{X: -0.22, Y: 0.3})
		k.Poly(path(-0.22, -0.02, 0.44, 0.06, 0.44, 0.16, -0.22, 0.24)...)
		for _, y := range []float64{-0.32, -0.24, -0.16} {
			k.Line(pt{X: -0.2, Y: 0}, pt{X: 0.12, Y: y})
		}
	case "swum":
		k.Poly(path(-0.14, -0.2, 0.46, -0.15, 0.46, -0.03, -0.14, 0.02)...)
		k.Blob(ovalAt(-0.26, -0.09, 0.12, 0.07)...)
		sides(func(s float64) { k.Line(pt{X: -0.22, Y: -0.09}, pt{X: -0.05, Y: -0.09 + s*0.28}) })
		k.arrow(pt{X: 0.25, Y: -0.38}, pt{X: 0, Y: -0.4}, pt{X: -0.25, Y: -0.38})
	default:
		k.bean(pt{Y: 0.14}, 0.6, 0.1)
		k.legsUnder(pt{Y: 0.14}, 1)
	}
}
