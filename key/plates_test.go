package key_test

import (
	"testing"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/keytest"
)

// Beginners count a damselfly's three plates as tails: three tails alone are not yet a
// mayfly, a slender body with long ones not yet of a mayfly's class; what else they see
// of it tells which (common practice).
func TestThreeTailsAloneAreNoMayfly(t *testing.T) {
	t.Parallel()
	both := []string{couplets.DefaultName, "north-west-europe.toml"}
	for _, test := range []struct {
		seen        []string
		keys        []string
		taxon       string
		open        bool // no class is sure
		likeliestIn string
	}{
		{seen: []string{"tails=3", "legs=6"}, keys: both},
		{seen: []string{"tails=3", "legs=6", "outline=long"}, keys: both, open: true},
		{seen: []string{"tails=3", "legs=6", "outline=long", "tail-length=long"}, keys: both, open: true},
		{seen: []string{"tails=3", "leg-length=long", "tail-length=long", "tail-hair=fringed"}, keys: both, open: true},
		{seen: []string{"tails=3", "legs=6", "outline=long", "gills=none"}, keys: both, open: true},
		{seen: []string{"tails=3", "legs=6", "outline=long", "eyes=big"}, keys: both[:1], taxon: "zygoptera"},
		{seen: []string{"tails=3", "legs=6", "outline=long", "eyes=big"}, keys: both, likeliestIn: "zygoptera"},
		{seen: []string{"tails=3", "legs=6", "gills=sides"}, keys: both, taxon: "ephemeroptera", likeliestIn: "ephemeroptera"},
	} {
		for _, file := range test.keys {
			sound, catalog := keytest.Sound(t, file)
			m, err := key.Compile(sound, catalog).Model(key.FileRates(catalog.Vocabulary()))
			if err != nil {
				t.Fatal(err)
			}
			v := verdictOf(t, m, test.seen)
			if test.likeliestIn == "" && v.Taxon != test.taxon || test.open && v.Class != "" {
				t.Errorf("%s: %v is %q at %.3f, class %q at %.3f", file, test.seen, v.Taxon, v.Probability, v.Class, v.ClassProbability)
			}
			if over := verdictOf(t, m, test.seen, untold); test.open && over.Class != "" && !catalog.IsUnder(over.Taxon, "ephemeroptera") {
				t.Errorf("%s: %v and nothing else has the class %q at %.3f", file, test.seen, over.Class, over.ClassProbability)
			}
			if test.likeliestIn != "" && !catalog.IsUnder(v.Likeliest, test.likeliestIn) {
				t.Errorf("%s: %v is most likely %q", file, test.seen, v.Likeliest)
			}
		}
	}
}

// untold says to all that is asked that it cannot be told.
func untold(t *testing.T, q *key.Inquiry) { askedFor(t, q) }

// verdictOf is what these things, seen unasked, come to, and what is done then.
func verdictOf(t *testing.T, m *key.Model, seen []string, then ...func(*testing.T, *key.Inquiry)) key.Verdict {
	t.Helper()
	q, err := m.Inquire(key.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	for _, one := range seen {
		if err := q.Say(one); err != nil {
			t.Fatal(err)
		}
	}
	for _, do := range then {
		do(t, q)
	}
	return q.Verdict()
}
