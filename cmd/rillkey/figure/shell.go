package figure

import (
	"math"
	"slices"
)

// shellForm is how a coiled shell is built: its height and half width, its turns,
// how much of the height the last turn and the opening take.
type shellForm struct {
	height, half float64
	turns        int
	last, mouth  float64
}

// shell is the form of a coiled shell, from the traits. Those without a lid
// have the larger opening.
func (t Traits) shell() shellForm {
	f := shellForm{0.95, 0.29, 4, 0.62, 0.62}
	if t.is("door", "door", "white") {
		f = shellForm{0.95, 0.3, 4, 0.52, 0.4}
	}
	switch t["spire"] {
	case "turret":
		f = shellForm{1, 0.2, 7, 0.34, 0.27}
	case "globe":
		f = shellForm{0.8, 0.36, 4, 0.66, 0.5}
	case "low":
		f = shellForm{0.52, 0.38, 3, 0.8, 0.62}
	}
	if t.is("spire", "cone") && t.is("opening", "left") {
		f.last, f.mouth, f.turns = 0.72, 0.68, 3
	}
	return f
}

// snail draws a coiled shell with its opening towards the viewer, point up: shut
// with its lid, or with the soft animal reaching out.
func snail(k *sketch) {
	if k.is.is("spire", "flat") || k.is.is("opening", "flat") {
		ramshorn(k)
		return
	}
	side := 1.0
	if k.is.is("opening", "left") {
		side = -1
	}
	switch {
	case k.is.is("spire", "low") && k.is.is("wall", "stout"):
		nerite(k, side)
		return
	case k.is.is("spire", "low"):
		lowCoil(k, side)
		return
	}
	f := k.is.shell()
	f.height, f.half, f.last = k.varied(f.height, 0.07, 0), k.varied(f.half, 0.07, 1), k.varied(f.last, 0.03, 2)
	snailBody(k, pt{X: side * f.half * 0.5, Y: f.height * 0.42}, side, f.half)
	k.part(pt{X: -side * f.half * 0.5, Y: -f.height * 0.2}, "spire", "shell", "outline", "flat", "rings", "wall", "pattern")
	k.Part("spire", "shell", "body")
	whorls(k, f, side)
	y0, y1 := f.height*(0.5-f.mouth), f.height*0.5
	mouth := path(side*f.half*0.2, y0, side*f.half*0.75, y0+(y1-y0)*0.14, side*f.half*1.08, y0+(y1-y0)*0.5,
		side*f.half*0.95, y0+(y1-y0)*0.85,
		side*f.half*0.55, y1+0.015, side*f.half*0.12, y1-(y1-y0)*0.14, side*f.half*0.02, y0+(y1-y0)*0.5)
	c := pt{X: side * f.half * 0.56, Y: y0 + (y1-y0)*0.52}
	k.part(c, "opening", "door", "lid")
	k.Part("opening", "body")
	k.Blob(mouth...)
	lidOrFlesh(k, mouth, c, side)
}

// lowCoil draws a shell whose turns hardly rise, seen aslant from above: like a
// rolled carpet, with a round opening.
func lowCoil(k *sketch, side float64) {
	k.part(pt{X: -side * 0.15, Y: -0.12}, "spire", "shell", "outline", "flat", "rings", "wall", "pattern")
	k.Part("spire", "shell", "body")
	k.Toned(path(-side*0.47, 0.02, -side*0.44, -0.14, -side*0.26, -0.28, 0, -0.33, side*0.28, -0.27, side*0.46, -0.1, side*0.5, 0.1,
		side*0.4, 0.26, side*0.15, 0.33, -side*0.18, 0.29, -side*0.4, 0.17)...)
	var turns []pt
	for i := range 36 {
		r := k.varied(0.34, 0.05, 0) * math.Pow(1-float64(i)/36, k.varied(0.9, 0.15, 1))
		u := pt{}.Polar(r, side*(20-float64(i)*24))
		turns = append(turns, pt{X: -side*0.05 + side*u.X, Y: -0.08 + side*u.Y*0.62})
	}
	k.Curve(append(path(side*0.43, 0.0), turns[1:]...)...)
	snailPlaces(k, side)
	c := pt{X: side * 0.4, Y: 0.15}
	k.part(c, "opening", "door", "lid")
	k.Part("opening", "body")
	mouth := ovalAt(c.X, c.Y, 0.17, 0.18)
	k.Blob(mouth...)
	lidOrFlesh(k, mouth, c, side)
}

