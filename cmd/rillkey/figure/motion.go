package figure

import "rillkey/cmd/rillkey/figure/draw"

// arrow draws a line with a head.
func (k *sketch) arrow(points ...pt) {
	k.Curve(points...)
	n := len(points)
	tip, before := points[n-1], points[n-2]
	d := direction(before, tip)
	k.Poly(tip, tip.Polar(0.13, d+155), tip.Polar(0.13, d-155))
}

// bean is the animal that a sign moves, or any animal, seen from above, facing left.
func (k *sketch) bean(c pt, length, half float64) {
	if k.actor != nil {
		room := draw.NewBox(c.X-length*0.8, c.Y-half*2.2, c.X+length*0.8, c.Y+half*2.2)
		k.Place(k.actor.canvas, draw.Fit(k.actor.frame, room))
		return
	}
	k.Blob(pt{X: c.X - length/2, Y: c.Y}, pt{X: c.X - length*0.35, Y: c.Y - half*0.9}, pt{X: c.X,
		Y: c.Y - half}, pt{X: c.X + length*0.35, Y: c.Y - half*0.7}, pt{X: c.X + length/2, Y: c.Y},
		pt{X: c.X + length*0.35, Y: c.Y + half*0.7}, pt{X: c.X, Y: c.Y + half}, pt{X: c.X - length*0.35, Y: c.Y + half*0.9})
	k.Dot(pt{X: c.X - length*0.36, Y: c.Y - half*0.25}, 0.022)
}

// legsUnder gives a bean legs on one side.
func (k *sketch) legsUnder(c pt, side float64) {
	if k.actor != nil { // which has legs of its own
		return
	}
	for i := range 3 {
		x := c.X - 0.12 + 0.11*float64(i)
		k.Line(pt{X: x, Y: c.Y + side*0.08}, pt{X: x - 0.03, Y: c.Y + side*0.22})
	}
}

// oar is a leg of any animal, since one that is drawn has legs of its own.
func (k *sketch) oar(points ...pt) {
	if k.actor == nil {
		k.Line(points...)
	}
}

func moveSign(k *sketch, state string) {
	k.Part("move")
	c := pt{X: 0.08, Y: 0}
	switch state {
	case "crawl":
		k.Line(pt{X: -0.5, Y: 0.24}, pt{X: 0.5, Y: 0.24})
		k.bean(c, 0.55, 0.12)
		k.legsUnder(c, 1)
		k.arrow(pt{X: 0.1, Y: -0.25}, pt{X: -0.1, Y: -0.27}, pt{X: -0.35, Y: -0.25})
	case "swim":
		k.bean(pt{X: -0.1, Y: 0}, 0.45, 0.11)
		k.Curve(pt{X: 0.14, Y: 0}, pt{X: 0.25, Y: -0.12}, pt{X: 0.36, Y: 0.08}, pt{X: 0.48, Y: -0.06})
		k.arrow(pt{X: 0.3, Y: 0.26}, pt{X: 0, Y: 0.28}, pt{X: -0.45, Y: 0.26})
	case "thrash":
		k.Curve(pt{X: -0.45, Y: 0.1}, pt{X: -0.25, Y: -0.25}, pt{X: -0.05, Y: 0.2}, pt{X: 0.15, Y: -0.25}, pt{X: 0.32, Y: 0.2},
			pt{X: 0.45, Y: -0.15})
		k.arrow(pt{X: -0.05, Y: 0.25}, pt{X: -0.05, Y: 0.46})
		k.arrow(pt{X: 0.15, Y: -0.3}, pt{X: 0.15, Y: -0.48})
	case "loop":
		k.Line(pt{X: -0.5, Y: 0.3}, pt{X: 0.5, Y: 0.3})
		k.Curve(pt{X: -0.22, Y: 0.28}, pt{X: -0.16, Y: -0.05}, pt{X: 0.03, Y: -0.18}, pt{X: 0.2, Y: -0.05}, pt{X: 0.26, Y: 0.28})
		k.Curve(pt{X: -0.15, Y: 0.28}, pt{X: -0.1, Y: 0.02}, pt{X: 0.03, Y: -0.08}, pt{X: 0.14, Y: 0.02}, pt{X: 0.19, Y: 0.28})
		k.arrow(pt{X: 0.2, Y: -0.33}, pt{X: -0.1, Y: -0.4}, pt{X: -0.4, Y: -0.15})
	case "glide":
		k.Line(pt{X: -0.5, Y: 0.14}, pt{X: 0.5, Y: 0.14})
		k.bean(pt{X: 0.05, Y: 0.05}, 0.65, 0.08)
		k.arrow(pt{X: 0.2, Y: -0.2}, pt{X: -0.1, Y: -0.2}, pt{X: -0.4, Y: -0.2})
	case "row":
		k.bean(pt{}, 0.5, 0.15)
		sides(func(s float64) {
			k.oar(pt{X: 0, Y: s * 0.14}, pt{X: 0.02, Y: s * 0.42})
			k.arrow(pt{X: 0.06, Y: s * 0.42}, pt{X: 0.25, Y: s * 0.38}, pt{X: 0.36, Y: s * 0.24})
		})
	case "hop":
		k.Line(pt{X: -0.5, Y: 0.34}, pt{X: 0.5, Y: 0.34})
		k.bean(pt{X: 0.22, Y: 0.2}, 0.4, 0.11)
		k.arrow(pt{X: 0.2, Y: 0.02}, pt{X: 0.05, Y: -0.36}, pt{X: -0.2, Y: -0.4}, pt{X: -0.4, Y: 0.28})
	case "skate":
		k.Line(pt{X: -0.5, Y: 0.26}, pt{X: 0.5, Y: 0.26})
		k.bean(pt{X: 0.05, Y: -0.02}, 0.5, 0.08)
		for _, foot := range []float64{-0.42, 0, 0.45} {
			k.oar(pt{X: 0.05, Y: 0.05}, pt{X: 0.05 + foot*0.6, Y: -0.06}, pt{X: 0.05 + foot, Y: 0.25})
		}
		k.arrow(pt{X: 0.2, Y: -0.3}, pt{X: -0.1, Y: -0.32}, pt{X: -0.4, Y: -0.3})
	case "whirl": // seen from above
		k.bean(pt{X: -0.02, Y: 0.26}, 0.3, 0.1)
		k.arrow(path(0.2, 0.24, 0.38, 0.06, 0.34, -0.22, 0.06, -0.36, -0.24, -0.28, -0.34, -0.04, -0.24, 0.12)...)
		k.arrow(path(0.1, 0.02, 0.1, -0.14, -0.06, -0.16, -0.1, -0.02)...)
	default:
		k.Line(pt{X: -0.5, Y: 0.15}, pt{X: 0.5, Y: 0.15})
		k.bean(pt{}, 0.6, 0.13)
		k.Line(pt{X: -0.42, Y: -0.12}, pt{X: -0.42, Y: 0.12})
		k.Line(pt{X: 0.42, Y: -0.12}, pt{X: 0.42, Y: 0.12})
	}
}

