package figure

func clawsSign(k *sketch, state string) {
	k.finger(pt{X: 0.5, Y: -0.3}, 0.55, 0.2, 155)
	k.finger(pt{X: 0.02, Y: -0.08}, 0.26, 0.16, 150)
	k.Part("claws")
	at := pt{X: -0.2, Y: 0.05}
	switch state {
	case "1":
		k.Solid(at.Polar(0.06, 60), at.Polar(0.2, 150), at.Polar(0.4, 110), at.Polar(0.24, 170), at.Polar(0.06, 240))
	case "2":
		k.Solid(at.Polar(0.05, 60), at.Polar(0.2, 120), at.Polar(0.42, 85), at.Polar(0.2, 145))
		k.Solid(at.Polar(0.05, 240), at.Polar(0.2, 180), at.Polar(0.42, 150), at.Polar(0.2, 205))
	}
}

func footSign(k *sketch, state string) {
	k.finger(pt{X: 0.5, Y: -0.35}, 0.36, 0.18, 150)
	k.Part("foot")
	joint := func(x0, x1 float64) {
		k.Blob(pt{X: x0, Y: 0.0}, pt{X: x0 + 0.01, Y: -0.09}, pt{X: x1 - 0.01, Y: -0.08}, pt{X: x1}, pt{X: x1 - 0.01, Y: 0.08},
			pt{X: x0 + 0.01, Y: 0.09})
	}
	switch state {
	case "second-short":
		joint(0.02, 0.3)
		joint(-0.06, 0.02)
		joint(-0.4, -0.06)
	case "second-long":
		joint(0.1, 0.3)
		joint(-0.1, 0.1)
		joint(-0.4, -0.1)
	default:
		joint(-0.4, 0.3)
	}
	k.hook(pt{X: -0.4, Y: -0.02}, 0.16, 190, -60)
	k.hook(pt{X: -0.4, Y: 0.03}, 0.16, 165, -60)
}

func gillSign(k *sketch, state string) {
	k.Part("gill-mark")
	if state == "none" {
		k.Dotted(pt{}, 0.3, 0.22)
		return
	}
	if state == "double" {
		k.leaf(pt{X: -0.36, Y: 0.1}, 0.85, 0.24, -24)
	}
	k.leaf(pt{X: -0.4, Y: 0.1}, 0.85, 0.25, 6)
	k.Curve(pt{X: -0.4, Y: 0.1}, pt{X: -0.05, Y: 0.14}, pt{X: 0.28, Y: 0.16})
	switch state {
	case "edged":
		base := pt{X: -0.4, Y: 0.1}
		tip := base.Polar(0.85, 6)
		k.Solid(base, base.Lerp(tip, 0.35).Polar(0.25, -84), base.Lerp(tip, 0.75).Polar(0.2, -84), tip,
			base.Lerp(tip, 0.75).Polar(0.12, -84), base.Lerp(tip, 0.35).Polar(0.16, -84))
	case "tufted":
		k.tuft(pt{X: -0.38, Y: 0.12}, 0.34, 75)
		k.tuft(pt{X: -0.34, Y: 0.12}, 0.26, 40)
	}
}