// nerite draws a shell like half an egg from beneath: a half-moon of an opening with
// a straight, flat inner edge.
func nerite(k *sketch, side float64) {
	k.part(pt{X: -side * 0.1, Y: -0.25}, "spire", "shell", "outline", "flat", "rings", "wall", "pattern")
	k.Part("spire", "shell", "body")
	k.Toned(path(-side*0.5, 0.02, -side*0.47, -0.16, -side*0.34, -0.27, -side*0.1, -0.36, side*0.2, -0.36, side*0.42, -0.22, side*0.5, 0,
		side*0.42, 0.24, side*0.15, 0.36, -side*0.18, 0.34, -side*0.42, 0.2)...)
	spiral(k, pt{X: -side * 0.36, Y: -0.1}, 0.12, 1.3, side)
	k.Part("pattern", "body")
	if k.is.is("pattern", "marked") {
		for i := range 4 {
			x := side * (-0.17 + 0.14*float64(i))
			k.Line(path(x, -0.32, x+side*0.05, -0.26, x-side*0.02, -0.19, x+side*0.05, -0.1, x, -0.03)...)
		}
	}
	snailPlaces(k, side)
	k.part(pt{X: side * 0.1, Y: 0.2}, "opening", "door", "lid")
	k.Part("opening", "body")
	k.Blob(path(-side*0.36, 0.02, -side*0.34, 0.14, -side*0.16, 0.28, side*0.12, 0.31, side*0.34, 0.2, side*0.42, 0.02, side*0.4, -0.03,
		side*0.2, 0, -side*0.1, 0.01, -side*0.33, -0.01)...)
	k.Part("door")
	k.Shaded(path(-side*0.3, 0.11, -side*0.14, 0.24, side*0.12, 0.26, side*0.3, 0.16, side*0.37, 0.05, 0, 0.09)...)
	k.Part("lid")
	k.Curve(path(-side*0.3, 0.11, 0, 0.09, side*0.37, 0.05)...)
	k.Curve(path(-side*0.2, 0.16, side*0.05, 0.19, side*0.28, 0.12)...)
}

// snailPlaces says where the animal is that a lid hides.
func snailPlaces(k *sketch, side float64) {
	k.part(pt{X: side * 0.45, Y: 0.3}, "head", "antennae", "eyes", "legs", "mouth")
}

