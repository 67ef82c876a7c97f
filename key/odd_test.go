package key_test

import (
	"math"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
)

// What was unlike its kind once may be so again: that a mayfly has two claws says less
// against it where gills on the chest were seen before than where nothing was.
func TestWhatIsOddIsOddInSeveralAnswers(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	told := func(said ...[2]string) *key.Inquiry {
		q := inquire(t, m, key.DefaultOptions())
		for _, s := range said {
			if err := q.Observe(s[0], s[1]); err != nil {
				t.Fatal(err)
			}
		}
		return q
	}
	// Of two kinds the odds, so that the prior and what else is possible drop out.
	odds := func(q *key.Inquiry) float64 { return math.Log(shareOf(q, "perlidae") / shareOf(q, "heptageniidae")) }
	legs, tails, claws := [2]string{"legs", "6"}, [2]string{"tails", "2"}, [2]string{"claws", "2"}
	chest, sides := [2]string{"gills", "chest"}, [2]string{"gills", "sides"}
	head, skin := [2]string{"head", "capsule"}, [2]string{"skin", "part"}
	first := odds(told(legs, head, skin, sides, tails, claws)) - odds(told(legs, head, skin, sides, tails))
	again := odds(told(legs, head, skin, chest, tails, claws)) - odds(told(legs, head, skin, chest, tails))
	t.Logf("%.3f, and %.3f where it was odd before", first, again)
	if again >= first-0.1 {
		t.Errorf("two claws tell %.2f against a mayfly, and %.2f where it was odd before", first, again)
	}
}

// Of a few things that were said nothing can be told of the rest.
func TestAFewAnswersAreNotOdd(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	q := inquire(t, m, key.DefaultOptions())
	for _, s := range [][2]string{{"legs", "6"}, {"tails", "2"}, {"head", "capsule"}, {"skin", "part"}} {
		if err := q.Observe(s[0], s[1]); err != nil {
			t.Fatal(err)
		}
	}
	before := shareOf(q, "perlidae")
	for range 3 {
		if err := q.CantTell(); err != nil {
			t.Fatal(err)
		}
	}
	if after := shareOf(q, "perlidae"); math.Abs(after-before) > 1e-12 {
		t.Errorf("can't tell made %v of %v", after, before)
	}
}
