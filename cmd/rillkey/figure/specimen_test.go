package figure

import (
	"math/rand/v2"
	"slices"
	"testing"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/key/practice"
)

// An oval flatworm was once drawn as a water flea, and whoever knew a water flea on
// sight was told that it was a flatworm.
func TestAnAnimalIsBuiltAsItsKind(t *testing.T) {
	sound, catalog := keytest.Sound(t, couplets.DefaultName)
	course, err := practice.NewCourse(key.Compile(sound, catalog), practice.Plan{})
	if err != nil {
		t.Fatal(err)
	}
	atlas := NewAtlas(catalog, sound)
	usual := map[*plan]bool{} // builds that stand for a kind of their own
	for _, p := range []*plan{planFlea, planLeech, planFlatworm, planWorm, planBug, planScud, planSowbug, planCrayfish,
		planShrimp, planMite} {
		usual[p] = true
	}
	r := rand.New(rand.NewPCG(9001, 1))
	for _, kind := range course.Kinds() {
		own := atlas.look(kind).plan()
		for range keytest.Times(60, 12) {
			shows := course.Draw(kind.ID, r).Shows
			_, p := atlas.sitter(kind, shows)
			if p == nil {
				t.Errorf("%s cannot be drawn as %v", kind.ID, shows)
			} else if p != own && (usual[p] || usual[own]) && p != planWire {
				t.Errorf("%s, usually a %s, is drawn as a %s", kind.ID, own.name, p.name)
				break
			}
		}
	}
}

// A damselfly's plates were corrected to three tails, and lids were said where plates
// were drawn: an animal shows what is drawn of it.
func TestWhatIsSaidOfADrawnAnimalIsDrawn(t *testing.T) {
	sound, catalog := keytest.Sound(t, couplets.DefaultName)
	course, err := practice.NewCourse(key.Compile(sound, catalog), practice.Plan{})
	if err != nil {
		t.Fatal(err)
	}
	atlas := NewAtlas(catalog, sound)
	r := rand.New(rand.NewPCG(9002, 1))
	for _, kind := range course.Kinds() {
		for range keytest.Times(40, 8) {
			shows := course.Draw(kind.ID, r).Shows
			drawn := atlas.Drawn(kind, shows)
			for trait, state := range shows {
				if drawn[trait] != state {
					t.Errorf("%s: %s is said to be %s and drawn as %s", kind.ID, trait, state, drawn[trait])
				}
			}
			if Traits(shows).is("hind", "plates") && Traits(shows).has("tails") {
				t.Errorf("%s has tails beside its plates", kind.ID)
			}
		}
	}
}

// States that are drawn alike are known to be: nobody is corrected by what no drawing
// shows.
func TestStatesThatAreDrawnAlike(t *testing.T) {
	sound, catalog := keytest.Sound(t, couplets.DefaultName)
	atlas := NewAtlas(catalog, sound)
	for _, one := range []struct {
		kind, trait string
		alone       bool // its state is told from every other
	}{
		{"perlidae", "tails", true}, {"perlidae", "colour", false}, {"coenagrionidae", "hind", true}, {"cyrenidae", "valves", true},
		{"heptageniidae", "flat", false}, {"heptageniidae", "tail-length", true}, {"coenagrionidae", "oars", true},
		{"tipulidae", "move", false}, {"perlidae", "no such trait", false},
	} {
		kind := catalog.Taxon(one.kind)
		states, _ := atlas.Alike(kind, atlas.look(kind).traits(), one.trait)
		if (len(states) == 1) != one.alone {
			t.Errorf("%s of %s: %v", one.trait, one.kind, states)
		}
	}
}

// Tails that were said to be as long as the tail half of the body were drawn shorter.
func TestLongTailsAreDrawnAsLongAsTheTailHalf(t *testing.T) {
	sound, catalog := keytest.Sound(t, couplets.DefaultName)
	atlas := NewAtlas(catalog, sound)
	const tailHalf = 0.47 // of the body, drawn
	for _, kind := range sound.Ends {
		traits := atlas.look(kind).traits()
		p := atlas.look(kind).plan()
		if p == nil || !traits.is("tails", "2", "3") || !traits.has("tail-length") {
			continue
		}
		k := newSketch(traits)
		p.draw(k)
		reach := 0.0
		for _, s := range k.Shapes {
			if slices.Contains(s.Parts, "tail-length") {
				for _, at := range s.Points {
					reach = max(reach, at.X-0.985)
				}
			}
		}
		if long := traits.is("tail-length", "long"); long && reach < tailHalf || !long && reach > tailHalf*0.9 {
			t.Errorf("%s: tails that are %s are drawn %.2f of the body", kind.ID, traits["tail-length"], reach)
		}
	}
}
