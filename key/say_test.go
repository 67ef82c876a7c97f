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
	open := 0
	for i := range 60 {
		o := key.DefaultOptions()
		o.NoLens = r.IntN(2) == 0
		if i%2 == 0 {
			o.Order = key.Shortest
		}
		q := inquire(t, m, o)
		for range r.IntN(14) {
			step(t, q, r)
		}
		if i%5 == 0 {
			q.Stop()
		}
		path := strings.Join(q.Path(), " ")
		open += strings.Count(path, key.Unsure)
		again := told(t, m, path)
		if got := strings.Join(again.Path(), " "); got != path {
			t.Errorf("%q said again is %q", path, got)
		}
		if !approxEqual(probabilities(again), probabilities(q), single) {
			t.Errorf("%q said again comes to another belief", path)
		}
	}
	if open == 0 {
		t.Error("no path left anything open")
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
	} {
		if got := told(t, m, row.said).Path(); !slices.Equal(got, strings.Fields(row.path)) {
			t.Errorf("%q is kept as %v, want %s", row.said, got, row.path)
		}
	}
}
