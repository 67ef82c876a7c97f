package figure

import "math"

// flyForm is how a legless larva is held: its half widths, and the bend or turn
// of its body.
type flyForm struct {
	body widths
	warp func(pt) pt
}

// The ways in which the larvae of flies are built and held.

func midgeForm() flyForm {
	return flyForm{slim(0.1, 0.04, 0.25, 0.048, 0.6, 0.046, 0.9, 0.042, 1, 0.032), arc(1.9)}
}

func standingForm() flyForm {
	return flyForm{slim(0.1, 0.048, 0.22, 0.058, 0.4, 0.048, 0.58, 0.066, 0.75, 0.12, 0.88, 0.122, 1, 0.07), leaning(58)}
}

func hangingForm() flyForm {
	return flyForm{slim(0.13, 0.09, 0.19, 0.128, 0.27, 0.128, 0.36, 0.066, 0.7, 0.058, 0.95, 0.045, 1, 0.035), leaning(-36)}
}

func threadForm() flyForm {
	return flyForm{slim(0.08, 0.02, 0.3, 0.024, 0.7, 0.022, 1, 0.008), wave}
}

func barrelForm() flyForm {
	return flyForm{slim(0.05, 0.045, 0.15, 0.085, 0.35, 0.1, 0.7, 0.104, 0.93, 0.092, 1, 0.085), arc(0.5)}
}

func spindleForm() flyForm {
	return flyForm{slim(0.04, 0.022, 0.15, 0.06, 0.35, 0.105, 0.55, 0.118, 0.8, 0.09, 0.95, 0.04, 1, 0.026), arc(0.4)}
}

func maggotForm() flyForm {
	return flyForm{slim(0.03, 0.018, 0.15, 0.045, 0.4, 0.08, 0.7, 0.098, 0.9, 0.098, 1, 0.085), arc(0.5)}
}

func footedForm() flyForm {
	return flyForm{slim(0.04, 0.022, 0.15, 0.045, 0.4, 0.075, 0.7, 0.084, 0.9, 0.07, 1, 0.05), arc(0.7)}
}

func hairpinForm() flyForm {
	return flyForm{slim(0.1, 0.042, 0.5, 0.044, 1, 0.032), hairpin}
}

// fly is how the larva is built and held, from the traits.
func (t Traits) fly() flyForm {
	switch {
	case t.is("mouth", "fans"), t.is("outline", "bottle") && t.is("suckers", "hind"):
		return standingForm()
	case t.is("posture", "bent"):
		return hairpinForm()
	case t.is("outline", "thread"):
		return threadForm()
	case t.is("head", "capsule") && t.is("prolegs", "none") && !t.is("plates", "all") && t.is("outline", "tapered"):
		return hangingForm()
	case t.is("head", "capsule"):
		return midgeForm()
	case t.is("prolegs", "welts") && t.is("outline", "spindle"):
		return spindleForm()
	case t.is("mouth", "hooks") && t.is("outline", "tapered") && !t.is("prolegs", "belly"):
		return maggotForm()
	case t.is("prolegs", "belly"):
		return footedForm()
	}
	return barrelForm()
}

// crowned reports whether a hard head goes with a crown of hairs at the hind end.
func (t Traits) crowned() bool {
	return t.is("hind", "feathery") && t.is("head", "capsule")
}

// leaning turns the body about its middle, head up where degrees are above 0.
func leaning(degrees float64) func(pt) pt {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return func(p pt) pt {
		x, y := p.X-0.5, p.Y
		return pt{X: 0.5 + x*cos - y*sin, Y: x*sin + y*cos}
	}
}

// flyLarva draws the legless larva of a fly from the side, as it is held.
func flyLarva(k *sketch) {
	f := k.is.fly()
	if k.is.is("plates", "all") && k.is.is("head", "capsule") {
		if k.is.is("flat", "flat") {
			f.body = slim(0.1, 0.05, 0.25, 0.092, 0.5, 0.1, 0.75, 0.078, 1, 0.03)
		}
		f.warp = arc(0.6)
		if k.is.crowned() { // stiff, drawn out behind
			f.body = slim(0.1, 0.045, 0.22, 0.1, 0.4, 0.122, 0.6, 0.1, 0.8, 0.052, 1, 0.022)
			f.warp = arc(0.25)
		}
	}
	if f.body[0] == hangingForm().body[0] && k.is.is("hind", "none", "plain") {
		f.warp = leaning(0) // without a tube it lies along the film
	}
	if k.is.is("posture", "curled") {
		f.warp = arc(3.4)
	}
	k.Warp(f.warp)
	w := f.body
	surroundings(k, f)
	stubFeet(k, w)
	endOfFly(k, w)
	k.hooksBelow(w.width(0.98))
	gillsOfFly(k, w)
	k.tails()
	ringsBeside(k, w)
	hardBands(k, w)
	welts(k, w)
	edgesOfFly(k, w)
	if k.is.is("hind", "fan") {
		bubbles(k, w)
	}
	airSpots(k, w)
	flyHead(k, w)
	k.part(pt{X: 0.25, Y: w.width(0.25) + 0.05}, "legs", "leg-place", "side-arms", "wings", "case")
}

