package key_test

import (
	"math"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
)

// A state with a rate of its own is misread so often, and more so by people who misread
// all more often; each row of readings sums to 1.
func TestAStateMayBeMisreadMoreOftenThanItsTrait(t *testing.T) {
	v := keytest.Catalog(t).Vocabulary()
	shell := v.Trait("shell")
	bean, two := shell.State("bean"), shell.State("two")
	own, rates := shell.States[bean].Misread, key.FileRates(v)
	if own <= shell.Misread {
		t.Fatalf("a live bean is misread in %v, shells in %v", own, shell.Misread)
	}
	for _, row := range []struct{ times, wrong float64 }{{1, own}, {0.5, own / 2}, {3, 0.5}} {
		readings := rates.Times(row.times).Readings(shell)
		if got := 1 - readings[bean][bean]; math.Abs(got-row.wrong) > 1e-9 {
			t.Errorf("%v times as often: a live bean is misread in %v, want %v", row.times, got, row.wrong)
		}
		if got := 1 - readings[two][two]; got > row.times*shell.Misread+1e-9 {
			t.Errorf("%v times as often: two halves are misread in %v", row.times, got)
		}
		for s, reads := range readings {
			sum := 0.0
			for _, p := range reads {
				sum += p
			}
			if math.Abs(sum-1) > 1e-9 {
				t.Errorf("%s is read as something in %v", shell.States[s].ID, sum)
			}
		}
	}
}

// Two shell halves that swim are not surely a clam: who sees the halves of a seed shrimp
// says so.
func TestWhatSwimsInTwoHalvesIsNoSureClam(t *testing.T) {
	for _, mm := range []float64{1, 2} {
		q := inquire(t, fileModel(t, keytest.Key(t)), key.DefaultOptions())
		for _, said := range []string{"shell=two", "legs=0", "move=swim"} {
			if err := q.Say(said); err != nil {
				t.Fatal(err)
			}
		}
		if err := q.ObserveLength(mm); err != nil {
			t.Fatal(err)
		}
		v := q.Verdict()
		t.Logf("%v mm: %s %s %.2f, a seed shrimp %.2f", mm, v.Level, v.Taxon, v.Probability, shareOf(q, "ostracoda"))
		if v.Named() && v.Taxon != "ostracoda" {
			t.Errorf("%v mm: %s at %.2f", mm, v.Taxon, v.Probability)
		}
	}
}
