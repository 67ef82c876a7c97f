package figure

import "rillkey/cmd/rillkey/figure/draw"

func ovalAt(x, y, rx, ry float64) []pt { return draw.Oval(pt{X: x, Y: y}, rx, ry) }

// reach is how far legs reach from the body, in body lengths.
func (t Traits) reach() float64 {
	switch t["leg-length"] {
	case "short":
		return 0.11
	case "long":
		return 0.42
	}
	return 0.24
}

// thinLeg draws a jointed leg: a stout upper part and a thin lower one.
func (k *sketch) thinLeg(hip, knee, foot pt) {
	k.stout(hip, knee, 0.017)
	k.Line(knee, foot)
}

func (k *sketch) stout(a, b pt, half float64) {
	d := direction(a, b)
	k.Blob(a, a.Lerp(b, 0.4).Polar(half, d-90), b.Polar(half*0.5, d-90), b.Polar(half*0.5, d), b.Polar(half*0.5, d+90),
		a.Lerp(b, 0.4).Polar(half, d+90))
}

// legsAbove draws three pairs of legs on a body seen from above.
func legsAbove(k *sketch, w widths, hips [3]float64) {
	if k.is.is("legs", "0") {
		k.part(pt{X: hips[1], Y: w.width(hips[1]) + 0.04}, "legs", "leg-place", "leg-length", "forelegs", "hindlegs")
		return
	}
	reach := k.is.reach()
	k.part(pt{X: hips[1] + 0.04, Y: w.width(hips[1]) + reach*0.6}, "legs", "leg-place", "leg-length", "claws", "foot")
	sides(func(s float64) {
		y := w.width(hips[1]) * 0.85 * s
		knee, foot := pt{X: hips[1] + 0.03, Y: y + s*reach*0.62}, pt{X: hips[1] + 0.1, Y: y + s*reach*1.05}
		if k.is.is("hindlegs", "both") {
			knee, foot = pt{X: hips[1] - 0.1, Y: y + s*reach*0.9}, pt{X: hips[1] - 0.35, Y: y + s*reach*1.4}
		}
		k.thinLeg(pt{X: hips[1], Y: y}, knee, foot)
	})
	foreLegs(k, w, hips[0], reach)
	hindLegs(k, w, hips[2], reach)
}

func foreLegs(k *sketch, w widths, x, reach float64) {
	k.part(pt{X: x - 0.1, Y: w.width(x) + reach*0.5}, "forelegs")
	k.Part("legs", "leg-place", "leg-length", "forelegs")
	sides(func(s float64) {
		hip := pt{X: x, Y: w.width(x) * 0.85 * s}
		switch k.is["forelegs"] {
		case "pincers":
			elbow := pt{X: x - 0.1, Y: hip.Y + s*0.2}
			k.thinLeg(hip, elbow, elbow)
			k.pincer(elbow, 0.22, 180+s*22)
		case "nippers":
			for _, at := range [2]float64{0, 0.07} {
				knee, wrist := pt{X: x - 0.08 + at, Y: hip.Y + s*reach*0.6}, pt{X: x - 0.18 + at, Y: hip.Y + s*reach*(0.75+4*at)}
				k.thinLeg(hip, knee, wrist)
				k.pincer(wrist, 0.13, 180-s*10)
			}
		case "grasping":
			knee := pt{X: x - 0.25, Y: hip.Y + s*0.16}
			k.stout(hip, knee, 0.045)
			k.stout(knee, pt{X: x - 0.14, Y: hip.Y + s*0.02}, 0.016)
		case "digging":
			knee := pt{X: x - 0.05, Y: hip.Y + s*0.1}
			k.stout(hip, knee, 0.025)
			k.Blob(knee, knee.Polar(0.09, 180+s*40), knee.Polar(0.13, 180-s*5), knee.Polar(0.06, 180-s*20))
		case "combed":
			knee, foot := pt{X: x - 0.1, Y: hip.Y + s*reach*0.6}, pt{X: x - 0.26, Y: hip.Y + s*reach*0.75}
			k.thinLeg(hip, knee, foot)
			for i := range 6 {
				p := knee.Lerp(foot, float64(i)/5)
				k.Line(p, pt{X: p.X - 0.015, Y: p.Y - s*0.07})
			}
		case "scoops":
			k.Solid(pt{X: x - 0.2, Y: s * 0.09}, pt{X: x - 0.3, Y: s * 0.12}, pt{X: x - 0.34, Y: s * 0.05},
				pt{X: x - 0.29, Y: s * 0.075})
		default:
			k.thinLeg(hip, pt{X: x - 0.08, Y: hip.Y + s*reach*0.6}, pt{X: x - 0.2, Y: hip.Y + s*reach*0.85})
		}
	})
}