// whorls draws the turns of a shell in outline, parted by slanting seams.
func whorls(k *sketch, f shellForm, side float64) {
	top, seam := -f.height/2, f.height*(0.5-f.last)
	outer, inner := []pt{{X: side * 0.012, Y: top}}, []pt{{X: -side * 0.012, Y: top}}
	var seams [][]pt
	above, slanted := top, 0.0
	for i := 1; i <= f.turns; i++ {
		share := math.Pow(float64(i)/float64(f.turns), 1.3)
		y, h := top+(seam-top)*share, f.half*0.84*math.Pow(share, 0.85)
		slant := h * 0.17
		over, under := above-slanted+(y-slant-above+slanted)*0.6, above+slanted+(y+slant-above-slanted)*0.6
		outer = append(outer, pt{X: side * h * 0.96, Y: over}, pt{X: side * h * 0.975, Y: y - slant})
		inner = append(inner, pt{X: -side * h * 0.96, Y: under}, pt{X: -side * h * 0.975, Y: y + slant})
		seams = append(seams, []pt{{X: -side * h * 0.97, Y: y + slant}, {X: -side * h * 0.3, Y: y + slant*1.05},
			{X: side * h * 0.4, Y: y + slant*0.2}, {X: side * h * 0.97, Y: y - slant}})
		above, slanted = y, slant
	}
	last := f.height * f.last
	outer = append(outer, pt{X: side * f.half * 0.99, Y: seam + last*0.22}, pt{X: side * f.half * 1.02, Y: seam + last*0.48},
		pt{X: side * f.half * 0.85, Y: seam + last*0.8}, pt{X: side * f.half * 0.3, Y: f.height / 2})
	inner = append(inner, pt{X: -side * f.half * 1.0, Y: seam + last*0.34}, pt{X: -side * f.half * 0.98, Y: seam + last*0.56},
		pt{X: -side * f.half * 0.66, Y: seam + last*0.84}, pt{X: -side * f.half * 0.15, Y: f.height*0.5 - 0.01})
	slices.Reverse(inner)
	k.Toned(append(outer, inner...)...)
	for _, seam := range seams {
		k.Curve(seam...)
	}
	k.Part("pattern", "body")
	if k.is.is("pattern", "marked") {
		for i := range 5 {
			y := seam + last*(0.15+0.14*float64(i))
			k.Curve(pt{X: -side * f.half * 0.9, Y: y + 0.04}, pt{X: -side * f.half * 0.45, Y: y + 0.02},
				pt{X: -side * f.half * 0.05, Y: y + 0.05})
		}
	}
}

