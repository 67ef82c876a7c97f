package figure_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/cmd/rillkey/figure"
	"rillkey/taxa"
)

const ownTraits = "[trait.legs]\nquestion = \"a\"\nlook = \"eye\"\nmisread = 0.1\nsource = \"b\"\n"

// An author's drawing is drawn in the place of the made one: as many strokes as it
// has, at every size, and on cells.
func TestAnAuthorsDrawingIsShown(t *testing.T) {
	c, err := taxa.Load(fstest.MapFS{
		"traits.toml": {Data: []byte(ownTraits + "state.6 = { label = \"six\" }\nstate.0 = { label = \"none\" }\n")},
		"taxa.toml":   {Data: []byte("[taxon.x]\nrank = \"order\"\nscientific = \"X\"\nsource = \"b\"\nfigure = \"x.svg\"\n")},
		"x.svg": {Data: []byte(
			`<svg><g stroke="#000" fill="none"><path d="M900 900L990 900"/><path d="M900 900L900 990"/></g></svg>`)},
	}, "")
	if err != nil {
		t.Fatal(err)
	}
	f := figure.NewAtlas(c, nil).Taxon(c.Taxon("x"))
	for _, size := range []figure.Size{{Width: 12, Height: 12}, {Width: 80, Height: 60}} {
		svg := f.SVG(size)
		if !strings.Contains(svg, "<path") || strings.Contains(svg, "900") {
			t.Errorf("not drawn on a page of its size: %s", svg)
		}
	}
	if dots := strings.Join(f.Braille(24, 10), ""); strings.Trim(dots, "\u2800") == "" {
		t.Error("not drawn on a terminal")
	}
}

// An author's drawing of a state stands in the place of the made one.
func TestAnAuthorsDrawingOfAStateIsShown(t *testing.T) {
	c, err := taxa.Load(fstest.MapFS{
		"traits.toml": {Data: []byte(ownTraits +
			"state.6 = { label = \"six\", figure = \"x.svg\" }\nstate.0 = { label = \"none\", figure = \"none\" }\n")},
		"taxa.toml": {Data: []byte("[taxon.x]\nrank = \"order\"\nscientific = \"X\"\nsource = \"b\"\n")},
		"x.svg":     {Data: []byte(`<svg><path stroke="#000" d="M0 0L5 5"/></svg>`)},
	}, "")
	if err != nil {
		t.Fatal(err)
	}
	atlas := figure.NewAtlas(c, nil)
	if f, ok := atlas.State("legs", "6"); !ok || f.Alt != "Drawing of six." {
		t.Errorf("%v %q", ok, f.Alt)
	}
	if _, ok := atlas.State("legs", "0"); ok {
		t.Error("a state that should have no drawing has one")
	}
}
