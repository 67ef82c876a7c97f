package figure

import (
	"math"
	"slices"
)

// snail draws a coiled shell with its opening towards the viewer, point up,
// the animal's foot beneath.
func snail(k *sketch) {
	if k.is.is("spire", "flat") || k.is.is("opening", "flat") {
		k.ramshorn()
		return
	}
	side := 1.0
	if k.is.is("opening", "left") {
		side = -1
	}
	height, wide := spireForm(k.is["spire"])
	n := 4
	if k.is.is("spire", "turret") {
		n = 7
	}
	k.part(pt{X: -side * wide * 0.5, Y: -height * 0.2}, "spire", "shell", "outline", "flat", "rings")
	k.Part("spire", "shell", "body")
	k.whorls(n, height, wide, side)
	mouth := pt{X: side * wide * 0.42, Y: height * 0.3}
	k.part(mouth, "opening", "door", "lid")
	k.Part("opening", "body")
	k.Blob(tilted(mouth, wide*0.5, height*0.22+wide*0.1, side*14)...)
	k.lidOrFlesh(mouth, wide*0.36, height*0.16+wide*0.075, side)
	k.softHead(wide, height, side)
}

// whorls draws a coiled shell in outline, its turns parted by slanting seams.
func (k *sketch) whorls(n int, height, wide, side float64) {
	last := 0.62 // where the last seam lies, as a share of the height
	taper := 0.95
	if height < wide*2.3 {
		last, taper = 0.42, 0.72
	} else if height < wide*4 {
		taper = 0.82
	}
	var right, left []pt
	at := func(share float64) float64 { return height * (share - 0.5) }
	right = append(right, pt{Y: at(-0.02)})
	var seams [][]pt
	before := 0.0
	for i := 1; i <= n; i++ {
		f := last * math.Pow(float64(i)/float64(n), 1.2)
		half := wide * 0.9 * math.Pow(f/last, taper)
		bulge := wide * 0.9 * math.Pow((f+before)/2/last, taper*0.95) * 1.09
		slant := half * 0.16
		right = append(right, pt{X: side * bulge, Y: at((f+before)/2) - slant}, pt{X: side * half, Y: at(f) - slant})
		left = append(left, pt{X: -side * bulge, Y: at((f+before)/2) + slant}, pt{X: -side * half, Y: at(f) + slant})
		seams = append(seams, []pt{{X: -side * half, Y: at(f) + slant}, {X: 0, Y: at(f) + slant*1.3}, {X: side * half, Y: at(f) - slant}})
		before = f
	}
	right = append(right, pt{X: side * wide * 1.03, Y: at(last + (1-last)*0.35)},
		pt{X: side * wide * 0.7, Y: at(last + (1-last)*0.85)}, pt{X: side * wide * 0.1, Y: at(1)})
	left = append(left, pt{X: -side * wide * 1.05, Y: at(last + (1-last)*0.4)}, pt{X: -side * wide * 0.65, Y: at(last + (1-last)*0.88)})
	slices.Reverse(left)
	k.Blob(append(right, left...)...)
	for _, seam := range seams {
		k.Curve(seam...)
	}
}

// spireForm is height and half width for the forms of a coiled shell.
func spireForm(state string) (height, half float64) {
	switch state {
	case "turret":
		return 1, 0.2
	case "globe":
		return 0.75, 0.37
	case "low":
		return 0.42, 0.36
	}
	return 0.95, 0.29
}

// tilted are points round an ellipse turned by so many degrees.
func tilted(c pt, rx, ry, degrees float64) []pt {
	points := ovalAt(0, 0, rx, ry)
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	for i, p := range points {
		points[i] = pt{X: c.X + p.X*cos - p.Y*sin, Y: c.Y + p.X*sin + p.Y*cos}
	}
	return points
}

