package main

import (
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
		f := demo.Animals{Taxon: animal}
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
