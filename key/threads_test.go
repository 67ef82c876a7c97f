package key_test

import (
	"slices"
	"testing"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/keytest"
)

// Observers call a bloodworm thin as a thread as well as a worm (accounts of live animals);
// head and stub legs part them, never how thin they are (common practice).
func TestAThreadThinAnimalIsNamedByItsHead(t *testing.T) {
	t.Parallel()
	red := []string{"outline=thread", "colour=red", "move=thrash"}
	pale := []string{"outline=thread", "colour=pale", "move=thrash"}
	for _, file := range []string{couplets.DefaultName, "north-west-europe.toml"} {
		sound, catalog := keytest.Sound(t, file)
		m, err := key.Compile(sound, catalog).Model(key.FileRates(catalog.Vocabulary()))
		if err != nil {
			t.Fatal(err)
		}
		for _, test := range []struct {
			seen  []string
			taxon string // its name; empty where none is sure
		}{
			{red, ""},
			{append(slices.Clone(red), "head=none"), "oligochaeta"},
			{append(slices.Clone(red), "head=capsule"), "chironomidae-red"},
			{append(slices.Clone(red), "prolegs=ends"), "chironomidae-red"},
			{pale, ""},
			{append(slices.Clone(pale), "head=none", "rings=rings"), "oligochaeta"},
			{append(slices.Clone(pale), "head=capsule", "prolegs=ends"), "chironomidae"},
			{append(slices.Clone(pale), "head=capsule", "legs=0", "prolegs=none", "skin=hard"), "ceratopogonidae"},
		} {
			v := verdictOf(t, m, test.seen)
			if v.Taxon != test.taxon && (test.taxon == "" || !catalog.IsUnder(v.Taxon, test.taxon)) {
				t.Errorf("%s: %v is %q at %.3f, most likely %q", file, test.seen, v.Taxon, v.Probability, v.Likeliest)
			}
		}
		long := func(t *testing.T, q *key.Inquiry) {
			if err := q.ObserveLength(40); err != nil {
				t.Fatal(err)
			}
		}
		if v := verdictOf(t, m, append(slices.Clone(red), "rings=rings"), long); v.Taxon != "oligochaeta" {
			t.Errorf("%s: a red thread 40 mm long is %q at %.3f", file, v.Taxon, v.Probability)
		}
	}
}
