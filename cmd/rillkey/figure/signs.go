package figure

// signs are traits that no outline of the whole animal shows: each is a small
// drawing of its own, in a square about 1 wide, its middle at the origin. What
// moves is drawn as a bean with arrows.
var signs = map[string]func(k *sketch, state string){
	"flat": flatSign, "skin": skinSign, "colour": colourSign,
	"move": moveSign, "dart": dartSign, "stroke": strokeSign, "upside": upsideSign, "surface": surfaceSign, "land": landSign,
	"claws": clawsSign, "foot": footSign, "gill-mark": gillSign, "mask": maskSign, "retreat": retreatSign,
	"tusks": tusksSign, "air-spots": airSign, "lid": lidSign, "wall": wallSign, "backbone": backboneSign, "humps": humpsSign, "hair": hairSign, "pattern": patternSign,
}

// arrow draws a line with a head.
func (k *sketch) arrow(points ...pt) {
	k.Curve(points...)
	n := len(points)
	tip, before := points[n-1], points[n-2]
	d := direction(before, tip)
	k.Poly(tip, tip.Polar(0.13, d+155), tip.Polar(0.13, d-155))
}

// bean is any animal, seen from above, facing left.
func (k *sketch) bean(c pt, length, half float64) {
	k.Blob(pt{X: c.X - length/2, Y: c.Y}, pt{X: c.X - length*0.35, Y: c.Y - half*0.9}, pt{X: c.X, Y: c.Y - half}, pt{X: c.X + length*0.35, Y: c.Y - half*0.7}, pt{X: c.X + length/2, Y: c.Y},
		pt{X: c.X + length*0.35, Y: c.Y + half*0.7}, pt{X: c.X, Y: c.Y + half}, pt{X: c.X - length*0.35, Y: c.Y + half*0.9})
	k.Dot(pt{X: c.X - length*0.36, Y: c.Y - half*0.25}, 0.022)
}

// legsUnder gives a bean legs on one side.
func (k *sketch) legsUnder(c pt, side float64) {
	for i := range 3 {
		x := c.X - 0.12 + 0.11*float64(i)
		k.Line(pt{X: x, Y: c.Y + side*0.08}, pt{X: x - 0.03, Y: c.Y + side*0.22})
	}
}

func flatSign(k *sketch, state string) {
	rx, ry := 0.27, 0.27
	switch state {
	case "flat":
		rx, ry = 0.46, 0.13
	case "tall":
		rx, ry = 0.14, 0.44
	}
	k.Line(pt{X: -0.5, Y: 0.47}, pt{X: 0.5, Y: 0.47})
	k.Part("flat")
	k.Blob(ovalAt(0, 0.46-ry, rx, ry)...)
}

func skinSign(k *sketch, state string) {
	k.Part("skin")
	top := path(-0.5, -0.1, -0.3, -0.2, -0.1, -0.1, 0.1, -0.2, 0.3, -0.1, 0.5, -0.2)
	plate := func(x float64) {
		k.Poly(pt{X: x - 0.13, Y: -0.3}, pt{X: x + 0.13, Y: -0.3}, pt{X: x + 0.15, Y: -0.02}, pt{X: x - 0.15, Y: -0.02})
		k.hatch([]pt{{X: x - 0.13, Y: -0.3}, {X: x + 0.13, Y: -0.3}, {X: x + 0.15, Y: -0.02}, {X: x - 0.15, Y: -0.02}}, 0.06, 45)
	}
	k.Curve(top...)
	k.Curve(pt{X: -0.5, Y: 0.15}, pt{X: -0.25, Y: 0.08}, pt{X: 0, Y: 0.15}, pt{X: 0.25, Y: 0.08}, pt{X: 0.5, Y: 0.15})
	switch state {
	case "part":
		plate(-0.3)
	case "hard":
		plate(-0.34)
		plate(0)
		plate(0.34)
	default:
		k.Curve(pt{X: -0.06, Y: -0.45}, pt{X: 0, Y: -0.12}, pt{X: 0.06, Y: -0.45})
	}
}

