package key_test

import (
	"slices"
	"testing"

	"rillkey/key"
)

// What nobody overlooks or makes up is believed when it is the first thing said;
// only the marks of rare kinds that common ones are read as may be doubted.
func TestWhatIsStrikingIsBelieved(t *testing.T) {
	k := embeddedKey(t)
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
	if all < 50 || doubted > all/10 {
		t.Errorf("%d of %d striking states are doubted when said alone", doubted, all)
	}
}

// A striking state is read where it is not only where the vocabulary says so.
func TestWhatIsStrikingIsNotMadeUp(t *testing.T) {
	v := embeddedKey(t).Catalog().Vocabulary()
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
