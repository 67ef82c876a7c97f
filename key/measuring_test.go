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
// where the animal's own length would change the name or the class.
func TestTheLengthIsAskedBeforeTheNameThatItChanges(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	m := fileModel(t, keytest.Key(t))
	r := rand.New(rand.NewPCG(15, 3))
	late, early, needless := 0, 0, 0
	for range 2 {
		for _, animal := range m.Key().Ends() {
			if !animal.Length.Known() {
				continue
			}
			q := inquire(t, m, key.DefaultOptions())
			tellHalf(t, q, animal, r)
			first, before := q.LengthFirst(), q.Verdict()
			if err := q.ObserveLength(math.Sqrt(animal.Length.Min * animal.Length.Max)); err != nil {
				t.Fatal(err)
			}
			after := q.Verdict()
			switch changed := before.Taxon != after.Taxon || before.Class != after.Class; {
			case changed && first:
				early++
			case changed:
				late++
			case first:
				needless++
			}
		}
	}
	if early < 2*late || early == 0 {
		t.Errorf("of %d names and classes that the length changed it was asked for before %d", early+late, early)
	}
	if needless > 8*early {
		t.Errorf("it was asked for %d times for nothing, and %d times not", needless, early)
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
