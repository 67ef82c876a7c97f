package show

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	drawing "rillkey/cmd/rillkey/figure"
	"rillkey/taxa"
)

// At every size a drawing stays inside the terminal and takes no more than about
// half of it; where there is no room, there is none.
func TestDrawingsKeepToTheTerminal(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	atlas := drawing.NewAtlas(catalog, nil)
	one, two := atlas.Taxon(catalog.Taxon("perlidae")), atlas.Taxon(catalog.Taxon("insecta"))
	for _, row := range []struct {
		room        Room
		one, beside bool // something is drawn
	}{
		{Room{80, 24}, true, true},
		{Room{40, 20}, true, true},
		{Room{200, 60}, true, true},
		{Room{20, 5}, true, false},
		{Room{10, 24}, false, false},
		{Room{1, 1}, false, false},
		{Room{0, 0}, false, false},
	} {
		var single, pair strings.Builder
		if err := DrawFigure(&single, row.room, one); err != nil {
			t.Fatal(err)
		}
		if err := DrawnBeside(&pair, row.room, one, two); err != nil {
			t.Fatal(err)
		}
		if (single.Len() > 0) != row.one || (pair.Len() > 0) != row.beside {
			t.Errorf("%v: one %d bytes, two %d", row.room, single.Len(), pair.Len())
		}
		for _, text := range []string{single.String(), pair.String()} {
			lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
			if len(lines) > max(lowest+3, row.room.Height/2) {
				t.Errorf("%v: %d lines\n%s", row.room, len(lines), text)
			}
			for _, l := range lines {
				if ansi.StringWidth(l) > row.room.Width {
					t.Errorf("%v: %q is too wide", row.room, l)
				}
			}
		}
	}
}

func TestADrawingHasItsLengthBesideAnInch(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	f := drawing.NewAtlas(catalog, nil).Taxon(catalog.Taxon("perlidae"))
	var out strings.Builder
	if err := DrawFigure(&out, Room{80, 24}, f); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"█", "grown: █ at least, ░ at most", "1 inch"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not in\n%s", want, out.String())
		}
	}
	f.Length = taxa.Range{}
	out.Reset()
	if err := DrawFigure(&out, Room{80, 24}, f); err != nil || strings.Contains(out.String(), "inch") {
		t.Errorf("%v: a ruler without a length\n%s", err, out.String())
	}
}
