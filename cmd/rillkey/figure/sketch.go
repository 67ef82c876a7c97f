package figure

import (
	"math"
	"sync"

	"rillkey/cmd/rillkey/figure/draw"
)

// sketch is an animal on the drawing board. Its unit is the length of the body:
// the front of the head lies at x = 0, the hind end at x = 1, the midline at
// y = 0; in a side view the belly is where y is above 0.
type sketch struct {
	draw.Canvas
	is     Traits
	places map[string][]draw.Pt // where to look for a trait, present or absent
	actor  *panel               // the animal that a sign moves; nil for any animal
}

func newSketch(t Traits) *sketch {
	return &sketch{is: t, places: map[string][]draw.Pt{}}
}

type pt = draw.Pt

// path are points from their coordinates, x and y by turns.
func path(xy ...float64) []pt {
	out := make([]pt, len(xy)/2)
	for i := range out {
		out[i] = pt{X: xy[2*i], Y: xy[2*i+1]}
	}
	return out
}

// part begins a part that shows these traits, to be looked for at a place.
func (k *sketch) part(at pt, traits ...string) {
	k.Part(traits...)
	for _, t := range traits {
		k.places[t] = append(k.places[t], k.Warped(at))
	}
}

// sides calls f for the two sides of the body.
func sides(f func(side float64)) {
	f(-1)
	f(1)
}

// widths are half widths of a body at places along it.
type widths []pt

// width is the half width at x, by straight lines between the places given.
func (w widths) width(x float64) float64 {
	if x <= w[0].X {
		return w[0].Y
	}
	for i := 1; i < len(w); i++ {
		if x <= w[i].X {
			a, b := w[i-1], w[i]
			return a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
		}
	}
	return w[len(w)-1].Y
}

// scaled is the same form, wider or narrower.
func (w widths) scaled(by float64) widths {
	out := make(widths, len(w))
	for i, p := range w {
		out[i] = pt{X: p.X, Y: p.Y * by}
	}
	return out
}

// outline is a closed curve round a body from x0 to x1.
func (w widths) outline(x0, x1 float64) []pt {
	const n = 9
	var over, under []pt
	for i := range n {
		x := x0 + (x1-x0)*float64(i)/(n-1)
		over = append(over, pt{X: x, Y: -w.width(x)})
		under = append(under, pt{X: x1 - (x - x0), Y: w.width(x1 - (x - x0))})
	}
	return append(over, under...)
}

// forms are half widths along the body for the outlines people tell apart.
var forms = sync.OnceValue(func() map[string][]float64 {
	return map[string][]float64{ // at x = 0, 0.15, 0.3, 0.45, 0.6, 0.75, 0.9, 1
		"thread":  {0.014, 0.018, 0.018, 0.018, 0.018, 0.018, 0.016, 0.010},
		"long":    {0.060, 0.080, 0.085, 0.080, 0.080, 0.078, 0.068, 0.040},
		"tapered": {0.080, 0.115, 0.130, 0.115, 0.100, 0.080, 0.055, 0.032},
		"bottle":  {0.045, 0.055, 0.050, 0.048, 0.060, 0.095, 0.105, 0.060},
		"spindle": {0.035, 0.075, 0.105, 0.125, 0.125, 0.105, 0.065, 0.030},
		"oval":    {0.080, 0.130, 0.160, 0.180, 0.195, 0.180, 0.125, 0.045},
		"disc":    {0.100, 0.170, 0.230, 0.290, 0.320, 0.300, 0.200, 0.060},
	}
})

// form is the body's half widths by its outline, flattened or narrowed.
func (t Traits) form() widths {
	f, ok := forms()[t.or("outline", "long")]
	if !ok {
		f = forms()["long"]
	}
	w := make(widths, len(f))
	for i, x := range []float64{0, 0.15, 0.3, 0.45, 0.6, 0.75, 0.9, 1} {
		w[i] = pt{X: x, Y: f[i]}
	}
	return w
}

// bend bends the sketch as the animal holds itself.
func (k *sketch) bend(posture string) {
	switch posture {
	case "curled":
		k.Warp(arc(4.1))
	case "bent":
		k.Warp(hairpin)
	case "bowed":
		k.Warp(arc(2.2))
	}
}

// arc bends the body into a part of a circle, belly inwards.
func arc(angle float64) func(pt) pt {
	r := 1 / angle
	return func(p pt) pt {
		sin, cos := math.Sincos(angle * (p.X - 0.5))
		d := max(r-p.Y, 0.01)
		return pt{X: 0.5 + d*sin, Y: r - d*cos}
	}
}

// hairpin folds the body in the middle, so that its halves lie side by side.
func hairpin(p pt) pt {
	const r = 0.11
	const half = math.Pi * r / 2
	switch x := p.X - 0.5; {
	case x < -half:
		return pt{X: x + half, Y: -(p.Y) - r}
	case x > half:
		return pt{X: half - x, Y: p.Y + r}
	default:
		sin, cos := math.Sincos(x / r)
		return pt{X: (r + p.Y) * cos, Y: (r + p.Y) * sin}
	}
}

// tuft draws threads that spread from a place about a direction.
func (k *sketch) tuft(at pt, length, degrees float64) {
	k.Texture(func() {
		for _, d := range []float64{-50, -25, 0, 25, 50} {
			mid := at.Polar(length*0.55, degrees+d*0.8)
			k.Curve(at, mid, at.Polar(length, degrees+d))
		}
	})
}

// feather draws a bent shaft with a fringe on both sides.
func (k *sketch) feather(at pt, length, degrees, fringe float64) {
	k.Line(at, at.Polar(length, degrees))
	k.Texture(func() {
		for i := 1; i <= 4; i++ {
			p := at.Polar(length*float64(i)/4.5, degrees)
			k.Line(p.Polar(fringe, degrees-55), p, p.Polar(fringe, degrees+55))
		}
	})
}

// leaf draws a leaf-shaped plate from its base in a direction.
func (k *sketch) leaf(at pt, length, width, degrees float64) {
	tip := at.Polar(length, degrees)
	k.Blob(at, at.Lerp(tip, 0.35).Polar(width, degrees-90), at.Lerp(tip, 0.75).Polar(width*0.8, degrees-90), tip,
		at.Lerp(tip, 0.75).Polar(width*0.8, degrees+90), at.Lerp(tip, 0.35).Polar(width, degrees+90))
}

// hook draws a claw that bends away from its base, by so many degrees.
func (k *sketch) hook(at pt, size, degrees, turn float64) {
	a := at.Polar(size*0.6, degrees)
	b := a.Polar(size*0.6, degrees+turn)
	k.Curve(at, a, b)
}

// finger draws a soft round-ended stub.
func (k *sketch) finger(at pt, length, width, degrees float64) {
	tip := at.Polar(length, degrees)
	a, b := at.Polar(width/2, degrees-90), at.Polar(width/2, degrees+90)
	k.Blob(a, tip.Polar(width*0.45, degrees-90), tip.Polar(width*0.3, degrees), tip.Polar(width*0.45, degrees+90), b)
}
