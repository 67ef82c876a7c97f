package show

import (
	"testing"

	"rillkey/taxa"
)

// What falls short of what a name needs is not shown as that.
func TestAChanceIsNotRoundedUpToWhatANameNeeds(t *testing.T) {
	for _, row := range []struct {
		p    float64
		says string
	}{
		{0.894, "fairly sure (0.89)"}, {0.898, "fairly sure (0.89)"}, {0.9, "sure (0.90)"}, {0.904, "sure (0.90)"},
		{0.798, "fairly sure (0.80)"}, {0.996, "very sure (over 0.99)"},
	} {
		if got := Sure(row.p); got != row.says {
			t.Errorf("%g: %s, want %s", row.p, got, row.says)
		}
	}
}

// Most states of a trait are told by the few that are left out.
func TestMostStatesAreToldByThoseLeftOut(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		trait  string
		states []string
		says   string
	}{
		{"move", []string{"swim", "thrash", "loop", "glide", "row", "skate", "whirl", "hop", "still"},
			"move: anything but: walks or creeps"},
		{"gills", []string{"chest", "chest-belly", "sides", "back", "under", "hind"}, "gills: there; more was not said"},
		{"tails", []string{"2", "3"}, "two tails, or three tails"},
		{"eyes", []string{"top", "big", "sides", "spots"}, "eyes: on top of a broad, flat head, or large and bulging, or " +
			"clear eyes at the sides of the head, or tiny dark dots"},
	} {
		if got := TraitStates(catalog.Vocabulary().Trait(row.trait), row.states); got != row.says {
			t.Errorf("%s: %s, want %s", row.trait, got, row.says)
		}
	}
}
