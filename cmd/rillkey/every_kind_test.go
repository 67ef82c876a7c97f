package main

import (
	"io/fs"
	"math/rand/v2"
	"slices"
	"testing"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/taxa"
	"rillkey/taxa/bitset"
)

// Of each kind of each built-in key some animal is named, to the kind or to a set
// that the key does not part, if its traits are answered truly: no end point is
// there for show. A kind of which the first ones are not named is reported.
func TestEveryKindIsNamedByTrueAnswers(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	files, err := fs.Glob(couplets.Embedded(), "*.toml")
	if err != nil || len(files) < 2 {
		t.Fatal(files, err)
	}
	const animals = 12
	for _, file := range files {
		sound, catalog := keytest.Sound(t, file)
		m, err := key.Compile(sound, catalog).Model(key.FileRates(catalog.Vocabulary()))
		if err != nil {
			t.Fatal(err)
		}
		random := rand.New(rand.NewPCG(1, 2))
		for _, end := range sound.Ends {
			named, tried := false, 0
			for tried = 0; tried < animals && !named; tried++ {
				v := answeredTruly(t, m, end, random)
				named = v.Level == key.ToKind && v.Taxon == end.ID || v.Level == key.ToSet && slices.Contains(v.Set, end.ID) ||
					v.Level == key.ToGroup && nameOfASet(sound, catalog, v.Taxon)
			}
			if !named {
				t.Errorf("%s: of %d %s none was named", file, animals, end.ID)
			} else if tried > 2 {
				t.Logf("%s: %s was named at the %dth", file, end.ID, tried)
			}
		}
	}
}

// nameOfASet reports whether a name holds just the kinds of one end of the key.
func nameOfASet(sound *couplets.Sound, catalog *taxa.Catalog, name string) bool {
	return slices.ContainsFunc(sound.Shared(), func(set bitset.Set) bool {
		for i, end := range sound.Ends {
			if set.Has(i) != catalog.IsUnder(end.ID, name) {
				return false
			}
		}
		return true
	})
}

// answeredTruly is what comes of an animal of a kind, drawn from the trait table,
// of which every question is answered as it is.
func answeredTruly(t *testing.T, m *key.Model, end *taxa.Taxon, random *rand.Rand) key.Verdict {
	t.Helper()
	shown := map[string]string{}
	shows := func(trait string) string {
		if _, drawn := shown[trait]; !drawn {
			left := random.Float64()
			for _, w := range end.States(trait) {
				if shown[trait] = w.State; left < w.Share {
					break
				}
				left -= w.Share
			}
		}
		return shown[trait]
	}
	q, err := m.Inquire(key.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	for now := q.Question(); now != nil; now = q.Question() {
		answer := key.Unsure
		if now.Couplet == nil {
			if s := shows(now.Trait.ID); s != "" {
				answer = s
			}
		} else {
			for _, lead := range now.Couplet.Leads {
				if !slices.ContainsFunc(lead.Conditions,
					func(c couplets.Condition) bool { return !slices.Contains(c.States, shows(c.Trait)) }) {
					answer = lead.Letter
				}
			}
		}
		if err := q.Answer(answer); err != nil {
			t.Fatal(err)
		}
	}
	return q.Verdict()
}
