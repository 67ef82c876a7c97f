package key_test

import (
	"errors"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
)

// shareOf is the probability of an end point.
func shareOf(q *key.Inquiry, taxon string) float64 {
	for _, s := range q.Probabilities() {
		if s.Taxon == taxon {
			return s.Probability
		}
	}
	return 0
}

// A small animal without wing flaps may be a young one of a kind that has them when
// it is grown; one as long as the grown may not.
func TestTheYoungLackWingFlaps(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	odds := func(mm float64, wings string) float64 {
		q := inquire(t, m, key.DefaultOptions())
		for _, said := range [][2]string{{"tails", "2"}, {"legs", "6"}, {"gills", "chest"}, {"wings", wings}} {
			if err := q.Observe(said[0], said[1]); err != nil {
				t.Fatal(err)
			}
		}
		if err := q.ObserveLength(mm); err != nil {
			t.Fatal(err)
		}
		p := shareOf(q, "perlidae")
		return p / (1 - p)
	}
	young, grown := odds(4, "none")/odds(4, "pads"), odds(25, "none")/odds(25, "pads")
	if young <= grown {
		t.Errorf("that there are no wing flaps counts %.3f at 4 mm and %.3f at 25 mm", young, grown)
	}
}

// What a part that broke off takes along is no evidence of its own: several traits of
// it that are missing count little more than one.
func TestPartsAreLostTogether(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	q := inquire(t, m, key.DefaultOptions())
	for _, said := range [][2]string{{"legs", "6"}, {"eyes", "top"}, {"flat", "flat"}, {"tails", "3"}, {"gills", "none"}} {
		if err := q.Observe(said[0], said[1]); err != nil {
			t.Fatal(err)
		}
	}
	once := shareOf(q, "heptageniidae")
	if err := q.Observe("gill-row", "none"); err != nil {
		t.Fatal(err)
	}
	if again := shareOf(q, "heptageniidae"); again < once/2 {
		t.Errorf("gills that are gone made it %.3f, and their row %.3f", once, again)
	}
}

// Own words are misread less than what is asked: two tails speak more for a stonefly
// against a blackfly. And they may be misunderstood: one thing settles nothing.
func TestOwnWordsAreMisreadLessAndMayBeMisunderstood(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	asked, said := inquire(t, m, key.DefaultOptions()), inquire(t, m, key.DefaultOptions())
	if err := errors.Join(asked.Observe("tails", "2"), said.Hear("tails", "2")); err != nil {
		t.Fatal(err)
	}
	times := func(q *key.Inquiry) float64 { return shareOf(q, "perlidae") / shareOf(q, "simuliidae") }
	if times(said) < 1.5*times(asked) {
		t.Errorf("two tails make a stonefly %.1f times a blackfly where they are asked for, %.1f where they are said",
			times(asked), times(said))
	}
	pincers, again := inquire(t, m, key.DefaultOptions()), inquire(t, m, key.DefaultOptions())
	if err := errors.Join(pincers.Hear("forelegs", "pincers"), again.Observe("forelegs", "pincers")); err != nil {
		t.Fatal(err)
	}
	if once := shareOf(pincers, "astacidea"); once > 0.95 {
		t.Errorf("pincers in own words alone make a crayfish of %.3f", once)
	}
	if err := pincers.Observe("forelegs", "pincers"); err != nil {
		t.Fatal(err)
	}
	if both, answered := shareOf(pincers, "astacidea"), shareOf(again, "astacidea"); both < answered-1e-9 {
		t.Errorf("heard and then answered %.3f, answered %.3f", both, answered)
	}
}

// The length is asked for where it parts what is left, once, and never of nobody.
func TestTheLengthIsAskedOnceWhereItTells(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	q := inquire(t, m, key.DefaultOptions())
	if q.LengthFirst() {
		t.Error("the length is asked for before anything was said")
	}
	for _, said := range [][2]string{{"tails", "2"}, {"legs", "6"}} {
		if err := q.Observe(said[0], said[1]); err != nil {
			t.Fatal(err)
		}
	}
	met := false
	for now := q.Question(); now != nil && !met; now = q.Question() {
		met = q.LengthFirst()
		if err := q.CantTell(); err != nil {
			t.Fatal(err)
		}
	}
	if !met {
		t.Fatal("whoever can tell nothing but two tails is never asked for the length")
	}
	q.LeaveLength()
	if q.LengthFirst() || !q.LengthLeft() {
		t.Error("the length is asked for again")
	}
}

// Who counts the three plates of a damselfly as tails sees no plates: that there are
// none is then no evidence against it. A mayfly has no plates to count.
func TestPlatesCountedAsTailsAreSeenNoMore(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	damselflies := func(said ...[2]string) (sum float64) {
		q := inquire(t, m, key.DefaultOptions())
		for _, one := range said {
			if err := q.Observe(one[0], one[1]); err != nil {
				t.Fatal(err)
			}
		}
		for _, s := range q.Probabilities() {
			if m.Key().Catalog().IsUnder(s.Taxon, "zygoptera") {
				sum += s.Probability
			}
		}
		return sum
	}
	counted := [][2]string{{"legs", "6"}, {"tails", "3"}, {"gills", "none"}, {"outline", "long"}}
	before := damselflies(counted...)
	if after := damselflies(append(counted, [2]string{"hind", "plain"})...); after < before/2 {
		t.Errorf("three tails: %.3f damselflies, and with nothing more at the hind end %.3f", before, after)
	}
	if young := damselflies(append(counted, [2]string{"hind", "plain"}, [2]string{"eyes", "big"})...); young < 0.5 {
		t.Errorf("with large eyes %.3f are damselflies", young)
	}
}
