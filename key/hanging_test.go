package key_test

import (
	"math"
	"slices"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
)

// A part is not asked for before it is likely to be there, nor after it was denied,
// and "none" is not offered where it was affirmed.
func TestPartsAreAskedForWhereTheyAre(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	vocabulary := m.Key().Catalog().Vocabulary()
	for _, said := range []string{"legs=0", "legs=6", "tails=3", "case=carried", "shell=coil", "wings=pads", "gills=none",
		"wings=none", "colour=brown"} {
		o := key.DefaultOptions()
		o.Order, o.Most = key.Shortest, 1000
		q := inquire(t, m, o)
		if err := q.Say(said); err != nil {
			t.Fatal(err)
		}
		known := map[string]bool{}
		for now := q.Question(); now != nil; now = q.Question() {
			if now.Trait != nil && now.Trait.OnlyIf != nil {
				whole := vocabulary.Trait(now.Trait.OnlyIf.Trait)
				denied, affirmed := hangs(q, whole.ID, now.Trait.OnlyIf.States)
				if denied || affirmed && slices.Contains(now.States(), "none") {
					t.Errorf("after %v it asks %s with %v", q.Path(), now.ID(), now.States())
				}
				known[now.ID()] = true
			}
			if err := q.CantTell(); err != nil {
				t.Fatal(err)
			}
		}
		if (said == "legs=0" || said == "colour=brown") && known["leg-length"] {
			t.Errorf("after %s it asks how long the legs are", said)
		}
	}
}

// hangs reports whether what was said of a trait leaves none of the states, or
// nothing else.
func hangs(q *key.Inquiry, trait string, states []string) (denied, affirmed bool) {
	for _, g := range q.Given() {
		for _, c := range g.Says {
			if c.Trait != trait {
				continue
			}
			in := slices.ContainsFunc(c.States, func(s string) bool { return slices.Contains(states, s) })
			out := slices.ContainsFunc(c.States, func(s string) bool { return !slices.Contains(states, s) })
			denied, affirmed = denied || !in, affirmed || !out
		}
	}
	return denied, affirmed
}

// That there are no wing flaps is said once, in whatever words; and a kind of which
// some show gills is not doubted twice for showing them.
func TestThatAPartIsThereCountsOnce(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	once, twice := inquire(t, m, key.DefaultOptions()), inquire(t, m, key.DefaultOptions())
	for _, said := range []string{"tails=2", "wings=none"} {
		if err := once.Say(said); err != nil {
			t.Fatal(err)
		}
		if err := twice.Say(said); err != nil {
			t.Fatal(err)
		}
	}
	if err := twice.Say("pads=none"); err != nil {
		t.Fatal(err)
	}
	for i, p := range probabilities(once) {
		if math.Abs(p-probabilities(twice)[i]) > 1e-12 {
			t.Fatalf("%v: %v, and without the flaps %v", m.Key().Ends()[i].ID, probabilities(twice)[i], p)
		}
	}
}
