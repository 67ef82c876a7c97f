package figure

// maggot draws a legless larva from the side: midges, black flies, crane flies.
func maggot(k *sketch) {
	w := k.is.form()
	if k.is.is("posture", "bent") {
		w = w.scaled(0.75)
	}
	k.bend(k.is["posture"])
	if k.is.is("prolegs", "ends") && k.is.is("outline", "long") && !k.is.is("posture", "bent", "curled") {
		w = w.scaled(0.8)
		k.Warp(arc(0.7)) // what creeps on stubs at both ends is slim and bent
	}
	if k.is.is("outline", "thread") && !k.is.is("posture", "bent", "curled") {
		k.Warp(wave)
	}
	k.prolegsBelow(w)
	k.hooksBelow(w.width(0.98))
	if k.is.is("rings", "lobes") {
		k.beadGills(w)
	} else {
		k.gillsBelow(w)
	}
	k.tails()
	k.hindEnd(w.width(0.98))
	k.hindSucker(w)
	if k.is.is("rings", "lobes") {
		k.beads(w)
	} else {
		k.bodyBeside(w)
	}
	k.headBeside(w.width(0.13))
	k.platesBeside(w)
	k.edges(w)
	k.airSpots(w)
	k.part(pt{X: 0.25, Y: w.width(0.25) + 0.05}, "legs", "leg-place")
}

// hindSucker draws a sucker on which the larva stands.
func (k *sketch) hindSucker(w widths) {
	k.part(pt{X: 1.02, Y: w.width(0.97) * 0.4}, "suckers")
	switch k.is["suckers"] {
	case "hind":
		h := max(w.width(0.97), 0.05)
		k.Blob(pt{X: 0.97, Y: -h * 0.8}, pt{X: 1.035, Y: -h * 1.05}, pt{X: 1.05}, pt{X: 1.035, Y: h * 1.05}, pt{X: 0.97, Y: h * 0.8})
	case "ends":
		k.suckers(w)
	}
}

// beads draws a body of deep beads seen from above, each with its sucker.
func (k *sketch) beads(w widths) {
	k.part(pt{X: 0.5, Y: 0}, "outline", "flat", "rings")
	k.Part("rings", "outline", "body")
	for i := range 6 {
		x := 0.2 + 0.15*float64(i)
		h := max(w.width(x)*1.35, 0.08)
		k.Blob(ovalAt(x, 0, 0.082, h)...)
		sides(func(s float64) { k.Line(pt{X: x, Y: s * h}, pt{X: x - 0.02, Y: s * (h + 0.05)}) })
	}
	k.part(pt{X: 0.5, Y: 0}, "suckers")
	if k.is.is("suckers", "row") {
		for i := range 6 {
			x := 0.2 + 0.15*float64(i)
			k.Ring(pt{X: x}, 0.042)
			k.Dot(pt{X: x}, 0.014)
		}
	}
}

// beadGills draws tufts at both sides of each bead.
func (k *sketch) beadGills(w widths) {
	k.part(pt{X: 0.55, Y: w.width(0.5) + 0.07}, "gills", "gill-form", "gill-row")
	if !k.is.has("gills") || !k.is.has("gill-form") {
		return
	}
	for i := range 5 {
		x := 0.275 + 0.15*float64(i)
		sides(func(s float64) { k.gill(pt{X: x, Y: s * w.width(x) * 0.7}, 0.09, s*90, s) })
	}
}

// airSpots draws the two dark breathing spots at the hind tip.
func (k *sketch) airSpots(w widths) {
	h := w.width(0.97)
	k.part(pt{X: 0.985, Y: 0}, "air-spots")
	if k.is.has("air-spots") {
		sides(func(s float64) { k.Dot(pt{X: 0.965, Y: s * max(h*0.45, 0.022)}, 0.018) })
	}
}
