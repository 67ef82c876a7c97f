package key

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"testing/fstest"

	"rillkey/couplets"
	"rillkey/taxa"
)

const fewTraits = `[trait.tails]
question = "How many?"
look = "eye"
misread = 0.2
source = "invented"
[trait.tails.state.none]
label = "none"
[trait.tails.state.two]
label = "two"
mistaken_for = ["none"]
[trait.tails.state.three]
label = "three"
mistaken_for = ["two"]
[trait.legs]
question = "How many?"
look = "eye"
misread = 0.1
source = "invented"
[trait.legs.state.no]
label = "none"
[trait.legs.state.six]
label = "six"
`

// few is a key of three invented kinds of these shares of tails and legs.
func few(t *testing.T, r *rand.Rand) *Model {
	t.Helper()
	text := ""
	for i := range 3 {
		a, b, c := 0.05+r.Float64(), 0.05+r.Float64(), 0.05+r.Float64()
		sum := a + b + c
		legs := []string{"no", "six", "six"}[i]
		text += fmt.Sprintf("[taxon.k%d]\nrank = \"family\"\nscientific = \"K%d\"\nsource = \"invented\"\n[taxon.k%d.traits]\n"+
			"legs = %q\ntails = { none = %.6f, two = %.6f, three = %.6f }\n", i, i, i, legs, a/sum, b/sum, c/sum)
	}
	catalog, err := taxa.Load(fstest.MapFS{"traits.toml": {Data: []byte(fewTraits)}, "kinds.toml": {Data: []byte(text)}}, "")
	if err != nil {
		t.Fatal(err)
	}
	file := `[key]
id = "few"
title = "Few"
source = "invented"
[couplet.1]
ask = "Legs"
a = { text = "None", traits = { legs = "no" }, taxon = "k0" }
b = { text = "Six", traits = { legs = "six" }, taxon = ["k1", "k2"] }
`
	sound, err := couplets.Load(fstest.MapFS{"few.toml": {Data: []byte(file)}}, "few.toml", "few.toml", catalog)
	if err != nil {
		t.Fatal(err)
	}
	m, err := Compile(sound, catalog).Model(FileRates(catalog.Vocabulary()))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// Whoever looks again sees the same in half of the cases and anew in the others:
// then a second look, whatever it finds, leaves the truth on the average as
// probable as before or more so, over all kinds, first looks and second looks.
func TestALookAgainCanOnlyImproveTheTruthInExpectation(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 14))
	for range 20 {
		m := few(t, r)
		tails := m.traits[m.index["tails"]]
		ids := tails.StateIDs()
		once, twice := 0.0, 0.0
		for first := range ids {
			q, err := m.Inquire(DefaultOptions())
			if err != nil {
				t.Fatal(err)
			}
			if err := q.Observe("tails", ids[first]); err != nil {
				t.Fatal(err)
			}
			after := append([]float64(nil), q.belief.P()...)
			for second := range ids {
				if err := q.Reask(0, ids[second]); err != nil {
					t.Fatal(err)
				}
				for i, prior := range m.prior {
					chance := 0.0
					for s, share := range tails.truth[i] {
						again := (1 - sameEyes) * tails.readings[s][second]
						if first == second {
							again += sameEyes
						}
						chance += prior * share * tails.readings[s][first] * again
					}
					once += chance * after[i]
					twice += chance * q.belief.P()[i]
				}
				q.Back()
				if err := q.Observe("tails", ids[first]); err != nil {
					t.Fatal(err)
				}
			}
		}
		if twice < once-1e-9 {
			t.Errorf("the truth had %.6f after one look and %.6f after two", once, twice)
		}
	}
}

// After a second look nobody is asked for a third, and what stood is believed more.
func TestALookAgainEndsTheAccusation(t *testing.T) {
	q, err := embedded(t).Inquire(DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	for _, said := range []string{"legs=14", "flat=tall", "upside=side", "hooks=four"} {
		if err := q.Say(said); err != nil {
			t.Fatal(err)
		}
	}
	before := q.Suspects()[0]
	if before.Answer != "hooks=four" || before.Again {
		t.Fatalf("%+v", before)
	}
	if err := q.Reask(before.Given, "four"); err != nil {
		t.Fatal(err)
	}
	all := q.Suspects()
	if last := all[len(all)-1]; last.Answer != "hooks=four" || !last.Again || last.Probability >= before.Probability {
		t.Errorf("after the second look: %+v, before %+v", all, before)
	}
	sum := 0.0
	for _, p := range q.belief.P() {
		sum += p
	}
	if math.Abs(sum-1) > 1e-9 {
		t.Errorf("the belief sums to %v", sum)
	}
}
