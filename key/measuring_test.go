package key_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/taxa"
)

// Whoever can tell about half of what is asked is asked for the length before the name,
// once, and never after it, where it would come too late to speak against it.
func TestTheLengthIsAskedBeforeTheName(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	m := fileModel(t, keytest.Key(t))
	r := rand.New(rand.NewPCG(15, 3))
	changed := 0
	for _, animal := range m.Key().Ends() {
		if !animal.Length.Known() {
			continue
		}
		q := inquire(t, m, key.DefaultOptions())
		tellHalf(t, q, animal, r)
		before := q.Verdict()
		if !q.LengthFirst() {
			t.Errorf("%s: at the name %q nobody has asked for the length", animal.ID, before.Taxon)
		}
		if err := q.ObserveLength(math.Sqrt(animal.Length.Min * animal.Length.Max)); err != nil {
			t.Fatal(err)
		}
		if q.LengthFirst() {
			t.Errorf("%s: the length is asked for again", animal.ID)
		}
		if after := q.Verdict(); before.Taxon != after.Taxon || before.Class != after.Class {
			changed++
		}
	}
	if changed == 0 {
		t.Error("no length changed a name or a class")
	}
}

// tellHalf answers all that is asked until nothing more is, half of the times with "can't
// tell", else as the catalog has it; the length is left open.
func tellHalf(t *testing.T, q *key.Inquiry, animal *taxa.Taxon, r *rand.Rand) {
	t.Helper()
	for now := q.Question(); now != nil; now = q.Question() {
		pick := key.Unsure
		if r.IntN(2) == 0 {
			pick = tellOf(now, animal)
		}
		if err := q.Answer(pick); err != nil {
			t.Fatal(err)
		}
	}
}

// tellOf is what the animal most often shows of what is asked, or "can't tell".
func tellOf(now *key.Question, animal *taxa.Taxon) string {
	pick, most := key.Unsure, 0.0
	if now.Couplet != nil {
		for _, l := range now.Couplet.Leads {
			fits := 1.0
			for _, c := range l.Conditions {
				fits *= shareShown(animal, c.Trait, c.States)
			}
			if fits > most {
				pick, most = l.Letter, fits
			}
		}
		return pick
	}
	for _, s := range now.States() {
		if fits := shareShown(animal, now.Trait.ID, []string{s}); fits > most {
			pick, most = s, fits
		}
	}
	return pick
}

// shareShown is the share of a kind's animals that show one of the states; 0 where that is
// not known.
func shareShown(animal *taxa.Taxon, trait string, states []string) (share float64) {
	for _, w := range animal.States(trait) {
		for _, s := range states {
			if w.State == s {
				share += w.Share
			}
		}
	}
	return share
}
