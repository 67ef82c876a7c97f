package figure

// ringAt is where belly ring n (from 0) of nine lies, along a body.
func ringAt(n int) float64 { return 0.455 + 0.06*float64(n) }

// gillRings are the first and the last ring with gills in a row.
func (t Traits) gillRings() (first, last int) {
	if t.is("gill-row", "gap") {
		return 3, 7
	}
	return 0, 6
}

// gill draws one gill of the animal's form from its base in a direction, on the
// side s of the body.
func (k *sketch) gill(at pt, size, degrees, s float64) {
	switch k.is["gill-form"] {
	case "feathers":
		k.feather(at, size*1.5, degrees, size*0.3)
	case "forks":
		k.Line(at.Polar(size*1.4, degrees-14), at.Polar(size*0.3, degrees), at, at.Polar(size*0.3, degrees),
			at.Polar(size*1.4, degrees+14))
	case "tufts":
		k.tuft(at, size*0.95, degrees)
	case "threads":
		k.Curve(at, at.Polar(size*0.6, degrees-8*s), at.Polar(size*1.2, degrees+10*s))
	default:
		k.leaf(at, size*1.05, size*0.38, degrees)
	}
}

// gillsBehind draws the gills that the body partly hides, seen from above.
func gillsBehind(k *sketch, w widths) {
	first, last := k.is.gillRings()
	placeGills(k, w, first)
	if k.is.is("gill-form", "none") {
		return
	}
	k.Part("gills", "gill-form", "gill-row", "gill-mark")
	switch k.is["gills"] {
	case "sides":
		for i := first; i <= last; i++ {
			x := ringAt(i) + 0.03
			sides(func(s float64) { k.gill(pt{X: x, Y: s * w.width(x) * 0.9}, 0.1, s*55, s) })
		}
	case "under":
		for i := range 8 {
			x := ringAt(i) + 0.03
			sides(func(s float64) { k.gill(pt{X: x, Y: s * (w.width(x) - 0.012)}, 0.1, s*80, s) })
		}
	case "chest", "chest-belly":
		xs := []float64{0.19, 0.28, 0.38}
		if k.is.is("gills", "chest-belly") {
			xs = append(xs, 0.48, 0.54)
		}
		for _, x := range xs {
			sides(func(s float64) { k.gill(pt{X: x, Y: s * (w.width(x) - 0.03)}, 0.1, s*75, s) })
		}
	case "hind":
		if !k.is.is("hind", "plates") {
			for _, d := range []float64{-45, -15, 15, 45} {
				k.gill(pt{X: 0.99, Y: 0}, 0.11, d, 1)
			}
		}
	}
}

func placeGills(k *sketch, w widths, first int) {
	at := pt{X: ringAt(first+1) + 0.07, Y: w.width(0.6) + 0.06}
	switch k.is["gills"] {
	case "back":
		at = pt{X: 0.66, Y: 0}
	case "chest", "chest-belly":
		at = pt{X: 0.3, Y: w.width(0.3) + 0.05}
	case "hind":
		at = pt{X: 1.06}
	}
	k.part(at, "gills", "gill-form", "gill-row")
}

// gillsOnBack draws the gills that lie on the back, seen from above.
func gillsOnBack(k *sketch, w widths) {
	k.part(pt{X: 0.64, Y: 0.03}, "lids")
	if !k.is.is("gills", "back") {
		return
	}
	k.Part("gills", "gill-form", "gill-row", "lids")
	if k.is.is("gill-form", "lids") {
		lids(k, w)
		return
	}
	first, last := k.is.gillRings()
	if k.is.is("gill-form", "feathers") {
		plumes(k, w, first, last)
		return
	}
	for i := last; i >= first; i-- {
		x := ringAt(i)
		sides(func(s float64) { k.gill(pt{X: x + 0.01, Y: s * w.width(x) * 0.8}, 0.095, -s*18, s) })
	}
}

// plumes draws feathery gills that are folded over the back: one on every
// second ring, since at the size of a figure all of them run together.
func plumes(k *sketch, w widths, first, last int) {
	for i := last; i >= first; i -= 2 {
		x := ringAt(i) + 0.01
		sides(func(s float64) { k.feather(pt{X: x, Y: s * w.width(x) * 0.45}, 0.17, s*38, 0.036) })
	}
}

func lids(k *sketch, w widths) {
	h := w.width(0.6)
	sides(func(s float64) {
		if k.is.is("lids", "triangle") {
			k.Poly(pt{X: 0.52, Y: s * h * 0.95}, pt{X: 0.54, Y: s * h * 0.3}, pt{X: 0.74, Y: s * h * 0.55})
			return
		}
		k.Poly(pt{X: 0.52, Y: 0.003 * s}, pt{X: 0.52, Y: s * h * 0.95}, pt{X: 0.73, Y: s * h * 0.9}, pt{X: 0.73, Y: 0.003 * s})
	})
}

// neckGills draws gills between head and chest.
func neckGills(k *sketch, half float64) {
	k.part(pt{X: 0.155, Y: half * 0.7}, "neck")
	if k.is.has("neck") {
		sides(func(s float64) { k.tuft(pt{X: 0.155, Y: s * half * 0.6}, 0.1, s*80) })
	}
}

// brokenOff reports whether only a stump of this side arm is drawn: few are left, with
// room between, and of those on one side a single one.
func brokenOff(i int, side float64) bool { return i%2 == 1 || side > 0 && i != 2 }

// sideArms draws the stiff feelers along the belly section.
func sideArms(k *sketch, w widths) {
	k.part(pt{X: 0.66, Y: w.width(0.66) + 0.08}, "side-arms")
	if !k.is.has("side-arms") {
		return
	}
	for i := range 8 {
		x := ringAt(i) + 0.03
		sides(func(s float64) {
			root := pt{X: x, Y: s * w.width(x) * 0.9}
			if k.is.is("side-arms", "some") && brokenOff(i, s) {
				k.joint(root, root.Polar(0.035, s*62), 0.016, 0.014)
				return
			}
			if k.is.is("side-arms", "feathery") {
				k.feather(root, 0.19, s*62, 0.03)
				return
			}
			tip := root.Polar(0.17, s*62)
			k.Poly(root.Polar(0.016, 180), tip, root.Polar(0.016, 0))
		})
	}
}