func dartSign(k *sketch, state string) {
	k.Part("dart")
	if state == "yes" {
		k.bean(pt{X: -0.2}, 0.4, 0.1)
		for i := range 3 {
			y := -0.12 + 0.12*float64(i)
			k.Line(pt{X: 0.08, Y: y}, pt{X: 0.5, Y: y})
		}
		return
	}
	k.bean(pt{}, 0.55, 0.13)
	k.legsUnder(pt{}, 1)
	k.Line(pt{X: -0.5, Y: 0.24}, pt{X: 0.5, Y: 0.24})
}

func strokeSign(k *sketch, state string) {
	k.Part("stroke")
	k.bean(pt{}, 0.6, 0.2)
	sides(func(s float64) {
		if state == "together" || state == "turns" && s < 0 {
			k.oar(pt{X: 0.05, Y: s * 0.18}, pt{X: -0.08, Y: s * 0.42})
			k.arrow(pt{X: -0.04, Y: s * 0.46}, pt{X: 0.15, Y: s * 0.48}, pt{X: 0.34, Y: s * 0.38})
		} else if state == "turns" {
			k.oar(pt{X: 0.05, Y: s * 0.18}, pt{X: 0.3, Y: s * 0.4})
		}
	})
}

func upsideSign(k *sketch, state string) {
	k.Part("upside")
	k.Curve(pt{X: -0.5, Y: -0.38}, pt{X: -0.25, Y: -0.42}, pt{X: 0, Y: -0.38}, pt{X: 0.25, Y: -0.42}, pt{X: 0.5, Y: -0.38})
	switch state {
	case "belly":
		k.bean(pt{Y: 0.08}, 0.6, 0.14)
		k.legsUnder(pt{Y: 0.08}, -1)
	case "side":
		k.Curve(pt{X: -0.3, Y: 0.25}, pt{X: -0.25, Y: -0.05}, pt{X: 0, Y: -0.16}, pt{X: 0.25, Y: -0.05}, pt{X: 0.3, Y: 0.25})
		k.Curve(pt{X: -0.2, Y: 0.25}, pt{X: -0.14, Y: 0.05}, pt{X: 0, Y: -0.02}, pt{X: 0.14, Y: 0.05}, pt{X: 0.2, Y: 0.25})
		k.arrow(pt{X: 0.3, Y: -0.25}, pt{X: 0, Y: -0.28}, pt{X: -0.35, Y: -0.22})
	default:
		k.bean(pt{Y: -0.02}, 0.6, 0.14)
		k.legsUnder(pt{Y: -0.02}, 1)
	}
}