// surroundings draws what holds the larva up: the stone it stands on, the film
// of the water it hangs from.
func surroundings(k *sketch, f flyForm) {
	switch {
	case k.is.is("mouth", "fans"):
		k.Part("body")
		k.Warp(nil)
		foot := leaning(58)(pt{X: 1.06})
		k.Curve(pt{X: foot.X - 0.35, Y: foot.Y + 0.04}, pt{X: foot.X - 0.1, Y: foot.Y}, pt{X: foot.X + 0.12, Y: foot.Y},
			pt{X: foot.X + 0.32, Y: foot.Y + 0.06})
		k.Warp(f.warp)
	case f.body[0] == hangingForm().body[0] && k.is.is("hind", "none", "plain"):
		k.Part("body")
		k.Line(path(-0.1, -0.16, 1.15, -0.16)...)
	case f.body[0] == hangingForm().body[0] && k.is.is("tube", "short"):
		k.Part("body")
		k.Warp(nil)
		tip := leaning(-36)(pt{X: 1.2, Y: -0.1})
		k.Line(pt{X: tip.X - 0.5, Y: tip.Y}, pt{X: tip.X + 0.3, Y: tip.Y})
		k.Warp(f.warp)
	case k.is.is("posture", "bent"):
		k.Part("body")
	}
}

// ringsBeside draws the ringed body.
func ringsBeside(k *sketch, w widths) {
	k.part(pt{X: 0.6, Y: -w.width(0.6)}, "outline", "flat", "rings", "skin", "cuts", "posture")
	k.Part("outline", "body")
	x0 := w[0].X
	k.Blob(w.outline(x0, 1)...)
	k.Part("rings", "body")
	n := 11
	for i := 1; i < n; i++ {
		x := x0 + (1-x0)*float64(i)/float64(n)
		h := w.width(x) * 0.97
		if w[0] == hangingForm().body[0] && x < 0.34 { // a chest in one piece
			continue
		}
		k.Texture(func() { k.Curve(pt{X: x, Y: -h}, pt{X: x + 0.012}, pt{X: x, Y: h}) })
	}
}

// hardBands shades the hard backs of the rings.
func hardBands(k *sketch, w widths) {
	k.part(pt{X: 0.3, Y: -w.width(0.3)}, "plates")
	n := map[string]int{"1": 1, "2": 2, "3": 3, "all": 10}[k.is["plates"]]
	k.Part("plates", "body")
	x0 := w[0].X
	for i := range n {
		x := x0 + (1-x0)*(float64(i)+0.12)/11
		x1 := x + (1-x0)*0.76/11
		a, b := w.width(x), w.width(x1)
		if k.is.crowned() { // leather all round
			k.Toned(mirrored(x-0.008, a*0.5, x-0.004, a*0.95, x1, b*1.02, x1+0.016, b*0.97, x1+0.02, b*0.5)...)
			continue
		}
		k.Toned(pt{X: x, Y: -a}, pt{X: x1, Y: -b}, pt{X: x1, Y: -b * 0.1}, pt{X: x, Y: -a * 0.1})
	}
}

// welts draws the swollen welts round each ring.
func welts(k *sketch, w widths) {
	if !k.is.is("prolegs", "welts") {
		return
	}
	k.Part("prolegs")
	for i := range 7 {
		x := 0.27 + 0.09*float64(i)
		h := w.width(x)
		k.Toned(pt{X: x - 0.016, Y: -h}, pt{X: x, Y: -h - 0.022}, pt{X: x + 0.016, Y: -h}, pt{X: x + 0.022, Y: 0},
			pt{X: x + 0.016, Y: h}, pt{X: x, Y: h + 0.022}, pt{X: x - 0.016, Y: h}, pt{X: x + 0.006, Y: 0})
	}
}

