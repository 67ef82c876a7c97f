package figure

// pupa draws a resting stage from the side: in its pocket, in its closed case, or
// free and curved like a comma.
func pupa(k *sketch) {
	k.part(pt{X: 0.5, Y: 0}, "pupa", "outline", "legs", "case", "shell", "rings", "flat")
	k.Part("pupa", "case", "body")
	switch k.is["pupa"] {
	case "pocket":
		pocket(k)
	case "sealed":
		closedCase(k)
	case "bump":
		bump(k)
	default:
		comma(k, k.is.is("pupa", "tufted"))
	}
}

// pocket is a slipper glued to a stone, branched threads at its open end.
func pocket(k *sketch) {
	k.Blob(pt{X: 0.3, Y: 0.18}, pt{X: 0.33, Y: -0.1}, pt{X: 0.5, Y: -0.2}, pt{X: 0.8, Y: -0.08}, pt{X: 1, Y: 0.17}, pt{X: 0.65, Y: 0.2})
	k.Curve(pt{X: 0.38, Y: -0.14}, pt{X: 0.45, Y: 0}, pt{X: 0.4, Y: 0.18})
	root := pt{X: 0.36, Y: -0.06}
	for i := range 4 {
		fork := root.Polar(k.varied(0.14, 0.2, i), 205-float64(i)*18)
		k.Line(root, fork)
		k.Line(fork, fork.Polar(k.varied(0.16, 0.2, i+1), 215-float64(i)*18))
		k.Line(fork, fork.Polar(k.varied(0.16, 0.2, i+2), 195-float64(i)*18))
	}
	stone(k)
}

// bump is a smooth dome glued to a stone, a pair of little plates standing up in front.
func bump(k *sketch) {
	k.Toned(path(0.1, 0.21, 0.14, 0.05, 0.3, -0.07, 0.6, -0.09, 0.88, 0.03, 1, 0.2, 0.55, 0.22)...)
	for _, x := range []float64{0.42, 0.56, 0.7} {
		k.Curve(pt{X: x, Y: -0.085}, pt{X: x + 0.05, Y: 0.06}, pt{X: x + 0.02, Y: 0.2})
	}
	for i := range 2 {
		x := 0.2 + 0.07*float64(i)
		k.Blob(path(x, 0, x-0.07, -0.1, x-0.06, -0.22, x+0.01, -0.14, x+0.04, -0.02)...)
	}
	stone(k)
}

// closedCase is a heap of small stones, glued down and shut at both ends.
func closedCase(k *sketch) {
	stone(k)
	k.Toned(path(0.02, 0.2, 0.03, 0.02, 0.12, -0.07, 0.4, -0.1, 0.75, -0.1, 1.0, -0.06, 1.08, 0.03, 1.08, 0.21, 0.5, 0.24)...)
	n := k.individual() * 5 // other stones
	for _, row := range []struct {
		y, x0, x1 float64
		count     int
	}{{-0.06, 0.14, 0.98, 8}, {0.15, 0.08, 1.04, 9}} {
		for i := range row.count {
			n++
			k.Blob(pebble(pt{X: row.x0 + (row.x1-row.x0)*float64(i)/float64(row.count-1), Y: row.y}, 0.068, n)...)
		}
	}
	for _, x := range []float64{0.05, 1.05} { // shut at both ends
		k.Blob(pebble(pt{X: x, Y: 0.05}, 0.085, n)...)
	}
	k.Dashes(path(0.2, 0.05, 0.26, 0.0, 0.34, 0.01, 0.36, 0.05, 0.3, 0.095, 0.22, 0.09, 0.2, 0.05)...) // the pupa inside
	k.Dashes(path(0.36, 0.02, 0.6, 0.01, 0.8, 0.03, 0.92, 0.06, 0.8, 0.085, 0.55, 0.095, 0.36, 0.09)...)
	k.Dashes(path(0.3, 0.01, 0.5, 0.05, 0.72, 0.06)...)
	k.Dot(pt{X: 0.25, Y: 0.04}, 0.012)
}

// stone is the ground that it is glued to.
func stone(k *sketch) {
	k.Curve(pt{X: 0, Y: 0.24}, pt{X: 0.3, Y: 0.2}, pt{X: 0.7, Y: 0.22}, pt{X: 1.1, Y: 0.2})
}

// comma is a big head and chest with a curled tail, tufts or small horns in front.
func comma(k *sketch, tufts bool) {
	head := pt{X: 0.3, Y: -0.05}
	k.Blob(ovalAt(head.X, head.Y, k.varied(0.2, 0.04, 0), k.varied(0.18, 0.06, 1))...)
	k.Blob(pt{X: 0.44, Y: -0.16}, pt{X: 0.75, Y: -0.1}, pt{X: 0.9, Y: 0.12}, pt{X: 0.78, Y: 0.3},
		pt{X: 0.72, Y: 0.26}, pt{X: 0.74, Y: 0.1}, pt{X: 0.62, Y: 0.02}, pt{X: 0.45, Y: 0.05})
	for i := range 4 {
		x := 0.52 + 0.08*float64(i)
		k.Line(pt{X: x, Y: -0.14 + 0.02*float64(i)}, pt{X: x - k.varied(0.01, 1, i), Y: 0.02 + 0.02*float64(i)})
	}
	k.Dot(pt{X: 0.18, Y: -0.02}, 0.025)
	k.Toned(pt{X: 0.34, Y: -0.1}, pt{X: 0.42, Y: -0.06}, pt{X: 0.44, Y: 0.06}, pt{X: 0.36, Y: 0.14}, pt{X: 0.3, Y: 0.06}) // wing and legs
	k.Texture(func() {
		k.Curve(pt{X: 0.24, Y: 0.11}, pt{X: 0.2, Y: 0.06}, pt{X: 0.2, Y: -0.02})
		k.Curve(pt{X: 0.3, Y: 0.12}, pt{X: 0.25, Y: 0.07}, pt{X: 0.25, Y: -0.01})
	})
	k.Blob(pt{X: 0.78, Y: 0.28}, pt{X: 0.86, Y: 0.36}, pt{X: 0.74, Y: 0.4}, pt{X: 0.7, Y: 0.3})
	top := pt{X: 0.28, Y: -0.22}
	if !tufts {
		k.finger(top, 0.14, 0.05, 245)
		k.finger(pt{X: 0.36, Y: -0.22}, 0.14, 0.05, 285)
		return
	}
	if !absence(k.is["neck"]) {
		k.part(top, "neck")
		k.Part("pupa", "case", "body", "neck")
	}
	for i := range 6 {
		k.Line(top, top.Polar(k.varied(0.2, 0.2, i), 180+float64(i)*18))
	}
}
