package figure

import "math"

// caddis draws a caddisfly larva without a case from the side: a hard head,
// plates behind it, three pairs of legs close together, a soft curved body, and
// two hooks at its end.
func caddis(k *sketch) {
	w := slim(0.1, 0.058, 0.2, 0.07, 0.36, 0.078, 0.6, 0.09, 0.85, 0.074, 0.96, 0.05, 1, 0.04)
	bend := 1.5
	if k.is.is("posture", "curled") {
		bend = 3
	}
	k.Warp(arc(bend))
	endHooks(k)
	tuftsBelow(k, w)
	k.hindEnd(0.04)
	caddisLegs(k, 0.06)
	caddisBelly(k, w)
	seamAlong(k, w)
	firstHumps(k, w)
	caddisPlates(k, w)
	endPlate(k, 0.045)
	caddisHead(k)
	k.part(pt{X: 0.7, Y: -w.width(0.7)}, "hair", "pattern")
	k.Texture(func() {
		if k.is.is("hair", "hairy") {
			for x := 0.42; x < 0.95; x += 0.05 {
				p := pt{X: x, Y: -w.width(x)}
				k.Line(p, p.Polar(0.04, -70))
			}
		}
	})
}

// caddisLegs draws three pairs of legs, one behind the other, hips at y.
func caddisLegs(k *sketch, y float64) {
	k.part(pt{X: 0.2, Y: y + 0.14}, "legs", "leg-place", "leg-length", "claws", "foot")
	if k.is.is("legs", "0") {
		return
	}
	for i, x := range []float64{0.35, 0.265, 0.185} {
		k.Part("legs", "leg-place", "leg-length")
		l := limbAt(0.02, x, y, x+0.005, y+0.1, x-0.06, y+0.17, x-0.1, y+0.2)
		switch {
		case i == 0:
			k.part(l.knee, "hindlegs", "reach")
			k.Part("legs", "leg-place", "leg-length", "hindlegs")
			if k.is.is("hindlegs", "long", "both") {
				l = limbAt(0.018, x, y, x-0.01, y+0.2, x-0.17, y+0.36, x-0.26, y+0.42)
			}
		case i == 2:
			k.part(l.knee, "forelegs")
			k.Part("legs", "leg-place", "leg-length", "forelegs")
			l = limbAt(0.022, x, y, x-0.03, y+0.08, x-0.1, y+0.12, x-0.13, y+0.13)
		}
		k.leg(l)
	}
}

// caddisBelly draws the soft rings: sides that run on, or deep cuts.
func caddisBelly(k *sketch, w widths) {
	k.part(pt{X: 0.66, Y: -w.width(0.66)}, "outline", "flat", "rings", "cuts", "skin")
	for i := 10; i >= 0; i-- {
		x, x1 := 0.135+0.076*float64(i), 0.135+0.076*float64(i+1)
		a, m, b := w.width(x), w.width((x+x1)/2), w.width(x1)
		if i == 10 {
			x1, b = 0.99, w.width(1)*0.8
		}
		k.Part("outline", "rings", "cuts", "body")
		pinch := 0.93
		if k.is.is("cuts", "deep") && i > 2 {
			pinch, m = 0.66, m*1.1
		}
		k.Blob(pt{X: x, Y: -a * pinch}, pt{X: (x + x1) / 2, Y: -m}, pt{X: x1, Y: -b * pinch}, pt{X: x1 + 0.006, Y: 0},
			pt{X: x1, Y: b * pinch}, pt{X: (x + x1) / 2, Y: m}, pt{X: x, Y: a * pinch})
	}
}

// seamAlong draws a soft seam along the side.
func seamAlong(k *sketch, w widths) {
	k.part(pt{X: 0.55, Y: w.width(0.55) * 0.4}, "side-fold", "side-arms", "prolegs")
}

// caddisPlates shades the hard backs behind the head.
func caddisPlates(k *sketch, w widths) {
	k.part(pt{X: 0.24, Y: -w.width(0.25)}, "plates")
	n := map[string]int{"1": 1, "2": 2, "3": 3, "all": 3}[k.is["plates"]]
	for i := range n {
		x := 0.138 + 0.076*float64(i)
		h := w.width(x + 0.04)
		k.Part("plates", "body")
		k.Toned(pt{X: x, Y: -h * 0.98}, pt{X: x + 0.036, Y: -h * 1.08}, pt{X: x + 0.074, Y: -h * 0.98},
			pt{X: x + 0.076, Y: -h * 0.1}, pt{X: x + 0.036, Y: h * 0.25},
			pt{X: x + 0.004, Y: -h * 0.05})
	}
	if k.is.is("plates", "all") {
		for i := range 8 {
			x := 0.37 + 0.076*float64(i)
			h := w.width(x + 0.04)
			k.Toned(pt{X: x + 0.01, Y: -h * 0.95}, pt{X: x + 0.036, Y: -h * 1.05}, pt{X: x + 0.064, Y: -h * 0.95},
				pt{X: x + 0.06, Y: -h * 0.4}, pt{X: x + 0.014, Y: -h * 0.4})
		}
	}
	k.part(pt{X: 0.13, Y: -w.width(0.16)}, "shoulders")
	if k.is.has("shoulders") {
		k.Part("shoulders")
		k.Solid(pt{X: 0.2, Y: -0.06}, pt{X: 0.06, Y: -0.105}, pt{X: 0.19, Y: -0.02})
	}
}