// maskSign draws a dragonfly's face from below and in front.
func maskSign(k *sketch, state string) {
	k.Blob(ovalAt(0, 0, 0.42, 0.32)...)
	sides(func(s float64) { k.Solid(ovalAt(s*0.37, -0.1, 0.1, 0.13)...) })
	k.Part("mask")
	switch state {
	case "flat":
		k.Poly(pt{X: -0.2, Y: 0.16}, pt{X: 0.2, Y: 0.16}, pt{X: 0.14, Y: 0.46}, pt{X: -0.14, Y: 0.46})
	case "racket":
		k.Poly(pt{X: -0.22, Y: 0.1}, pt{X: 0.22, Y: 0.1}, pt{X: 0.12, Y: 0.24}, pt{X: 0.035, Y: 0.3}, pt{X: 0.035, Y: 0.62},
			pt{X: -0.035, Y: 0.62}, pt{X: -0.035, Y: 0.3}, pt{X: -0.12, Y: 0.24})
	case "spoon", "toothed", "jagged":
		k.Blob(pt{X: -0.3, Y: -0.06}, pt{X: -0.3, Y: 0.22}, pt{X: 0, Y: 0.42}, pt{X: 0.3, Y: 0.22}, pt{X: 0.3, Y: -0.06},
			pt{X: 0, Y: -0.12})
		if state == "spoon" {
			k.Line(pt{X: 0, Y: -0.11}, pt{X: 0, Y: 0.24})
			return
		}
		if state == "toothed" {
			k.Curve(path(0, -0.12, 0.05, -0.08, -0.05, -0.03, 0.05, 0.02, -0.05, 0.07, 0.05, 0.12, -0.05, 0.17, 0.05, 0.22, 0, 0.28)...)
			return
		}
		k.Line(pt{X: 0, Y: -0.12}, pt{X: 0.1, Y: -0.05}, pt{X: -0.1, Y: 0.01}, pt{X: 0.1, Y: 0.08}, pt{X: -0.1, Y: 0.15},
			pt{X: 0.08, Y: 0.21}, pt{X: 0, Y: 0.3})
	default:
		k.Curve(pt{X: -0.12, Y: 0.14}, pt{X: 0, Y: 0.18}, pt{X: 0.12, Y: 0.14})
	}
}

func retreatSign(k *sketch, state string) {
	k.Blob(pebble(pt{X: 0, Y: 0.32}, 0.42, 2)...)
	k.Part("retreat")
	switch state {
	case "net":
		k.Blob(pebble(pt{X: 0.18, Y: -0.02}, 0.2, 5)...)
		net := []pt{{X: -0.42, Y: -0.3}, {X: -0.02, Y: -0.3}, {X: -0.02, Y: 0.06}, {X: -0.42, Y: 0.06}}
		k.Poly(net...)
		k.hatch(net, 0.08, 0)
		k.hatch(net, 0.08, 90)
	case "finger":
		for i := range 3 {
			k.finger(pt{X: -0.2 + 0.2*float64(i), Y: 0.08}, 0.42, 0.15, -90+float64(i-1)*14)
		}
	case "tunnel":
		k.Curve(pt{X: -0.42, Y: 0.1}, pt{X: -0.2, Y: -0.16}, pt{X: 0, Y: 0.06}, pt{X: 0.2, Y: -0.16}, pt{X: 0.42, Y: 0.1})
		k.Curve(pt{X: -0.42, Y: 0.22}, pt{X: -0.2, Y: -0.04}, pt{X: 0, Y: 0.18}, pt{X: 0.2, Y: -0.04}, pt{X: 0.42, Y: 0.22})
	case "sheet":
		k.Blob(pt{X: -0.45, Y: -0.4}, pt{X: -0.3, Y: -0.1}, pt{X: 0.05, Y: 0.04}, pt{X: 0.3, Y: 0.04}, pt{X: 0.1, Y: -0.08},
			pt{X: -0.05, Y: -0.4}, pt{X: -0.25, Y: -0.34})
	}
}

// tusksSign draws a head with its tusks from the side.
func tusksSign(k *sketch, state string) {
	k.Blob(ovalAt(0.22, 0, 0.26, 0.22)...)
	k.Dot(pt{X: 0.18, Y: -0.06}, 0.045)
	k.Part("tusks")
	switch state {
	case "up":
		k.Solid(pt{X: 0.02, Y: 0.06}, pt{X: -0.25, Y: 0.08}, pt{X: -0.48, Y: -0.22}, pt{X: -0.24, Y: 0.17}, pt{X: 0.04, Y: 0.16})
	case "low":
		k.Solid(pt{X: 0.02, Y: 0.06}, pt{X: -0.22, Y: 0.02}, pt{X: -0.42, Y: 0.26}, pt{X: -0.2, Y: 0.12}, pt{X: 0.04, Y: 0.16})
	}
}

// airSign draws the hind end as it is seen from behind.
func airSign(k *sketch, state string) {
	for i := range 6 {
		k.finger(pt{}.Polar(0.24, 60*float64(i)+30), 0.24, 0.16, 60*float64(i)+30)
	}
	k.Ring(pt{}, 0.3)
	k.Part("air-spots")
	if state == "two" {
		sides(func(s float64) { k.Dot(pt{X: s * 0.12}, 0.085) })
	}
}

