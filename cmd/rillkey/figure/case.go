package figure

import "math"

// caseForm is a tube from x0 to x1: half its width in front and behind.
type caseForm struct{ x0, x1, front, back float64 }

func (c caseForm) half(x float64) float64 {
	return c.front + (c.back-c.front)*(x-c.x0)/(c.x1-c.x0)
}

// outline are the places round the tube.
func (c caseForm) outline() []pt {
	const n = 6
	var over, under []pt
	for i := range n + 1 {
		x := c.x0 + (c.x1-c.x0)*float64(i)/n
		over = append(over, pt{X: x, Y: -c.half(x)})
		x = c.x1 - (c.x1-c.x0)*float64(i)/n
		under = append(under, pt{X: x, Y: c.half(x)})
	}
	return append(over, under...)
}

// cased draws a caddisfly larva that looks out of its case, from the side.
func cased(k *sketch) {
	switch k.is["case-shape"] {
	case "dome":
		dome(k)
	case "snail":
		snailCase(k)
	case "purse":
		purse(k)
	case "flat":
		lookingOut(k, 0, 0)
		casePlaces(k, pt{X: 0.7, Y: -0.1})
		leafCase(k)
	default:
		lookingOut(k, 0, 0)
		casePlaces(k, pt{X: 0.72, Y: -0.09})
		if k.is.is("case-bend", "curved") {
			k.Warp(horn)
		}
		tubeCase(k)
		k.Warp(nil)
	}
}

func casePlaces(k *sketch, at pt) {
	k.part(at, "case", "case-stuff", "case-shape", "case-bend", "case-lay", "case-face", "case-side", "outline", "flat")
}

// lookingOut draws head, chest and legs in front of the case, moved so far.
func lookingOut(k *sketch, dx, dy float64) {
	k.Warp(func(p pt) pt { return pt{X: p.X + dx, Y: p.Y + dy} })
	caddisLegs(k, 0.05)
	k.Part("body")
	k.Blob(path(0.1, -0.055, 0.24, -0.075, 0.42, -0.078, 0.42, 0.07, 0.24, 0.066, 0.12, 0.05)...)
	chestBacks(k)
	caddisHead(k)
	k.Warp(nil)
	k.places["rings"] = nil
	k.part(pt{X: 0.4 + dx, Y: dy + 0.05}, "rings", "hair", "pattern") // the case hides the rest
}

// chestBacks shades the hard backs of the chest sections.
func chestBacks(k *sketch) {
	k.part(pt{X: 0.2, Y: -0.075}, "plates", "shoulders")
	n := map[string]int{"1": 1, "2": 2, "3": 3, "all": 3}[k.is["plates"]]
	k.Part("plates", "body")
	for i := range n {
		x := 0.138 + 0.068*float64(i)
		k.Toned(pt{X: x, Y: -0.058}, pt{X: x + 0.03, Y: -0.078}, pt{X: x + 0.064, Y: -0.072}, pt{X: x + 0.066, Y: 0},
			pt{X: x + 0.03, Y: 0.02}, pt{X: x + 0.004, Y: 0})
	}
	k.Part("shoulders")
	if k.is.has("shoulders") {
		k.Toned(pt{X: 0.19, Y: -0.068}, pt{X: 0.13, Y: -0.088}, pt{X: 0.065, Y: -0.096}, pt{X: 0.12, Y: -0.06}, pt{X: 0.185, Y: -0.02})
	}
	if k.is.is("collar", "ridge") { // a sharp ridge across the first plate
		k.Part("body")
		k.Solid(pt{X: 0.165, Y: -0.07}, pt{X: 0.168, Y: -0.105}, pt{X: 0.178, Y: -0.105}, pt{X: 0.184, Y: -0.07}, pt{X: 0.18, Y: 0.0},
			pt{X: 0.17, Y: 0.0})
	}
}