// colourSign draws a swatch: each colour has lines or dots of its own, so that
// the words beside it are not needed to tell them apart.
func colourSign(k *sketch, state string) {
	k.Part("colour")
	box := ovalAt(0, 0, 0.46, 0.3)
	k.Blob(box...)
	inner := ovalAt(0, 0, 0.43, 0.275)
	switch state {
	case "grey":
		k.hatch(inner, 0.14, 0)
	case "green":
		k.hatch(inner, 0.1, 45)
	case "yellow":
		k.speckle(inner, 0.11, 0.014)
	case "brown":
		k.hatch(inner, 0.1, 45)
		k.hatch(inner, 0.1, -45)
	case "dark":
		k.Solid(ovalAt(0, 0, 0.4, 0.25)...)
	case "red":
		k.hatch(inner, 0.09, 90)
	}
}

func moveSign(k *sketch, state string) {
	k.Part("move")
	c := pt{X: 0.08, Y: 0}
	switch state {
	case "crawl":
		k.Line(pt{X: -0.5, Y: 0.24}, pt{X: 0.5, Y: 0.24})
		k.bean(c, 0.55, 0.12)
		k.legsUnder(c, 1)
		k.arrow(pt{X: 0.1, Y: -0.25}, pt{X: -0.1, Y: -0.27}, pt{X: -0.35, Y: -0.25})
	case "swim":
		k.bean(pt{X: -0.1, Y: 0}, 0.45, 0.11)
		k.Curve(pt{X: 0.14, Y: 0}, pt{X: 0.25, Y: -0.12}, pt{X: 0.36, Y: 0.08}, pt{X: 0.48, Y: -0.06})
		k.arrow(pt{X: 0.3, Y: 0.26}, pt{X: 0, Y: 0.28}, pt{X: -0.45, Y: 0.26})
	case "thrash":
		k.Curve(pt{X: -0.45, Y: 0.1}, pt{X: -0.25, Y: -0.25}, pt{X: -0.05, Y: 0.2}, pt{X: 0.15, Y: -0.25}, pt{X: 0.32, Y: 0.2}, pt{X: 0.45, Y: -0.15})
		k.arrow(pt{X: -0.05, Y: 0.25}, pt{X: -0.05, Y: 0.46})
		k.arrow(pt{X: 0.15, Y: -0.3}, pt{X: 0.15, Y: -0.48})
	case "loop":
		k.Line(pt{X: -0.5, Y: 0.3}, pt{X: 0.5, Y: 0.3})
		k.Curve(pt{X: -0.22, Y: 0.28}, pt{X: -0.16, Y: -0.05}, pt{X: 0.03, Y: -0.18}, pt{X: 0.2, Y: -0.05}, pt{X: 0.26, Y: 0.28})
		k.Curve(pt{X: -0.15, Y: 0.28}, pt{X: -0.1, Y: 0.02}, pt{X: 0.03, Y: -0.08}, pt{X: 0.14, Y: 0.02}, pt{X: 0.19, Y: 0.28})
		k.arrow(pt{X: 0.2, Y: -0.33}, pt{X: -0.1, Y: -0.4}, pt{X: -0.4, Y: -0.15})
	case "glide":
		k.Line(pt{X: -0.5, Y: 0.14}, pt{X: 0.5, Y: 0.14})
		k.bean(pt{X: 0.05, Y: 0.05}, 0.65, 0.08)
		k.arrow(pt{X: 0.2, Y: -0.2}, pt{X: -0.1, Y: -0.2}, pt{X: -0.4, Y: -0.2})
	case "row":
		k.bean(pt{}, 0.5, 0.15)
		sides(func(s float64) {
			k.Line(pt{X: 0, Y: s * 0.14}, pt{X: 0.02, Y: s * 0.42})
			k.arrow(pt{X: 0.06, Y: s * 0.42}, pt{X: 0.25, Y: s * 0.38}, pt{X: 0.36, Y: s * 0.24})
		})
	default:
		k.Line(pt{X: -0.5, Y: 0.15}, pt{X: 0.5, Y: 0.15})
		k.bean(pt{}, 0.6, 0.13)
		k.Line(pt{X: -0.42, Y: -0.12}, pt{X: -0.42, Y: 0.12})
		k.Line(pt{X: 0.42, Y: -0.12}, pt{X: 0.42, Y: 0.12})
	}
}

