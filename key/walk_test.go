package key_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
)

const smallTraits = `
[trait.legs]
question = "How many legs?"
look = "eye"
misread = 0.05
source = "memory"
state.0.label = "no legs"
state.6.label = "six legs"
[trait.tails]
question = "How many tails?"
look = "eye"
misread = 0.1
source = "memory"
state.none.label = "no tails"
state.2.label = "two tails"
state.3.label = "three tails"
[trait.gills]
question = "Gills along the belly?"
look = "lens"
misread = 0.2
source = "memory"
state.yes.label = "gills"
state.no.label = "no gills"
`

const smallTaxa = `
[taxon.insecta]
rank = "class"
scientific = "Insecta"
source = "memory"
[taxon.ephemeroptera]
rank = "order"
scientific = "Ephemeroptera"
parent = "insecta"
class = "sensitive"
class_source = "memory"
source = "memory"
[taxon.swimmer]
rank = "family"
scientific = "Baetidae"
parent = "ephemeroptera"
source = "memory"
traits = { legs = "6", tails = ["2", "3"], gills = "yes" }
[taxon.clinger]
rank = "family"
scientific = "Heptageniidae"
parent = "ephemeroptera"
source = "memory"
traits = { legs = "6", tails = "3" }
[taxon.stonefly]
rank = "order"
scientific = "Plecoptera"
parent = "insecta"
class = "sensitive"
class_source = "memory"
source = "memory"
traits = { legs = "6", tails = "2", gills = "no" }
[taxon.worm]
rank = "class"
scientific = "Oligochaeta"
class = "tolerant"
class_source = "memory"
source = "memory"
traits = { legs = "0" }
`

const smallKey = `[key]
id = "small"
title = "A small key"
source = "invented"
[couplet.1]
ask = "Legs"
a = { text = "Six legs", traits = { legs = "6" }, to = "2" }
b = { text = "No legs", traits = { legs = "0" }, taxon = "worm" }
[couplet.2]
ask = "Tails"
a = { text = "Three tails", traits = { tails = "3" }, to = "3" }
b = { text = "Two tails", traits = { tails = "2" }, to = "4" }
[couplet.3]
ask = "Body"
stop = "ephemeroptera"
a = { text = "Gills along the belly", traits = { gills = "yes" }, taxon = "swimmer" }
b = { text = "None there", traits = { gills = "no" }, taxon = "clinger" }
[couplet.4]
ask = "Gills"
a = { text = "Gills along the belly", traits = { gills = "yes" }, taxon = "swimmer" }
b = { text = "None there", traits = { gills = "no" }, taxon = "stonefly" }
`

func small(t testing.TB) *key.Key {
	t.Helper()
	return compile(t, smallKey)
}

func compile(t testing.TB, text string) *key.Key {
	t.Helper()
	catalog := keytest.Invented(t, smallTraits, smallTaxa)
	return key.Compile(keytest.Checked(t, text, catalog), catalog)
}

func TestWalks(t *testing.T) {
	k := small(t)
	for _, row := range []struct {
		why, answers   string
		taxon, class   string
		possible, path string
		ended          bool
	}{
		{"a path to an end", "1a 2b 4b", "stonefly", "sensitive", "stonefly", "1a 2b 4b", true},
		{"an end at the first couplet", "1b", "worm", "tolerant", "worm", "1b", true},
		{"nothing answered: no name", "", "", "", "worm swimmer clinger stonefly", "", false},
		{"stopped at an order's couplet", "1a 2a", "ephemeroptera", "sensitive", "swimmer clinger", "1a 2a", false},
		{"insects of two orders have no name below class, but one class", "1a", "", "sensitive", "swimmer clinger stonefly", "1a", false},
		{"can't tell excludes nothing", "1?", "", "", "worm swimmer clinger stonefly", "1?", false},
		{"can't tell follows both leads, and one answer settles what both ask", "1a 2? 3a", "swimmer", "sensitive", "swimmer",
			"1a 2? 3a 4a", true},
		{"can't tell at the end names the order", "1a 2a 3?", "ephemeroptera", "sensitive", "swimmer clinger", "1a 2a 3?", true},
		{"can't tell across orders is set aside", "1a 2b 4?", "", "sensitive", "swimmer stonefly", "1a 2b 4?", true},
		{"an unknown trait rules nothing out", "1a 2? 3b", "", "sensitive", "clinger stonefly", "1a 2? 3b 4b", true},
	} {
		t.Run(row.why, func(t *testing.T) {
			w := k.Walk()
			for _, a := range strings.Fields(row.answers) {
				if err := w.Answer(a); err != nil {
					t.Fatal(err)
				}
			}
			r := w.Result()
			if r.Taxon != row.taxon || string(r.Class) != row.class {
				t.Errorf("named %q, class %q; want %q, %q", r.Taxon, r.Class, row.taxon, row.class)
			}
			if got := strings.Join(r.Possible, " "); got != row.possible {
				t.Errorf("possible %q, want %q", got, row.possible)
			}
			if got := strings.Join(r.Path, " "); got != row.path {
				t.Errorf("path %q, want %q", got, row.path)
			}
			if w.Ended() != row.ended {
				t.Errorf("ended: %v", w.Ended())
			}
			if r.Questions != len(strings.Fields(row.answers)) {
				t.Errorf("%d questions counted", r.Questions)
			}
		})
	}
}