// tubeCase draws a case that is a tube: round, four-sided, or with wings.
func tubeCase(k *sketch) {
	c := caseForm{0.34, 1.12, 0.125, 0.082}
	if k.is.is("case-shape", "square") {
		c = caseForm{0.34, 1.1, 0.135, 0.075}
		if k.is.is("case-lay", "across") { // laths, drawn out finely
			c.front, c.back = 0.125, 0.04
		}
	}
	if k.is.is("case-shape", "winged") || k.is.has("case-side") {
		ballast(k, c)
	}
	outline := c.outline()
	k.Part("case", "case-shape", "case-stuff", "case-face", "case-bend")
	k.Poly(outline...)
	fill(k, c, outline)
	roughFace(k, c)
	k.Part("case", "case-shape", "body")
	if k.is.is("case-shape", "square") {
		k.Line(pt{X: c.x0, Y: -c.front * 0.25}, pt{X: c.x1, Y: -c.back * 0.25})
		k.Shaded(cornered(pt{X: c.x1, Y: -c.back}, pt{X: c.x1 + 0.05, Y: -c.back * 0.8}, pt{X: c.x1 + 0.05, Y: c.back * 0.35},
			pt{X: c.x1, Y: c.back})...)
		k.Line(path(c.x1, -c.back, c.x1+0.05, -c.back*0.8, c.x1+0.05, c.back*0.35, c.x1, c.back, c.x1, -c.back)...)
	} else if k.is.is("case-shape", "three") {
		k.Line(pt{X: c.x0, Y: -c.front * 0.1}, pt{X: c.x1 + 0.06, Y: -c.back * 0.1})
		k.Toned(cornered(pt{X: c.x1, Y: -c.back}, pt{X: c.x1 + 0.06, Y: -c.back * 0.1}, pt{X: c.x1, Y: c.back})...)
	} else if !k.is.is("case-lay", "along") {
		k.Blob(spot(c.x1, 0, 0.025, c.back)...)
		k.Part("body")
		k.Shaded(spot(c.x1, 0, 0.014, c.back*0.55)...)
	}
	k.Part("case", "case-shape")
	k.Curve(pt{X: c.x0, Y: -c.front}, pt{X: c.x0 - 0.03, Y: 0}, pt{X: c.x0, Y: c.front})
}

// ballast draws what stands out from the sides of a case: bigger stones, or a
// brim of sand.
func ballast(k *sketch, c caseForm) {
	k.Part("case-side", "case-shape", "case")
	side := k.is["case-side"]
	if side == "" { // not told: what the case is made of tells it
		side = map[bool]string{true: "stones", false: "brim"}[k.is.is("case-stuff", "stones")]
	}
	if side == "none" {
		return
	}
	if side == "brim" {
		brim := path(0.2, -0.1, 0.32, -0.24, 0.6, -0.25, 0.9, -0.16, 1.16, 0, 0.9, 0.16, 0.6, 0.25, 0.32, 0.24, 0.2, 0.1)
		k.Blob(brim...)
		k.Texture(func() {
			for _, p := range scatter(brim, 0.045) {
				if p.X < 1 {
					k.Dot(p, 0.006)
				}
			}
		})
		return
	}
	sides(func(s float64) {
		for i := range 3 {
			x := 0.47 + 0.22*float64(i)
			k.Toned(pebble(pt{X: x, Y: s * (c.half(x) + 0.055)}, 0.125, i+int(s)+2)...)
		}
	})
}

// fill draws the pieces that a case is made of, as they are laid.
func fill(k *sketch, c caseForm, outline []pt) {
	k.Part("case-stuff", "case-lay", "case-face")
	if k.is.is("case-stuff", "hollow") { // the grain of one twig, and a knot
		k.Line(pt{X: c.x0 + 0.05, Y: -c.front * 0.5}, pt{X: c.x1 - 0.1, Y: -c.back * 0.5})
		k.Line(pt{X: c.x0 + 0.15, Y: c.front * 0.4}, pt{X: c.x1 - 0.02, Y: c.back * 0.4})
		k.Ring(pt{X: (c.x0 + c.x1) / 2}, c.back*0.35)
		return
	}
	if k.is.is("case-stuff", "stones", "sand", "silk") { // which have no length to lay
		fitted(k, c, outline)
		return
	}
	switch k.is["case-lay"] {
	case "spiral":
		spiralPieces(k, c)
	case "across":
		crossPieces(k, c)
	case "along":
		longPieces(k, c)
	default:
		fitted(k, c, outline)
	}
}