// edgesOfFly draws hairs or points along the body: tufts on what hangs from the
// film.
func edgesOfFly(k *sketch, w widths) {
	k.part(pt{X: 0.78, Y: w.width(0.78)}, "hair", "pattern", "side-fold", "humps")
	if !k.is.is("hair", "hairy", "spiny") {
		return
	}
	k.Part("hair")
	x0 := w[0].X
	for i := range 10 {
		x := x0 + (1-x0)*(float64(i)+0.5)/10.5
		sides(func(s float64) {
			p := pt{X: x, Y: s * w.width(x)}
			if k.is.is("hair", "spiny") {
				k.whip(0.008, p, p.Polar(0.02, s*70), p.Polar(0.04, s*60))
				return
			}
			k.Texture(func() {
				k.Line(p, p.Polar(0.06, s*50))
				k.Line(p, p.Polar(0.06, s*85))
			})
		})
	}
}

// stubFeet draws soft stub legs: at both ends, beneath the head, on two rings
// or along the belly.
func stubFeet(k *sketch, w widths) {
	var xs []float64
	length := 0.06
	switch k.is["prolegs"] {
	case "ends":
		xs, length = []float64{0.14, 0.165, 0.945, 0.975}, 0.075
	case "head":
		xs, length = []float64{0.17}, 0.1
	case "two-rings":
		xs, length = []float64{0.38, 0.4, 0.46, 0.48}, 0.09
		if k.is.is("posture", "bent") { // before the bend, which would blow them up
			xs, length = []float64{0.27, 0.29, 0.345, 0.365}, 0.06
		}
	case "belly":
		n, step := 8, 0.085
		if k.is.is("stub-pairs", "few") {
			n, step, length = 5, 0.12, 0.085
		}
		for i := range n {
			xs = append(xs, 0.3+step*float64(i))
		}
	}
	at := 0.6
	if len(xs) > 0 {
		at = xs[0]
	}
	k.part(pt{X: at, Y: w.width(at) + length}, "prolegs", "stub-pairs")
	if len(xs) == 4 && k.is.is("prolegs", "ends") {
		k.part(pt{X: 0.99, Y: w.width(0.96) + length}, "prolegs")
	}
	k.Part("prolegs", "stub-pairs")
	if k.is.has("hooks") {
		k.Part("prolegs", "hooks")
	}
	for _, x := range xs {
		lean := 0.0
		switch {
		case x < 0.2:
			lean = 28
		case x > 0.93 && k.is.is("prolegs", "ends"):
			lean = -28
		}
		root := pt{X: x, Y: w.width(x) * 0.7}
		end := root.Polar(length+0.02, 90+lean)
		k.joint(root, end, 0.024, 0.017)
		k.Texture(func() {
			for _, d := range []float64{-50, -15, 20, 55} {
				k.Line(end, end.Polar(0.024, 90+lean+d))
			}
		})
	}
}

// gillsOfFly draws tubules at the hind end, or what other gills there are.
func gillsOfFly(k *sketch, w widths) {
	at := pt{X: 0.6, Y: w.width(0.6) + 0.04}
	if k.is.is("gills", "hind") {
		at = pt{X: 1.04}
	}
	k.part(at, "gills", "gill-form", "gill-row", "neck")
	if !k.is.has("gills") || !k.is.has("gill-form") {
		return
	}
	k.Part("gills", "gill-form")
	for i := range 5 {
		if k.is.is("gills", "hind") {
			d := -40 + 20*float64(i)
			k.joint(pt{X: 0.985, Y: w.width(1) * d / 60}, pt{X: 1.07, Y: w.width(1)*d/60 + d*0.0012}, 0.01, 0.007)
			continue
		}
		x := 0.4 + 0.11*float64(i)
		k.bush(pt{X: x, Y: w.width(x) * 0.9}, 0.08, 85)
	}
}