// Expected by hand from the rates in smallTraits: 0.95 x 0.9 x 0.8.
func TestConfidenceIsTheChanceThatNothingWasMisread(t *testing.T) {
	w := small(t).Walk()
	want := 1.0
	for _, step := range []struct {
		answer string
		rate   float64
	}{{"1a", 0.05}, {"2b", 0.1}, {"4b", 0.2}} {
		if err := w.Answer(step.answer); err != nil {
			t.Fatal(err)
		}
		want *= 1 - step.rate
		if got := w.Result().Confidence; math.Abs(got-want) > 1e-12 {
			t.Errorf("after %s %v, want %v", step.answer, got, want)
		}
	}
}

func TestObserve(t *testing.T) {
	k := small(t)
	for _, row := range []struct {
		why, seen, taxon, possible string
	}{
		{"everything seen", "legs=6 tails=2 gills=no", "stonefly", "stonefly"},
		{"the order of seeing does not matter", "gills=no tails=2 legs=6", "stonefly", "stonefly"},
		{"two states of one trait", "legs=6 tails=2,3 gills=yes", "ephemeroptera", "swimmer clinger"},
		{"what a taxon does not state is never held against it", "tails=3 gills=yes", "", "worm swimmer clinger"},
		{"things that fit nothing together", "legs=0 tails=3 gills=yes legs=6", "", ""},
	} {
		t.Run(row.why, func(t *testing.T) {
			w := k.Walk()
			for _, o := range strings.Fields(row.seen) {
				trait, states, _ := strings.Cut(o, "=")
				if err := w.Observe(trait, strings.Split(states, ",")...); err != nil {
					t.Fatal(err)
				}
			}
			r := w.Result()
			if got := strings.Join(r.Possible, " "); r.Taxon != row.taxon || got != row.possible {
				t.Errorf("%q of %q, want %q of %q", r.Taxon, got, row.taxon, row.possible)
			}
		})
	}
}

func TestWrongAnswersSayWhatIsRight(t *testing.T) {
	k := small(t)
	for _, row := range []struct{ answers, want string }{
		{"1c", `couplet 1 has no lead "c"; its leads are 1a, 1b`},
		{"2a", `"2a" does not answer couplet 1, which is asked here; say 1a, 1b or 1?`},
		{"1a 1a", `"1a" does not answer couplet 2, which is asked here; say 2a, 2b or 2?`},
		{"1b 2a", `there is nothing left to answer with "2a": the walk has already ended at Oligochaeta`},
		{"1", `"1" does not answer couplet 1, which is asked here; say 1a, 1b or 1?`},
	} {
		w := k.Walk()
		var err error
		for _, a := range strings.Fields(row.answers) {
			before := w.Result()
			if err = w.Answer(a); err != nil && !slices.Equal(before.Possible, w.Result().Possible) {
				t.Errorf("%s: a refused answer changed the walk", row.answers)
			}
		}
		if err == nil || err.Error() != row.want {
			t.Errorf("%s: %v, want %s", row.answers, err, row.want)
		}
	}
	for _, row := range []struct{ trait, state, want string }{
		{"tail", "2", `there is no trait "tail" (did you mean "tails"?)`},
		{"tails", "9", `the trait "tails" has no state "9" (its states are "none", "2", "3")`},
	} {
		if err := k.Walk().Observe(row.trait, row.state); err == nil || err.Error() != row.want {
			t.Errorf("%s=%s: %v, want %s", row.trait, row.state, err, row.want)
		}
	}
}

// Any sequence of answers, then as many steps back, is as if nothing had
// happened; on the way the possibilities only shrink, and can't tell keeps them.
func TestBackUndoesExactly(t *testing.T) {
	k := small(t)
	r := rand.New(rand.NewPCG(7, 7))
	for range 500 {
		w := k.Walk()
		var trail []key.Result
		for w.Couplet() != nil && r.IntN(8) > 0 {
			trail = append(trail, w.Result())
			before := w.Result().Possible
			c := w.Couplet()
			if r.IntN(3) == 0 {
				if err := w.CantTell(); err != nil {
					t.Fatal(err)
				}
				if !slices.Equal(before, w.Result().Possible) {
					t.Fatalf("can't tell at %s changed %v to %v", c.ID, before, w.Result().Possible)
				}
				continue
			}
			if err := w.Take(c.Leads[r.IntN(len(c.Leads))].Letter); err != nil {
				t.Fatal(err)
			}
			for _, id := range w.Result().Possible {
				if !slices.Contains(before, id) {
					t.Fatalf("%s came back", id)
				}
			}
		}
		for _, want := range slices.Backward(trail) {
			if !w.Back() {
				t.Fatal("no way back")
			}
			if got := w.Result(); !slices.Equal(got.Possible, want.Possible) || !slices.Equal(got.Path, want.Path) ||
				got.Confidence != want.Confidence || got.Questions != want.Questions {
				t.Fatalf("back gives %+v, want %+v", got, want)
			}
		}
		if w.Back() {
			t.Fatal("back beyond the start")
		}
	}
}

func FuzzAnswers(f *testing.F) {
	k := small(f)
	f.Add("1a,2?,3a")
	f.Add("1?,2b")
	f.Add(",,\x00,1")
	f.Fuzz(func(t *testing.T, text string) {
		w := k.Walk()
		for _, a := range strings.Split(text, ",") {
			_ = w.Answer(a)
		}
		if c := w.Result().Confidence; !(c > 0 && c <= 1) {
			t.Fatalf("confidence %v", c)
		}
	})
}
