package taxa_test

import (
	"slices"
	"testing"

	"rillkey/taxa"
)

// What a naturalist says first of a family is heard, the family shows it, and the kinds
// it is taken for do not, or seldom (memory).
func TestFirstMarksOfFamiliesPartThem(t *testing.T) {
	c, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		said, trait, state, family string
		others                     []string
	}{
		{"half moon opening", "shelf", "shelf", "neritidae", []string{"valvatidae", "hydrobiidae", "viviparidae", "bithyniidae"}},
		{"sucker much wider than the body", "disc", "wide", "piscicolidae", []string{"erpobdellidae", "glossiphoniidae", "hirudinidae"}},
		{"eyes halfway along the head", "eyes", "midway", "hydrometridae", []string{"gerridae", "veliidae", "mesoveliidae"}},
		{"silvery bubble underneath", "air", "belly", "hydrophilidae-adult", []string{"haliplidae-adult", "dytiscidae-adult"}},
		{"bubbles inside", "air", "inside", "chaoboridae", []string{"culicidae", "chironomidae-other", "dixidae"}},
		{"rows of tiny pits", "covers", "rows", "haliplidae-adult", []string{"dytiscidae-adult", "gyrinidae-adult"}},
		{"walks upside down", "upside", "belly", "hydraenidae", []string{"elmidae-adult", "dryopidae"}},
		{"wavy grooves on the neck shield", "grooves", "grooves", "helophoridae", []string{"hydraenidae", "elmidae-adult", "dryopidae"}},
		{"sharp spike underneath", "beneath", "spike", "hydrophilidae-adult", []string{"dytiscidae-adult", "haliplidae-adult"}},
		{"plates over the hind legs", "beneath", "plates", "haliplidae-adult", []string{"dytiscidae-adult", "hydrophilidae-adult"}},
		{"eggs under its belly", "brood", "belly", "glossiphoniidae", []string{"erpobdellidae", "piscicolidae", "turbellaria"}},
		{"eggs on its back", "brood", "back", "belostomatidae", []string{"naucoridae", "nepidae"}},
		{"two bags of eggs", "brood", "bags", "copepoda", []string{"cladocera", "ostracoda"}},
		{"one carrying a smaller one", "brood", "mate", "gammaridae", []string{"palaemonidae", "hydrachnidia"}},
		{"hood for a mouth", "mouth", "hood", "lamprey-eel", []string{"fish", "oligochaeta", "tadpole"}},
		{"shot out a long white thread", "mouth", "thread", "nemertea", []string{"turbellaria", "oligochaeta"}},
		{"row of specks along the front edge", "eyes", "row", "planariidae", []string{"dendrocoelidae", "limpet"}},
		{"feelers as thick as legs", "antennae", "arms", "corophiidae", []string{"gammaridae", "crangonyctidae"}},
		{"fifteen pairs of legs", "legs", "30", "myriapoda", []string{"asellidae", "woodlouse", "gammaridae"}},
		{"shiny black blister", "pupa", "bump", "blephariceridae-pupa", []string{"simuliidae-pupa", "fly-pupa"}},
		{"slips sideways like a crab", "manner", "sideways", "heptageniidae", []string{"baetidae", "leptophlebiidae", "perlodidae"}},
		{"lifts its tails like a scorpion", "manner", "tail-up", "ephemerellidae", []string{"leptohyphidae", "caenidae", "baetidae"}},
		{"did push-ups", "manner", "push-ups", "perlidae", []string{"nemouridae", "heptageniidae", "chloroperlidae"}},
		{"coils up like a watch spring", "manner", "curls", "taeniopterygidae", []string{"nemouridae", "capniidae", "leuctridae"}},
		{"squirts water", "manner", "jets", "aeshnidae", []string{"coenagrionidae", "perlidae", "dytiscidae-larva"}},
		{"whips away backwards", "manner", "backwards", "polycentropodidae", []string{"rhyacophilidae", "limnephilidae"}},
		{"caked with mud", "coat", "coated", "cordulegastridae", []string{"aeshnidae", "calopterygidae"}},
		{"dusted in silt", "coat", "coated", "caenidae", []string{"baetidae", "heptageniidae"}},
		{"pale bands on the legs", "bands", "legs", "calopterygidae", []string{"coenagrionidae", "lestidae"}},
		{"dark band across the tails", "bands", "tails", "ameletidae", []string{"baetidae", "leptophlebiidae"}},
		{"horn between the eyes", "horn", "one", "macromiidae", []string{"libellulidae", "corduliidae", "cordulegastridae"}},
		{"bristles across the upper lip", "lip", "bristles", "calamoceratidae", []string{"limnephilidae", "phryganeidae"}},
		{"t-shaped lip", "lip", "soft", "philopotamidae", []string{"polycentropodidae", "psychomyiidae"}},
		{"hollow twig", "case-stuff", "hollow", "calamoceratidae", []string{"limnephilidae", "phryganeidae", "lepidostomatidae"}},
		{"drags the purse standing on edge", "case-held", "edge", "hydroptilidae", []string{"leptoceridae", "brachycentridae"}},
		{"swims with its case", "case-held", "swum", "leptoceridae", []string{"phryganeidae", "limnephilidae"}},
		{"case glued to a twig", "case-held", "glued", "brachycentridae", []string{"lepidostomatidae", "limnephilidae"}},
		{"notch in the second plate", "second-plate", "notch", "uenoidae", []string{"goeridae", "limnephilidae"}},
		{"four small plates on the second ring", "second-plate", "pieces", "goeridae", []string{"uenoidae", "molannidae"}},
		{"groove across the neck shield", "collar", "groove", "brachycentridae", []string{"lepidostomatidae", "beraeidae"}},
	} {
		if noted, _ := understood(t, row.said); noted != row.trait+"="+row.state {
			t.Errorf("%q: notes %q, want %s=%s", row.said, noted, row.trait, row.state)
		}
		share := func(id string) float64 {
			states := c.Taxon(id).States(row.trait)
			if i := slices.IndexFunc(states, func(w taxa.Weight) bool { return w.State == row.state }); i >= 0 {
				return states[i].Share
			}
			return 0
		}
		for _, other := range row.others {
			if share(row.family) < 2*share(other) || share(row.family) == 0 {
				t.Errorf("%s=%s: %.2f of %s, %.2f of %s", row.trait, row.state, share(row.family), row.family, share(other), other)
			}
		}
	}
}