func lidSign(k *sketch, state string) {
	k.Part("lid")
	if state == "none" {
		k.Dotted(pt{}, 0.36, 0.44)
		return
	}
	k.Blob(tilted(pt{}, 0.36, 0.44, 12)...)
	if state == "winding" {
		spiral(k, pt{X: 0.05, Y: 0.1}, 0.3, 2.6, 1)
		return
	}
	for _, f := range []float64{0.75, 0.5, 0.25} {
		k.Blob(tilted(pt{}, 0.36*f, 0.44*f, 12)...)
	}
	if state == "chalk" {
		k.speckle(tilted(pt{}, 0.34, 0.42, 12), 0.09, 0.012)
	}
}

// wallSign draws rays of light that a piece of shell lets through or stops.
func wallSign(k *sketch, state string) {
	k.Part("wall")
	last := 0.05
	if state == "thin" {
		last = 0.48
	}
	for i := range 4 {
		y := -0.3 + 0.2*float64(i)
		k.Line(pt{X: -0.48, Y: y}, pt{X: last - 0.1, Y: y})
		if state == "thin" {
			k.Poly(pt{X: 0.48, Y: y}, pt{X: 0.38, Y: y - 0.05}, pt{X: 0.38, Y: y + 0.05})
		}
	}
	switch state {
	case "thin":
		k.Curve(pt{X: 0, Y: -0.48}, pt{X: 0.06, Y: 0}, pt{X: 0, Y: 0.48})
		k.Curve(pt{X: 0.04, Y: -0.48}, pt{X: 0.1, Y: 0}, pt{X: 0.04, Y: 0.48})
	case "stout":
		k.Solid(pt{X: -0.06, Y: -0.48}, pt{X: 0.02, Y: 0}, pt{X: -0.06, Y: 0.48}, pt{X: 0.12, Y: 0.46}, pt{X: 0.2, Y: 0},
			pt{X: 0.12, Y: -0.46})
	}
}

// humpsSign draws the first belly ring from behind, its humps standing out.
func humpsSign(k *sketch, state string) {
	k.Part("humps")
	if state == "sides" || state == "all" {
		sides(func(s float64) { k.Blob(ovalAt(s*0.33, 0.08, 0.14, 0.1)...) })
	}
	if state == "all" {
		k.Blob(ovalAt(0, -0.3, 0.1, 0.16)...)
	}
	k.Part("body")
	k.Ring(pt{Y: 0.08}, 0.3)
}

// caseSign draws a larva by itself, with the case it carries, or at its house
// on a stone.
func caseSign(k *sketch, state string) {
	k.Part("case")
	if state == "fixed" {
		retreatSign(k, "net")
		return
	}
	k.bean(pt{X: -0.12}, 0.6, 0.1)
	k.legsUnder(pt{X: -0.2}, 1)
	if state == "carried" {
		k.Poly(pt{X: -0.12, Y: -0.17}, pt{X: 0.48, Y: -0.11}, pt{X: 0.48, Y: 0.11}, pt{X: -0.12, Y: 0.17})
		k.Texture(func() {
			for _, p := range scatter(path(-0.1, -0.15, 0.46, -0.1, 0.46, 0.1, -0.1, 0.15), 0.09) {
				k.Ring(p, 0.035)
			}
		})
	}
}

// hornSign draws head and chest of a case builder from the side.
func hornSign(k *sketch, state string) {
	k.Blob(ovalAt(-0.28, 0, 0.2, 0.22)...)
	k.Dot(pt{X: -0.34, Y: -0.05}, 0.03)
	k.Poly(path(-0.1, -0.2, 0.45, -0.24, 0.45, 0.18, -0.1, 0.16)...)
	k.Line(pt{X: 0.2, Y: 0.17}, pt{X: 0.16, Y: 0.46})
	k.Part("neck-horn")
	if state == "horn" {
		k.Solid(path(-0.1, 0.14, -0.14, 0.38, 0.02, 0.16)...)
	}
}

