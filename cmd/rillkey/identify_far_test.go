package main

import (
	"slices"
	"testing"

	"rillkey/cmd/rillkey/demo"
	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/scoring"
)

// To the kinds that a protocol counts, fewer questions are asked than to the ends of
// the key, weighted by how common the animals are; and what the animal counts as in
// the grade is the same.
func TestFarAsTheProtocolCounts(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	m := keytest.Model(t)
	rules, err := scoring.EmbeddedRules(m.Key().Catalog())
	if err != nil {
		t.Fatal(err)
	}
	p, err := rules.Protocol("riffle-three")
	if err != nil {
		t.Fatal(err)
	}
	near := key.DefaultOptions()
	if near.Enough, err = rules.Enough(p.ID); err != nil {
		t.Fatal(err)
	}
	asked := func(o key.Options, animal string) (key.Verdict, int) {
		q, err := m.Inquire(o)
		if err != nil {
			t.Fatal(err)
		}
		f := demo.Catch{Taxon: animal}
		if err := f.Answer(q); err != nil {
			t.Fatal(err)
		}
		return q.Verdict(), q.Questions()
	}
	toEnd, toKind, stopped := 0.0, 0.0, 0
	prior := m.Key().Prior()
	for i, end := range m.Key().Ends() {
		if testing.Short() && i%2 != 0 {
			continue
		}
		whole, n := asked(key.DefaultOptions(), end.ID)
		kind, less := asked(near, end.ID)
		toEnd, toKind = toEnd+prior[i]*float64(n), toKind+prior[i]*float64(less)
		if less > n {
			t.Errorf("%s: %d questions to its kind, %d to its end", end.ID, less, n)
		}
		if less == n {
			continue
		}
		stopped++
		for _, id := range p.Schemes {
			a, b := rules.Scheme(id).Place(whole.Taxon), rules.Scheme(id).Place(kind.Taxon)
			if whole.Taxon != "" && (a.Kind != b.Kind || a.Why != b.Why) {
				t.Errorf("%s: named %s it counts in %s as %+v, named %s as %+v", end.ID, whole.Taxon, id, a, kind.Taxon, b)
			}
		}
	}
	t.Logf("%.2f questions to the kind, %.2f to the end; %d kinds need fewer", toKind, toEnd, stopped)
	if toKind > 0.85*toEnd {
		t.Errorf("%.2f questions to the kind, %.2f to the end", toKind, toEnd)
	}
}

// The key of kinds is all that a sheet of kinds asks for, and no more than that: what
// goes by families, or by scores of families, is not asked by it.
func TestWhatTheKeyOfKindsIsEnoughFor(t *testing.T) {
	t.Parallel()
	sound, catalog := keytest.Sound(t, "kinds.toml")
	rules, err := scoring.EmbeddedRules(catalog)
	if err != nil {
		t.Fatal(err)
	}
	for protocol, want := range map[string]bool{
		"riffle-three": true, "riffle-best": true, "seven-samples": true,
		"riffle-families": false, "all-habitats-three-minutes": false,
	} {
		if got, err := rules.Suffice(protocol, idsOf(sound.Ends)); got != want || err != nil {
			t.Errorf("%s: %v, %v", protocol, got, err)
		}
	}
	if _, err := rules.Suffice("no-such", nil); err == nil {
		t.Error("a protocol that does not exist is asked for something")
	}
}

// The key of kinds has in each region what lives there, and nothing else, and each
// kind of a sheet at least once.
func TestTheKeyOfKindsByRegion(t *testing.T) {
	t.Parallel()
	a := newApp(world{})
	whole, err := a.wholeCatalog()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range whole.Regions() {
		catalog := whole.InRegion(r)
		sound, err := a.couplets(kindsKey, catalog)
		if err != nil {
			t.Fatal(err)
		}
		for _, end := range sound.Ends {
			if !r.Holds(end.ID, catalog) {
				t.Errorf("%s: no %s lives there", r.ID, end.ID)
			}
		}
		rules, err := scoring.EmbeddedRules(catalog)
		if err != nil {
			t.Fatal(err)
		}
		met := map[int]bool{}
		for _, end := range sound.Ends {
			met[rules.Scheme("presence").Place(end.ID).Kind] = true
		}
		for i, kind := range rules.Scheme("presence").Kinds {
			lives := slices.ContainsFunc(kind.Taxa, func(id string) bool { return r.Holds(id, catalog) })
			if lives && !met[i] {
				t.Errorf("%s: the kind %s of the sheet is not in the key", r.ID, kind.Label)
			}
		}
		t.Logf("%s: %d couplets, %d end points", r.ID, len(sound.Couplets), len(sound.Ends))
	}
}