func dartSign(k *sketch, state string) {
	k.Part("dart")
	if state == "yes" {
		k.bean(pt{X: -0.2}, 0.4, 0.1)
		for i := range 3 {
			y := -0.12 + 0.12*float64(i)
			k.Line(pt{X: 0.08, Y: y}, pt{X: 0.5, Y: y})
		}
		return
	}
	k.bean(pt{}, 0.55, 0.13)
	k.legsUnder(pt{}, 1)
	k.Line(pt{X: -0.5, Y: 0.24}, pt{X: 0.5, Y: 0.24})
}

func strokeSign(k *sketch, state string) {
	k.Part("stroke")
	k.bean(pt{}, 0.6, 0.2)
	sides(func(s float64) {
		if state == "together" || state == "turns" && s < 0 {
			k.Line(pt{X: 0.05, Y: s * 0.18}, pt{X: -0.08, Y: s * 0.42})
			k.arrow(pt{X: -0.04, Y: s * 0.46}, pt{X: 0.15, Y: s * 0.48}, pt{X: 0.34, Y: s * 0.38})
		} else if state == "turns" {
			k.Line(pt{X: 0.05, Y: s * 0.18}, pt{X: 0.3, Y: s * 0.4})
		}
	})
}

func upsideSign(k *sketch, state string) {
	k.Part("upside")
	k.Curve(pt{X: -0.5, Y: -0.38}, pt{X: -0.25, Y: -0.42}, pt{X: 0, Y: -0.38}, pt{X: 0.25, Y: -0.42}, pt{X: 0.5, Y: -0.38})
	switch state {
	case "belly":
		k.bean(pt{Y: 0.08}, 0.6, 0.14)
		k.legsUnder(pt{Y: 0.08}, -1)
	case "side":
		k.Curve(pt{X: -0.3, Y: 0.25}, pt{X: -0.25, Y: -0.05}, pt{X: 0, Y: -0.16}, pt{X: 0.25, Y: -0.05}, pt{X: 0.3, Y: 0.25})
		k.Curve(pt{X: -0.2, Y: 0.25}, pt{X: -0.14, Y: 0.05}, pt{X: 0, Y: -0.02}, pt{X: 0.14, Y: 0.05}, pt{X: 0.2, Y: 0.25})
		k.arrow(pt{X: 0.3, Y: -0.25}, pt{X: 0, Y: -0.28}, pt{X: -0.35, Y: -0.22})
	default:
		k.bean(pt{Y: -0.02}, 0.6, 0.14)
		k.legsUnder(pt{Y: -0.02}, 1)
	}
}

func surfaceSign(k *sketch, state string) {
	k.Part("surface")
	y := -0.1
	k.Curve(pt{X: -0.5, Y: y}, pt{X: -0.25, Y: y + 0.03}, pt{X: 0, Y: y}, pt{X: 0.25, Y: y + 0.03}, pt{X: 0.5, Y: y})
	k.Line(pt{X: -0.4, Y: 0.4}, pt{X: -0.15, Y: 0.4})
	if state == "top" {
		k.bean(pt{Y: y - 0.22}, 0.5, 0.09)
		k.legsUnder(pt{Y: y - 0.22}, 1)
		return
	}
	k.bean(pt{Y: 0.18}, 0.5, 0.12)
	k.legsUnder(pt{Y: 0.18}, 1)
}

