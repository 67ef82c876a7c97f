package figure

// grub draws a soft-bodied larva with six short legs from the side: a caddisfly
// out of its case, a caterpillar, a curled grub.
func grub(k *sketch) {
	if k.is.is("posture", "curled") && !k.is.has("prolegs") && !k.is.has("hooks") && !k.is.has("tails") {
		curledGrub(k)
		return
	}
	w := k.is.form().scaled(0.95)
	if posture := k.is["posture"]; posture != "straight" || k.is.has("prolegs") {
		k.bend(posture)
	} else {
		k.Warp(arc(0.8)) // at rest they are gently bent
	}
	prolegsBelow(k, w)
	k.hooksBelow(w.width(0.96))
	gillsBelow(k, w)
	k.tails()
	k.hindEnd(w.width(0.97))
	legsBelow(k, w, [3]float64{0.19, 0.28, 0.37})
	head := w.width(0.14)
	w[0].Y, w[1].Y = w[0].Y*0.7, w[1].Y*0.88 // a neck
	bodyBeside(k, w)
	headBeside(k, head)
	platesBeside(k, w)
	endPlate(k, w.width(0.96))
	humps(k, w)
	edges(k, w)
}

// curledGrub draws a fat grub that lies bent like a C: a hard round head with short
// jaws, six short legs close behind it, a soft wrinkled body.
func curledGrub(k *sketch) {
	w := slim(0.1, 0.062, 0.2, 0.085, 0.35, 0.1, 0.6, 0.112, 0.85, 0.118, 0.95, 0.095, 1, 0.06)
	k.Warp(arc(3.7))
	gillsBelow(k, w)
	k.hindEnd(0.05)
	k.part(pt{X: 0.25, Y: w.width(0.25) + 0.07}, "legs", "leg-place", "leg-length", "claws", "foot", "forelegs", "hindlegs")
	if !k.is.is("legs", "0") {
		for i := range 3 {
			x := 0.33 - 0.08*float64(i)
			y := w.width(x) * 0.9
			k.leg(limbAt(0.02, x, y, x-0.02, y+0.06, x-0.05, y+0.1, x-0.07, y+0.12))
		}
	}
	bodyBeside(k, w)
	platesBeside(k, w)
	k.part(pt{X: 0.04}, "head", "mouth", "head-colour", "antennae", "eyes")
	k.Part("head", "body")
	k.Toned(path(0.02, 0.05, 0.0, 0.0, 0.02, -0.06, 0.075, -0.082, 0.125, -0.062, 0.13, 0.0, 0.12, 0.06, 0.06, 0.075)...)
	k.Solid(path(0.03, 0.06, -0.015, 0.055, -0.02, 0.085, 0.02, 0.09, 0.05, 0.078)...)
	k.Part("eyes")
	if k.is.has("eyes") {
		k.Dot(pt{X: 0.05, Y: -0.02}, 0.012)
	}
	k.Warp(nil)
	k.tails()
	humps(k, w)
	edges(k, w)
}

// bodyBeside draws a ringed body from the side.
func bodyBeside(k *sketch, w widths) {
	k.part(pt{X: 0.62, Y: -w.width(0.62)}, "outline", "flat", "rings")
	k.Part("outline", "body")
	k.Blob(w.outline(0.1, 1)...)
	k.Part("rings")
	if k.is.is("rings", "none") {
		return
	}
	for x := 0.235; x < 0.98; x += 0.083 {
		h := w.width(x) * 0.97
		k.Texture(func() { k.Curve(pt{X: x, Y: -h}, pt{X: x + 0.014}, pt{X: x, Y: h}) })
	}
}

// headBeside draws a head from the side.
func headBeside(k *sketch, half float64) {
	w := min(max(half, 0.05), 0.085)
	k.part(pt{X: 0.02, Y: 0}, "head")
	k.Part("head", "body")
	switch k.is["head"] {
	case "none":
		return
	case "sunk":
		w = half * 0.5
		k.Blob(pt{X: 0.06}, pt{X: 0.075, Y: -w}, pt{X: 0.13, Y: -w}, pt{X: 0.13, Y: w}, pt{X: 0.075, Y: w})
		snout(k, w)
		return
	case "soft":
		k.Blob(pt{X: 0}, pt{X: 0.03, Y: -w * 0.8}, pt{X: 0.15, Y: -w}, pt{X: 0.15, Y: w}, pt{X: 0.03, Y: w * 0.8})
	case "joined":
		k.Blob(pt{X: 0}, pt{X: 0.04, Y: -w}, pt{X: 0.3, Y: -w * 1.2}, pt{X: 0.3, Y: w * 1.2}, pt{X: 0.04, Y: w})
	default:
		k.Blob(pt{X: 0, Y: 0.02}, pt{X: 0.02, Y: -w * 0.7}, pt{X: 0.08, Y: -w}, pt{X: 0.145, Y: -w * 0.7}, pt{X: 0.145, Y: w * 0.8},
			pt{X: 0.08, Y: w * 0.95}, pt{X: 0.02, Y: w * 0.75})
	}
	faceBeside(k, w)
}

