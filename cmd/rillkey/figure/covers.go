package figure

import "math"

// covers draws wing flaps and wings on a body seen from above.
func covers(k *sketch, w widths) {
	k.part(pt{X: 0.46, Y: w.width(0.45) * 0.9}, "wings", "pads")
	switch k.is["wings"] {
	case "pads":
		pads(k, w)
	case "hard":
		k.Part("wings")
		hardWings(k, w, 0.25)
	case "crossed":
		k.Part("wings")
		crossedWings(k, w, 0.25)
	case "flying":
		k.Part("wings")
		flyingWings(k, w)
	}
}

func pads(k *sketch, w widths) {
	turn := 4.0
	if k.is.is("pads", "spread") {
		turn = 32
	}
	sides(func(s float64) {
		for _, x := range []float64{0.37, 0.27} {
			root := pt{X: x, Y: s * w.width(x) * 0.55}
			k.leaf(root, 0.16, w.width(x)*0.42, s*turn)
		}
	})
}

// hardWings draws two covers that meet in a straight line.
func hardWings(k *sketch, w widths, start float64) {
	outline := w.outline(start, 1)
	k.Blob(outline...)
	k.Line(pt{X: start}, pt{X: 1})
	k.Part("wings", "body")
	sides(func(s float64) {
		k.Curve(pt{X: start + 0.05, Y: s * w.width(start+0.05) * 0.5}, pt{X: 0.62, Y: s * w.width(0.62) * 0.5},
			pt{X: 0.93, Y: s * w.width(0.93) * 0.35})
	})
}

// crossedWings draws wings that lie flat, a triangle between their bases, their
// thin tips one over the other.
func crossedWings(k *sketch, w widths, start float64) {
	k.Blob(w.outline(start, 1)...)
	h := w.width(start + 0.03)
	apex := pt{X: start + 0.24}
	k.Line(pt{X: start + 0.005, Y: -h * 0.6}, apex, pt{X: start + 0.005, Y: h * 0.6})
	k.Line(apex, pt{X: 0.78, Y: w.width(0.78) * 0.75}, pt{X: 0.97, Y: -w.width(0.97) * 0.5})
	k.Line(apex, pt{X: 0.78, Y: -w.width(0.78) * 0.75}, pt{X: 0.88, Y: -w.width(0.88) * 0.05})
	k.Line(pt{X: 0.7, Y: -w.width(0.7) * 0.98}, pt{X: 0.78, Y: -w.width(0.78) * 0.75})
	k.Line(pt{X: 0.7, Y: w.width(0.7) * 0.98}, pt{X: 0.78, Y: w.width(0.78) * 0.75})
}

func flyingWings(k *sketch, w widths) {
	sides(func(s float64) {
		for _, f := range []struct{ x, length, width, turn float64 }{{0.4, 0.5, 0.075, 34}, {0.3, 0.68, 0.085, 56}} {
			root := pt{X: f.x, Y: s * w.width(f.x) * 0.6}
			k.leaf(root, f.length, f.width, s*f.turn)
			k.Line(root, root.Polar(f.length*0.92, s*(f.turn-3)))
			k.Line(root.Polar(f.length*0.3, s*f.turn), root.Polar(f.length*0.85, s*(f.turn+6)))
		}
	})
}

// shieldAbove draws one large shield over several parts.
func shieldAbove(k *sketch, w widths) {
	k.part(pt{X: 0.4, Y: 0}, "shield")
	switch k.is["shield"] {
	case "saucer":
		saucer(k)
	case "hood":
		hood(k, w)
	case "roof":
		k.Blob(w.scaled(1.3).outline(0.28, 0.52)...)
		k.Blob(w.scaled(1.35).outline(0.06, 0.3)...)
	case "crust":
		k.Blob(w.scaled(1.08).outline(0.1, 0.5)...)
		k.Line(pt{X: 0.36, Y: -w.width(0.36)}, pt{X: 0.33}, pt{X: 0.36, Y: w.width(0.36)})
	}
}

// saucer is the flat shield of a water penny: rings across, a rim of lines.
func saucer(k *sketch) {
	k.Blob(ovalAt(0.5, 0, 0.5, 0.39)...)
	k.Part("rings")
	k.Line(pt{X: 0.03}, pt{X: 0.97})
	for i := range 9 {
		x := 0.2 + 0.085*float64(i)
		sides(func(s float64) {
			k.Curve(pt{X: x}, pt{X: x + 0.012, Y: s * 0.12}, pt{X: x + 0.05, Y: s * 0.37 * saucerEdge(x+0.05)})
		})
	}
}

// saucerEdge is the half width of the saucer at x, as a share of its greatest.
func saucerEdge(x float64) float64 {
	return math.Sqrt(max(0, 1-(2*x-1)*(2*x-1)))
}

func hood(k *sketch, w widths) {
	h := max(w.width(0.45)*1.05, 0.17)
	k.Blob(pt{X: 0.14}, pt{X: 0.17, Y: -h * 0.6}, pt{X: 0.34, Y: -h}, pt{X: 0.56, Y: -h * 0.98}, pt{X: 0.72, Y: -h * 0.5}, pt{X: 0.73},
		pt{X: 0.72, Y: h * 0.5}, pt{X: 0.56, Y: h * 0.98}, pt{X: 0.34, Y: h}, pt{X: 0.17, Y: h * 0.6})
	k.Line(pt{X: 0.16}, pt{X: 0.72})
	sides(func(s float64) {
		k.Curve(pt{X: 0.2, Y: s * h * 0.25}, pt{X: 0.45, Y: s * h * 0.5}, pt{X: 0.66, Y: s * h * 0.3})
	})
}

// legsBeneath shows legs that a shield hides, in dashes.
func legsBeneath(k *sketch) {
	k.part(pt{X: 0.35, Y: 0.18}, "legs", "leg-place", "leg-length", "claws")
	for i := range 3 {
		x := 0.26 + 0.12*float64(i)
		sides(func(s float64) { k.Dashes(pt{X: x, Y: s * 0.05}, pt{X: x - 0.02 + 0.04*float64(i), Y: s * 0.2}) })
	}
	k.part(pt{X: 0.1, Y: 0}, "head")
	k.Dotted(pt{X: 0.13}, 0.06, 0.06)
}