// endOfFly draws the hind end: a disc with soft fingers, a breathing tube, a
// pair of feathery horns, a sucker.
func endOfFly(k *sketch, w widths) {
	h := w.width(1)
	k.part(pt{X: 1.05, Y: 0}, "hind", "tube", "oars", "point-length", "end-plate")
	k.part(pt{X: 1.03, Y: h * 0.6}, "suckers")
	switch {
	case k.is.is("suckers", "hind"):
		k.Part("suckers", "hooks", "body")
		k.Blob(pt{X: 0.98, Y: -h}, pt{X: 1.035, Y: -h * 1.15}, pt{X: 1.055}, pt{X: 1.035, Y: h * 1.15}, pt{X: 0.98, Y: h})
	case k.is.is("hind", "lobes"):
		fingers(k, h)
	case k.is.is("hind", "tube"):
		breathingTube(k, h)
	case k.is.is("hind", "fan"): // of hairs, beneath
		k.Part("hind")
		for i := range 7 {
			x := 0.84 + 0.02*float64(i)
			k.Line(pt{X: x, Y: w.width(x)}, pt{X: x + 0.012*float64(i-3), Y: 0.19})
		}
	case k.is.is("hind", "feathery"):
		k.Part("hind")
		if !k.is.is("head", "sunk") { // a crown of hairs
			k.Texture(func() {
				for i := range 13 {
					d := -90 + 15*float64(i)
					root := pt{X: 0.99, Y: d * 0.0002}
					k.Line(root, root.Polar(0.15, d))
					k.Line(root.Polar(0.09, d), root.Polar(0.14, d+9))
				}
			})
			return
		}
		for _, d := range []float64{-14, 12} {
			root := pt{X: 0.98, Y: h * d / 30}
			k.whip(0.012, root, root.Polar(0.1, d), root.Polar(0.2, d*0.7))
			k.Texture(func() {
				for i := range 5 {
					p := root.Polar(0.03+0.036*float64(i), d)
					k.Line(p.Polar(0.045, d-55), p, p.Polar(0.045, d+55))
				}
			})
		}
	case k.is.is("hind", "points"):
		k.Part("hind")
		for _, d := range []float64{-22, 22} {
			k.whip(0.012, pt{X: 0.985, Y: h * d / 40}, pt{X: 1.04, Y: h*d/40 + d*0.0008}, pt{X: 1.11, Y: d * 0.0028})
		}
	default:
		k.hindEnd(h)
	}
}

// bubbles are what is dark in a body as clear as glass: two pairs of air sacs.
func bubbles(k *sketch, w widths) {
	k.Part("body")
	for _, x := range []float64{0.23, 0.72} {
		h := w.width(x) * 0.3
		k.Solid(ovalAt(x, -h, 0.042, h)...)
		k.Solid(ovalAt(x+0.02, h*0.9, 0.042, h)...)
	}
}

// fingers are soft lobes round the breathing disc, which faces backwards.
func fingers(k *sketch, h float64) {
	k.Part("hind")
	if h < 0.06 { // two hairy lobes
		l := 0.09
		if k.is.has("air-spots") {
			l = 0.17
		}
		for _, d := range []float64{-24, 20} {
			root := pt{X: 0.98, Y: h * d / 34}
			k.joint(root, root.Polar(l, d), 0.022, 0.012)
			k.Texture(func() {
				k.Line(root.Polar(l, d), root.Polar(l+0.07, d-14))
				k.Line(root.Polar(l, d), root.Polar(l+0.07, d+14))
			})
		}
		return
	}
	for _, d := range []float64{-62, -24, 20, 58} {
		root := pt{X: 0.985, Y: h * d / 66}
		k.joint(root, root.Polar(0.12, d*0.75), 0.026, 0.012)
	}
}

// breathingTube is the tube at the hind end, short, or long as a rat's tail.
func breathingTube(k *sketch, h float64) {
	k.Part("hind", "tube")
	if k.is.is("tube", "long") {
		k.Blob(pt{X: 0.97, Y: -h * 0.8}, pt{X: 1.12, Y: -0.026}, pt{X: 1.4, Y: -0.02}, pt{X: 1.4, Y: 0.02},
			pt{X: 1.12, Y: 0.026}, pt{X: 0.97, Y: h * 0.8})
		k.Blob(pt{X: 1.38, Y: -0.012}, pt{X: 1.62, Y: -0.06}, pt{X: 1.63, Y: -0.045}, pt{X: 1.38, Y: 0.012})
		k.Texture(func() {
			for i := range 5 {
				k.Line(pt{X: 1.14 + 0.05*float64(i), Y: -0.023}, pt{X: 1.14 + 0.05*float64(i), Y: 0.023})
			}
		})
		return
	}
	if k.is.is("head", "capsule") && !k.is.is("plates", "all") { // a siphon, beside the last ring
		k.Toned(pt{X: 0.93, Y: -0.04}, pt{X: 1.17, Y: -0.118}, pt{X: 1.19, Y: -0.072}, pt{X: 0.98, Y: 0.015})
		k.joint(pt{X: 0.97, Y: 0.02}, pt{X: 1.06, Y: 0.09}, 0.034, 0.028)
		k.Texture(func() {
			for _, d := range []float64{30, 50, 70} {
				k.Line(pt{X: 1.07, Y: 0.1}, pt{X: 1.07, Y: 0.1}.Polar(0.09, d))
			}
		})
		return
	}
	if k.is.is("mouth", "hooks") && k.is.is("prolegs", "belly", "welts") && !k.is.is("outline", "spindle") { // forked
		k.joint(pt{X: 0.97}, pt{X: 1.08}, 0.03, 0.024)
		k.joint(pt{X: 1.07}, pt{X: 1.16, Y: -0.035}, 0.014, 0.008)
		k.joint(pt{X: 1.07}, pt{X: 1.16, Y: 0.035}, 0.014, 0.008)
		return
	}
	k.Toned(pt{X: 0.97, Y: -0.026}, pt{X: 1.1, Y: -0.02}, pt{X: 1.11, Y: 0.02}, pt{X: 0.97, Y: 0.026})
}

