package key_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
)

// A class that is sure is no likely one, and a likely one is not sure; both hold what
// the kinds of the class hold together.
func TestALikelyClassIsToldWhereNoneIsSure(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	leaning := 0
	for _, end := range m.Key().Ends() {
		q := inquire(t, m, key.DefaultOptions())
		for range 4 {
			v := q.Verdict()
			sum := 0.0
			for _, s := range append(q.Probabilities(), q.Strangers()...) {
				if c := m.Key().Catalog().Taxon(s.Taxon).Class; c != "" && c == v.Leaning {
					sum += s.Probability
				}
			}
			switch {
			case v.Leaning == "" && v.LeaningProbability != 0, v.Leaning != "" && v.Class != "":
				t.Fatalf("%v: sure %q, likely %q at %v", v.Path, v.Class, v.Leaning, v.LeaningProbability)
			case v.Leaning != "" && (v.LeaningProbability < 0.7 || v.LeaningProbability >= 0.9 ||
				math.Abs(sum-v.LeaningProbability) > 1e-9):
				t.Fatalf("%v: %s likely at %v of %v", v.Path, v.Leaning, v.LeaningProbability, sum)
			case v.Leaning != "":
				leaning++
			}
			if q.Question() == nil {
				break
			}
			next(t, q, end)
		}
	}
	if leaning == 0 {
		t.Error("no class was ever likely and not sure")
	}
}

// Where the catalog has no orders a class is a name: what may be worm or leech is both.
func TestAClassWithoutOrdersIsAName(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	q := told(t, m, "legs=0 rings=rings head=none outline=long skin=soft prolegs=none hind=plain flat=flat")
	if v := q.Verdict(); v.Level != key.ToGroup || v.Taxon != "clitellata" {
		t.Errorf("%+v", v)
	}
	q = told(t, m, "legs=6")
	if v := q.Verdict(); v.Taxon == "insecta" {
		t.Errorf("an insect is no name: %+v", v)
	}
}

// What was heard in own words may have been misunderstood: an answer that was chosen is
// not accused for its sake.
func TestOwnWordsAccuseNoAnswer(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	suspicion := func(note func(q *key.Inquiry, trait, state string) error) float64 {
		q := inquire(t, m, key.DefaultOptions())
		for _, s := range [][2]string{{"suckers", "ends"}, {"rings", "rings"}, {"legs", "0"}} {
			if err := note(q, s[0], s[1]); err != nil {
				t.Fatal(err)
			}
		}
		if err := q.Observe("tails", "3"); err != nil {
			t.Fatal(err)
		}
		for _, s := range q.Suspects() {
			if s.Answer == "tails=3" {
				return s.Probability
			}
		}
		t.Fatal("the tails are no suspect at all")
		return 0
	}
	observed := suspicion(func(q *key.Inquiry, trait, state string) error { return q.Observe(trait, state) })
	heard := suspicion(func(q *key.Inquiry, trait, state string) error { return q.Hear(trait, state) })
	if observed < 0.25 || heard > observed/2 {
		t.Errorf("misread with %.2f beside what was observed, %.2f beside own words", observed, heard)
	}
}

// Of own words a person is called to account only for what they misread: a swimming,
// looping leech does either, and what the program may have misunderstood is less of a
// suspect than what was chosen.
func TestOwnWordsAreAccusedAsOneSaying(t *testing.T) {
	m := fileModel(t, keytest.Key(t))
	most := func(q *key.Inquiry) (most float64) {
		for _, s := range q.Suspects() {
			if strings.HasPrefix(s.Answer, "move=") {
				most = max(most, s.Probability)
			}
		}
		return most
	}
	worm := func(note func(q *key.Inquiry, trait string, states ...string) error, moves ...string) float64 {
		q := inquire(t, m, key.DefaultOptions())
		for _, said := range append([]string{"suckers=ends", "skin=soft", "outline=long"}, moves...) {
			trait, state, _ := strings.Cut(said, "=")
			if err := note(q, trait, state); err != nil {
				t.Fatal(err)
			}
		}
		return most(q)
	}
	observed, heard := (*key.Inquiry).Observe, (*key.Inquiry).Hear
	if got := worm(heard, "move=loop", "move=swim"); got > 0.1 {
		t.Errorf("a leech that loops and swims, in own words: misread with %.2f", got)
	}
	chosen, said := worm(observed, "move=row"), worm(heard, "move=row")
	if chosen < 0.1 || said > 0.8*chosen {
		t.Errorf("a leech that rows: misread with %.2f where it was chosen, %.2f in own words", chosen, said)
	}
}

// A small hard beetle on long legs has a riffle beetle's class, though long-toed ones of
// another class are as like it as a ninth of both; three tails alone have no mayfly's
// (TestThreeTailsAloneAreNoMayfly).
func TestAClassIsGivenBesideAFewOfThoseItIsMistakenFor(t *testing.T) {
	q := inquire(t, fileModel(t, keytest.Key(t)), key.DefaultOptions())
	for _, said := range []string{"wings=hard", "leg-length=long", "move=crawl", "colour=dark", "length=3"} {
		if err := q.Say(said); err != nil {
			t.Fatal(err)
		}
	}
	askedFor(t, q)
	if v := q.Verdict(); v.Class != "sensitive" || v.ClassProbability > 0.9 {
		t.Errorf("%v has the class %q at %.3f, leaning %q", q.Path(), v.Class, v.ClassProbability, v.Leaning)
	}
}

// Once nothing more is asked a class may be wrong twice as often as a name, but for chance
// of two standard errors, and while something is asked it may not.
func TestAClassIsGivenLessSureThanANameOnceNothingIsAsked(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	m := fileModel(t, keytest.Key(t))
	o := key.DefaultOptions()
	atLeast := 1 - 2*(1-o.Required)
	r := rand.New(rand.NewPCG(15, 8))
	less, right := 0, 0
	for range 2 {
		for _, animal := range m.Key().Ends() {
			q := inquire(t, m, o)
			for now := q.Question(); now != nil; now = q.Question() {
				if v := q.Verdict(); v.Class != "" && v.ClassProbability < o.Required {
					t.Fatalf("%s: asked for %s its class is given at %.3f", animal.ID, now.ID(), v.ClassProbability)
				}
				pick := key.Unsure
				if r.IntN(3) == 0 {
					pick = tellOf(now, animal)
				}
				if err := q.Answer(pick); err != nil {
					t.Fatal(err)
				}
			}
			v := q.Verdict()
			if v.Class == "" || v.ClassProbability >= o.Required {
				continue
			}
			less++
			if v.Class == animal.Class {
				right++
			}
			if v.ClassProbability < atLeast-1e-9 {
				t.Errorf("%s: its class is given at %.3f", animal.ID, v.ClassProbability)
			}
		}
	}
	if chance := 2 * math.Sqrt(float64(less)*atLeast*(1-atLeast)); less == 0 || float64(right) < float64(less)*atLeast-chance {
		t.Errorf("of %d classes that are less sure than a name %d are right", less, right)
	}
}