// lidOrFlesh fills the opening: with a lid and its lines, or with flesh.
func (k *sketch) lidOrFlesh(c pt, rx, ry, side float64) {
	k.Part("door", "lid")
	if !k.is.is("door", "door") && !k.is.is("door", "white") {
		if k.is.is("door", "none") {
			k.Curve(pt{X: c.X - rx*0.7, Y: c.Y + ry*0.1}, pt{X: c.X, Y: c.Y - ry*0.4}, pt{X: c.X + rx*0.7, Y: c.Y + ry*0.1})
			k.Curve(pt{X: c.X - rx*0.5, Y: c.Y + ry*0.5}, pt{X: c.X, Y: c.Y + ry*0.15}, pt{X: c.X + rx*0.5, Y: c.Y + ry*0.5})
		}
		return
	}
	k.Blob(tilted(c, rx, ry, side*14)...)
	if k.is.is("lid", "chalk") || k.is.is("door", "white") {
		k.speckle(tilted(c, rx*0.9, ry*0.9, side*14), 0.04, 0.005)
	}
	if k.is.is("lid", "winding") {
		k.spiral(pt{X: c.X, Y: c.Y + ry*0.15}, rx*0.75, 2.2, side)
		return
	}
	k.Blob(tilted(c, rx*0.66, ry*0.66, side*14)...)
	k.Blob(tilted(c, rx*0.33, ry*0.33, side*14)...)
}

// spiral draws a line that winds outwards from its middle.
func (k *sketch) spiral(c pt, radius, turns, side float64) {
	const steps = 12
	n := int(turns * steps)
	points := make([]pt, n+1)
	for i := range points {
		r := radius * float64(i) / float64(n)
		points[i] = c.Polar(r, side*float64(i)*360/steps)
	}
	k.Curve(points...)
}

// ramshorn draws a shell coiled flat, seen from its side.
func (k *sketch) ramshorn() {
	c := pt{X: 0, Y: 0}
	k.part(pt{X: 0, Y: 0}, "spire", "opening", "shell", "outline", "flat", "rings")
	k.Part("spire", "shell", "opening", "body")
	k.Blob(ovalAt(0, 0, 0.44, 0.42)...)
	k.Blob(tilted(pt{X: 0.36, Y: 0.2}, 0.13, 0.21, -28)...)
	k.Erase(ovalAt(0.23, 0.06, 0.1, 0.16)...)
	k.spiral(c, 0.42, 3.1, 1)
	k.part(pt{X: 0.4, Y: 0.24}, "door", "lid")
	k.lidOrFlesh(pt{X: 0.37, Y: 0.2}, 0.09, 0.14, 0)
	k.softHead(0.3, 0.84, 1)
}

// softHead draws the animal's foot, feelers and eyes below the shell.
func (k *sketch) softHead(wide, height, side float64) {
	y := height*0.5 + wide*0.22
	k.part(pt{X: side * wide * 1.15, Y: y}, "head", "antennae", "eyes", "legs", "mouth")
	k.Part("head", "body")
	if k.is.is("head", "none") {
		return
	}
	k.Curve(pt{X: -side * wide * 1.1, Y: y + 0.05}, pt{X: -side * wide * 0.2, Y: y - wide*0.12},
		pt{X: side * wide * 0.8, Y: y - wide*0.12}, pt{X: side * wide * 1.35, Y: y - 0.01}, pt{X: side * wide * 1.3, Y: y + 0.05}, pt{X: -side * wide * 1.1, Y: y + 0.05})
	k.Part("antennae", "body")
	l := map[string]float64{"short": 0.09, "long": 0.2}[k.is.or("antennae", "short")]
	if l > 0 {
		k.Line(pt{X: side * wide * 1.2, Y: y - 0.01}, pt{X: side * (wide*1.2 + l), Y: y - l*0.8})
		k.Line(pt{X: side * wide * 1.3, Y: y}, pt{X: side * (wide*1.3 + l), Y: y - l*0.35})
	}
	k.Part("eyes", "body")
	if k.is.has("eyes") {
		k.Dot(pt{X: side * wide * 1.18, Y: y + 0.012}, 0.014)
	}
}