// airSpots draws the two dark breathing spots on the disc at the hind end.
func airSpots(k *sketch, w widths) {
	h := w.width(1)
	k.part(pt{X: 0.99, Y: 0}, "air-spots")
	if !k.is.has("air-spots") {
		return
	}
	k.Part("air-spots", "body")
	k.Toned(pt{X: 0.985, Y: -h * 0.9}, pt{X: 1.015, Y: -h * 0.6}, pt{X: 1.02}, pt{X: 1.015, Y: h * 0.6},
		pt{X: 0.985, Y: h * 0.9}, pt{X: 0.972})
	k.Part("air-spots")
	sides(func(s float64) { k.Solid(spot(0.997, s*h*0.36, 0.011, max(0.014, h*0.2))...) })
}

// flyHead draws the head: a hard capsule, the tip of one drawn into the body,
// or none with dark hooks that shine through.
func flyHead(k *sketch, w widths) {
	x0, h := w[0].X, w.width(w[0].X)
	k.part(pt{X: 0.03}, "head", "mouth", "tusks", "mask")
	k.part(pt{X: 0.05, Y: -h * 0.5}, "head-colour", "eyes", "antennae", "feelers")
	switch {
	case k.is.is("head", "capsule", "joined"):
		capsule(k, x0, h)
	case k.is.is("mouth", "hooks"):
		k.Part("mouth", "head")
		k.Solid(pt{X: x0 + 0.13, Y: -0.008}, pt{X: x0 + 0.03, Y: -0.006}, pt{X: x0 - 0.03, Y: 0.03},
			pt{X: x0 + 0.01, Y: 0.026}, pt{X: x0 + 0.05, Y: 0.01}, pt{X: x0 + 0.13, Y: 0.01})
	case k.is.is("head", "sunk"):
		k.Part("head", "body")
		k.Shaded(pt{X: x0 - 0.035}, pt{X: x0 - 0.01, Y: -h * 0.5}, pt{X: x0 + 0.012, Y: -h * 0.5},
			pt{X: x0 + 0.012, Y: h * 0.5}, pt{X: x0 - 0.01, Y: h * 0.5})
		k.Curve(pt{X: x0 + 0.012, Y: -h * 0.5}, pt{X: x0 - 0.015, Y: -h * 0.45}, pt{X: x0 - 0.04},
			pt{X: x0 - 0.015, Y: h * 0.45}, pt{X: x0 + 0.012, Y: h * 0.5})
		k.Texture(func() {
			k.Line(pt{X: x0 - 0.02, Y: -h * 0.3}, pt{X: x0 - 0.05, Y: -h*0.5 - 0.01})
			k.Line(pt{X: x0 - 0.02, Y: h * 0.3}, pt{X: x0 - 0.05, Y: h*0.5 + 0.01})
		})
	}
}