// snailBody draws foot, head and feelers that reach out of the opening, behind
// the shell; where a lid shuts it, nothing is to be seen of them.
func snailBody(k *sketch, at pt, side, half float64) {
	k.part(pt{X: at.X + side*half*1.1, Y: at.Y}, "head", "antennae", "eyes", "legs", "mouth")
	if k.is.is("head", "none") || k.is.is("door", "door", "white") {
		return
	}
	tip := pt{X: at.X + side*half*1.15, Y: at.Y - 0.02}
	k.Part("antennae", "body")
	switch k.is.or("antennae", "short") {
	case "long":
		k.whip(0.012, pt{X: tip.X - side*0.04, Y: tip.Y - 0.03}, pt{X: tip.X + side*0.02, Y: tip.Y - 0.15},
			pt{X: tip.X + side*0.09, Y: tip.Y - 0.24})
		k.whip(0.012, pt{X: tip.X, Y: tip.Y}, pt{X: tip.X + side*0.12, Y: tip.Y - 0.04}, pt{X: tip.X + side*0.23, Y: tip.Y - 0.1})
	case "ears":
		k.Solid(pt{X: tip.X - side*0.06, Y: tip.Y - 0.03}, pt{X: tip.X + side*0.02, Y: tip.Y - 0.15}, pt{X: tip.X, Y: tip.Y - 0.02})
		k.Solid(pt{X: tip.X - side*0.02, Y: tip.Y - 0.01}, pt{X: tip.X + side*0.12, Y: tip.Y - 0.06}, pt{X: tip.X, Y: tip.Y + 0.04})
	case "short":
		k.whip(0.012, pt{X: tip.X - side*0.03, Y: tip.Y - 0.02}, pt{X: tip.X, Y: tip.Y - 0.08}, pt{X: tip.X + side*0.03, Y: tip.Y - 0.13})
		k.whip(0.012, tip, pt{X: tip.X + side*0.06, Y: tip.Y - 0.02}, pt{X: tip.X + side*0.11, Y: tip.Y - 0.05})
	}
	k.Part("head", "body")
	k.Blob(pt{X: at.X - side*half*0.9, Y: at.Y + 0.02}, pt{X: at.X - side*half*0.9, Y: at.Y + 0.09}, pt{X: at.X, Y: at.Y + 0.11},
		pt{X: tip.X + side*0.01, Y: tip.Y + 0.1}, pt{X: tip.X + side*0.04, Y: tip.Y + 0.03}, tip,
		pt{X: at.X + side*half*0.5, Y: at.Y - 0.08}, pt{X: at.X, Y: at.Y - 0.1})
	k.Part("eyes", "body")
	if k.is.has("eyes") {
		k.Dot(pt{X: tip.X - side*0.03, Y: tip.Y + 0.03}, 0.014)
	}
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
func lidOrFlesh(k *sketch, mouth []pt, c pt, side float64) {
	k.Part("door")
	inside := func(f float64) []pt {
		out := make([]pt, len(mouth))
		for i, p := range mouth {
			out[i] = c.Lerp(p, f)
		}
		return out
	}
	if !k.is.is("door", "door", "white") {
		k.Shaded(inside(0.86)...)
		return
	}
	if k.is.is("door", "white") {
		k.Blob(inside(0.9)...)
	} else {
		k.Shaded(inside(0.9)...)
	}
	k.Part("lid")
	if k.is.is("lid", "winding") {
		r := c.Distance(mouth[2]) * 0.62
		spiral(k, pt{X: c.X - side*r*0.1, Y: c.Y + r*0.25}, r, 2.2, side)
		return
	}
	k.Curve(append(inside(0.62), inside(0.62)[0])...)
	k.Curve(append(inside(0.32), inside(0.32)[0])...)
}

// spiral draws a line that winds outwards from its middle.
func spiral(k *sketch, c pt, radius, turns, side float64) {
	const steps = 12
	n := int(turns * steps)
	points := make([]pt, n+1)
	for i := range points {
		r := radius * float64(i) / float64(n)
		points[i] = c.Polar(r, side*float64(i)*360/steps)
	}
	k.Curve(points...)
}

// ramshorn draws a shell coiled flat, seen from its side: its last turn widens to
// the opening, low in front, from which the animal reaches.
func ramshorn(k *sketch) {
	snailBody(k, pt{X: 0.26, Y: 0.43}, 1, 0.3)
	k.part(pt{X: -0.1, Y: -0.1}, "spire", "opening", "shell", "outline", "flat", "rings", "wall", "pattern")
	k.Part("spire", "shell", "opening", "body")
	var outer []pt
	for i := range 18 {
		outer = append(outer, pt{}.Polar(0.43-0.002*float64(i), 22-float64(i)*18))
	}
	outer = append(outer, path(0.12, 0.41, 0.3, 0.45, 0.43, 0.42, 0.5, 0.34, 0.46, 0.24)...)
	k.Toned(outer...)
	var turns []pt
	for i := range 44 {
		turns = append(turns, pt{X: -0.02}.Polar(0.3*math.Pow(1-float64(i)/44, k.varied(0.9, 0.15, 0)), 62-float64(i)*26))
	}
	k.Curve(append(path(0.33, 0.2, 0.22, 0.27), turns...)...)
	k.part(pt{X: 0.42, Y: 0.3}, "door", "lid")
	mouth := path(0.44, 0.22, 0.52, 0.27, 0.53, 0.36, 0.46, 0.44, 0.37, 0.43, 0.38, 0.3)
	k.Blob(mouth...)
	lidOrFlesh(k, mouth, pt{X: 0.45, Y: 0.34}, 1)
}

// limpet draws a shell like a cap on its stone, from the side.
func limpet(k *sketch) {
	k.part(pt{X: 0.45, Y: -0.2}, "shell", "outline", "flat", "wall", "pattern")
	k.Part("shell", "body")
	k.Toned(path(0.02, 0.0, 0.1, -0.1, 0.3, -0.24, 0.52, -0.38, 0.66, -0.43, 0.72, -0.36, 0.8, -0.2, 0.98, 0, 0.5, 0.05)...)
	k.Texture(func() {
		k.Curve(path(0.1, -0.03, 0.5, k.varied(-0.06, 0.4, 0), 0.9, -0.04)...)
		k.Curve(path(0.24, -0.15, 0.52, k.varied(-0.19, 0.15, 1), 0.8, -0.14)...)
		k.Curve(path(0.42, -0.27, 0.58, k.varied(-0.3, 0.08, 2), 0.74, -0.26)...)
		for _, x := range []float64{0.16, 0.34, 0.52, 0.7, 0.86} {
			k.Line(pt{X: 0.66, Y: -0.4}.Lerp(pt{X: x, Y: 0}, 0.3), pt{X: 0.66, Y: -0.4}.Lerp(pt{X: x, Y: 0}, 0.92))
		}
	})
	k.Part("body")
	k.Curve(path(-0.14, 0.1, 0.1, 0.05, 0.5, 0.06, 0.9, 0.04, 1.14, 0.12)...)
	k.Curve(path(-0.14, 0.1, 0.0, 0.22, 0.5, 0.27, 1.0, 0.22, 1.14, 0.12)...)
	k.part(pt{X: 0.05, Y: 0.02}, "head", "legs", "eyes", "antennae", "spire", "opening", "door", "rings")
}

// clam draws two hinged halves from the side of one of them.
func clam(k *sketch) {
	k.part(pt{X: 0.5, Y: 0}, "valves", "shell", "outline", "flat", "wall")
	form := clamForm(k.is["valves"])
	k.Part("body", "shell", "valves")
	if k.is.is("valves", "keel") {
		for i := range 4 {
			x := 0.3 + 0.05*float64(i)
			k.Line(pt{X: x, Y: 0.18}, pt{X: x - 0.08 + 0.07*float64(i), Y: 0.36})
		}
	} else {
		k.Solid(form[0].Polar(0.03, 20), form[0].Lerp(form[len(form)-1], 0.4).Polar(0.012, -90), form[len(form)-1],
			form[0].Polar(0.06, 60)) // the hinge
	}
	k.Part("shell", "valves", "body")
	if k.is.is("valves", "thin") { // light shines through it
		k.Blob(form...)
	} else {
		k.Toned(form...)
	}
	growth(k, form)
	k.part(pt{X: 0.3, Y: 0.3}, "legs", "head", "rings", "opening", "spire", "door", "pattern")
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

// growth draws the lines of one half: rings about its hinge point, or the
// stripes of a keeled one.
func growth(k *sketch, form []pt) {
	if k.is.is("valves", "keel") {
		k.Line(path(0.03, -0.15, 0.35, 0.06, 0.95, 0.17)...)
		for i := range 4 {
			x := 0.18 + 0.17*float64(i)
			y, w := -0.26+0.012*float64(i+i*i), k.varied(0.08, 0.35, i)
			k.Shaded(cornered(path(x, y, x+w, y+0.012, x+w-0.045, y+0.09, x+w+0.025, y+0.16, x+0.06, y+0.25, x, y+0.235, x+0.04, y+0.165,
				x-0.03, y+0.09)...)...)
		}
		return
	}
	beak, n := form[0], len(form)
	ring := func(f float64) {
		var line []pt
		for i := 1; i < n; i++ {
			line = append(line, beak.Lerp(form[i], f))
		}
		if !k.is.is("valves", "ridged") { // all lines begin at the beak
			line = append(append([]pt{beak}, line...), beak)
		}
		k.Curve(line...)
	}
	switch k.is["valves"] {
	case "ridged": // each ridge casts a shade
		for i := range 7 {
			f := 0.22 + k.varied(0.115, 0.06, i)*float64(i)
			var band []pt
			for j := 1; j < n; j++ {
				band = append(band, beak.Lerp(form[j], f))
			}
			for j := n - 1; j > 0; j-- {
				band = append(band, beak.Lerp(form[j], f+0.045))
			}
			k.Shaded(band...)
			ring(f + 0.045)
		}
	case "mussel":
		for i, f := range []float64{0.35, 0.6, 0.68, 0.85, 0.93} {
			ring(k.varied(f, 0.05, i))
		}
	default:
		k.Part("body")
		ring(k.varied(0.5, 0.2, 0))
		ring(k.varied(0.8, 0.05, 1))
		k.Texture(func() { ring(k.varied(0.86, 0.02, 1)) })
	}
}
