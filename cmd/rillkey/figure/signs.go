package figure

import "sync"

// signs are traits that no outline of the whole animal shows: each is a small
// drawing of its own, in a square about 1 wide, its middle at the origin. What
// moves is drawn as a bean with arrows.
var signs = sync.OnceValue(func() map[string]func(k *sketch, state string) {
	return map[string]func(k *sketch, state string){
		"flat": flatSign, "skin": skinSign, "colour": colourSign,
		"living": livingSign, "move": moveSign, "manner": mannerSign, "dart": dartSign, "stroke": strokeSign,
		"upside": upsideSign, "surface": surfaceSign, "breath": breathSign,
		"air": airSeenSign, "shelf": shelfSign, "covers": coversSign, "disc": discSign, "land": landSign,
		"grooves": groovesSign, "beneath": beneathSign, "brood": broodSign,
		"claws": clawsSign, "foot": footSign, "gill-mark": gillSign, "mask": maskSign, "retreat": retreatSign,
		"tusks": tusksSign, "air-spots": airSign, "lid": lidSign, "wall": wallSign, "backbone": backboneSign, "case": caseSign,
		"neck-horn": hornSign, "collar": collarSign, "eye-dots": eyeDotsSign, "humps": humpsSign, "hair": hairSign, "pattern": patternSign,
		"coat": coatSign, "bands": bandsSign, "second-plate": secondPlateSign, "horn": browHornSign, "lip": lipSign,
		"case-held": caseHeldSign,
	}
})

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

// coatSign draws a back that shines, or one under a coat of silt.
func coatSign(k *sketch, state string) {
	k.Blob(ovalAt(0, 0, 0.46, 0.3)...)
	k.Part("coat")
	if state == "coated" {
		k.speckle(ovalAt(0, 0, 0.44, 0.28), 0.06, 0.018)
		k.Curve(path(-0.5, -0.1, -0.42, -0.2, -0.3, -0.24, -0.2, -0.34, 0, -0.3, 0.16, -0.36, 0.3, -0.26, 0.44, -0.2, 0.5, -0.06)...)
		return
	}
	k.Curve(path(-0.3, -0.08, -0.12, -0.18, 0.1, -0.18)...)
}

// bandsSign draws a leg, and above it a tail, ringed or of one colour.
func bandsSign(k *sketch, state string) {
	k.Part("bands")
	k.Poly(path(-0.48, -0.34, 0.48, -0.28, 0.48, -0.24, -0.48, -0.22)...)
	k.Poly(path(-0.48, 0.02, 0.1, -0.02, 0.48, 0.36, 0.4, 0.42, 0.04, 0.16, -0.48, 0.16)...)
	if state == "tails" || state == "both" {
		for _, x := range []float64{-0.3, 0, 0.3} {
			k.Solid(path(x-0.06, -0.33, x+0.06, -0.32, x+0.06, -0.23, x-0.06, -0.23)...)
		}
	}
	if state == "legs" || state == "both" {
		k.Solid(path(-0.36, 0.02, -0.22, 0.01, -0.22, 0.16, -0.36, 0.16)...)
		k.Solid(path(-0.08, 0, 0.04, -0.01, 0.02, 0.15, -0.08, 0.16)...)
		k.Solid(path(0.25, 0.14, 0.33, 0.22, 0.26, 0.3, 0.18, 0.25)...)
	}
}
