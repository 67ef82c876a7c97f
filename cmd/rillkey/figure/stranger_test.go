package figure

import (
	"maps"
	"slices"
	"testing"
)

// Animals of somebody's own catalog, whose names and builds say nothing.
var strangers = map[string]Traits{
	"nymph":      {"legs": "6", "outline": "long", "rings": "sections", "head": "capsule"},
	"with gills": {"legs": "6", "outline": "long", "gills": "belly-sides"},
	"saucer":     {"legs": "6", "shield": "saucer"},
	"bug":        {"legs": "6", "mouth": "beak"},
	"beetle":     {"legs": "6", "wings": "hard"},
	"curled":     {"legs": "6", "posture": "curled"},
	"cased":      {"legs": "6", "case": "carried"},
	"mite":       {"legs": "8"},
	"spider":     {"legs": "8", "rings": "joined"},
	"crayfish":   {"legs": "10"},
	"shrimp":     {"legs": "10", "flat": "tall"},
	"crab":       {"legs": "10", "outline": "disc"},
	"scud":       {"legs": "14", "flat": "tall"},
	"sowbug":     {"legs": "14"},
	"leech":      {"legs": "0", "suckers": "ends"},
	"beads":      {"legs": "0", "rings": "lobes"},
	"maggot":     {"legs": "0", "head": "capsule"},
	"wire":       {"legs": "0", "rings": "none", "outline": "thread"},
	"flea":       {"legs": "0", "rings": "none", "outline": "oval"},
	"flatworm":   {"legs": "0", "rings": "none", "flat": "flat"},
	"worm":       {"legs": "0"},
	"snail":      {"shell": "coiled"},
	"limpet":     {"shell": "cap"},
	"clam":       {"shell": "two"},
	"fish":       {"backbone": "yes", "limbs": "fins"},
	"salamander": {"backbone": "yes", "limbs": "four"},
	"eel":        {"backbone": "yes", "limbs": "none", "outline": "long"},
	"tadpole":    {"backbone": "yes"},
	"pupa":       {"pupa": "yes"},
	"shed skin":  {"living": "skin"},
	"twig":       {"living": "thing"},
}

// parts are drawn only where they are.
var parts = []string{"tails", "hooks", "gills", "wings", "pads", "prolegs", "suckers", "side-arms", "tube", "tusks", "air-spots",
	"neck", "humps", "shoulders", "end-plate"}

// An animal that no catalog of ours holds is drawn with whatever else is said of it,
// inside its page, and without a part that is said not to be there.
func TestAStrangersAnimalIsDrawnWithWhatIsSaidOfIt(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a while")
	}
	said := catalog(t).Vocabulary().Traits()
	for name, base := range strangers {
		p := planOf(base, "")
		if p == nil {
			t.Errorf("%s has no plan", name)
			continue
		}
		for turn := range 30 {
			traits, features := maps.Clone(base), []string(nil)
			for i, trait := range said {
				if base.has(trait.ID) || (i+turn)%3 == 0 {
					continue
				}
				more := maps.Clone(traits)
				more[trait.ID] = trait.States[(i/3+turn/3)%len(trait.States)].ID
				more = more.coherent()
				if planOf(more, "") == p && !deniesItself(more) { // still of that build
					traits, features = more, append(features, trait.ID)
				}
			}
			k := newSketch(traits)
			p.draw(k)
			for _, part := range parts {
				if state, known := traits[part]; known && absence(state) && k.Shows(part) {
					t.Errorf("%s, turn %d: drawn with %s, which it has not", name, turn, part)
				}
			}
			f := Figure{panels: []panel{body(traits, p, features)}}
			if turn%10 == 0 {
				wellFormed(t, name, f.SVG(paperSize), paperSize)
			}
		}
	}
}

// deniesItself reports whether a part is said to be there and not to be.
func deniesItself(t Traits) bool {
	return slices.ContainsFunc(needs, func(n struct{ part, trait, state, gone string }) bool {
		return absence(t[n.part]) && wants(n.part, n.trait) && t.is(n.trait, n.state)
	})
}

// Where no animal shows a state, a sign stands for it: no two states of a trait have the
// same, but those that say that there is nothing.
func TestSignsOfStatesDiffer(t *testing.T) {
	for _, trait := range catalog(t).Vocabulary().Traits() {
		if signs()[trait.ID] == nil {
			continue
		}
		met := map[string]string{}
		for _, state := range trait.States {
			f := Figure{panels: []panel{acted(trait.ID, state.ID, true, nil)}}
			svg := f.SVG(paperSize)
			wellFormed(t, trait.ID+" = "+state.ID, svg, paperSize)
			if other, same := met[shape(svg)]; same {
				t.Errorf("%s: the signs of %s and %s are the same", trait.ID, other, state.ID)
			}
			met[shape(svg)] = state.ID
		}
	}
}
