package key_test

import (
	"math"
	"slices"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/taxa"
)

// usual is the state that most animals of a taxon show, "" where it is unknown.
func usual(t *taxa.Taxon, trait string) string {
	best := taxa.Weight{}
	for _, w := range t.States(trait) {
		if w.Share > best.Share {
			best = w
		}
	}
	return best.State
}

// answers lets an animal that is as most of its taxon answer a check.
func answers(t *testing.T, q *key.Inquiry, animal *taxa.Taxon) {
	t.Helper()
	for q.Question() != nil {
		next(t, q, animal)
	}
}

// next answers the present question for an animal, truthfully.
func next(t *testing.T, q *key.Inquiry, animal *taxa.Taxon) {
	t.Helper()
	now, pick := q.Question(), key.Unsure
	if now.Trait != nil && usual(animal, now.Trait.ID) != "" {
		pick = usual(animal, now.Trait.ID)
	}
	if now.Couplet != nil {
		for _, l := range now.Couplet.Leads {
			fits := true
			for _, c := range l.Conditions {
				fits = fits && slices.Contains(c.States, usual(animal, c.Trait))
			}
			if fits {
				pick = l.Letter
			}
		}
	}
	if err := q.Answer(pick); err != nil {
		t.Fatal(err)
	}
}

// Every end point is checked as what it is, and as what it is mistaken for.
func TestCheckingANameTellsRightFromWrong(t *testing.T) {
	k := keytest.Key(t)
	m := fileModel(t, k)
	o := key.DefaultOptions()
	checked, unsure := 0, 0
	for i, end := range k.Ends() {
		if i%keytest.Times(1, 4) > 0 {
			continue
		}
		q, err := m.Check(end.ID, o)
		if err != nil {
			t.Fatal(err)
		}
		if c := q.Checked(); math.Abs(c.Probability-0.5) > single || math.Abs(c.AgainstRival-0.5) > single || c.Outcome != key.CheckOpen {
			t.Errorf("%s before anything was seen: %+v", end.ID, c)
		}
		answers(t, q, end)
		switch c := q.Checked(); c.Outcome {
		case key.CheckRefuted:
			t.Errorf("%s, as it is, is refuted: %v", end.ID, q.Path())
		case key.CheckOpen:
			unsure++
			t.Logf("%s, as it is, is left open: %.2f, against %s %.2f", end.ID, c.Probability, c.Rival, c.AgainstRival)
		}
		for _, wrong := range end.Mistaken {
			if k.Catalog().IsUnder(end.ID, wrong.Taxon) || k.Catalog().IsUnder(wrong.Taxon, end.ID) {
				continue
			}
			q, err := m.Check(wrong.Taxon, o)
			if err != nil {
				continue // the key does not lead to it
			}
			answers(t, q, end)
			checked++
			if c := q.Checked(); c.Outcome == key.CheckConfirmed {
				t.Errorf("%s passes for %s: %v", end.ID, wrong.Taxon, q.Path())
			}
		}
	}
	if checked == 0 {
		t.Error("nothing was checked against what it is mistaken for")
	}
	t.Logf("%d end points, %d left open; of %d mistaken names none is confirmed", len(k.Ends()), unsure, checked)
}

// A proof says only what is true of the taxon, and leaves no rival as likely.
func TestProofs(t *testing.T) {
	k := keytest.Key(t)
	m := fileModel(t, k)
	o := key.DefaultOptions()
	prior := k.Prior()
	for i, end := range k.Ends() {
		if i%keytest.Times(1, 4) > 0 {
			continue
		}
		features, settled, err := m.Proof(end.ID, o)
		if err != nil || len(features) == 0 {
			t.Fatalf("%s: %v, %v", end.ID, features, err)
		}
		q := inquire(t, m, o)
		for _, f := range features {
			for _, w := range end.States(f.Trait.ID) {
				if !slices.Contains(f.States, w.State) {
					t.Errorf("%s: the proof forbids %s %s, which it shows", end.ID, f.Trait.ID, w.State)
				}
			}
			if err := q.Observe(f.Trait.ID, f.States...); err != nil {
				t.Fatal(err)
			}
		}
		if !settled {
			continue
		}
		p := probabilities(q)
		for j, rival := range k.Ends() {
			odds := p[i] / prior[i] / (p[j] / prior[j])
			if i != j && !k.Catalog().IsUnder(rival.ID, end.ID) && odds < 0.99*o.Required/(1-o.Required) {
				t.Errorf("%s: settled, but %s is only %.1f times less likely", end.ID, rival.ID, odds)
			}
		}
	}
	for _, wrong := range []string{"no-such", ""} {
		if _, _, err := m.Proof(wrong, o); err == nil {
			t.Errorf("a proof of %q", wrong)
		}
	}
}

// All that separates two end points for certain is named, and the more visible
// stands before the less.
func TestComparing(t *testing.T) {
	k := keytest.Key(t)
	m := fileModel(t, k)
	looks := []taxa.Look{taxa.Eye, taxa.Patience, taxa.Lens}
	for i, a := range k.Ends() {
		b := k.Ends()[(i+7)%len(k.Ends())]
		found := m.Compare(a.ID, b.ID)
		for _, trait := range k.Catalog().TellApart(a, b) {
			if trait.Misread <= 0.2 && !slices.ContainsFunc(found, func(c key.Contrast) bool { return c.Trait == trait }) {
				t.Errorf("%s and %s: %s is missing", a.ID, b.ID, trait.ID)
			}
		}
		for j, c := range found {
			if c.Separation < 0 || c.Separation > 1 {
				t.Errorf("%s and %s by %s: %v", a.ID, b.ID, c.Trait.ID, c.Separation)
			}
			if j > 0 && slices.Index(looks, found[j-1].Trait.Look) > slices.Index(looks, c.Trait.Look) {
				t.Errorf("%s and %s: %s stands before %s", a.ID, b.ID, found[j-1].Trait.ID, c.Trait.ID)
			}
		}
		if len(m.Compare(a.ID, a.ID)) > 0 {
			t.Errorf("%s differs from itself", a.ID)
		}
	}
	if m.Compare("no-such", k.Ends()[0].ID) != nil {
		t.Error("something is told from a taxon that is not there")
	}
}

// By hand for smallTaxa: tails of a stonefly are two, of a clinger three, read
// rightly in 0.99 x 0.9 + 0.01/3 and as each other in 0.99 x 0.05 + 0.01/3; the
// two distributions differ by 0.99 x 0.85.
func TestSeparationByHand(t *testing.T) {
	c := fileModel(t, small(t)).Compare("stonefly", "clinger")
	if len(c) != 1 || c[0].Trait.ID != "tails" || math.Abs(c[0].Separation-0.99*0.85) > 1e-12 {
		t.Errorf("%+v", c)
	}
}
