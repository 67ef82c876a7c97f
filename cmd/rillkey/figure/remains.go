package figure

import "math"

// remains draws what is no living animal: a shed skin, an empty shell and case,
// eggs in jelly, or what grows on a stone.
func remains(k *sketch) {
	k.part(pt{X: 0.5, Y: 0}, "living", "outline", "legs", "shell", "case", "rings", "skin", "head")
	k.Part("living", "body")
	switch k.is["living"] {
	case "skin":
		k.shedSkin()
	case "empty":
		k.emptyHouse()
	case "eggs":
		k.spawn()
	default:
		k.crust()
	}
}

// shedSkin is the thin husk of a nymph, open along its back, white threads inside.
func (k *sketch) shedSkin() {
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
	k.Curve(pt{X: 0.05}, pt{X: 0.18, Y: -0.035}, pt{X: 0.32, Y: -0.055}, pt{X: 0.5}, pt{X: 0.32, Y: 0.055}, pt{X: 0.18, Y: 0.035}, pt{X: 0.05})
	k.Texture(func() { // the linings of its air tubes
		for i := range 4 {
			x := 0.16 + 0.07*float64(i)
			k.Curve(pt{X: x, Y: 0}, pt{X: x + 0.03, Y: -0.05}, pt{X: x, Y: -0.1 - 0.02*float64(i%2)})
		}
	})
}

// emptyHouse is a shell with a dark hole, and a tube that one sees into from both
// ends.
func (k *sketch) emptyHouse() {
	f := shellForm{0.72, 0.24, 4, 0.6, 0.5}
	k.Warp(func(p pt) pt { return pt{X: p.X + 0.2, Y: p.Y} })
	k.whorls(f, 1)
	k.Part("living", "body")
	k.Solid(path(0.06, 0.02, 0.16, 0.04, 0.23, 0.16, 0.2, 0.3, 0.12, 0.36, 0.04, 0.3, 0.01, 0.17)...)
	k.Warp(func(p pt) pt { return pt{X: p.X*0.62 + 0.42, Y: p.Y*0.9 + 0.16} })
	c := caseForm{0.2, 0.98, 0.16, 0.11}
	k.Blob(c.outline()...)
	k.masonry(c, 0.06)
	k.Solid(spot(0.2, 0, 0.045, 0.16)...)
	k.Ring(pt{X: 0.98}, 0.085)
	k.Solid(spot(0.98, 0, 0.04, 0.06)...)
	k.Warp(nil)
}

// spawn is a blob of jelly, in it dots each in a bubble of its own.
func (k *sketch) spawn() {
	k.Blob(pt{X: 0.02, Y: 0.05}, pt{X: 0.15, Y: -0.22}, pt{X: 0.5, Y: -0.28}, pt{X: 0.85, Y: -0.2}, pt{X: 0.98, Y: 0.06},
		pt{X: 0.8, Y: 0.26}, pt{X: 0.45, Y: 0.3}, pt{X: 0.15, Y: 0.24})
	for i := range 11 {
		at := pt{X: 0.2 + 0.2*float64(i%4) + 0.08*float64(i/4%2), Y: -0.15 + 0.15*float64(i/4)}
		k.Ring(at, 0.065)
		k.Dot(at, 0.02)
	}
}

// crust is a rough crust with holes on a stone, fingers standing on it.
func (k *sketch) crust() {
	k.Blob(pt{X: 0, Y: 0.3}, pt{X: 0.1, Y: 0.12}, pt{X: 0.5, Y: 0.06}, pt{X: 0.9, Y: 0.12}, pt{X: 1.05, Y: 0.32}, pt{X: 0.5, Y: 0.42})
	var top []pt
	for i := range 15 {
		x := 0.08 + 0.06*float64(i)
		top = append(top, pt{X: x, Y: 0.02 - 0.05*math.Mod(float64(i), 2)})
	}
	k.Toned(append(top, pt{X: 0.92, Y: 0.16}, pt{X: 0.5, Y: 0.12}, pt{X: 0.08, Y: 0.16})...)
	for _, x := range []float64{0.2, 0.36, 0.55, 0.74} {
		k.Dot(pt{X: x, Y: 0.07}, 0.016)
	}
	for _, x := range []float64{0.28, 0.46, 0.66} {
		k.finger(pt{X: x, Y: 0.01}, 0.2, 0.05, 270)
	}
}

// hydra draws a thread fixed by its foot, a crown of finer threads at its top.
func hydra(k *sketch) {
	k.part(pt{X: 0.5, Y: -0.2}, "outline", "flat", "rings", "skin", "pattern", "posture")
	k.Part("outline", "body")
	top := pt{X: 0.5, Y: -0.5}
	k.Blob(pt{X: 0.47, Y: 0.3}, pt{X: 0.46, Y: -0.1}, pt{X: 0.45, Y: -0.46}, top, pt{X: 0.55, Y: -0.46}, pt{X: 0.54, Y: -0.1}, pt{X: 0.53, Y: 0.3})
	k.part(pt{X: 0.5, Y: 0.3}, "hind", "suckers", "tails", "legs", "gills")
	k.Part("outline")
	k.Curve(pt{X: 0.2, Y: 0.34}, pt{X: 0.5, Y: 0.3}, pt{X: 0.8, Y: 0.34})
	k.part(top, "head", "mouth", "eyes", "antennae")
	k.Part("mouth")
	for i := range 6 {
		d := 190 + float64(i)*32
		k.Curve(top, top.Polar(0.2, d), top.Polar(0.36, d+18))
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
