package figure

import (
	"math"

	"rillkey/cmd/rillkey/figure/draw"
)

func direction(a, b draw.Pt) float64 { return math.Atan2(b.Y-a.Y, b.X-a.X) * 180 / math.Pi }

// tailLength is the length of tails in body lengths: the belly section takes a
// good half of the body. Long tails are drawn rather short, for a larger body.
func (t Traits) tailLength() float64 {
	if t.is("tail-length", "short") {
		return 0.24
	}
	return 0.58
}

// tails draws the thin tails at the hind end.
func (k *sketch) tails() {
	length := k.is.tailLength()
	if !k.is.has("tails") {
		length = 0.08
	}
	k.part(pt{X: 1 + length*0.75, Y: 0}, "tails", "tail-length", "tail-hair", "tail-middle")
	var spread []float64
	switch k.is["tails"] {
	case "1":
		spread = []float64{0}
	case "2":
		spread = []float64{-15, 15}
	case "3":
		spread = []float64{-20, 0, 20}
	}
	for _, d := range spread {
		l := length
		k.Part("tails", "tail-length", "tail-hair")
		if d == 0 && len(spread) == 3 {
			k.Part("tails", "tail-length", "tail-hair", "tail-middle")
			if k.is.is("tail-middle", "short") {
				l *= 0.4
			}
		}
		tail(k, l, d)
	}
}

func tail(k *sketch, l, d float64) {
	root := pt{X: 0.985, Y: d * 0.0012}
	mid, tip := root.Polar(l*0.5, d*1.15), root.Polar(l, d*0.9)
	k.Curve(root, mid, tip)
	if !k.is.is("tail-hair", "fringed") {
		return
	}
	k.Texture(func() { fringe(k, root, mid, tip, l, d) })
}

// fringe draws the hairs of a tail.
func fringe(k *sketch, root, mid, tip pt, l, d float64) {
	n := int(l / 0.045)
	for i := 2; i <= n; i++ {
		p := root.Polar(l*float64(i)/float64(n), d*1.08)
		if i > n/2 {
			p = mid.Lerp(tip, float64(i-n/2)/float64(n-n/2))
		}
		k.Line(p.Polar(0.045, d-50), p, p.Polar(0.045, d+50))
	}
}