// spiralPieces are bands of even pieces that wind round the tube.
func spiralPieces(k *sketch, c caseForm) {
	for i := range 8 {
		x := c.x0 + 0.02 + 0.1*float64(i)
		if x+0.12 > c.x1 {
			break
		}
		k.Line(pt{X: x, Y: c.half(x)}, pt{X: x + 0.1, Y: -c.half(x + 0.1)})
		k.Texture(func() {
			for _, f := range []float64{0.3, 0.65} {
				p := pt{X: x, Y: c.half(x)}.Lerp(pt{X: x + 0.1, Y: -c.half(x + 0.1)}, f)
				k.Line(p, pt{X: p.X + 0.1, Y: p.Y})
			}
		})
	}
}

// crossPieces are sticks laid across, their ends standing out, or laths flush
// with the corners of a chimney.
func crossPieces(k *sketch, c caseForm) {
	flush := k.is.is("case-shape", "square")
	step := 0.05
	if flush {
		step = 0.034
	}
	for i := range 23 {
		x := c.x0 + 0.02 + step*float64(i)
		if x+0.04 > c.x1 {
			break
		}
		h := c.half(x + 0.02)
		if flush {
			k.Line(pt{X: x, Y: -h}, pt{X: x + 0.003, Y: h})
			continue
		}
		over, under := h+0.02+0.03*float64(i*5%3), h+0.02+0.03*float64(i*7%3)
		lean := 0.02 * float64(i%3-1)
		k.Poly(pt{X: x + lean, Y: -over}, pt{X: x + lean + 0.036, Y: -over}, pt{X: x + 0.036 - lean, Y: under},
			pt{X: x - lean, Y: under})
	}
}

// longPieces are sticks and straws laid lengthwise, their ends standing out.
func longPieces(k *sketch, c caseForm) {
	stuff := k.is["case-stuff"]
	for i, f := range []float64{-0.92, 0.9, -0.5, 0.5, -0.05} {
		x0, x1 := c.x0-0.02+0.05*float64(i*2%3), c.x1-0.06+0.07*float64(i*3%4)
		y0, y1 := f*c.front, f*c.back*1.15
		t := 0.03
		k.Poly(pt{X: x0, Y: y0 - t}, pt{X: x1, Y: y1 - t*0.8}, pt{X: x1 + 0.015, Y: y1}, pt{X: x1, Y: y1 + t*0.8}, pt{X: x0, Y: y0 + t})
		k.Texture(func() { k.Line(pt{X: x0 + 0.04, Y: y0}, pt{X: x1 - 0.04, Y: y1}) })
	}
	if stuff == "plant" || stuff == "mixed" {
		k.Poly(path(c.x0+0.1, -c.front-0.05, c.x1+0.2, -c.back-0.075, c.x1+0.2, -c.back-0.04, c.x0+0.1, -c.front-0.01)...)
	}
	if stuff != "plant" {
		for i := range 6 {
			x := c.x0 + 0.06 + 0.12*float64(i)
			k.Blob(pebble(pt{X: x, Y: c.half(x) * 0.7 * float64(1-2*(i%2))}, 0.05, i)...)
		}
	}
}

// roughFace draws the grains or ends that stand out over the edges of a rough case.
func roughFace(k *sketch, c caseForm) {
	if !k.is.is("case-face", "rough") || k.is.is("case-shape", "winged") {
		return
	}
	k.Part("case-face")
	if k.is.is("case-stuff", "sand") { // grains: stones at both sides are another case's
		sides(func(s float64) {
			for i := range 26 {
				x := c.x0 + 0.015 + 0.029*float64(i)
				k.Blob(spot(x, s*(c.half(x)+0.004*float64(i%3)), 0.011, 0.009+0.003*float64(i%2))...)
			}
		})
		return
	}
	sides(func(s float64) {
		for i := range 6 {
			x := c.x0 + 0.06 + 0.12*float64(i)
			if k.is.is("case-stuff", "plant") {
				k.Line(pt{X: x, Y: s * c.half(x)}, pt{X: x + 0.055, Y: s * (c.half(x) + 0.035)}, pt{X: x + 0.06, Y: s * c.half(x)})
				continue
			}
			k.Blob(pebble(pt{X: x, Y: s * (c.half(x) + 0.012)}, 0.045, i+int(s)+1)...)
		}
	})
}

