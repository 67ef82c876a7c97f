package figure

import "math"

// cased draws a caddisfly in the case that it carries: head and legs in front.
func cased(k *sketch) {
	body := widths(path(0, 0.055, 0.1, 0.07, 0.5, 0.08, 1, 0.06))
	switch k.is["case-shape"] {
	case "dome", "snail", "purse":
		k.shortCase()
		return
	}
	k.legsBelow(body, [3]float64{0.13, 0.19, 0.25})
	k.Part("body")
	k.Blob(body.outline(0.08, 0.5)...)
	k.headBeside(0.075)
	k.chestPlates()
	k.part(pt{X: 0.7, Y: 0}, "case", "case-stuff", "case-shape", "case-bend", "case-lay")
	if k.is.is("case-bend", "curved") {
		k.Warp(horn)
	}
	k.tubeCase()
	k.Warp(nil)
}

// horn bends what lies behind the head downwards, like a horn.
func horn(p pt) pt {
	d := max(0, p.X-0.3)
	return pt{X: p.X - 0.28*d*d, Y: p.Y + 0.42*d*d}
}

// chestPlates shades the hard plates on the chest that looks out of the case.
func (k *sketch) chestPlates() {
	k.part(pt{X: 0.2, Y: -0.075}, "plates", "shoulders")
	k.Part("plates")
	n := map[string]int{"1": 1, "2": 2, "3": 3, "all": 3}[k.is["plates"]]
	for i := range 3 {
		x := 0.135 + 0.058*float64(i)
		if i < n {
			patch := []pt{{X: x, Y: -0.07}, {X: x + 0.05, Y: -0.075}, {X: x + 0.052, Y: 0.005}, {X: x + 0.003, Y: 0.005}}
			k.Poly(patch...)
			k.hatch(patch, 0.018, 45)
		}
	}
	k.Part("shoulders")
	if k.is.has("shoulders") {
		k.Poly(pt{X: 0.18, Y: -0.06}, pt{X: 0.03, Y: -0.11}, pt{X: 0.19, Y: -0.03})
	}
}

func (k *sketch) tubeCase() {
	x0, x1, a, b := 0.3, 1.0, 0.115, 0.075
	k.Part("case", "case-shape")
	switch k.is["case-shape"] {
	case "square":
		a, b = 0.12, 0.065
	case "winged":
		k.wings(a)
	case "flat":
		k.leafCase()
		return
	}
	outline := caseOutline(x0, x1, a, b)
	k.Part("case", "case-shape", "case-stuff")
	k.Poly(outline...)
	k.fillCase(outline, x0, x1, a, b)
	k.Part("case", "case-shape")
	if k.is.is("case-shape", "square") {
		k.Line(pt{X: x0, Y: -a * 0.15}, pt{X: x1, Y: -b * 0.15})
		k.Poly(pt{X: x1, Y: -b}, pt{X: x1 + 0.05, Y: -b * 0.75}, pt{X: x1 + 0.05, Y: b * 0.35}, pt{X: x1, Y: b})
		k.Line(pt{X: x0, Y: -a}, pt{X: x0, Y: a})
		return
	}
	k.Blob(ovalAt(x1, 0, 0.022, b)...)
	k.Line(pt{X: x0, Y: -a}, pt{X: x0, Y: a})
}

func caseOutline(x0, x1, a, b float64) []pt {
	var over, under []pt
	const n = 8
	for i := range n + 1 {
		f := float64(i) / n
		x, h := x0+(x1-x0)*f, a+(b-a)*f
		over = append(over, pt{X: x, Y: -h})
		under = append(under, pt{X: x1 - (x - x0), Y: b + (a-b)*f})
	}
	return append(over, under...)
}

// wings are the side pieces of a case: bigger stones, or a brim of sand.
func (k *sketch) wings(a float64) {
	sides(func(s float64) {
		if k.is.is("case-stuff", "stones") {
			for i := range 4 {
				x := 0.38 + 0.165*float64(i)
				k.Blob(pebble(pt{X: x, Y: s * (a + 0.02)}, 0.085, i)...)
			}
			return
		}
		k.Blob(pt{X: 0.26, Y: s * 0.05}, pt{X: 0.34, Y: s * 0.24}, pt{X: 0.65, Y: s * 0.2}, pt{X: 0.98, Y: s * 0.09}, pt{X: 0.9, Y: 0})
	})
}

// leafCase is two broad leaf pieces, one on the other.
func (k *sketch) leafCase() {
	lower := ovalAt(0.64, 0.025, 0.4, 0.22)
	k.Part("case", "case-shape", "case-stuff")
	k.Blob(lower...)
	upper := ovalAt(0.68, -0.02, 0.33, 0.17)
	k.Blob(upper...)
	k.Line(pt{X: 0.36, Y: -0.02}, pt{X: 1.0, Y: -0.02})
	for i := range 4 {
		x := 0.48 + 0.12*float64(i)
		sides(func(s float64) { k.Line(pt{X: x, Y: -0.02}, pt{X: x + 0.07, Y: -0.02 + s*0.11}) })
	}
}

// pebble is an irregular stone; another number gives another form.
func pebble(c pt, r float64, number int) []pt {
	points := make([]pt, 7)
	for i := range points {
		wob := 0.82 + 0.18*math.Sin(float64(i*i+3*number)*1.7)
		points[i] = c.Polar(r*wob, float64(i)*360/7)
	}
	return points
}

