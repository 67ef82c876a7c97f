package key_test

import (
	"slices"
	"strings"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
)

// What was told to the key of kinds is known to a region's key, and the path that a
// record keeps of it can be followed there.
func TestAnotherKeyGoesOnWithWhatWasTold(t *testing.T) {
	t.Parallel()
	sound, catalog := keytest.Sound(t, "kinds.toml")
	few, err := key.Compile(sound, catalog).Model(key.FileRates(catalog.Vocabulary()))
	if err != nil {
		t.Fatal(err)
	}
	o := key.DefaultOptions()
	o.InTraits = true
	q, err := few.Inquire(o)
	if err != nil {
		t.Fatal(err)
	}
	for _, said := range []string{"1a", "2?", "tails=2+3/3", "length=9", "said:wings=none"} {
		if err := q.Say(said); err != nil {
			t.Fatal(err)
		}
	}
	path := []string{"legs=6", "tails?", "tails=2+3/3", "length=9", "said:wings=none"}
	if got := q.Kept().Path; !slices.Equal(got, path) {
		t.Errorf("kept is %q, not %q", got, path)
	}
	told, read := whole(t), whole(t)
	if err := q.Retell(told); err != nil {
		t.Fatal(err)
	}
	for _, said := range path {
		if err := read.Say(said); err != nil {
			t.Errorf("%s cannot be followed: %v", said, err)
		}
	}
	if got := strings.Join(told.Path(), " "); got != "legs=6 tails=2+3/3 length=9 said:wings=none" {
		t.Errorf("told is %s", got)
	}
	if a, b := told.Verdict(), read.Verdict(); a.Likeliest != b.Likeliest || a.LikeliestProbability != b.LikeliestProbability {
		t.Errorf("told it is %s (%v), read again %s (%v)", a.Likeliest, a.LikeliestProbability, b.Likeliest, b.LikeliestProbability)
	}
}

func whole(t *testing.T) *key.Inquiry {
	t.Helper()
	q, err := keytest.Model(t).Inquire(key.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	return q
}
