package figure

// remains draws what is no living animal: a shed skin, an empty shell and case,
// eggs in jelly, what grows on a stone, or what never was one.
func remains(k *sketch) {
	at := pt{X: 0.5, Y: 0}
	switch k.is["living"] {
	case "empty": // at the rim of its hole
		at = pt{X: 0.41, Y: 0.06}
	case "thing": // on the twig
		at = pt{X: 0.9, Y: -0.2}
	}
	k.part(at, "living", "outline", "legs", "shell", "case", "rings", "skin", "head")
	k.Part("living", "body")
	switch k.is["living"] {
	case "skin":
		shedSkin(k)
	case "empty":
		emptyHouse(k)
	case "eggs":
		spawn(k)
	case "thing":
		coneAndTwig(k)
	default:
		sponge(k, pt{})
		mossAnimals(k, pt{X: 1.2})
	}
}

// spongeAlone and mossAnimalsAlone draw what grows on a stone as one of the two.
func spongeAlone(k *sketch) {
	k.part(pt{X: 0.5, Y: 0}, "living", "outline", "legs", "shell", "case", "rings", "skin", "head")
	sponge(k, pt{})
}

func mossAnimalsAlone(k *sketch) {
	k.part(pt{X: 0.5, Y: 0}, "living", "outline", "legs", "shell", "case", "rings", "skin", "head")
	mossAnimals(k, pt{})
}

// shedSkin is the thin husk of a nymph, open along its back, white threads inside.
func shedSkin(k *sketch) {
	sides(func(s float64) {
		for _, l := range []limb{
			limbAt(0.02, 0.22, 0.08, 0.16, 0.19, 0.05, 0.25, 0, 0.26), limbAt(0.02, 0.34, 0.09, 0.38, 0.22, 0.45, 0.31, 0.5, 0.34),
			limbAt(0.02, 0.44, 0.08, 0.56, 0.19, 0.7, 0.24, 0.77, 0.25),
		} {
			l = l.flipped(s)
			k.Line(l.hip, l.knee, l.ankle, l.toe)
		}
		k.Curve(pt{X: 0.98, Y: s * 0.02}, pt{X: 1.15, Y: s * 0.08}, pt{X: 1.36, Y: s * 0.16})
		k.Curve(pt{X: 0.03, Y: s * 0.05}, pt{X: -0.1, Y: s * 0.14}, pt{X: -0.22, Y: s * 0.17})
	})
	w := slim(0.16, 0.09, 0.3, 0.115, 0.45, 0.1, 0.7, 0.085, 0.9, 0.06, 1, 0.03)
	k.Blob(w.outline(0.14, 1)...)
	k.Texture(func() {
		for i := range 7 {
			x := 0.56 + 0.06*float64(i)
			k.Curve(pt{X: x, Y: -w.width(x)}, pt{X: x + 0.01}, pt{X: x, Y: w.width(x)})
		}
	})
	k.Blob(mirrored(0.01, 0.03, 0.02, 0.08, 0.08, 0.1, 0.14, 0.08, 0.15, 0.02)...)
	k.Shaded(pt{X: 0.05}, pt{X: 0.18, Y: -0.035}, pt{X: 0.32, Y: -0.055}, pt{X: 0.5}, pt{X: 0.32, Y: 0.055}, pt{X: 0.18, Y: 0.035})
	k.Curve(pt{X: 0.05}, pt{X: 0.18, Y: -0.035}, pt{X: 0.32, Y: -0.055}, pt{X: 0.5}, pt{X: 0.32, Y: 0.055},
		pt{X: 0.18, Y: 0.035}, pt{X: 0.05})
	k.Texture(func() { // the linings of its air tubes
		for i := range 4 {
			x := 0.16 + 0.07*float64(i)
			k.Curve(pt{X: x, Y: 0}, pt{X: x + 0.03, Y: -0.05}, pt{X: x, Y: -0.1 - 0.02*float64(i%2)})
		}
	})
}