// caddisHead draws a rounded hard head from the side, its mouth in front below.
func caddisHead(k *sketch) {
	k.part(pt{X: 0.03, Y: -0.02}, "head", "mouth")
	k.Part("head", "body")
	shape := path(0.02, 0.055, -0.005, 0.01, 0.015, -0.045, 0.07, -0.068, 0.13, -0.058, 0.145, 0.0, 0.12, 0.055, 0.06, 0.07)
	if k.is.is("head", "none") {
		return
	}
	if k.is.is("head-colour", "orange") && k.is.is("plates", "1") { // long, with a soft lip like a brush
		for i, p := range shape {
			shape[i] = pt{X: 0.145 - (0.145-p.X)*1.35, Y: p.Y * 0.86}
		}
		k.Blob(path(-0.04, -0.01, -0.085, -0.035, -0.09, 0.045, -0.04, 0.035)...)
	}
	k.Blob(shape...)
	headTone(k, shape)
	if k.is.is("pattern", "marked") && k.is.is("plates", "1") && k.is.is("head-colour", "same") {
		k.Part("pattern", "body")
		k.Texture(func() {
			for _, p := range path(0.09, -0.04, 0.105, -0.02, 0.12, -0.035, 0.115, 0.0, 0.095, 0.01, 0.12, 0.02) {
				k.Dot(p, 0.0065)
			}
		})
	}
	k.Part("head", "body")
	k.Poly(path(0.0, 0.035, -0.018, 0.05, 0.018, 0.062)...) // the jaws
	k.part(pt{X: 0.055, Y: -0.025}, "eyes", "antennae", "feelers")
	if k.is.has("eyes") {
		k.Dot(pt{X: 0.05, Y: -0.02}, 0.012)
	}
	if k.is.is("antennae", "long") {
		k.whip(0.006, pt{X: 0.01, Y: -0.03}, pt{X: -0.06, Y: -0.08}, pt{X: -0.14, Y: -0.1})
	}
}

// headTone tells the colours of heads apart: dark, light for orange, striped.
func headTone(k *sketch, shape []pt) {
	k.part(pt{X: 0.09, Y: -0.05}, "head-colour")
	switch k.is["head-colour"] {
	case "dark":
		k.Shaded(shape...)
	case "orange":
		k.Part("head-colour", "body")
		k.Toned(shape...)
	case "striped":
		k.hatch(shape, 0.034, 8)
	case "spotted":
		k.Part("head-colour", "body")
		for _, p := range path(0.085, -0.045, 0.105, -0.015, 0.125, -0.035, 0.12, 0.01, 0.09, 0.015, 0.065, -0.05) {
			k.Dot(p, 0.0095)
		}
	}
}

// tuftsBelow draws gills beneath, along the sides or at the hind end.
func tuftsBelow(k *sketch, w widths) {
	at := pt{X: 0.6, Y: w.width(0.6) + 0.05}
	if k.is.is("gills", "hind") {
		at = pt{X: 1.03, Y: 0}
	}
	k.part(at, "gills", "gill-form", "gill-row")
	if !k.is.has("gills") || !k.is.has("gill-form") {
		return
	}
	k.Part("gills", "gill-form")
	for i := range 7 {
		x := 0.42 + 0.076*float64(i)
		p := pt{X: x, Y: w.width(x) * 0.9}
		switch {
		case k.is.is("gills", "hind"):
			k.whip(0.008, pt{X: 0.99}, pt{X: 1.04, Y: 0.02 * float64(i-3)}, pt{X: 1.09, Y: 0.03 * float64(i-3)})
		case k.is.is("gill-form", "threads"):
			k.whip(0.007, p, p.Polar(0.04, 80), p.Polar(0.09, 60))
			k.whip(0.007, pt{X: x, Y: -p.Y}, pt{X: x + 0.02, Y: -p.Y - 0.03}, pt{X: x + 0.07, Y: -p.Y - 0.06})
		default:
			k.bush(p, 0.085, 82)
		}
	}
}

// endHooks draws the two feet at the hind end, each with its hook.
func endHooks(k *sketch) {
	k.part(pt{X: 1.06, Y: 0.1}, "hooks", "hook-stalk", "hook-size")
	k.Part("hooks", "hook-stalk", "hook-size")
	switch k.is["hooks"] {
	case "none":
		return
	case "two":
	default:
		k.hooksBelow(0.05)
		return
	}
	l, size := 0.05, 0.032
	if k.is.is("hook-stalk", "long") {
		l = 0.17
	}
	if k.is.is("hook-size", "large") {
		size = 0.05
	}
	for _, d := range []float64{20, 48} {
		root := pt{X: 0.965, Y: 0.012 * d / 20}
		end := root.Polar(l, d)
		k.joint(root, end, 0.024, 0.016)
		k.Solid(end.Polar(0.014, d-90), end.Polar(size*0.9, d-10), end.Polar(size*1.5, d+35), end.Polar(size*1.9, d+78),
			end.Polar(size*1.1, d+55), end.Polar(0.014, d+90))
		if k.is.is("gills", "under") { // a brush of hairs
			k.Texture(func() {
				for _, e := range []float64{-50, -25, 0} {
					k.Line(end, end.Polar(0.09, d+e))
				}
			})
		}
	}
}

// firstHumps draws the fleshy humps on the first belly ring.
func firstHumps(k *sketch, w widths) {
	h := w.width(0.41)
	k.part(pt{X: 0.405, Y: -h - 0.03}, "humps")
	k.Part("humps", "body")
	if k.is.is("humps", "sides", "all") {
		k.Blob(spot(0.405, 0.005, 0.026, 0.034)...)
	}
	if k.is.is("humps", "all") {
		k.Blob(path(0.376, -h*0.85, 0.385, -h*1.35, 0.405, -h*1.6, 0.425, -h*1.35, 0.436, -h*0.85)...)
	}
}

// horn bends what lies behind the head downwards, like a horn.
func horn(p pt) pt {
	d := max(0, p.X-0.3)
	return pt{X: p.X - 0.28*d*d, Y: p.Y + 0.42*d*d}
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
