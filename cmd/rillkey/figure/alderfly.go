package figure

// hellgrammite draws the larva of an alderfly, fishfly or dobsonfly from above:
// a broad hard head with jaws, side arms along the belly section, one feathery
// tail or two stubs with hooks.
func hellgrammite(k *sketch) {
	w, h := slim(0.36, 0.105, 0.5, 0.112, 0.75, 0.085, 0.92, 0.055, 1, 0.035), 0.115
	if k.is.is("hooks", "four") { // as slim as a centipede
		w, h = w.scaled(0.62), 0.072
	}
	k.twoFeelers(h*0.8, 0.08)
	k.threePairs(limbAt(0.024, 0.2, h*0.85, 0.14, 0.22, 0.06, 0.28, 0.01, 0.3),
		limbAt(0.024, 0.29, h*0.85, 0.31, 0.24, 0.35, 0.32, 0.38, 0.36), limbAt(0.024, 0.37, h*0.85, 0.44, 0.23, 0.53, 0.3, 0.57, 0.33))
	featherTail(k)
	k.hooksAbove(0.05)
	k.hindEnd(0.03)
	armsAlong(k, w)
	k.ringed(w, 0.36, 10)
	k.part(pt{X: 0.24, Y: 0.04}, "pattern")
	hardChest(k, h)
	k.hairsOn(w, 0.4)
	jawedHead(k, h*1.03)
}

// featherTail draws one long tail, fringed on both sides.
func featherTail(k *sketch) {
	l := 0.4
	if k.is.is("tail-length", "short") {
		l = 0.28
	}
	if !k.is.is("tails", "1") {
		k.tails()
		return
	}
	k.part(pt{X: 1 + l*0.6, Y: -0.02}, "tails", "tail-length", "tail-hair", "tail-middle")
	k.Part("tails", "tail-length", "tail-hair")
	k.whip(0.024, pt{X: 0.98}, pt{X: 1 + l*0.4}, pt{X: 1 + l})
	if !k.is.is("tail-hair", "fringed") {
		return
	}
	k.Texture(func() {
		for i := range 9 {
			x := 1.02 + (l-0.06)*float64(i)/8
			sides(func(s float64) { k.Line(pt{X: x}, pt{X: x + 0.05, Y: s * 0.055}) })
		}
	})
}

// armsAlong draws the side arms of the belly section and what gills there are.
func armsAlong(k *sketch, w widths) {
	k.part(pt{X: 0.62, Y: w.width(0.62) + 0.1}, "side-arms")
	k.places["gills"], k.places["gill-form"] = nil, nil
	at := pt{X: 0.56, Y: -w.width(0.56) - 0.03}
	k.part(at, "gills", "gill-form", "gill-row")
	n := 7
	if k.is.is("hooks", "stubs", "four") {
		n = 8
	}
	for i := n - 1; i >= 0; i-- {
		x := 0.41 + 0.07*float64(i)
		sides(func(s float64) {
			root := pt{X: x, Y: s * w.width(x) * 0.88}
			k.Part("side-arms")
			if k.is.is("gills", "sides") { // they are its gills
				k.Part("side-arms", "gills")
			}
			l := 0.17 - 0.006*float64(i)
			if k.is.is("side-arms", "some") && brokenOff(i, s) {
				k.joint(root, root.Polar(0.035, s*72), 0.016, 0.014)
				return
			}
			switch k.is["side-arms"] {
			case "fleshy", "some":
				k.joint(root, root.Polar(l*0.5, s*72), 0.013, 0.008)
				k.whip(0.006, root.Polar(l*0.48, s*72), root.Polar(l*0.8, s*60), root.Polar(l*1.05, s*50))
			case "feathery":
				k.whip(0.005, root, root.Polar(l*0.6, s*68), root.Polar(l*1.15, s*56))
				k.Texture(func() {
					for j := 1; j <= 4; j++ {
						p := root.Polar(l*0.25*float64(j), s*66)
						k.Line(p.Polar(0.035, s*10), p, p.Polar(0.035, s*118))
					}
				})
			}
			k.Part("gills", "gill-form")
			if k.is.is("gills", "under") {
				cotton(k, root.Polar(0.04, s*60), 0.044)
			}
		})
	}
}

// cotton draws a gill tuft that looks like a small ball of cotton.
func cotton(k *sketch, c pt, r float64) {
	var edge []pt
	for i := range 12 {
		edge = append(edge, c.Polar(r*(1-0.3*float64(i%2)), float64(i)*30))
	}
	k.Blob(edge...)
}

// hardChest draws three sections behind the head with hard backs.
func hardChest(k *sketch, h float64) {
	k.part(pt{X: 0.22, Y: -h * 0.8}, "plates")
	n := map[string]int{"1": 1, "2": 2, "3": 3, "all": 3}[k.is["plates"]]
	for i := 2; i >= 0; i-- {
		x := 0.14 + 0.085*float64(i)
		k.Part("body", "rings")
		if i < n {
			k.Part("plates", "body", "rings")
		}
		shape := mirrored(x, h*0.6, x+0.006, h*0.9, x+0.045, h, x+0.085, h*0.92, x+0.09, h*0.6)
		if i < n {
			k.Toned(shape...)
			k.Texture(func() { k.Line(pt{X: x + 0.005}, pt{X: x + 0.085}) })
		} else {
			k.Blob(shape...)
		}
	}
}

// jawedHead draws a broad flat head with curved jaws in front.
func jawedHead(k *sketch, h float64) {
	k.part(pt{X: -0.06}, "mouth")
	k.Part("mouth")
	if k.is.is("mouth", "jaws") {
		k.sickles(h*0.9, 0.03)
	}
	k.part(pt{X: 0.06, Y: 0.03}, "head", "head-colour")
	k.Part("head", "body")
	k.Toned(mirrored(0.005, h*0.35, 0.015, h*0.75, 0.05, h*0.98, 0.1, h*1.02, 0.135, h*0.85, 0.148, h*0.5)...)
	k.part(pt{X: 0.05, Y: -h * 0.95}, "eyes")
	if !k.is.has("eyes") {
		return
	}
	sides(func(s float64) { k.Solid(spot(0.055, s*h*0.88, 0.018, 0.014)...) })
}