func faceBeside(k *sketch, w float64) {
	k.part(pt{X: 0.09, Y: -w * 0.4}, "head-colour")
	shadeHead(k, w)
	k.part(pt{X: 0.06, Y: -w * 0.3}, "eyes")
	switch k.is["eyes"] {
	case "spots":
		k.Dot(pt{X: 0.05, Y: -w * 0.25}, 0.012)
	case "sides", "top":
		k.Dot(pt{X: 0.06, Y: -w * 0.25}, 0.02)
	case "big", "four":
		k.Ring(pt{X: 0.065, Y: -w * 0.3}, 0.035)
		k.Dot(pt{X: 0.065, Y: -w * 0.3}, 0.015)
	}
	snout(k, w)
	k.part(pt{X: -0.02, Y: -w * 0.8}, "antennae")
	switch k.is["antennae"] {
	case "short":
		k.Line(pt{X: 0.015, Y: -w * 0.5}, pt{X: -0.06, Y: -w * 1.0})
	case "long":
		k.Curve(pt{X: 0.015, Y: -w * 0.5}, pt{X: -0.1, Y: -w * 1.3}, pt{X: -0.26, Y: -w * 1.5})
	}
}

// snout draws what stands out at the mouth, seen from the side.
func snout(k *sketch, w float64) {
	k.part(pt{X: -0.01, Y: w * 0.4}, "mouth")
	switch k.is["mouth"] {
	case "jaws":
		k.Solid(pt{X: 0.02, Y: w * 0.2}, pt{X: -0.06, Y: w * 0.1}, pt{X: -0.085, Y: w * 0.8}, pt{X: -0.04, Y: w * 0.45},
			pt{X: 0.02, Y: w * 0.6})
	case "beak":
		k.Solid(pt{X: 0.01, Y: w * 0.4}, pt{X: 0.02, Y: w * 1.6}, pt{X: 0.04, Y: w * 0.6})
	case "fans":
		k.tuft(pt{X: 0.015, Y: -w * 0.4}, 0.13, 205)
		k.tuft(pt{X: 0.01, Y: w * 0.2}, 0.12, 160)
	case "hooks":
		k.Solid(pt{X: 0.11, Y: -0.012}, pt{X: 0.03, Y: -0.008}, pt{X: -0.02, Y: 0.05}, pt{X: 0.03, Y: 0.02}, pt{X: 0.11, Y: 0.012})
		k.Solid(pt{X: 0.11, Y: 0.014}, pt{X: 0.06, Y: 0.02}, pt{X: 0.02, Y: 0.07}, pt{X: 0.07, Y: 0.04}, pt{X: 0.11, Y: 0.03})
	}
}

// gillsBelow draws gills on a body seen from the side.
func gillsBelow(k *sketch, w widths) {
	at := pt{X: 0.6, Y: w.width(0.6) + 0.05}
	switch k.is["gills"] {
	case "sides":
		at.Y = 0
	case "hind":
		at = pt{X: 1.04, Y: 0}
	}
	k.part(at, "gills", "gill-form", "gill-row")
	if !k.is.has("gill-form") || !k.is.has("gills") {
		return
	}
	switch k.is["gills"] {
	case "hind":
		for _, d := range []float64{-50, -20, 10, 40} {
			k.gill(pt{X: 0.985, Y: d / 50 * w.width(0.97) * 0.5}, 0.1, d, 1)
		}
	case "chest", "chest-belly":
		for i := range 3 {
			k.gill(pt{X: 0.2 + 0.09*float64(i), Y: w.width(0.3) * 0.9}, 0.1, 80, 1)
		}
	case "back":
		for i := range 7 {
			k.gill(pt{X: ringAt(i) + 0.02, Y: -w.width(ringAt(i)) * 0.9}, 0.09, -70, -1)
		}
	default:
		for i := range 7 {
			x := ringAt(i) + 0.03
			if k.is.is("gills", "sides") {
				sides(func(s float64) { k.gill(pt{X: x, Y: s * w.width(x) * 0.9}, 0.09, s*70, s) })
				continue
			}
			k.gill(pt{X: x, Y: w.width(x) * 0.9}, 0.11, 80, 1)
		}
	}
}