// emptyHouse is a shell with a dark hole, and a tube that one sees into from both
// ends.
func emptyHouse(k *sketch) {
	f := shellForm{0.72, 0.24, 4, 0.6, 0.5}
	k.Warp(func(p pt) pt { return pt{X: p.X + 0.2, Y: p.Y} })
	whorls(k, f, 1)
	k.Part("living", "body")
	k.Solid(path(0.06, 0.02, 0.16, 0.04, 0.23, 0.16, 0.2, 0.3, 0.12, 0.36, 0.04, 0.3, 0.01, 0.17)...)
	k.Warp(func(p pt) pt { return pt{X: p.X*0.62 + 0.42, Y: p.Y*0.9 + 0.16} })
	c := caseForm{0.2, 0.98, 0.16, 0.11}
	k.Blob(c.outline()...)
	masonry(k, c, 0.06)
	k.Solid(spot(0.2, 0, 0.045, 0.16)...)
	k.Ring(pt{X: 0.98}, 0.085)
	k.Solid(spot(0.98, 0, 0.04, 0.06)...)
	k.Warp(nil)
}

// spawn is a blob of jelly, in it dots each in a bubble of its own.
func spawn(k *sketch) {
	k.Blob(pt{X: 0.02, Y: 0.05}, pt{X: 0.15, Y: -0.22}, pt{X: 0.5, Y: -0.28}, pt{X: 0.85, Y: -0.2}, pt{X: 0.98, Y: 0.06},
		pt{X: 0.8, Y: 0.26}, pt{X: 0.45, Y: 0.3}, pt{X: 0.15, Y: 0.24})
	for i := range 11 {
		at := pt{X: 0.2 + 0.2*float64(i%4) + 0.08*float64(i/4%2), Y: -0.15 + 0.15*float64(i/4)}
		k.Ring(at, 0.065)
		k.Dot(at, 0.02)
	}
}

// coneAndTwig are a small cone, scale upon scale, and a broken twig with the stump of a
// side twig.
func coneAndTwig(k *sketch) {
	k.Blob(path(0.06, 0.05, 0.1, -0.12, 0.22, -0.22, 0.34, -0.12, 0.38, 0.05, 0.33, 0.2, 0.22, 0.28, 0.11, 0.2)...)
	k.Line(pt{X: 0.22, Y: -0.22}, pt{X: 0.2, Y: -0.36})
	k.Blob(path(0.7, -0.06, 0.69, -0.24, 0.73, -0.26, 0.76, -0.23, 0.77, -0.14)...)
	k.Blob(path(0.5, 0.2, 0.52, 0.13, 0.7, -0.08, 0.98, -0.36, 1.03, -0.34, 1.04, -0.29, 0.86, -0.1, 0.58, 0.22, 0.55, 0.19)...)
	k.Part("body")
	for row := range 4 {
		scales := 3 - row%2
		left, y := 0.22-0.04*float64(scales), -0.11+0.085*float64(row)
		for i := range scales {
			x := left + 0.08*float64(i)
			k.Curve(pt{X: x, Y: y}, pt{X: x + 0.04, Y: y + 0.07}, pt{X: x + 0.08, Y: y})
		}
	}
	k.Texture(func() { // bark
		for i := range 4 {
			x := 0.6 + 0.1*float64(i)
			k.Line(pt{X: x, Y: 0.1 - 0.1*float64(i)}, pt{X: x + 0.06, Y: 0.04 - 0.1*float64(i)})
		}
	})
}