// fillCase draws the pieces that a case is made of, as they are laid.
func (k *sketch) fillCase(outline []pt, x0, x1, a, b float64) {
	if k.is.is("case-lay", "spiral") {
		k.Part("case-stuff", "case-lay")
		for _, f := range []float64{0.25, 0.6} {
			x := x0 + (x1-x0)*f
			k.Line(pt{X: x, Y: a + (b-a)*f}, pt{X: x + 0.12, Y: -(a + (b-a)*(f+0.17))})
		}
	}
	k.Texture(func() { k.pieces(outline, x0, x1, a, b) })
}

func (k *sketch) pieces(outline []pt, x0, x1, a, b float64) {
	k.Part("case-stuff", "case-lay")
	half := func(x float64) float64 { return a + (b-a)*(x-x0)/(x1-x0) }
	lay := k.is["case-lay"]
	switch stuff := k.is["case-stuff"]; {
	case lay == "spiral":
		for x := x0 + 0.02; x < x1-0.06; x += 0.075 {
			k.Line(pt{X: x, Y: half(x)}, pt{X: x + 0.07, Y: -half(x + 0.07)})
		}
		k.grains(outline, stuff)
	case lay == "across":
		for x := x0 + 0.045; x < x1-0.01; x += 0.045 {
			over := 0.0
			if !k.is.is("case-shape", "square") {
				over = 0.03
			}
			k.Line(pt{X: x, Y: -half(x) - over}, pt{X: x + 0.006, Y: half(x) + over})
		}
		k.grains(outline, stuff)
	case lay == "along":
		for i := range 5 {
			f := -0.8 + 0.4*float64(i)
			start, end := x0-0.02+0.03*float64(i%3), x1+0.02+0.03*float64((i*2)%3)
			k.Line(pt{X: start, Y: f * a}, pt{X: end, Y: f * b})
		}
		k.Line(pt{X: x0 + 0.1, Y: -a * 1.05}, pt{X: x1 + 0.16, Y: -b * 1.35})
		k.grains(outline, stuff)
	default:
		k.stuff(outline, stuff)
	}
}

// grains add what must be seen of the stuff beside its lay.
func (k *sketch) grains(outline []pt, stuff string) {
	switch stuff {
	case "sand", "stones", "mixed":
		k.stuff(outline, stuff)
	}
}

// stuff fills an outline with the material, fitted close.
func (k *sketch) stuff(outline []pt, stuff string) {
	switch stuff {
	case "sand":
		for _, p := range scatter(outline, 0.036) {
			k.Dot(p, 0.006)
		}
	case "stones":
		for i, p := range scatter(outline, 0.078) {
			k.Blob(pebble(p, 0.038, i)...)
		}
	case "plant":
		for i, p := range scatter(outline, 0.1) {
			d := float64(i*67%180) - 90
			k.Poly(p.Polar(0.04, d-20), p.Polar(0.04, d+20), p.Polar(0.04, d+160), p.Polar(0.04, d+200))
		}
	case "mixed":
		for i, p := range scatter(outline, 0.09) {
			if i%2 == 0 {
				k.Blob(pebble(p, 0.036, i)...)
				continue
			}
			k.Line(p.Polar(0.05, 20), p.Polar(0.05, 200))
		}
	case "silk":
		k.hatch(outline, 0.045, 2)
	}
}

// shortCase draws the cases that are no tubes: dome, snail and purse.
func (k *sketch) shortCase() {
	var outline []pt
	switch k.is["case-shape"] {
	case "dome":
		outline = path(0.12, 0.18, 0.14, -0.08, 0.3, -0.29, 0.55, -0.36, 0.8, -0.28, 0.96, -0.08, 0.98, 0.18)
	case "purse":
		outline = path(0.22, -0.06, 0.4, -0.2, 0.65, -0.25, 0.9, -0.2, 1, -0.05, 1, 0.05, 0.9, 0.2, 0.65, 0.25, 0.4, 0.2, 0.22, 0.06)
	default:
		outline = ovalAt(0.55, -0.05, 0.34, 0.31)
	}
	body := widths(path(0, 0.05, 0.5, 0.06))
	if k.is.is("case-shape", "dome") {
		k.Warp(func(p pt) pt { return pt{X: p.X, Y: p.Y + 0.13} })
	}
	k.legsBelow(body, [3]float64{0.1, 0.15, 0.2})
	k.Part("body")
	k.Blob(body.outline(0.05, 0.4)...)
	k.headBeside(0.06)
	k.Warp(nil)
	k.part(pt{X: 0.6, Y: -0.1}, "case", "case-stuff", "case-shape", "case-bend", "case-lay")
	k.Part("case", "case-shape", "case-stuff")
	if k.is.is("case-shape", "dome") {
		k.Poly(outline...)
	} else {
		k.Blob(outline...)
	}
	k.Part("case-stuff", "case-lay")
	stuff := k.is["case-stuff"]
	k.Texture(func() { k.stuff(outline, stuff) })
	if k.is.is("case-shape", "snail") {
		k.Part("case", "case-shape")
		k.spiral(pt{X: 0.57, Y: -0.06}, 0.33, 2.3, 1)
	}
	k.part(pt{X: 0.12, Y: 0.1}, "plates", "shoulders")
}