// fitted fills the tube with close-fitted pieces.
func fitted(k *sketch, c caseForm, outline []pt) {
	switch k.is["case-stuff"] {
	case "stones":
		masonry(k, c, 0.052)
	case "sand":
		k.Texture(func() {
			for i, p := range scatter(outline, 0.042) {
				k.Dot(p, 0.0045+0.002*float64(i%2))
			}
		})
	case "plant":
		leafPanels(k, c)
	case "mixed":
		masonry(k, c, 0.05)
		for i := range 4 {
			x := c.x0 + 0.1 + 0.17*float64(i)
			k.Poly(pt{X: x, Y: -0.05}, pt{X: x + 0.15, Y: -0.02}, pt{X: x + 0.15, Y: 0.01}, pt{X: x, Y: -0.02})
		}
	case "silk":
		k.Texture(func() {
			for i := range 14 {
				x := c.x0 + 0.05 + 0.052*float64(i)
				k.Curve(pt{X: x, Y: -c.half(x)}, pt{X: x - 0.015}, pt{X: x, Y: c.half(x)})
			}
		})
	}
}

// masonry covers the tube with stones in rows, those at its edges standing out.
func masonry(k *sketch, c caseForm, r float64) {
	n := k.individual() * 5 // other stones
	for x := c.x0 + r*0.6; x < c.x1-r*0.4; x += r * 1.7 {
		h := c.half(x)
		rows := int(math.Round(h * 2 / (r * 1.6)))
		for j := range rows {
			n++
			y := -h + r*0.7 + (2*h-r*1.4)*float64(j)/float64(max(1, rows-1))
			k.Blob(pebble(pt{X: x + r*0.4*float64(j%2), Y: y}, r*1.22, n)...)
		}
	}
}

// leafPanels are squares of leaf set edge to edge.
func leafPanels(k *sketch, c caseForm) {
	if k.is.is("case-shape", "square") {
		leafSquares(k, c)
		return
	}
	for i := range 7 {
		x := c.x0 + 0.11*float64(i) + 0.02
		if x+0.05 > c.x1 {
			break
		}
		k.Line(pt{X: x, Y: -c.half(x)}, pt{X: x + 0.008, Y: c.half(x)})
		k.Texture(func() {
			y := c.half(x) * 0.3 * float64(i%2*2-1)
			k.Line(pt{X: x, Y: y}, pt{X: x + 0.11, Y: y})
		})
	}
}

// leafSquares are big square pieces of leaf on two faces of a chimney: every other one
// dark, the pale ones with a midrib.
func leafSquares(k *sketch, c caseForm) {
	for i := range 4 {
		x := c.x0 + 0.19*float64(i)
		x1 := min(x+0.19, c.x1)
		for j, face := range [][2]float64{{-1, -0.25}, {-0.25, 1}} {
			over := func(x float64) pt { return pt{X: x, Y: c.half(x) * face[0]} }
			under := func(x float64) pt { return pt{X: x, Y: c.half(x) * face[1]} }
			if (i+j)%2 == 0 {
				k.Toned(cornered(over(x), over(x1), under(x1), under(x))...)
			} else {
				k.Texture(func() {
					leafVeins(k, over(x).Lerp(under(x), 0.5), over(x1).Lerp(under(x1), 0.5), c.half(x)*(face[1]-face[0]))
				})
			}
			k.Line(over(x), over(x1), under(x1), under(x), over(x))
		}
	}
}

// cornered puts places beside the corners, which keep them sharp in a smooth outline.
func cornered(corners ...pt) (out []pt) {
	n := len(corners)
	for i, c := range corners {
		out = append(out, c.Lerp(corners[(i+n-1)%n], 0.03), c, c.Lerp(corners[(i+1)%n], 0.03))
	}
	return out
}

// leafVeins draws a midrib and the side veins of a piece of leaf so high.
func leafVeins(k *sketch, a, b pt, height float64) {
	k.Line(a, b)
	for _, f := range []float64{0.15, 0.45} {
		p := a.Lerp(b, f)
		k.Line(p, pt{X: p.X + 0.07, Y: p.Y - height*0.4})
		k.Line(p, pt{X: p.X + 0.07, Y: p.Y + height*0.4})
	}
}

