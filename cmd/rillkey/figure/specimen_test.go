package figure

import (
	"math/rand/v2"
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
	for _, p := range []*plan{planFlea, planLeech, planFlatworm, planWorm, planBug, planScud, planSowbug, planCrayfish, planShrimp, planMite} {
		usual[p] = true
	}
	r := rand.New(rand.NewPCG(9001, 1))
	for _, kind := range course.Kinds() {
		own := planOf(atlas.traits[kind.ID], kind.Build)
		for range 60 {
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