func surfaceSign(k *sketch, state string) {
	k.Part("surface")
	y := -0.1
	k.Curve(pt{X: -0.5, Y: y}, pt{X: -0.25, Y: y + 0.03}, pt{X: 0, Y: y}, pt{X: 0.25, Y: y + 0.03}, pt{X: 0.5, Y: y})
	k.Line(pt{X: -0.4, Y: 0.4}, pt{X: -0.15, Y: 0.4})
	if state == "top" {
		k.bean(pt{Y: y - 0.22}, 0.5, 0.09)
		k.legsUnder(pt{Y: y - 0.22}, 1)
		return
	}
	k.bean(pt{Y: 0.18}, 0.5, 0.12)
	k.legsUnder(pt{Y: 0.18}, 1)
}

// breathSign draws which end of an animal is at the top of the water.
func breathSign(k *sketch, state string) {
	k.Curve(path(-0.5, -0.3, -0.25, -0.27, 0, -0.3, 0.25, -0.27, 0.5, -0.3)...)
	k.Part("breath")
	switch state {
	case "tail": // its head is down, a tube at its tail end
		k.Blob(path(0.2, -0.24, 0.08, -0.1, -0.14, 0.16, -0.26, 0.36, -0.12, 0.4, 0.1, 0.18, 0.24, -0.06)...)
		k.Line(path(0.22, -0.2, 0.26, -0.38)...)
		k.Dot(pt{X: -0.18, Y: 0.3}, 0.025)
		k.arrow(path(0.42, 0.3, 0.44, 0.1, 0.42, -0.12)...)
	case "head":
		k.Blob(path(-0.24, -0.32, -0.12, -0.12, 0.1, 0.16, 0.26, 0.38, 0.12, 0.4, -0.12, 0.18, -0.28, -0.12)...)
		k.Dot(pt{X: -0.2, Y: -0.2}, 0.025)
		k.arrow(path(-0.42, 0.3, -0.44, 0.1, -0.42, -0.12)...)
	default:
		k.Line(pt{X: -0.5, Y: 0.42}, pt{X: 0.5, Y: 0.42})
		k.bean(pt{Y: 0.24}, 0.6, 0.12)
		k.legsUnder(pt{Y: 0.24}, 1)
	}
}

func landSign(k *sketch, state string) {
	k.Part("land")
	k.Curve(pt{X: -0.5, Y: 0.05}, pt{X: -0.25, Y: 0.09}, pt{X: 0, Y: 0.05}, pt{X: 0.25, Y: 0.09}, pt{X: 0.5, Y: 0.05})
	if state == "yes" {
		k.bean(pt{Y: 0}, 0.5, 0.12)
		k.leaf(pt{X: 0, Y: -0.1}, 0.35, 0.08, -35)
		k.Line(pt{X: -0.12, Y: -0.12}, pt{X: -0.2, Y: -0.3})
		k.Line(pt{X: -0.02, Y: -0.12}, pt{X: -0.06, Y: -0.32})
		return
	}
	k.bean(pt{X: 0.12, Y: 0.3}, 0.5, 0.11)
	k.legsUnder(pt{X: 0.12, Y: 0.3}, 1)
	k.bean(pt{X: -0.12, Y: -0.17}, 0.5, 0.09)
	k.legsUnder(pt{X: -0.12, Y: -0.17}, 1)
}

// airSeenSign draws where an animal carries air: beneath it, behind or within.
func airSeenSign(k *sketch, state string) {
	k.Curve(path(-0.5, -0.4, -0.25, -0.44, 0, -0.4, 0.25, -0.44, 0.5, -0.4)...)
	k.bean(pt{Y: -0.02}, 0.66, 0.17)
	k.Part("air")
	switch state {
	case "belly":
		k.Solid(path(-0.24, 0.13, 0, 0.17, 0.24, 0.12, 0.16, 0.28, 0, 0.32, -0.16, 0.28)...)
	case "tail":
		k.Ring(pt{X: 0.42, Y: -0.02}, 0.1)
		k.Dot(pt{X: 0.39, Y: -0.05}, 0.03)
	case "inside":
		k.Solid(ovalAt(-0.18, -0.02, 0.08, 0.05)...)
		k.Solid(ovalAt(0.18, -0.02, 0.08, 0.05)...)
	}
}
