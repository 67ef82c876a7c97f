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

// That something may be odd does not count all at once: what three marks say for a stonefly
// and against a mayfly loses some of its weight with the fifth thing known, which fits both,
// and more with the sixth and seventh.
func TestWhatMayBeOddCountsLittleByLittle(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	odds := func(and ...string) float64 {
		q := inquire(t, m, key.DefaultOptions())
		for _, said := range append([]string{"legs=6", "gills=chest", "tails=2", "claws=2"}, and...) {
			if err := q.Say(said); err != nil {
				t.Fatal(err)
			}
		}
		return math.Log(shareOf(q, "perlidae") / shareOf(q, "heptageniidae"))
	}
	four, five, seven := odds(), odds("shell=none"), odds("shell=none", "case=none", "suckers=none")
	t.Logf("%.3f, %.3f, %.3f", four, five, seven)
	if lost := four - seven; lost < 0.5 || four-five > 0.7*lost || four-five < 0.1*lost {
		t.Errorf("the odds are %.2f with four things known, %.2f with five and %.2f with seven", four, five, seven)
	}
}

// A name is asked on about until it is at 0.99, where answers may lean on each other; not
// where people are as they are told, nor where no more is asked than a name must have.
func TestANameIsAskedOnWhereAnswersMayLeanOnEachOther(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	k := keytest.Key(t)
	even := model(t, k, key.EvenRates(k.Catalog().Vocabulary(), 0.1))
	atOnce := key.DefaultOptions()
	atOnce.Settle = atOnce.Required
	for _, test := range []struct {
		why   string
		m     *key.Model
		o     key.Options
		above float64 // nothing is asked from here on, once three traits are known
		on    bool    // something is asked from 0.97 on
	}{
		{"usual people", fileModel(t, k), key.DefaultOptions(), 0.99, true},
		{"people as they are told", even, key.DefaultOptions(), 0.97, false},
		{"no more than a name must have", fileModel(t, k), atOnce, 0.9, false},
	} {
		on := 0
		for i, end := range k.Ends() {
			if i%3 != 0 {
				continue
			}
			test.o.Order = key.Shortest
			q := inquire(t, test.m, test.o)
			for now := q.Question(); now != nil; now = q.Question() {
				p := q.Verdict().LikeliestProbability
				if p >= test.above && traitsSaid(q) >= 3 {
					t.Errorf("%s: %s is at %.3f, and %s is asked", test.why, q.Verdict().Likeliest, p, now.ID())
				}
				if p >= 0.97 && traitsSaid(q) >= 3 {
					on++
				}
				next(t, q, end)
			}
		}
		if (on > 0) != test.on {
			t.Errorf("%s: asked on %d times from 0.97 on", test.why, on)
		}
	}
}

// Who misread one thing misread another more likely than who misread nothing else.
func TestAnswersOfTheCarelessAreSuspectedMore(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	suspected := func(odd ...string) float64 {
		q := inquire(t, m, key.DefaultOptions())
		seen := []string{"tails=2", "outline=disc", "flat=flat", "legs=6", "shield=saucer", "leg-place=beneath", "hair=bare",
			"pattern=plain", "leg-length=short", "colour=brown"}
		for _, said := range append(seen, odd...) {
			if err := q.Say(said); err != nil {
				t.Fatal(err)
			}
		}
		if v := q.Verdict(); v.Likeliest != "psephenidae" || v.LikeliestProbability < 0.99 {
			t.Fatalf("%v: %s at %v", odd, v.Likeliest, v.LikeliestProbability)
		}
		for _, s := range q.Suspects() {
			if s.Answer == "tails=2" {
				return s.Probability
			}
		}
		return 0
	}
	if alone, among := suspected(), suspected("colour=green", "eyes=big"); among < 1.1*alone {
		t.Errorf("two tails are misread at %v, and at %v beside two more odd answers", alone, among)
	}
}
