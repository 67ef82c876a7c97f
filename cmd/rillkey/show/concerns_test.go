package show

import (
	"testing"

	"rillkey/taxa"
)

// What holds of several kinds that an animal may be is said once.
func TestACautionIsSaidOnce(t *testing.T) {
	wary := "Never pull it out of its case."
	foreign := &taxa.Concern{Do: "Keep it."}
	got := careLines([]*taxa.Taxon{{Handling: wary}, {Handling: wary, Invader: foreign}, {Handling: "It bites."}, {Invader: foreign}})
	if len(got) != 3 || got[0].Text != wary || got[1].Label != "Foreign" || got[2].Text != "It bites." {
		t.Errorf("%+v", got)
	}
}
