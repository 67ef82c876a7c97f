package key_test

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
)

// A path is said again word for word, whichever way the questions came, and
// comes to the same belief.
func TestPathCanBeSaidAgain(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	r := rand.New(rand.NewPCG(5, 21))
	open, heard, looked := 0, 0, 0
	for i := range 60 {
		o := key.DefaultOptions()
		o.NoLens = r.IntN(2) == 0
		if i%2 == 0 {
			o.Order = key.Shortest
		}
		q := inquire(t, m, o)
		for range r.IntN(14) {
			sayByChance(t, q, r)
		}
		if i%5 == 0 {
			q.Stop()
		}
		path := strings.Join(q.Path(), " ")
		open += strings.Count(path, key.Unsure)
		heard += strings.Count(path, "said:")
		looked += strings.Count(path, "/")
		again := told(t, m, path)
		if got := strings.Join(again.Path(), " "); got != path {
			t.Errorf("%q said again is %q", path, got)
		}
		if !approxEqual(probabilities(again), probabilities(q), single) {
			t.Errorf("%q said again comes to another belief", path)
		}
		if a, b := again.Verdict(), q.Verdict(); a.Taxon != b.Taxon || a.Level != b.Level || a.Class != b.Class {
			t.Errorf("%q said again is %s (%s, %s), not %s (%s, %s)", path, a.Taxon, a.Level, a.Class, b.Taxon, b.Level, b.Class)
		}
	}
	if open == 0 || heard == 0 || looked == 0 {
		t.Errorf("of all paths %d left something open, %d heard own words, %d looked again", open, heard, looked)
	}
}

// sayByChance goes one step on, says something in own words, or looks at an answer again.
func sayByChance(t *testing.T, q *key.Inquiry, r *rand.Rand) {
	t.Helper()
	traits, given := q.Model().Key().Catalog().Vocabulary().Traits(), q.Given()
	switch n := r.IntN(8); {
	case n == 0:
		trait := traits[r.IntN(len(traits))]
		if err := q.Hear(trait.ID, trait.States[r.IntN(len(trait.States))].ID); err != nil {
			t.Fatal(err)
		}
	case n == 1 && len(given) > 0:
		i := r.IntN(len(given))
		pick := key.Unsure
		if now := given[i].Question; now.Couplet != nil {
			pick = now.Couplet.Leads[r.IntN(len(now.Couplet.Leads))].Letter
		} else if now.Trait != nil {
			pick = now.Trait.States[r.IntN(len(now.Trait.States))].ID
		}
		_ = q.Reask(i, pick) // a length is no question
	default:
		step(t, q, r)
	}
}

func TestSaidInManyWays(t *testing.T) {
	m := fileModel(t, small(t))
	for _, row := range []struct{ said, path string }{
		{"tails?", "tails?"},
		{"tails=2,3", "tails=2+3"}, // as older paths have it
		{"tails=2+3", "tails=2+3"},
		{"1a stop", "1a stop"},
		{"2? 1b", "2? 1b"},
		{"said:tails=2", "said:tails=2"},
		{"said:tails=2,3 said:tails=2", "said:tails=2+3 said:tails=2"},
		{"1a/b", "1a/b"},
		{"1a/a/b/b", "1a/b/b"}, // of what did not stand one look counts
		{"tails=2/3+2/3+2", "tails=2/3+2/3+2"},
		{"tails=2/?", "tails?"},
	} {
		if got := told(t, m, row.said).Path(); !slices.Equal(got, strings.Fields(row.path)) {
			t.Errorf("%q is kept as %v, want %s", row.said, got, row.path)
		}
	}
}

// What cannot be said leaves the inquiry as it was.
func TestWhatCannotBeSaidChangesNothing(t *testing.T) {
	m := fileModel(t, small(t))
	for _, text := range []string{"said:1a", "said:", "said:tails", "said:tails=", "said:tail=2", "said:length=12", "1a/z", "1a/",
		"tails=2/9", "length=12/13", "stop/a", "/", "/a", "said:tails=2/"} {
		q := told(t, m, "1b")
		if err := q.Say(text); err == nil || strings.Join(q.Path(), " ") != "1b" {
			t.Errorf("%q: %v, path %q", text, err, q.Path())
		}
	}
}