// sponge is a rough crust with large and small holes that clothes a stone.
func sponge(k *sketch, at pt) {
	k.Warp(func(p pt) pt { return pt{X: at.X + p.X, Y: at.Y + p.Y} })
	k.Part("living", "body")
	k.Blob(path(0, 0.26, 0.06, 0.12, 0.3, 0.06, 0.7, 0.06, 0.96, 0.12, 1.04, 0.28, 0.8, 0.4, 0.3, 0.42)...)
	k.Toned(path(0.03, 0.19, 0.08, 0.02, 0.14, -0.04, 0.2, -0.02, 0.25, -0.16, 0.33, -0.22, 0.4, -0.16, 0.44, -0.04, 0.5, -0.08,
		0.55, -0.2, 0.64, -0.24, 0.71, -0.16, 0.75, -0.02, 0.83, -0.06, 0.92, 0.04, 0.99, 0.18, 0.9, 0.22, 0.7, 0.16, 0.45, 0.2,
		0.2, 0.17)...)
	for _, hole := range [][3]float64{{0.325, -0.15, 0.032}, {0.635, -0.17, 0.032}, {0.16, 0.04, 0.024}, {0.86, 0.03, 0.026},
		{0.49, 0.03, 0.028}} {
		k.Solid(ovalAt(hole[0], hole[1], hole[2], hole[2]*0.7)...)
	}
	k.Texture(func() {
		for _, p := range scatter(path(0.1, 0.06, 0.3, -0.1, 0.64, -0.12, 0.9, 0.08, 0.7, 0.14, 0.3, 0.14), 0.06) {
			k.Dot(p, 0.006)
		}
	})
	k.Warp(nil)
}

// mossAnimals are brown twigs of tubes that creep over a stone, a crown of threads at
// the mouth of each.
func mossAnimals(k *sketch, at pt) {
	k.Warp(func(p pt) pt { return pt{X: at.X + p.X, Y: at.Y + p.Y} })
	k.Part("living", "body")
	k.Blob(path(0, 0.26, 0.06, 0.16, 0.3, 0.12, 0.7, 0.12, 0.96, 0.16, 1.04, 0.28, 0.8, 0.4, 0.3, 0.42)...)
	for _, twig := range [][]pt{
		path(0.3, 0.14, 0.24, -0.02, 0.12, -0.16), path(0.26, 0.02, 0.3, -0.1, 0.28, -0.26),
		path(0.5, 0.13, 0.5, -0.04, 0.45, -0.3), path(0.5, -0.02, 0.58, -0.14, 0.62, -0.28),
		path(0.72, 0.14, 0.76, -0.02, 0.78, -0.2), path(0.75, 0.02, 0.86, -0.08, 0.93, -0.14),
	} {
		n := len(twig) - 1
		for i := range n {
			k.joint(twig[i], twig[i+1], 0.024, 0.02)
		}
		d := direction(twig[n-1], twig[n])
		for i := range 7 {
			e := d - 66 + 22*float64(i)
			k.Curve(twig[n], twig[n].Polar(0.06, d+(e-d)*0.7), twig[n].Polar(0.12, e))
		}
	}
	k.Warp(nil)
}

// hydra draws a thread fixed by its foot, a crown of finer threads at its top.
func hydra(k *sketch) {
	k.part(pt{X: 0.5, Y: -0.2}, "outline", "flat", "rings", "skin", "pattern", "posture")
	k.Part("outline", "body")
	top := pt{X: 0.5, Y: -0.5}
	k.Blob(pt{X: 0.47, Y: 0.3}, pt{X: 0.46, Y: -0.1}, pt{X: 0.45, Y: -0.46}, top, pt{X: 0.55, Y: -0.46}, pt{X: 0.54, Y: -0.1},
		pt{X: 0.53, Y: 0.3})
	k.part(pt{X: 0.5, Y: 0.3}, "hind", "suckers", "tails", "legs", "gills")
	k.Part("outline")
	k.Curve(pt{X: 0.2, Y: 0.34}, pt{X: 0.5, Y: 0.3}, pt{X: 0.8, Y: 0.34})
	k.part(top, "head", "mouth", "eyes", "antennae")
	k.Part("mouth")
	for i := range 6 {
		d := 190 + float64(i)*32
		k.Curve(top, top.Polar(0.16, d-6), top.Polar(0.32, d+8), top.Polar(k.varied(0.48, 0.25, i), d-2))
	}
}

// livingSign is an animal that walks, or what is none.
func livingSign(k *sketch, state string) {
	if state != "yes" {
		remains(k)
		return
	}
	k.Part("living")
	k.bean(pt{X: 0.08}, 0.55, 0.12)
	k.legsUnder(pt{X: 0.08}, 1)
	k.arrow(pt{X: 0.1, Y: -0.25}, pt{X: -0.1, Y: -0.27}, pt{X: -0.35, Y: -0.25})
}