func landSign(k *sketch, state string) {
	k.Part("land")
	k.Curve(pt{X: -0.5, Y: 0.05}, pt{X: -0.25, Y: 0.09}, pt{X: 0, Y: 0.05}, pt{X: 0.25, Y: 0.09}, pt{X: 0.5, Y: 0.05})
	if state == "yes" {
		k.bean(pt{Y: 0}, 0.5, 0.12)
		k.leaf(pt{X: 0, Y: -0.1}, 0.35, 0.08, -35)
		k.Line(pt{X: -0.12, Y: -0.12}, pt{X: -0.2, Y: -0.3})
		k.Line(pt{X: -0.02, Y: -0.12}, pt{X: -0.06, Y: -0.32})
		return
	}
	k.bean(pt{Y: 0.3}, 0.5, 0.11)
	k.legsUnder(pt{Y: 0.3}, 1)
}

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
		k.Blob(pt{X: x0, Y: 0.0}, pt{X: x0 + 0.01, Y: -0.09}, pt{X: x1 - 0.01, Y: -0.08}, pt{X: x1}, pt{X: x1 - 0.01, Y: 0.08}, pt{X: x0 + 0.01, Y: 0.09})
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
		k.Solid(base, base.Toward(tip, 0.35).Polar(0.25, -84), base.Toward(tip, 0.75).Polar(0.2, -84), tip, base.Toward(tip, 0.75).Polar(0.12, -84), base.Toward(tip, 0.35).Polar(0.16, -84))
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
		k.Poly(pt{X: -0.22, Y: 0.1}, pt{X: 0.22, Y: 0.1}, pt{X: 0.12, Y: 0.24}, pt{X: 0.035, Y: 0.3}, pt{X: 0.035, Y: 0.62}, pt{X: -0.035, Y: 0.62}, pt{X: -0.035, Y: 0.3}, pt{X: -0.12, Y: 0.24})
	case "spoon", "jagged":
		k.Blob(pt{X: -0.3, Y: -0.06}, pt{X: -0.3, Y: 0.22}, pt{X: 0, Y: 0.42}, pt{X: 0.3, Y: 0.22}, pt{X: 0.3, Y: -0.06}, pt{X: 0, Y: -0.12})
		if state == "spoon" {
			k.Line(pt{X: 0, Y: -0.11}, pt{X: 0, Y: 0.24})
			return
		}
		k.Line(pt{X: 0, Y: -0.12}, pt{X: 0.1, Y: -0.05}, pt{X: -0.1, Y: 0.01}, pt{X: 0.1, Y: 0.08}, pt{X: -0.1, Y: 0.15}, pt{X: 0.08, Y: 0.21}, pt{X: 0, Y: 0.3})
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
		k.Blob(pt{X: -0.45, Y: -0.4}, pt{X: -0.3, Y: -0.1}, pt{X: 0.05, Y: 0.04}, pt{X: 0.3, Y: 0.04}, pt{X: 0.1, Y: -0.08}, pt{X: -0.05, Y: -0.4}, pt{X: -0.25, Y: -0.34})
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
		k.spiral(pt{X: 0.05, Y: 0.1}, 0.3, 2.6, 1)
		return
	}
	for _, f := range []float64{0.75, 0.5, 0.25} {
		k.Blob(tilted(pt{}, 0.36*f, 0.44*f, 12)...)
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
		k.Solid(pt{X: -0.06, Y: -0.48}, pt{X: 0.02, Y: 0}, pt{X: -0.06, Y: 0.48}, pt{X: 0.12, Y: 0.46}, pt{X: 0.2, Y: 0}, pt{X: 0.12, Y: -0.46})
	}
}

func backboneSign(k *sketch, state string) {
	k.Part("backbone")
	if state == "yes" {
		k.Line(pt{X: -0.4, Y: 0}, pt{X: 0.45, Y: 0})
		for i := range 6 {
			x := -0.2 + 0.1*float64(i)
			k.Line(pt{X: x + 0.06, Y: -0.16}, pt{X: x}, pt{X: x + 0.06, Y: 0.16})
		}
		k.Ring(pt{X: -0.36, Y: 0}, 0.12)
		return
	}
	k.bean(pt{}, 0.8, 0.2)
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

func hairSign(k *sketch, state string) {
	k.Part("hair")
	k.Curve(pt{X: -0.5, Y: 0.2}, pt{X: 0, Y: 0.1}, pt{X: 0.5, Y: 0.2})
	for i := range 9 {
		p := pt{X: -0.42 + 0.105*float64(i), Y: 0.13}
		switch state {
		case "hairy":
			k.Line(p, p.Polar(0.38, -90+float64(i%3-1)*18))
		case "spiny":
			if i%2 == 0 {
				k.Poly(pt{X: p.X - 0.06, Y: p.Y}, pt{X: p.X + 0.02, Y: p.Y - 0.26}, pt{X: p.X + 0.06, Y: p.Y})
			}
		}
	}
}

func patternSign(k *sketch, state string) {
	k.Part("pattern")
	k.Blob(ovalAt(0, 0, 0.46, 0.3)...)
	if state == "marked" {
		sides(func(s float64) {
			k.Solid(ovalAt(-0.22, s*0.1, 0.09, 0.06)...)
			k.Solid(ovalAt(0.08, s*0.13, 0.08, 0.06)...)
		})
		k.Solid(ovalAt(0.28, 0, 0.05, 0.14)...)
	}
}
