package figure

import (
	"maps"
	"strconv"
	"testing"

	"rillkey/couplets"
	"rillkey/key/keytest"
)

// A dozen kinds, clams and pupae among them, had a single drawing: who had met it knew
// the picture, not the kind.
func TestIndividualsWithoutOtherStatesAreDrawnOtherwise(t *testing.T) {
	sound, catalog := keytest.Sound(t, couplets.DefaultName)
	a := NewAtlas(catalog, sound)
	for _, id := range []string{"sphaeriidae", "cyrenidae", "unionidae", "dreissenidae", "limpet", "hydrobiidae",
		"bithyniidae", "valvatidae", "chironomidae-pupa", "fly-pupa", "simuliidae-pupa", "trichoptera-pupa", "nematomorpha",
		"hydrozoa", "ostracoda", "pleidae"} {
		kind := catalog.Taxon(id)
		usual := a.Drawn(kind, traitsOf(kind, catalog.Vocabulary()))
		seen := map[string]bool{}
		for n := range Individuals {
			shows := maps.Clone(usual)
			shows[Individual] = strconv.Itoa(n)
			if like := a.Likeness(kind, shows); n == 0 && like != a.Likeness(kind, usual) {
				t.Errorf("%s: the usual individual is not drawn as usual", id)
			} else {
				seen[like] = true
			}
		}
		if len(seen) < 4 {
			t.Errorf("%s: %d individuals are drawn as %d", id, Individuals, len(seen))
		}
	}
}