// leafCase is two broad leaf pieces, one on the other.
func leafCase(k *sketch) {
	k.Part("case", "case-shape", "case-stuff", "case-lay", "case-face")
	k.Blob(path(0.24, 0.02, 0.32, -0.19, 0.62, -0.25, 0.98, -0.2, 1.14, 0.02, 0.98, 0.24, 0.62, 0.28, 0.32, 0.22)...)
	k.Toned(path(0.34, 0, 0.42, -0.15, 0.66, -0.2, 0.94, -0.16, 1.08, 0, 0.94, 0.17, 0.66, 0.21, 0.42, 0.16)...)
	k.Line(pt{X: 0.35}, pt{X: 1.07})
	k.Texture(func() {
		for i := range 4 {
			x := 0.5 + 0.13*float64(i)
			sides(func(s float64) { k.Line(pt{X: x}, pt{X: x + 0.08, Y: s * 0.14}) })
		}
	})
}

// dome draws a dome of stones on its flat underside, head and legs beneath its
// edge.
func dome(k *sketch) {
	lookingOut(k, -0.02, 0.13)
	casePlaces(k, pt{X: 0.6, Y: -0.2})
	k.Part("case", "case-shape", "case-stuff", "case-lay", "case-face")
	k.Toned(path(0.14, 0.17, 0.18, 0, 0.32, -0.19, 0.6, -0.27, 0.88, -0.19, 1.02, 0, 1.06, 0.17, 0.6, 0.19)...)
	n := 0
	for _, row := range []struct {
		y, half, r float64
		count      int
	}{{-0.19, 0.2, 0.088, 4}, {-0.07, 0.33, 0.095, 5}, {0.08, 0.4, 0.115, 6}} {
		for i := range row.count {
			n++
			x := 0.6 - row.half + 2*row.half*float64(i)/float64(row.count-1)
			k.Blob(pebble(pt{X: x, Y: row.y + 0.012*float64(i%2)}, row.r*1.12, n)...)
		}
	}
}

// snailCase draws a coil of sand grains like a snail's shell.
func snailCase(k *sketch) {
	lookingOut(k, -0.02, 0.1)
	casePlaces(k, pt{X: 0.6, Y: -0.2})
	k.Part("case", "case-shape", "case-stuff", "case-face")
	k.Toned(path(0.24, 0.24, 0.23, 0.06, 0.3, -0.18, 0.52, -0.34, 0.78, -0.3, 0.95, -0.12, 0.96, 0.12, 0.82, 0.3, 0.6, 0.35, 0.4, 0.31)...)
	c := pt{X: 0.61, Y: 0.0}
	radius := func(turn float64) float64 { return 0.35 * math.Pow(1-turn/2.9, 0.95) }
	k.Part("case-stuff", "case-lay")
	k.Texture(func() {
		n := 0
		for turn := 0.1; turn < 2.3; n++ {
			r := (radius(turn) + radius(min(turn+1, 2.85))) / 2
			size := max(0.014, (radius(turn)-radius(min(turn+1, 2.85)))*0.23)
			for _, off := range []float64{-1, 1} {
				k.Blob(pebble(c.Polar(r+off*size*1.05, 150+turn*360+off*4), size, n+int(off))...)
			}
			turn += size * 2.3 / (2 * math.Pi * r)
		}
	})
	k.Part("case", "case-shape")
	var turns []pt
	for i := range 60 {
		turn := float64(i) / 22
		turns = append(turns, c.Polar(radius(turn), 150+turn*360))
	}
	k.Curve(turns[18:]...)
}

// purse draws a tiny flat purse of silk, larger than the head that looks out.
func purse(k *sketch) {
	lookingOut(k, 0.02, 0)
	casePlaces(k, pt{X: 0.75, Y: -0.18})
	outline := path(0.36, -0.07, 0.46, -0.21, 0.75, -0.25, 1.04, -0.2, 1.1, -0.07, 1.1, 0.07, 1.04, 0.2, 0.75, 0.25,
		0.46, 0.21, 0.36, 0.07)
	k.Part("case", "case-shape", "case-stuff", "case-face")
	k.Toned(outline...)
	k.Part("case-stuff", "case-lay")
	if k.is.is("case-stuff", "sand") {
		k.Texture(func() {
			for _, p := range scatter(outline, 0.05) {
				k.Dot(p, 0.007)
			}
		})
	}
	k.Part("body")
	k.Dotted(pt{X: 0.7}, 0.33, 0.115) // the larva inside
}