// collarSign draws the first plate behind the head from the side and, if there
// is one, the ridge that stands up from it.
func collarSign(k *sketch, state string) {
	k.Blob(ovalAt(-0.32, 0.08, 0.17, 0.2)...)
	k.Blob(path(-0.16, 0.3, -0.16, -0.08, 0.1, -0.16, 0.45, -0.1, 0.45, 0.3)...)
	k.Part("collar")
	if state == "ridge" {
		k.Solid(path(0.02, -0.14, 0.08, -0.42, 0.16, -0.42, 0.22, -0.14)...)
		k.Line(pt{X: 0.12, Y: -0.14}, pt{X: 0.12, Y: 0.28})
	}
	if state == "groove" {
		k.Solid(path(0.06, -0.17, 0.12, 0.02, 0.18, -0.17)...)
		k.Line(pt{X: 0.12, Y: 0}, pt{X: 0.1, Y: 0.28})
	}
}

// secondPlateSign draws the second plate of a case builder from above, its front edge
// to the left.
func secondPlateSign(k *sketch, state string) {
	k.Poly(path(-0.48, -0.34, -0.3, -0.36, -0.3, 0.36, -0.48, 0.34)...)
	k.Part("second-plate")
	switch state {
	case "notch":
		k.Toned(path(-0.22, -0.4, 0.36, -0.38, 0.36, 0.38, -0.22, 0.4, -0.22, 0.14, -0.04, 0, -0.22, -0.14)...)
	case "pieces":
		sides(func(s float64) {
			k.Toned(path(-0.2, s*0.04, 0.3, s*0.04, 0.3, s*0.18, -0.2, s*0.18)...)
			k.Toned(path(-0.16, s*0.24, 0.26, s*0.24, 0.2, s*0.4, -0.14, s*0.4)...)
		})
	default:
		k.Toned(path(-0.22, -0.4, 0.36, -0.38, 0.36, 0.38, -0.22, 0.4)...)
		k.Line(pt{X: -0.22}, pt{X: 0.36})
	}
}

// browHornSign draws a face from the side and what stands up between the eyes.
func browHornSign(k *sketch, state string) {
	k.Blob(ovalAt(0.04, 0.1, 0.4, 0.28)...)
	k.Ring(pt{X: -0.02, Y: -0.02}, 0.1)
	k.Line(pt{X: -0.3, Y: 0}, pt{X: -0.5, Y: -0.12})
	k.Part("horn")
	switch state {
	case "one":
		k.Solid(path(-0.24, -0.06, -0.22, -0.44, -0.1, -0.13)...)
	case "points":
		k.Solid(path(-0.27, -0.04, -0.3, -0.22, -0.2, -0.09)...)
		k.Solid(path(-0.14, -0.12, -0.13, -0.3, -0.04, -0.16)...)
	case "saw":
		k.Solid(path(-0.16, -0.1, -0.7, -0.34, -0.54, -0.34, -0.54, -0.44,
			-0.42, -0.34, -0.4, -0.44, -0.28, -0.32, -0.26, -0.42, -0.06, -0.18)...)
	}
}

// lipSign draws the front of a caddis's head from above, the lip to the left.
func lipSign(k *sketch, state string) {
	k.Blob(path(-0.12, -0.3, 0.3, -0.4, 0.48, -0.2, 0.48, 0.2, 0.3, 0.4, -0.12, 0.3)...)
	sides(func(s float64) { k.Dot(pt{X: 0.16, Y: s * 0.24}, 0.03) })
	k.Part("lip")
	if state == "soft" {
		k.Blob(path(-0.12, -0.1, -0.26, -0.1, -0.28, -0.38, -0.44, -0.38, -0.48, 0, -0.44, 0.38, -0.28, 0.38, -0.26, 0.1, -0.12, 0.1)...)
		return
	}
	k.Toned(path(-0.12, -0.2, -0.28, -0.18, -0.28, 0.18, -0.12, 0.2)...)
	if state == "bristles" {
		for i := range 7 {
			y := -0.18 + 0.06*float64(i)
			k.Line(pt{X: -0.2, Y: y}, pt{X: -0.48, Y: y * 1.3})
		}
	}
}