// pincer draws a claw of two fingers from its wrist.
func (k *sketch) pincer(at pt, length, degrees float64) {
	tip := at.Polar(length, degrees)
	mid := at.Lerp(tip, 0.5)
	k.Blob(at, at.Lerp(tip, 0.3).Polar(length*0.2, degrees-90), mid.Polar(length*0.2, degrees-90), tip.Polar(length*0.07, degrees-90),
		mid.Polar(length*0.02, degrees+90), tip.Polar(length*0.14, degrees+90), mid.Polar(length*0.2, degrees+90),
		at.Lerp(tip, 0.25).Polar(length*0.17, degrees+90))
}

func hindLegs(k *sketch, w widths, x, reach float64) {
	k.part(pt{X: x + 0.14, Y: w.width(x) + reach*0.6}, "hindlegs", "stroke")
	k.Part("legs", "leg-place", "leg-length", "hindlegs")
	sides(func(s float64) {
		hip := pt{X: x, Y: w.width(x) * 0.85 * s}
		switch k.is["hindlegs"] {
		case "oars":
			r := max(reach, 0.22)
			knee, foot := pt{X: x + 0.03, Y: hip.Y + s*r*0.7}, pt{X: x + 0.28, Y: hip.Y + s*r*1.05}
			k.stout(hip, knee, 0.026)
			k.stout(knee, foot, 0.026)
			for i := range 6 {
				p := knee.Lerp(foot, 0.15+0.17*float64(i))
				k.Line(p, pt{X: p.X + 0.035, Y: p.Y - s*0.06})
			}
		case "long", "both":
			r := max(reach, 0.3)
			k.thinLeg(hip, pt{X: x + 0.12, Y: hip.Y + s*r*0.9}, pt{X: x + 0.5, Y: hip.Y + s*r*1.15})
		default:
			k.thinLeg(hip, pt{X: x + 0.1, Y: hip.Y + s*reach*0.6}, pt{X: x + 0.25, Y: hip.Y + s*reach})
		}
	})
}

// legsBelow draws legs beneath a body seen from the side.
func legsBelow(k *sketch, w widths, hips [3]float64) {
	mid := pt{X: hips[1], Y: w.width(hips[1]) + 0.07}
	k.part(mid, "legs", "leg-place", "leg-length", "claws", "foot")
	if k.is.is("legs", "0") {
		return
	}
	reach := min(k.is.reach(), 0.3) * 0.75
	for i, x := range hips {
		if i == 2 {
			k.part(pt{X: x + 0.05, Y: w.width(x) + reach*0.6}, "hindlegs")
			k.Part("legs", "leg-place", "leg-length", "hindlegs")
			if k.is.is("hindlegs", "long") || k.is.is("hindlegs", "both") {
				hip := pt{X: x, Y: w.width(x) * 0.8}
				k.thinLeg(hip, pt{X: x - 0.02, Y: hip.Y + 0.28}, pt{X: x - 0.2, Y: hip.Y + 0.36})
				continue
			}
		}
		hip := pt{X: x, Y: w.width(x) * 0.92}
		k.leg(limb{hip, pt{X: x + 0.01, Y: hip.Y + reach*0.5}, pt{X: x - 0.025, Y: hip.Y + reach*0.85},
			pt{X: x - 0.05, Y: hip.Y + reach}, 0.02})
		if i == 0 {
			k.part(pt{X: x, Y: hip.Y + reach*0.7}, "forelegs")
		}
	}
}
