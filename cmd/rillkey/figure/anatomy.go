package figure

import "rillkey/cmd/rillkey/figure/draw"

// mirrored is a closed outline, alike on both sides of the midline, from the
// places of one side from front to back: x and half width by turns.
func mirrored(xh ...float64) []pt {
	n := len(xh) / 2
	out := make([]pt, 2*n)
	for i := range n {
		x, h := xh[2*i], xh[2*i+1]
		out[i], out[2*n-1-i] = pt{X: x, Y: -h}, pt{X: x, Y: h}
	}
	return out
}

// wider are points with their distance from the midline multiplied.
func wider(points []pt, by float64) []pt {
	out := make([]pt, len(points))
	for i, p := range points {
		out[i] = pt{X: p.X, Y: p.Y * by}
	}
	return out
}

// moved are points moved along the body.
func moved(points []pt, dx float64) []pt {
	out := make([]pt, len(points))
	for i, p := range points {
		out[i] = pt{X: p.X + dx, Y: p.Y}
	}
	return out
}

// flipped are the points on one side of the midline.
func (p flank) flipped(s float64) []pt {
	out := make([]pt, len(p))
	for i, q := range p {
		out[i] = pt{X: q.X, Y: q.Y * s}
	}
	return out
}

// flank are points on one side of the body, below the midline.
type flank []pt

// whip draws a thread that tapers from its root to nothing.
func (k *sketch) whip(half float64, points ...pt) {
	n := len(points)
	out := make([]pt, 0, 2*n)
	for i := range n - 1 {
		out = append(out, points[i].Polar(half*(1-float64(i)/float64(n-1)), direction(points[max(0, i-1)], points[i+1])-90))
	}
	out = append(out, points[n-1])
	for i := n - 2; i >= 0; i-- {
		out = append(out, points[i].Polar(half*(1-float64(i)/float64(n-1)), direction(points[max(0, i-1)], points[i+1])+90))
	}
	k.Solid(out...)
}

// joint draws one piece of a leg, broadest a little past its root.
func (k *sketch) joint(a, b pt, ha, hb float64) {
	d := direction(a, b)
	m, h := a.Lerp(b, 0.45), max(ha, hb)*1.1
	k.Blob(a.Polar(ha, d-90), m.Polar(h, d-90), b.Polar(hb, d-90), b.Polar(hb*0.7, d), b.Polar(hb, d+90), m.Polar(h,
		d+90), a.Polar(ha, d+90))
}

// limb is one leg below the midline: where its joints are, and half the width
// of its thigh.
type limb struct {
	hip, knee, ankle, toe pt
	half                  float64
}

// leg draws a jointed leg: thigh, shin and a foot that ends in a claw.
func (k *sketch) leg(l limb) {
	k.Line(l.ankle, l.toe)
	k.joint(l.knee, l.ankle, l.half*0.5, l.half*0.36)
	k.joint(l.hip, l.knee, l.half*0.75, l.half*0.6)
}

// flipped is the leg on one side of the body.
func (l limb) flipped(s float64) limb {
	for _, p := range []*pt{&l.hip, &l.knee, &l.ankle, &l.toe} {
		p.Y *= s
	}
	return l
}

// limbAt makes a leg from the coordinates of hip, knee, ankle and toe.
func limbAt(half float64, xy ...float64) limb {
	p := path(xy...)
	return limb{p[0], p[1], p[2], p[3], half}
}

// threePairs draws the legs of an insect seen from above, front to hind; where
// there are none, it marks their place.
func (k *sketch) threePairs(fore, middle, hind limb) {
	k.part(middle.knee, "legs", "leg-place", "leg-length", "claws", "foot")
	if k.is.is("legs", "0") {
		k.part(middle.hip, "forelegs", "hindlegs")
		return
	}
	sides(func(s float64) { k.leg(middle.flipped(s)) })
	k.part(fore.knee, "forelegs")
	k.Part("legs", "leg-place", "leg-length", "forelegs")
	sides(func(s float64) { foreleg(k, fore.flipped(s), s) })
	k.part(hind.knee, "hindlegs", "stroke", "reach")
	k.Part("legs", "leg-place", "leg-length", "hindlegs", "reach")
	sides(func(s float64) { hindleg(k, hind.flipped(s), s) })
}