// eyeDotsSign draws the front end of a leech, its tip upwards.
func eyeDotsSign(k *sketch, state string) {
	k.Curve(path(-0.42, 0.5, -0.36, 0.05, -0.2, -0.38, 0, -0.47, 0.2, -0.38, 0.36, 0.05, 0.42, 0.5)...)
	k.Part("eye-dots")
	var dots []pt
	switch state {
	case "few":
		dots = path(-0.08, -0.25, 0.08, -0.25, -0.1, -0.02, 0.1, -0.02)
	case "rows":
		dots = path(-0.2, -0.2, -0.08, -0.26, 0.08, -0.26, 0.2, -0.2, -0.24, 0.06, -0.12, 0.1, 0.12, 0.1, 0.24, 0.06)
	case "arch":
		dots = path(-0.26, 0.12, -0.25, -0.05, -0.2, -0.2, -0.12, -0.3, -0.04, -0.36, 0.04, -0.36, 0.12, -0.3, 0.2, -0.2,
			0.25, -0.05, 0.26, 0.12)
	}
	for _, p := range dots {
		k.Dot(p, 0.035)
	}
}

// tipSign draws the hind tip of a dragonfly nymph from above.
func tipSign(k *sketch, state string) {
	k.Curve(path(-0.5, -0.4, -0.36, -0.36, -0.3, 0, -0.36, 0.36, -0.5, 0.4)...)
	k.Toned(path(-0.32, -0.12, 0.2, -0.05, 0.34, 0, 0.2, 0.05, -0.32, 0.12)...)
	sides(func(s float64) {
		k.Poly(pt{X: -0.32, Y: s * 0.08}, pt{X: 0.46, Y: s * 0.09}, pt{X: -0.32, Y: s * 0.22})
	})
	reach := map[string]float64{"short": -0.02, "long": 0.28}[state]
	k.Part("point-length")
	if state == "none" {
		return
	}
	sides(func(s float64) {
		k.Solid(pt{X: -0.33, Y: s * 0.23}, pt{X: reach, Y: s * 0.29}, pt{X: -0.36, Y: s * 0.35})
	})
}

// shouldersSign draws head and chest of a case builder from above.
func shouldersSign(k *sketch, state string) {
	k.Poly(path(-0.02, -0.22, 0.46, -0.26, 0.46, 0.26, -0.02, 0.22)...)
	k.Line(pt{X: 0.2, Y: -0.24}, pt{X: 0.2, Y: 0.24})
	k.Blob(ovalAt(-0.22, 0, 0.2, 0.17)...)
	sides(func(s float64) { k.Dot(pt{X: -0.26, Y: s * 0.1}, 0.03) })
	k.Part("shoulders")
	if state == "points" {
		sides(func(s float64) {
			k.Solid(path(0.34, s*0.25, 0.2, s*0.36, -0.02, s*0.34, -0.26, s*0.24, 0, s*0.27, 0.14, s*0.24)...)
		})
	}
}

// shelfSign draws the opening of a shell, looked into: round, or half closed.
func shelfSign(k *sketch, state string) {
	k.Part("shelf")
	if state == "none" {
		k.Dotted(pt{}, 0.4, 0.44)
		return
	}
	k.Blob(ovalAt(0, 0, 0.46, 0.48)...)
	if state == "open" {
		k.Shaded(ovalAt(0.02, 0.06, 0.3, 0.34)...)
		return
	}
	k.Shaded(path(0, -0.36, 0.2, -0.3, 0.33, -0.12, 0.33, 0.12, 0.2, 0.3, 0, 0.36)...)
	k.Line(pt{X: -0.02, Y: -0.4}, pt{X: -0.02, Y: 0.4})
}