// limpet draws a shell like a cap, from the side and, beneath, from above.
func limpet(k *sketch) {
	k.part(pt{X: 0.45, Y: -0.2}, "shell", "outline", "flat")
	k.Part("shell", "body")
	k.Blob(pt{X: 0.02, Y: 0}, pt{X: 0.2, Y: -0.13}, pt{X: 0.42, Y: -0.26}, pt{X: 0.62, Y: -0.36}, pt{X: 0.7, Y: -0.33},
		pt{X: 0.84, Y: -0.16}, pt{X: 0.98, Y: 0})
	k.Curve(pt{X: 0.18, Y: -0.05}, pt{X: 0.5, Y: -0.1}, pt{X: 0.86, Y: -0.06})
	k.Curve(pt{X: 0.36, Y: -0.15}, pt{X: 0.56, Y: -0.19}, pt{X: 0.78, Y: -0.16})
	k.Part("body")
	k.Line(pt{X: -0.08, Y: 0.01}, pt{X: 1.08, Y: 0.01})
	k.Part("shell", "body")
	k.Blob(ovalAt(0.5, 0.36, 0.46, 0.27)...)
	k.Blob(ovalAt(0.58, 0.36, 0.25, 0.14)...)
	k.Dot(pt{X: 0.64, Y: 0.36}, 0.03)
	k.part(pt{X: 0.05, Y: 0.02}, "head", "legs", "eyes", "antennae", "spire", "opening", "door", "rings")
}

// clam draws two hinged halves from the side of one of them, the edge of the
// other showing behind.
func clam(k *sketch) {
	k.part(pt{X: 0.5, Y: 0}, "valves", "shell", "outline", "flat")
	k.Part("shell", "valves", "body")
	form := clamForm(k.is["valves"])
	back := make([]pt, len(form))
	for i, p := range form {
		back[i] = pt{X: p.X + 0.035, Y: p.Y + 0.045}
	}
	k.Blob(back...)
	k.Blob(form...)
	k.growth(form)
	k.part(pt{X: 0.3, Y: 0.3}, "legs", "head", "rings", "opening", "spire", "door")
}

func clamForm(valves string) []pt {
	switch valves {
	case "ridged":
		return path(0.5, -0.4, 0.3, -0.25, 0.08, 0.05, 0.16, 0.3, 0.5, 0.4, 0.84, 0.3, 0.92, 0.05, 0.7, -0.25)
	case "keel":
		return path(0.02, -0.2, 0.3, -0.3, 0.65, -0.26, 0.95, 0.02, 0.98, 0.2, 0.6, 0.2, 0.2, 0.2, 0.03, 0.02)
	case "mussel":
		return path(0.3, -0.24, 0.12, -0.16, 0.02, 0.03, 0.14, 0.22, 0.5, 0.27, 0.85, 0.2, 0.99, 0.03, 0.86, -0.16, 0.6, -0.24)
	}
	return path(0.48, -0.33, 0.3, -0.27, 0.08, -0.05, 0.1, 0.18, 0.35, 0.32, 0.7, 0.31, 0.93, 0.12, 0.88, -0.12, 0.68, -0.27)
}

// growth draws the lines of one half: rings about its hinge point.
func (k *sketch) growth(form []pt) {
	beak := form[0]
	shares := []float64{0.45, 0.75}
	switch k.is["valves"] {
	case "ridged":
		shares = []float64{0.25, 0.37, 0.49, 0.61, 0.73, 0.85}
	case "mussel":
		shares = []float64{0.35, 0.62, 0.7, 0.9}
	case "keel":
		k.Line(pt{X: 0.03, Y: -0.17}, pt{X: 0.4, Y: 0.02}, pt{X: 0.95, Y: 0.17})
		for i := range 4 {
			x := 0.22 + 0.17*float64(i)
			k.Curve(pt{X: x, Y: -0.26 + 0.03*float64(i)}, pt{X: x + 0.05, Y: -0.12}, pt{X: x - 0.02, Y: 0.0 + 0.03*float64(i)})
		}
		for i := range 4 {
			x := 0.3 + 0.04*float64(i)
			k.Line(pt{X: x, Y: 0.2}, pt{X: x - 0.09 + 0.07*float64(i), Y: 0.36})
		}
		return
	}
	n := len(form)
	for _, f := range shares {
		var line []pt
		for i := 1; i < n; i++ {
			line = append(line, beak.Toward(form[i], f))
		}
		k.Curve(line...)
	}
}
