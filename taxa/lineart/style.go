package lineart

import (
	"math"
	"strconv"
	"strings"

	"rillkey/taxa/pattern"
	"rillkey/taxa/wording"
)

// inherited is the style of an element inside another.
func (s style) inherited(attrs map[string]string) (style, error) {
	if v, ok := attrs["fill"]; ok {
		s.fill = fillOf(v)
	}
	if v, ok := attrs["stroke"]; ok {
		s.bare = fillOf(v) == Open
	}
	m, err := transform(attrs["transform"])
	s.places = s.places.times(m)
	return s, err
}

// fillOf is the fill for a colour: by how light it is, as pages are black and white.
func fillOf(colour string) Fill {
	switch colour {
	case "none", "transparent":
		return Open
	case "white":
		return Paper
	case "black", "currentColor":
		return Ink
	}
	hex := strings.TrimPrefix(colour, "#")
	if len(hex) == 3 {
		hex = string([]byte{hex[0], hex[0], hex[1], hex[1], hex[2], hex[2]})
	}
	v, err := strconv.ParseUint(hex, 16, 32)
	if err != nil || len(hex) != 6 {
		return Tone
	}
	light := (0.2126*float64(v>>16) + 0.7152*float64(v>>8&255) + 0.0722*float64(v&255)) / 255 // weights of ITU-R BT.709
	switch {
	case light > 0.95:
		return Paper
	case light > 0.55:
		return Tone
	case light > 0.2:
		return Shade
	}
	return Ink
}

// matrix places points: x' = ax + cy + e, y' = bx + dy + f.
type matrix struct{ a, b, c, d, e, f float64 }

var identity = matrix{a: 1, d: 1}

func (m matrix) apply(p Point) Point {
	return Point{m.a*p.X + m.c*p.Y + m.e, m.b*p.X + m.d*p.Y + m.f}
}

// times places by n first, then by m.
func (m matrix) times(n matrix) matrix {
	return matrix{m.a*n.a + m.c*n.b, m.b*n.a + m.d*n.b, m.a*n.c + m.c*n.d, m.b*n.c + m.d*n.d,
		m.a*n.e + m.c*n.f + m.e, m.b*n.e + m.d*n.f + m.f}
}

var step = pattern.New(`(\w+)\s*\(([^)]*)\)`)

func transform(text string) (matrix, error) {
	out := identity
	for _, s := range step().FindAllStringSubmatch(text, -1) {
		v, err := numbers(s[2])
		if err != nil {
			return out, err
		}
		m, ok := oneTransform(s[1], v)
		if !ok {
			return out, wording.Errorf("the transform %q is not read: translate, scale, rotate and matrix are", s[1])
		}
		out = out.times(m)
	}
	return out, nil
}

func oneTransform(name string, v []float64) (matrix, bool) {
	switch {
	case name == "matrix" && len(v) == 6:
		return matrix{v[0], v[1], v[2], v[3], v[4], v[5]}, true
	case name == "translate" && len(v) == 1:
		return matrix{a: 1, d: 1, e: v[0]}, true
	case name == "translate" && len(v) == 2:
		return matrix{a: 1, d: 1, e: v[0], f: v[1]}, true
	case name == "scale" && len(v) == 1:
		return matrix{a: v[0], d: v[0]}, true
	case name == "scale" && len(v) == 2:
		return matrix{a: v[0], d: v[1]}, true
	case name == "rotate" && (len(v) == 1 || len(v) == 3):
		sin, cos := math.Sincos(v[0] * math.Pi / 180)
		turn := matrix{a: cos, b: sin, c: -sin, d: cos}
		if len(v) == 3 {
			turn = matrix{a: 1, d: 1, e: v[1], f: v[2]}.times(turn).times(matrix{a: 1, d: 1, e: -v[1], f: -v[2]})
		}
		return turn, true
	}
	return identity, false
}