// foreleg draws a front leg as it is used.
func foreleg(k *sketch, l limb, s float64) {
	switch k.is["forelegs"] {
	case "digging":
		if k.is.is("antennae", "thick") && !k.is.has("tails") {
			hookedLeg(k, l, s)
			return
		}
		diggingLeg(k, l, s)
	case "combed":
		k.leg(l)
		k.Texture(func() {
			for i := range 9 {
				p := l.hip.Lerp(l.knee, 0.35+float64(i)*0.16)
				if i > 3 {
					p = l.knee.Lerp(l.ankle, float64(i-3)*0.18)
				}
				k.Line(p, pt{X: p.X - 0.05, Y: p.Y - s*0.035})
			}
		})
	case "grasping":
		jackknife(k, l, s)
	default:
		k.leg(l)
	}
}

// diggingLeg has a stout thigh held out, and a shin that reaches forward and broadens to
// a spade with a tooth.
func diggingLeg(k *sketch, l limb, s float64) {
	tip := pt{X: l.toe.X, Y: l.knee.Y - s*0.03}
	d := direction(l.knee, tip)
	k.Line(tip, tip.Polar(0.055, d-s*28))
	k.Blob(l.knee.Polar(0.016, d-90), l.knee.Lerp(tip, 0.7).Polar(0.024, d-90), tip.Polar(0.03, d-s*90+s*50), tip.Polar(0.012, d),
		tip.Polar(0.05, d+s*52), l.knee.Lerp(tip, 0.7).Polar(0.024, d+90), l.knee.Polar(0.016, d+90))
	k.joint(l.hip, l.knee, l.half*0.95, l.half*0.8)
}

// hookedLeg is short and stout, its shin ends in a hook that loosens sand.
func hookedLeg(k *sketch, l limb, s float64) {
	ankle := l.knee.Polar(0.1, 180-s*8)
	k.joint(l.knee, ankle, l.half*0.55, l.half*0.45)
	k.joint(l.hip, l.knee, l.half*0.8, l.half*0.6)
	k.Solid(ankle.Polar(0.012, s*90), ankle.Polar(0.05, 180+s*70), ankle.Polar(0.016, 180))
	k.Line(ankle, ankle.Polar(0.045, 180-s*8))
}

// jackknife is a leg whose shin folds against a stout thigh to grasp, its claw towards
// the mouth.
func jackknife(k *sketch, l limb, s float64) {
	k.joint(l.hip, l.knee, l.half*0.9, l.half*0.95)
	claw := l.hip.Lerp(l.knee, 0.22).Polar(l.half*1.7, 180-s*28)
	k.joint(l.knee, claw, l.half*0.42, l.half*0.24)
	k.Solid(claw.Polar(l.half*0.22, 180), claw.Polar(l.half*0.85, -s*60), claw.Polar(l.half*0.22, 0))
}

// hindleg draws a hind leg as it is used.
func hindleg(k *sketch, l limb, s float64) {
	k.leg(l)
	if !k.is.is("hindlegs", "oars") {
		return
	}
	k.Texture(func() {
		for i := range 9 {
			p := l.knee.Lerp(l.toe, 0.1+0.1*float64(i))
			d := direction(l.knee, l.toe)
			k.Line(p, p.Polar(0.055, d-s*60))
		}
	})
}

// ringed draws a belly section from x0 to the hind end, with n rings.
func (k *sketch) ringed(w widths, x0 float64, n int) {
	k.part(pt{X: 0.8, Y: w.width(0.8)}, "rings", "outline", "flat")
	k.Part("outline", "body", "flat")
	k.Blob(w.outline(x0, 1)...)
	k.Part("rings", "body")
	step := (1 - x0) / float64(n)
	for i := 1; i < n; i++ {
		x := x0 + step*float64(i)
		h := w.width(x) * 0.97
		k.Texture(func() { k.Curve(pt{X: x - 0.008, Y: -h}, pt{X: x + 0.004}, pt{X: x - 0.008, Y: h}) })
	}
}

// slim is a path of places along the body and half widths there.
func slim(xh ...float64) widths { return widths(path(xh...)) }

// spot are points round an oval, for eyes and spots.
func spot(x, y, rx, ry float64) []pt { return draw.Oval(pt{X: x, Y: y}, rx, ry) }
