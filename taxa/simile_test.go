package taxa_test

import (
	"slices"
	"strings"
	"testing"

	"rillkey/taxa"
)

// What people liken the whole animal to tells of its shape or its parts; common practice.
func TestWhatAnAnimalIsLikenedToTells(t *testing.T) {
	for _, row := range []struct{ said, noted, asked string }{
		{"it looks like a baby cockroach", "like=cockroach", "shield=roof"},
		{"like a grain of rice", "outline=long,bottle,spindle,oval", ""},
		{"looks like a baby scorpion", "forelegs=pincers,grasping; like=scorpion", "hind=tube"},
		{"it reminds me of a tiny lobster", "like=lobster", "legs=10"},
		{"a baby cockroach", "like=cockroach", "shield=roof"},
		{"like a shuttlecock", "", "hind=plates,feathery,fan"},
		{"curled like a comma", "posture=curled", ""},
		{"it is like a comma", "posture=curled", ""},
		{"like a bent pin", "posture=curled,bent", ""},
		{"a maggot sort of thing", "legs=0; like=maggot", ""},
		{"looks like a leaf", "flat=flat", ""},
		{"looks just like a woodlouse", "plates=all; like=woodlouse", ""},
		{"looks like a pill bug", "plates=all; like=woodlouse", ""},
		{"Rolled itself up like a woodlouse", "posture=curled", ""},
		{"like a sweet wrapper", "", "case-shape=purse"},
		{"oval like a watermelon seed", "like=seed", "outline=oval"},
		{"like a thick white maggot", "legs=0; like=maggot", "colour=pale"},
		{"it looks like a wet cricket", "hindlegs=long; like=cricket", ""},
		{"cigar shaped", "outline=long,spindle,oval", ""},
		{"shaped like a bean", "outline=spindle,oval", ""},
		{"tadpole shaped", "like=tadpole", ""},
		{"like a log cabin", "", "case-lay=across"},
	} {
		noted, unclear := understood(t, row.said)
		var asked string
		for _, u := range unclear {
			asked += "; " + told(u.Choice)
		}
		if noted != row.noted || !strings.Contains(asked, row.asked) || row.asked == "" && asked != "" {
			t.Errorf("%q: notes %q, asks %q; want %q and %q", row.said, noted, asked, row.noted, row.asked)
		}
	}
}

// What a part is like, or how it moves, what is denied, and how big it is, are no simile.
func TestWhatAPartIsLikenedToTellsNothingOfTheWhole(t *testing.T) {
	for _, row := range []struct{ said, never string }{
		{"feelers like a leaf", "flat"},
		{"its tail is like a fish", "move"},
		{"wriggles like a little eel", "backbone"},
		{"darts about like a little minnow", "backbone"},
		{"not like a leaf", "flat"},
		{"as big as a grain of rice", "outline"},
		{"the size of a pea", "outline"},
		{"smaller than a coin", "outline"},
		{"a house of dead leaf", "colour"},
		{"like a leaf beetle", "flat"},
		{"house of twigs like a log cabin", "case-shape"},
	} {
		noted, _ := understood(t, row.said)
		if strings.Contains("; "+noted, "; "+row.never+"=") {
			t.Errorf("%q: notes %s", row.said, noted)
		}
	}
}

// A simile is true of the animals that are commonly likened to it: most of them show one
// of its states (common practice; the animals as the catalog has them).
func TestSimilesAreTrueOfWhatIsCalledSo(t *testing.T) {
	c, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	for said, of := range map[string][]string{
		"like a cockroach":      {"peltoperlidae"},
		"like a scorpion":       {"nepidae"},
		"like a mantis":         {"nepidae"},
		"like a comma":          {"gammaridae"},
		"like a bent pin":       {"dixidae"},
		"like a maggot":         {"muscidae", "tipulidae", "stratiomyidae", "tabanidae"},
		"like a leaf":           {"glossiphoniidae", "planariidae"},
		"like a seed":           {"elmidae-adult", "glossiphoniidae", "hydrophilidae-adult"},
		"like a coin":           {"psephenidae"},
		"like a thread":         {"ceratopogonidae", "nematomorpha"},
		"like a woodlouse":      {"asellidae"},
		"like a slug":           {"planariidae", "glossiphoniidae", "tipulidae"},
		"like a bowling pin":    {"simuliidae"},
		"like a piece of tape":  {"planariidae"},
		"like a hat":            {"limpet"},
		"like a clam":           {"sphaeriidae"},
		"like a caterpillar":    {"hydropsychidae", "crambidae", "athericidae", "rhyacophilidae"},
		"like a ball":           {"hydrachnidia"},
		"like a torpedo":        {"tabanidae"},
		"like a drop of blood":  {"hydrachnidia"},
		"like a flea":           {"collembola"},
		"like a piece of glass": {"chaoboridae"},
	} {
		seen, _, err := c.Vocabulary().Understand(said)
		if err != nil || len(seen) == 0 {
			t.Errorf("%q tells nothing: %v", said, err)
			continue
		}
		for _, id := range of {
			taxon := c.Taxon(id)
			if taxon == nil {
				t.Errorf("%q: there is no %s", said, id)
				continue
			}
			for _, one := range seen {
				if !shows(taxon, one) {
					t.Errorf("%q: %s, which %s does not show", said, told([]taxa.Seen{one}), id)
				}
			}
		}
	}
}

// shows reports whether a taxon shows one of the states, as the catalog has it.
func shows(taxon *taxa.Taxon, one taxa.Seen) bool {
	states := taxon.States(one.Trait.ID)
	return len(states) == 0 || slices.ContainsFunc(states, func(s taxa.Weight) bool { return slices.Contains(one.States, s.State) })
}
