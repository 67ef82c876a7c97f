package key_test

import (
	"slices"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
)

// What nobody overlooks or makes up is believed when it is the first thing said;
// only the marks of rare kinds that common ones are read as may be doubted.
func TestWhatIsStrikingIsBelieved(t *testing.T) {
	k := keytest.Key(t)
	m := fileModel(t, k)
	all, doubted := 0, 0
	for _, trait := range k.Catalog().Vocabulary().Traits() {
		for _, state := range trait.States {
			if !state.Striking {
				continue
			}
			q := inquire(t, m, key.DefaultOptions())
			if err := q.Observe(trait.ID, state.ID); err != nil {
				t.Fatal(err)
			}
			all++
			switch p := q.Suspects()[0].Probability; {
			case p > 0.8:
				t.Errorf("%s=%s said alone is taken for misread at %.2f", trait.ID, state.ID, p)
			case p > 0.5:
				doubted++
			}
		}
	}
	if all < 50 || doubted*8 > all {
		t.Errorf("%d of %d striking states are doubted when said alone", doubted, all)
	}
}

// A striking state is read where it is not only where the vocabulary says so.
func TestWhatIsStrikingIsNotMadeUp(t *testing.T) {
	v := keytest.Key(t).Catalog().Vocabulary()
	readings := key.FileRates(v).Readings(v.Trait("shell"))
	none, cap := v.Trait("shell").State("none"), v.Trait("shell").State("cap")
	if slices.Contains(v.Trait("shell").States[none].MistakenFor, "cap") {
		t.Skip("the vocabulary takes no shell for a cap")
	}
	if got := readings[none][cap]; got > 0.001 {
		t.Errorf("no shell is read as a cap %.4f of the times", got)
	}
	for i, row := range readings {
		sum := 0.0
		for _, p := range row {
			sum += p
		}
		if sum < 1-1e-12 || sum > 1+1e-12 {
			t.Errorf("the readings of state %d sum to %v", i, sum)
		}
	}
}

// The first things offered are what a trainer would ask first, each but once.
func TestWhatStrikesIsOffered(t *testing.T) {
	k := keytest.Key(t)
	q := inquire(t, fileModel(t, k), key.DefaultOptions())
	features := q.Striking(9)
	if len(features) != 9 {
		t.Fatalf("%d features are offered first", len(features))
	}
	seen := map[string]bool{}
	for _, f := range features {
		name := f.Trait.ID + "=" + f.State
		if !f.Trait.States[f.Trait.State(f.State)].Striking || f.Trait.Look == "lens" || seen[name] || !(f.Chance > 0 && f.Chance < 1) {
			t.Errorf("%s is offered at %v", name, f.Chance)
		}
		seen[name] = true
	}
	for _, want := range []string{"tails=3", "case=carried", "shell=coil"} {
		if !seen[want] {
			t.Errorf("%s is not offered first", want)
		}
	}
	if err := q.Observe("shell", "coil"); err != nil {
		t.Fatal(err)
	}
	for _, f := range q.Striking(9) {
		if f.Trait.ID == "shell" || f.Trait.ID == "tails" {
			t.Errorf("%s=%s is offered for a snail", f.Trait.ID, f.State)
		}
	}
}

func BenchmarkStriking(b *testing.B) {
	k := keytest.Key(b)
	m, err := k.Model(key.FileRates(k.Catalog().Vocabulary()))
	if err != nil {
		b.Fatal(err)
	}
	q, err := m.Inquire(key.DefaultOptions())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		q.Striking(9)
	}
}
