package taxa_test

import (
	"os"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/taxa"
)

// A card holds for what lies beneath its taxon, but for resting stages.
func TestCardsHoldForWhatLiesBeneath(t *testing.T) {
	c := embedded(t)
	for id, want := range map[string]string{
		"ephemeroptera": "ephemeroptera", "mayfly-tailless": "ephemeroptera", "uenoidae": "caddisfly-case",
		"baetidae": "baetidae", "chironomidae-red": "chironomidae",
		"simuliidae-pupa": "", "insecta": "", "terrestrial-insect": "", "nothing": "",
	} {
		got := ""
		if card := c.Card(id); card != nil {
			got = card.Taxon
		}
		if got != want {
			t.Errorf("the card of %s is that of %q, not of %q", id, got, want)
		}
	}
	if c.InRegion(c.RegionNamed("north-west-europe")).Card("siphlonuridae") == nil {
		t.Error("a region has no cards")
	}
}

const cardWords = `life = "a"
food = "b"
tells = "c"
silent = "d"
try = "e"
source = "f"
`

func TestCardsAreReadStrictly(t *testing.T) {
	sound := "[card.isonychiidae]\n" + cardWords +
		"eats = [\"hunter\"]\nstatus = \"memory\"\nmarks = { tails = \"none\", claws = \"small\" }\n"
	for _, row := range []struct{ why, from, to, want string }{
		{"sound", "", "", ""},
		{"another taxon", "isonychiidae", "flea", `cards.toml:1:1: unknown-taxon: there is no taxon "flea"`},
		{"another way to eat", `"hunter"`, `"gobbler"`, `cards.toml:8:9: unknown-eats: there is no way to eat "gobbler"`},
		{"another status", `"memory"`, `"sure"`, `unknown-status: there is no status "sure"`},
		{"another trait", "claws =", "clawz =", `cards.toml:10:27: unknown-trait`},
		{"one mark", `, claws = "small"`, "", "not-two-marks: a card has two marks, not 1"},
		{"a long mark", "small", strings.Repeat("long ", 20), "long-mark: this mark has 100 characters"},
		{"no source", `source = "f"`, "", "missing-field"},
		{"another field", `try = "e"`, "try = \"e\"\ntries = \"e\"", "unknown-field"},
	} {
		t.Run(row.why, func(t *testing.T) {
			text := strings.Replace(sound, row.from, row.to, 1)
			_, err := taxa.Load(fstest.MapFS{
				"traits.toml": {Data: []byte(traits)}, "animals.toml": {Data: []byte(animals)}, "cards.toml": {Data: []byte(text)},
			}, "")
			switch {
			case row.want == "" && err != nil:
				t.Error(err)
			case row.want != "" && (err == nil || !strings.Contains(err.Error(), row.want)):
				t.Errorf("%v, want %s", err, row.want)
			}
		})
	}
}

// The cards inside the program are read when one is wanted, without a word about what
// is wrong with them: here they are read as anybody's are.
func TestTheCardsInsideTheProgramAreSound(t *testing.T) {
	t.Parallel()
	c, err := taxa.Load(os.DirFS("."), "")
	if err != nil {
		t.Fatal(err)
	}
	own, err := taxa.Embedded()
	if err != nil || len(c.Cards()) == 0 || !reflect.DeepEqual(c.Cards(), own.Cards()) {
		t.Errorf("%v: %d cards, and %d inside the program", err, len(c.Cards()), len(own.Cards()))
	}
}