// capsule draws a hard head of its own, with fans where it has them.
func capsule(k *sketch, x0, h float64) {
	k.Part("mouth")
	if k.is.is("mouth", "fans") {
		for _, f := range []struct{ y, d float64 }{{-0.03, 212}, {0.03, 148}} {
			root := pt{X: 0.02, Y: f.y}
			stem := root.Polar(0.05, f.d)
			k.Line(root, stem)
			for i := range 7 {
				k.Curve(stem, stem.Polar(0.08, f.d-45+15*float64(i)), stem.Polar(0.15, f.d-48+16*float64(i)))
			}
		}
	}
	k.Part("head", "body")
	r := min(max(h, 0.026), 0.07)
	shape := []pt{{X: x0 - 0.1, Y: r * 0.3}, {X: x0 - 0.085, Y: -r * 0.6}, {X: x0 - 0.04, Y: -r * 1.02}, {X: x0 + 0.01,
		Y: -r * 0.85}, {X: x0 + 0.015, Y: 0},
		{X: x0 + 0.01, Y: r * 0.85}, {X: x0 - 0.04, Y: r}, {X: x0 - 0.085, Y: r * 0.8}}
	k.Blob(shape...)
	headTone(k, shape)
	k.Part("head", "eyes", "body")
	if k.is.has("eyes") {
		k.Dot(pt{X: x0 - 0.055, Y: -r * 0.25}, 0.011)
	}
	k.Part("antennae", "body")
	if k.is.is("antennae", "short", "long") {
		k.Line(pt{X: x0 - 0.085, Y: -r * 0.5}, pt{X: x0 - 0.12, Y: -r*0.5 - 0.03})
	}
	k.Part("mouth", "body")
	if k.is.is("mouth", "jaws") {
		k.Solid(pt{X: x0 - 0.09, Y: r * 0.2}, pt{X: x0 - 0.15, Y: r * 0.4}, pt{X: x0 - 0.14, Y: r * 1.1},
			pt{X: x0 - 0.12, Y: r * 0.7}, pt{X: x0 - 0.085, Y: r * 0.7})
	}
}

// beaded draws a flat body of deep beads from above, a sucker beneath each
// shown as a ring.
func beaded(k *sketch) {
	k.part(pt{X: 0.55, Y: 0.15}, "gills", "gill-form", "gill-row")
	half := func(i int) float64 { return []float64{0.11, 0.1, 0.1, 0.098, 0.09, 0.08}[i] }
	for i := range 5 {
		if k.is.has("gills") && k.is.has("gill-form") {
			k.Part("gills", "gill-form")
			sides(func(s float64) { k.bush(pt{X: 0.34 + 0.14*float64(i), Y: s * 0.05}, 0.075, s*88) })
		}
	}
	k.part(pt{X: 0.6, Y: 0}, "outline", "flat", "rings", "cuts", "plates", "pattern", "skin")
	k.part(pt{X: 0.27, Y: 0}, "suckers")
	for i := 5; i >= 0; i-- {
		x := 0.24 + 0.14*float64(i)
		k.Part("rings", "outline", "body")
		if i > 0 {
			sides(func(s float64) {
				k.joint(pt{X: x, Y: s * half(i) * 0.8}, pt{X: x + 0.02, Y: s * (half(i) + 0.035)}, 0.022, 0.014)
			})
		}
		front, fore := 0.068, half(i)*0.34
		if i == 0 { // head and chest are one with the first
			front, fore = 0.17, half(i)*0.5
		}
		k.Toned(mirrored(x-front, fore, x-front*0.75, half(i)*0.85, x, half(i)*1.08, x+0.045, half(i)*0.88, x+0.062, half(i)*0.3)...)
		k.Texture(func() { k.Curve(pt{X: x + 0.012, Y: -half(i)}, pt{X: x + 0.03}, pt{X: x + 0.012, Y: half(i)}) })
		if k.is.is("suckers", "row") {
			k.Part("suckers")
			k.Ring(pt{X: x - 0.005}, 0.032)
			k.Dot(pt{X: x - 0.005}, 0.011)
		}
	}
	k.Part("eyes", "body")
	if k.is.has("eyes") {
		sides(func(s float64) { k.Solid(spot(0.105, s*0.055, 0.016, 0.013)...) })
	}
	k.Part("body")
	k.Curve(path(0.15, -0.09, 0.165, 0, 0.15, 0.09)...)
	k.part(pt{X: 0.08}, "head", "mouth", "eyes", "head-colour", "legs", "leg-place", "hind", "hooks", "tails")
	k.part(pt{X: 0.04, Y: -0.08}, "antennae", "feelers")
	k.Part("head", "body")
	sides(func(s float64) {
		k.whip(0.008, pt{X: 0.08, Y: s * 0.05}, pt{X: 0.05, Y: s * 0.09}, pt{X: 0, Y: s * 0.11})
	})
}
