package lineart

import (
	"math"
	"strconv"
	"strings"

	"rillkey/taxa/pattern"
	"rillkey/taxa/wording"
)

// circlePoints is on how many points a circle is drawn.
const circlePoints = 24

// shapes are the strokes of an element by its name.
func shapes(name string, attrs map[string]string) ([]Stroke, error) {
	switch name {
	case "path":
		return path(attrs["d"])
	case "polyline", "polygon":
		v, err := numbers(attrs["points"])
		s := Stroke{Closed: name == "polygon"}
		for i := 0; i+1 < len(v); i += 2 {
			s.Points = append(s.Points, Point{v[i], v[i+1]})
		}
		return []Stroke{s}, err
	case "line", "rect", "circle", "ellipse":
		return simple(name, attrs)
	}
	return nil, wording.Errorf("<%s> is not drawn: make paths of it, or leave it out", name)
}

func simple(name string, attrs map[string]string) ([]Stroke, error) {
	var err error
	n := func(key string) float64 {
		v := strings.TrimSuffix(strings.TrimSpace(attrs[key]), "px")
		if v == "" {
			return 0
		}
		x, e := strconv.ParseFloat(v, 64)
		if e != nil && err == nil {
			err = wording.Errorf("%s is no number: %q", key, v)
		}
		return x
	}
	switch name {
	case "line":
		return []Stroke{{Points: []Point{{n("x1"), n("y1")}, {n("x2"), n("y2")}}}}, err
	case "rect":
		x, y, w, h := n("x"), n("y"), n("width"), n("height")
		return []Stroke{{Points: []Point{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}, Closed: true}}, err
	}
	rx, ry := n("rx"), n("ry")
	if name == "circle" {
		rx, ry = n("r"), n("r")
	}
	s := Stroke{Closed: true}
	for i := range circlePoints {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / circlePoints)
		s.Points = append(s.Points, Point{n("cx") + rx*cos, n("cy") + ry*sin})
	}
	return []Stroke{s}, err
}

var number = pattern.New(`[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?`)

// numbers are the numbers of a list with commas or blanks between them.
func numbers(text string) (out []float64, err error) {
	if left := strings.Trim(number().ReplaceAllString(text, ""), ", \t\r\n"); strings.Trim(left, ", \t\r\n") != "" {
		return nil, wording.Errorf("these are no numbers: %q", cut(left))
	}
	for _, s := range number().FindAllString(text, -1) {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			return nil, wording.Errorf("%q is too large a number", cut(s))
		}
		out = append(out, v)
	}
	return out, nil
}

// cut keeps the beginning of what a message quotes.
func cut(s string) string {
	if r := []rune(s); len(r) > 30 {
		return string(r[:30]) + "…"
	}
	return s
}
