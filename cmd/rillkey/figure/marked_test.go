package figure

import (
	"slices"
	"strings"
	"testing"

	"rillkey/taxa"
)

// A mark that tells a taxon from another is set off in its large drawing, and two taxa
// with one mark in common are told apart by what is set off.
func TestMarksTellApart(t *testing.T) {
	c := catalog(t)
	a := NewAtlas(c, nil)
	setOff := map[*taxa.Taxon]string{}
	for _, taxon := range c.Taxa() {
		if len(taxon.Marks) == 0 {
			continue
		}
		f := a.Telling(taxon)
		svg := f.SVG(paperSize)
		wellFormed(t, taxon.ID, svg, paperSize)
		if shape(svg) == shape(a.Taxon(taxon).SVG(paperSize)) || !strings.Contains(f.Alt, "Set off: ") {
			t.Errorf("%s: nothing points at %s", taxon.ID, taxon.Marks)
		}
		setOff[taxon] = heavy(f)
	}
	if len(setOff) < 10 {
		t.Fatalf("%d taxa have marks", len(setOff))
	}
	for x, of := range setOff {
		for y, other := range setOff {
			shared := func(mark string) bool { return slices.Contains(y.Marks, mark) }
			if x != y && slices.ContainsFunc(x.Marks, shared) && of == other {
				t.Errorf("what is set off of %s and %s is the same", x.ID, y.ID)
			}
		}
	}
}

// heavy is what is set off in a figure's first drawing.
func heavy(f Figure) string {
	k := *f.panels[0].canvas
	k.Shapes = slices.Clone(k.Shapes)
	for i := range k.Shapes {
		if !k.Shapes[i].Heavy {
			k.Shapes[i].Points = nil
		}
	}
	return k.Key()
}
