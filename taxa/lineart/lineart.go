// Package lineart reads an SVG file as plain strokes. Only points and fills come
// out of it, so that nothing else that a file may hold, such as a script, a link or
// a font, can reach a page or a terminal.
//
// Begin with [Stroke], [Point] and [Fill].
package lineart

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"rillkey/taxa/wording"
)

// Fill is what lies inside a closed stroke.
type Fill int

// The fills, from nothing to solid ink.
const (
	Open  Fill = iota // nothing: what is behind shows
	Paper             // paper: what is behind is hidden
	Tone              // a light tone, paper where there are only dots
	Shade             // a dark tone, every second dot where there are only dots
	Ink
)

// Point is a place; y grows downwards. Its unit is that of the file.
type Point struct{ X, Y float64 }

// Stroke is a line through points, in straight stretches; curves are divided into
// short ones.
type Stroke struct {
	Points []Point
	Closed bool
	Fill   Fill
	Bare   bool // no outline, only the fill
}

// The bounds of a file: more is no drawing of an animal.
const (
	MostBytes  = 256 << 10
	mostPoints = 20000
	mostDepth  = 32
)

// Fault is what is wrong with a file, and at which line and column of it, from 1.
type Fault struct {
	Line, Column int
	Message      string
}

func (f *Fault) Error() string { return fmt.Sprintf("%d:%d: %s", f.Line, f.Column, f.Message) }

// passed over are elements that draw nothing by themselves.
var passedOver = []string{"title", "desc", "metadata", "defs"}

const svgSpace = "http://www.w3.org/2000/svg"

// Parse reads the strokes of an SVG file. Paths, lines, polylines, polygons,
// rectangles, circles and ellipses are drawn, alone and in groups; an element of
// another kind is refused, one of a foreign namespace is passed over. The error is
// a [*Fault].
func Parse(data []byte) ([]Stroke, error) {
	r := &reader{dec: xml.NewDecoder(bytes.NewReader(data))}
	r.dec.CharsetReader = func(string, io.Reader) (io.Reader, error) { return nil, wording.NewError("the file must be UTF-8") }
	if len(data) > MostBytes {
		return nil, r.fault("the drawing has more than %d kB", MostBytes>>10)
	}
	if err := r.read(); err != nil {
		return nil, err
	}
	if len(r.strokes) == 0 {
		return nil, r.fault("nothing is drawn in this file")
	}
	return r.strokes, nil
}

// style is how strokes are drawn within an element.
type style struct {
	fill   Fill
	bare   bool
	places matrix
}

type reader struct {
	dec     *xml.Decoder
	styles  []style // of the open elements
	strokes []Stroke
	points  int
}

func (r *reader) fault(format string, args ...any) *Fault {
	line, column := r.dec.InputPos()
	return &Fault{line, column, wording.Sprintf(format, args...)}
}

func (r *reader) read() error {
	r.styles = []style{{fill: Ink, bare: true, places: identity}}
	for {
		token, err := r.dec.Token()
		switch {
		case errors.Is(err, io.EOF):
			return nil
		case err != nil:
			return r.fault("this is no SVG: %v", err)
		}
		switch t := token.(type) {
		case xml.Directive:
			if bytes.ContainsRune(t, '[') {
				return r.fault("entities are not read")
			}
		case xml.StartElement:
			if err := r.element(t); err != nil {
				return err
			}
		case xml.EndElement:
			r.styles = r.styles[:len(r.styles)-1]
		}
	}
}

func (r *reader) element(e xml.StartElement) error {
	first := len(r.styles) == 1
	switch {
	case first && e.Name.Local != "svg":
		return r.fault("the file begins with <%s>, not with <svg>", e.Name.Local)
	case e.Name.Space != "" && e.Name.Space != svgSpace || slices.Contains(passedOver, e.Name.Local):
		if err := r.dec.Skip(); err != nil {
			return r.fault("this is no SVG: %v", err)
		}
		return nil
	case len(r.styles) > mostDepth:
		return r.fault("groups nest deeper than %d", mostDepth)
	}
	attrs := attributes(e)
	s, err := r.styles[len(r.styles)-1].inherited(attrs)
	if err != nil {
		return r.fault("%v", err)
	}
	r.styles = append(r.styles, s)
	if e.Name.Local == "svg" && first || e.Name.Local == "g" {
		return nil
	}
	drawn, err := shapes(e.Name.Local, attrs)
	if err != nil {
		return r.fault("%v", err)
	}
	return r.add(drawn, s)
}

func (r *reader) add(drawn []Stroke, s style) error {
	for _, stroke := range drawn {
		if r.points += len(stroke.Points); r.points > mostPoints {
			return r.fault("the drawing has more than %d points", mostPoints)
		}
		for i, p := range stroke.Points {
			if stroke.Points[i] = s.places.apply(p); !stroke.Points[i].sound() {
				return r.fault("a point lies too far out to be drawn")
			}
		}
		stroke.Fill, stroke.Bare = s.fill, s.bare
		if s.fill == Open && s.bare || len(stroke.Points) < 2 {
			continue // it cannot be seen
		}
		r.strokes = append(r.strokes, stroke)
	}
	return nil
}

// farthest is how far out a point may lie.
const farthest = 1e6

func (p Point) sound() bool {
	return p.X >= -farthest && p.X <= farthest && p.Y >= -farthest && p.Y <= farthest // not for NaN
}

// attributes are an element's own, those of a style attribute among them.
func attributes(e xml.StartElement) map[string]string {
	out := map[string]string{}
	for _, a := range e.Attr {
		if a.Name.Space == "" {
			out[a.Name.Local] = a.Value
		}
	}
	for _, rule := range strings.Split(out["style"], ";") {
		if name, value, ok := strings.Cut(rule, ":"); ok {
			out[strings.TrimSpace(name)] = strings.TrimSpace(value)
		}
	}
	return out
}
