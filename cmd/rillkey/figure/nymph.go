package figure

import "rillkey/cmd/rillkey/figure/draw"

// nymph draws a six-legged larva or nymph from above.
func nymph(k *sketch) {
	w := k.is.form()
	if k.is.has("tails") && k.is.is("outline", "oval", "disc") {
		w = w.scaled(0.85)
	}
	if k.is.is("hind", "plates") {
		w = w.scaled(0.72)
	}
	if k.is.is("flat", "flat") {
		w = w.scaled(1.15)
	}
	k.bend(k.is["posture"])
	hips := [3]float64{0.21, 0.3, 0.39}
	if k.is.is("leg-place", "along") {
		hips = [3]float64{0.25, 0.5, 0.75}
	}
	feelersAbove(k, w.width(0.1))
	if !k.is.is("leg-place", "beneath") {
		legsAbove(k, w, hips)
	}
	gillsBehind(k, w)
	sideArms(k, w)
	k.tails()
	k.hooksAbove(w.width(0.97))
	k.hindEnd(w.width(0.97))
	neckGills(k, w.width(0.16))
	belly(k, w)
	chest(k, w)
	ringLines(k, w)
	headAbove(k, w.width(0.14))
	covers(k, w)
	gillsOnBack(k, w)
	edges(k, w)
	shieldAbove(k, w)
	if k.is.is("leg-place", "beneath") {
		legsBeneath(k)
	}
}

// belly draws the belly section and its rings.
func belly(k *sketch, w widths) {
	start := 0.44
	k.part(pt{X: 0.8, Y: w.width(0.8)}, "rings", "outline", "flat")
	k.Part("outline", "body")
	if k.is.is("rings", "none", "rings", "lobes") {
		start = 0.14
	}
	k.Blob(w.outline(start, 1)...)
}

// ringLines draws the rings of the belly section, or of the whole body.
func ringLines(k *sketch, w widths) {
	k.Part("rings")
	if k.is.is("rings", "none") {
		return
	}
	start := 0.44
	if k.is.is("rings", "rings", "lobes") {
		start = 0.14
	}
	for x := start + 0.06; x < 0.98; x += 0.06 {
		h := w.width(x) * 0.96
		if k.is.is("rings", "joined") && x < 0.6 {
			continue
		}
		k.Texture(func() { k.Curve(pt{X: x - 0.012, Y: -h}, pt{X: x + 0.006}, pt{X: x - 0.012, Y: h}) })
	}
}

// chest draws the three sections that carry the legs, with their hard plates.
func chest(k *sketch, w widths) {
	k.part(pt{X: 0.2, Y: 0}, "plates")
	if k.is.is("rings", "none", "rings", "lobes") {
		plates(k, w)
		return
	}
	k.Part("rings", "body")
	if k.is.is("rings", "joined") {
		k.Blob(w.outline(0.1, 0.46)...)
		return
	}
	for i := 2; i >= 0; i-- {
		x := 0.145 + 0.103*float64(i)
		k.Blob(section(w, x, x+0.113, 1.04)...)
	}
	plates(k, w)
	shoulders(k, w)
}

// section is a rounded piece of a body between two places.
func section(w widths, x0, x1, wide float64) []draw.Pt {
	a, b := w.width(x0)*wide*0.86, w.width((x0+x1)/2)*wide
	c := w.width(x1) * wide * 0.88
	mid := (x0 + x1) / 2
	return []pt{{X: x0}, {X: x0 + 0.006, Y: -a}, {X: mid, Y: -b}, {X: x1 - 0.006, Y: -c}, {X: x1}, {X: x1 - 0.006, Y: c},
		{X: mid, Y: b}, {X: x0 + 0.006, Y: a}}
}

// plates shades the parts that are hard on top.
func plates(k *sketch, w widths) {
	n := 0
	switch k.is["plates"] {
	case "1":
		n = 1
	case "2":
		n = 2
	case "3", "all":
		n = 3
	}
	k.Part("plates")
	for i := range n {
		x := 0.15 + 0.103*float64(i)
		plate(k, w, x+0.012, x+0.088)
	}
	if k.is.is("plates", "all") {
		for i := range 9 {
			plate(k, w, ringAt(i)+0.015, ringAt(i)+0.05)
		}
	}
}

func plate(k *sketch, w widths, x0, x1 float64) {
	a, b := w.width(x0)*0.68, w.width(x1)*0.68
	k.Poly(pt{X: x0, Y: -a}, pt{X: x1, Y: -b}, pt{X: x1, Y: b}, pt{X: x0, Y: a})
}

func shoulders(k *sketch, w widths) {
	k.part(pt{X: 0.13, Y: w.width(0.16) + 0.02}, "shoulders")
	if k.is.has("shoulders") {
		sides(func(s float64) {
			h := w.width(0.18) * s
			k.Poly(pt{X: 0.21, Y: h * 0.7}, pt{X: 0.05, Y: h * 1.25}, pt{X: 0.24, Y: h * 1.15})
		})
	}
}

// edges draws what the edge of the body carries: hairs, points, a soft fold.
func edges(k *sketch, w widths) {
	k.part(pt{X: 0.8, Y: w.width(0.8)}, "hair")
	if k.is.is("hair", "hairy", "spiny") {
		for x := 0.18; x < 0.97; x += 0.04 {
			sides(func(s float64) {
				p := pt{X: x, Y: s * w.width(x)}
				if k.is.is("hair", "hairy") {
					k.Texture(func() { k.Line(p, p.Polar(0.05, s*70)) })
					return
				}
				k.Poly(pt{X: x - 0.012, Y: p.Y}, p.Polar(0.045, s*70), pt{X: x + 0.012, Y: p.Y})
			})
		}
	}
	k.part(pt{X: 0.52, Y: w.width(0.52)}, "side-fold")
	last := 0.0
	switch k.is["side-fold"] {
	case "part":
		last = 0.66
	case "whole":
		last = 0.94
	}
	if last > 0 {
		sides(func(s float64) {
			var edge, line []pt
			for x := 0.46; x <= last; x += 0.04 {
				edge = append(edge, pt{X: x, Y: s * w.width(x) * 0.66})
				line = append(line, pt{X: x, Y: s * w.width(x) * 0.8})
			}
			k.Line(edge...)
			k.Curve(line...)
		})
	}
	k.part(pt{X: 0.3, Y: 0}, "pattern")
	if k.is.is("pattern", "marked") && !k.is.is("wings", "hard", "crossed") {
		k.Texture(func() { marks(k, w) })
	}
}

// marks draws a pattern of sharp dark marks on head, chest and belly.
func marks(k *sketch, w widths) {
	for i := range 3 {
		x := 0.195 + 0.103*float64(i)
		sides(func(s float64) { k.Solid(ovalAt(x, s*w.width(x)*0.42, 0.024, w.width(x)*0.16)...) })
	}
	if k.is.is("gills", "back") {
		return // they lie there
	}
	for i := range 8 {
		x := ringAt(i) + 0.03
		k.Solid(ovalAt(x, 0, 0.016, w.width(x)*0.25)...)
	}
}