// coversSign draws the hard wing covers of a beetle.
func coversSign(k *sketch, state string) {
	k.Part("covers")
	if state == "none" {
		k.Dotted(pt{}, 0.48, 0.36)
		return
	}
	k.Blob(ovalAt(0, 0, 0.48, 0.36)...)
	k.Line(pt{X: -0.48}, pt{X: 0.48})
	sides(func(s float64) {
		switch state {
		case "rows":
			for i := range 3 {
				y := 0.09 + 0.08*float64(i)
				for j := range 7 - i {
					k.Dot(pt{X: 0.11 * (float64(j) - float64(6-i)/2), Y: s * y}, 0.02)
				}
			}
		case "velvet":
			for i := range 7 {
				x := -0.36 + 0.11*float64(i)
				k.Line(pt{X: x, Y: s * 0.06}, pt{X: x + 0.05, Y: s * 0.13})
				k.Line(pt{X: x * 0.8, Y: s * 0.18}, pt{X: x*0.8 + 0.05, Y: s * 0.25})
			}
		}
	})
}

// discSign draws the hind end of a leech and the sucker on it.
func discSign(k *sketch, state string) {
	k.Curve(path(-0.5, -0.16, -0.2, -0.13, 0.1, -0.1)...)
	k.Curve(path(-0.5, 0.16, -0.2, 0.13, 0.1, 0.1)...)
	for i := range 4 {
		x := -0.44 + 0.13*float64(i)
		k.Line(pt{X: x, Y: -0.14}, pt{X: x, Y: 0.14})
	}
	k.Part("disc")
	switch state {
	case "narrow":
		k.Blob(ovalAt(0.2, 0, 0.13, 0.13)...)
	case "wide":
		k.Blob(ovalAt(0.24, 0, 0.26, 0.42)...)
		k.Blob(ovalAt(0.24, 0, 0.12, 0.2)...)
	default:
		k.Curve(path(0.1, -0.1, 0.3, -0.04, 0.3, 0.04, 0.1, 0.1)...)
	}
}

// groovesSign draws the neck shield of a beetle, its head to the left.
func groovesSign(k *sketch, state string) {
	k.Part("grooves")
	k.Blob(path(-0.3, -0.26, 0.3, -0.4, 0.36, 0, 0.3, 0.4, -0.3, 0.26, -0.36, 0)...)
	if state == "none" {
		k.Dot(pt{X: -0.05, Y: 0}, 0.02)
		return
	}
	k.Curve(path(-0.34, 0, 0, 0, 0.34, 0)...)
	sides(func(s float64) {
		k.Curve(path(-0.33, s*0.1, -0.1, s*0.17, 0.1, s*0.1, 0.34, s*0.16)...)
		k.Curve(path(-0.31, s*0.2, -0.1, s*0.26, 0.1, s*0.21, 0.32, s*0.28)...)
	})
}

// beneathSign draws a beetle from below, its head to the left.
func beneathSign(k *sketch, state string) {
	k.Blob(ovalAt(0, 0, 0.5, 0.34)...)
	for i := range 3 {
		x := -0.22 + 0.2*float64(i)
		sides(func(s float64) { k.Line(pt{X: x, Y: s * 0.08}, pt{X: x + 0.06, Y: s * 0.44}) })
	}
	k.Part("beneath")
	switch state {
	case "spike":
		k.Solid(path(-0.26, -0.03, 0.36, 0, -0.26, 0.03)...)
	case "plates":
		sides(func(s float64) {
			k.Shaded(path(0.06, s*0.02, 0.34, s*0.03, 0.38, s*0.16, 0.24, s*0.26, 0.08, s*0.2)...)
		})
	default:
		k.Line(pt{X: -0.24}, pt{X: 0.2})
	}
}

// broodSign draws what an animal carries: eggs, young or another of its kind.
func broodSign(k *sketch, state string) {
	k.bean(pt{}, 0.7, 0.15)
	k.Part("brood")
	eggs := func(x, y float64) {
		for i := range 6 {
			k.Ring(pt{X: x + 0.09*float64(i%3), Y: y + 0.08*float64(i/3)}, 0.035)
		}
	}
	switch state {
	case "belly":
		eggs(-0.08, 0.19)
	case "back":
		eggs(-0.08, -0.27)
	case "bags":
		sides(func(s float64) { k.Shaded(ovalAt(0.42, s*0.16, 0.14, 0.08)...) })
	case "mate":
		k.bean(pt{X: 0.06, Y: 0.28}, 0.44, 0.09)
	}
}