// platesBeside shades the hard backs of the chest sections.
func platesBeside(k *sketch, w widths) {
	k.part(pt{X: 0.24, Y: -w.width(0.25)}, "plates")
	n := map[string]int{"1": 1, "2": 2, "3": 3, "all": 3}[k.is["plates"]]
	for i := range n {
		x := 0.15 + 0.085*float64(i)
		h := w.width(x + 0.04)
		patch := []pt{{X: x + 0.006, Y: -h}, {X: x + 0.078, Y: -h}, {X: x + 0.082, Y: h * 0.15}, {X: x + 0.012, Y: h * 0.1}}
		k.Toned(patch...)
	}
	if k.is.is("plates", "all") {
		for x := 0.42; x < 0.93; x += 0.083 {
			h := w.width(x)
			k.Solid(pt{X: x, Y: -h}, pt{X: x + 0.03, Y: -h * 1.04}, pt{X: x + 0.06, Y: -h}, pt{X: x + 0.05, Y: -h * 0.35},
				pt{X: x + 0.01, Y: -h * 0.35})
		}
	}
	k.part(pt{X: 0.13, Y: -w.width(0.16)}, "shoulders")
	if k.is.has("shoulders") {
		k.Poly(pt{X: 0.2, Y: -w.width(0.2) * 0.9}, pt{X: 0.04, Y: -w.width(0.2) * 1.3}, pt{X: 0.2, Y: -w.width(0.2) * 0.4})
	}
}

// humps draws the fleshy humps just behind the legs.
func humps(k *sketch, w widths) {
	h := w.width(0.45)
	k.part(pt{X: 0.45, Y: -h - 0.03}, "humps")
	if k.is.is("humps", "sides", "all") {
		k.Blob(pt{X: 0.425, Y: 0.035}, pt{X: 0.41, Y: 0}, pt{X: 0.44, Y: -0.035}, pt{X: 0.475, Y: 0}, pt{X: 0.46, Y: 0.035})
	}
	if k.is.is("humps", "all") {
		k.Blob(pt{X: 0.41, Y: -h * 0.7}, pt{X: 0.42, Y: -h * 1.4}, pt{X: 0.45, Y: -h * 1.75}, pt{X: 0.48, Y: -h * 1.4},
			pt{X: 0.49, Y: -h * 0.7})
	}
}

// prolegsBelow draws soft stub legs beneath a body seen from the side.
func prolegsBelow(k *sketch, w widths) {
	stub := func(x, length, lean float64) {
		at := pt{X: x, Y: w.width(x) * 0.75}
		k.finger(at, length, 0.045, 90+lean)
		k.crown(at.Polar(length*1.05, 90+lean), 90+lean)
	}
	k.part(pt{X: 0.6, Y: w.width(0.6) + 0.05}, "prolegs", "stub-pairs")
	switch k.is["prolegs"] {
	case "ends":
		k.places["prolegs"] = []pt{k.Warped(pt{X: 0.16, Y: w.width(0.16) + 0.07}), k.Warped(pt{X: 1.0, Y: w.width(0.95) + 0.08})}
		stub(0.17, 0.075, 25)
		stub(0.15, 0.075, 25)
		stub(0.965, 0.1, -35)
		stub(0.94, 0.1, -30)
	case "head":
		k.places["prolegs"] = []pt{k.Warped(pt{X: 0.15, Y: w.width(0.17) + 0.09})}
		stub(0.18, 0.1, 25)
	case "two-rings":
		k.places["prolegs"] = []pt{k.Warped(pt{X: 0.46, Y: w.width(0.46) + 0.07})}
		for _, x := range []float64{0.40, 0.425, 0.49, 0.515} {
			stub(x, 0.085, 0)
		}
	case "belly":
		pairs := 7
		if k.is.is("stub-pairs", "few") {
			pairs = 5
		}
		for i := range pairs {
			stub(0.44+0.08*float64(i), 0.075, 0)
		}
	case "welts":
		for i := range 8 {
			x := 0.275 + 0.083*float64(i)
			sides(func(s float64) {
				h := w.width(x) * 0.9
				k.Blob(pt{X: x - 0.025, Y: s * h}, pt{X: x - 0.02, Y: s * (h + 0.03)}, pt{X: x, Y: s * (h + 0.042)},
					pt{X: x + 0.02, Y: s * (h + 0.03)}, pt{X: x + 0.025, Y: s * h})
			})
		}
	}
}
