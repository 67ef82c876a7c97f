package key_test

import (
	"math"
	"slices"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/taxa"
)

// A part is not asked for before it is likely to be there, nor after it was denied,
// and "none" is offered where it was affirmed only if some animal lacks the part there.
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
				if denied || affirmed && slices.Contains(now.States(), "none") != canLack(m, now.Trait) {
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

// canLack reports whether some kind always shows that on which a part hangs, and can lack
// the part: a coiled shell without a lid.
func canLack(m *key.Model, part *taxa.Trait) bool {
	other := func(states []string) func(taxa.Weight) bool {
		return func(w taxa.Weight) bool { return !slices.Contains(states, w.State) }
	}
	return slices.ContainsFunc(m.Key().Ends(), func(end *taxa.Taxon) bool {
		whole := end.States(part.OnlyIf.Trait)
		return whole != nil && !slices.ContainsFunc(whole, other(part.OnlyIf.States)) &&
			slices.ContainsFunc(end.States(part.ID), func(w taxa.Weight) bool { return w.State == "none" })
	})
}

// That a shell has no lid can be said once its coil is known, and it is asked while the
// side of the opening may have been misread: all with the opening on the left lack one.
func TestALidIsAskedForBesideTheSideOfTheOpening(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	q := inquire(t, m, key.DefaultOptions())
	for _, said := range []string{"legs=0", "shell=coil", "opening=left", "spire=low", "wall=thin"} {
		if err := q.Say(said); err != nil {
			t.Fatal(err)
		}
	}
	for now := q.Question(); now != nil; now = q.Question() {
		if now.Trait != nil && now.Trait.ID == "door" {
			if !slices.Contains(now.States(), "none") {
				t.Errorf("the lid is asked for with %v", now.States())
			}
			return
		}
		if err := q.CantTell(); err != nil {
			t.Fatal(err)
		}
	}
	t.Error("nobody asks whether there is a lid")
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
