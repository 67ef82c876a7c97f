package figure

// beetle draws a grown beetle or a bug from above: head, neck shield and covers.
func beetle(k *sketch) {
	w := beetleForm(k.is)
	k.feelersAbove(w.width(0.08) * 1.1)
	k.legsAbove(w, [3]float64{0.27, 0.4, 0.5})
	k.tails()
	k.hindEnd(0.05)
	k.hooksAbove(0.06)
	k.gillsBehind(w)
	k.part(pt{X: 0.75, Y: w.width(0.75)}, "outline", "flat", "rings")
	k.Part("outline", "body")
	k.Blob(w.outline(0.25, 1)...)
	k.Part("rings")
	if !k.is.is("wings", "hard", "crossed") {
		for x := 0.36; x < 0.97; x += 0.085 {
			k.Curve(pt{X: x, Y: -w.width(x) * 0.97}, pt{X: x + 0.012}, pt{X: x, Y: w.width(x) * 0.97})
		}
	}
	k.headAbove(w.width(0.1))
	k.Part("body", "plates")
	k.Blob(section(w, 0.125, 0.29, 1)...)
	k.part(pt{X: 0.62, Y: 0}, "wings", "pads")
	switch k.is["wings"] {
	case "hard":
		k.hardWings(w, 0.28)
	case "crossed":
		k.crossedWings(w, 0.28)
	case "pads":
		k.pads(w)
	case "flying":
		k.flyingWings(w)
	}
	k.part(pt{X: 0.4, Y: 0}, "shield")
	k.shieldAbove(w)
	k.edges(w)
	k.coverMarks(w)
}

func beetleForm(t Traits) widths {
	switch t["outline"] {
	case "thread":
		return widths(path(0, 0.02, 0.15, 0.022, 0.3, 0.028, 0.6, 0.03, 0.9, 0.025, 1, 0.01))
	case "long":
		return widths(path(0, 0.06, 0.13, 0.09, 0.3, 0.105, 0.6, 0.105, 0.85, 0.085, 1, 0.03))
	case "spindle":
		return widths(path(0, 0.05, 0.13, 0.08, 0.3, 0.125, 0.5, 0.125, 0.8, 0.075, 1, 0.02))
	case "disc":
		return widths(path(0, 0.16, 0.13, 0.27, 0.3, 0.36, 0.6, 0.4, 0.85, 0.28, 1, 0.07))
	}
	return widths(path(0, 0.1, 0.13, 0.18, 0.3, 0.235, 0.6, 0.25, 0.85, 0.17, 1, 0.04))
}

// coverMarks draws a pattern on covers or crossed wings.
func (k *sketch) coverMarks(w widths) {
	k.part(pt{X: 0.62, Y: w.width(0.62) * 0.5}, "pattern")
	if !k.is.is("pattern", "marked") || !k.is.is("wings", "hard", "crossed") {
		return
	}
	for i := range 3 {
		x := 0.42 + 0.16*float64(i)
		sides(func(s float64) { k.Solid(ovalAt(x, s*w.width(x)*0.55, 0.03, w.width(x)*0.14)...) })
	}
}
