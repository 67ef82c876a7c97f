package key_test

import (
	"fmt"
	"math"
	"testing"

	"rillkey/key"
)

// sharedKey ends in a set: no couplet of it tells clinger and stonefly apart.
const sharedKey = `[key]
id = "shared"
title = "A key with a shared end"
source = "invented"
[couplet.1]
ask = "Legs"
a = { text = "Six legs", traits = { legs = "6" }, taxon = ["clinger", "stonefly"] }
b = { text = "No legs", traits = { legs = "0" }, taxon = "worm" }
`

func asked(t *testing.T, k *key.Key, says ...string) *key.Inquiry {
	t.Helper()
	m, err := k.ClosedModel(key.FileRates(k.Catalog().Vocabulary()))
	if err != nil {
		t.Fatal(err)
	}
	q, err := m.Inquire(key.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range says {
		if err := q.Say(s); err != nil {
			t.Fatal(err)
		}
	}
	return q
}

// Both kinds of a shared end are in the belief; neither is named while nothing
// tells them apart, and what does tell them apart is asked and believed.
func TestAnimalsThatShareAnEndAreNamedTogether(t *testing.T) {
	k := compile(t, sharedKey)
	q := asked(t, k, "1a")
	v := q.Verdict()
	if v.Level != key.ToSet || fmt.Sprint(v.Set) != "[clinger stonefly]" || v.Taxon != "" || v.Probability != 0 ||
		v.SetProbability < 0.9 || !v.Named() {
		t.Errorf("%+v", v)
	}
	if now := q.Question(); now == nil || now.ID() != "tails" {
		t.Errorf("asked is %v, not the tails, which tell the two apart", now)
	}
	if v := asked(t, k, "1a", "tails=3", "gills=yes").Verdict(); v.Level != key.ToKind || v.Taxon != "clinger" {
		t.Errorf("%+v", v)
	}
	w := k.Walk()
	if err := w.Take("a"); err != nil {
		t.Fatal(err)
	}
	if r := w.Result(); !w.Ended() || !r.Set || fmt.Sprint(r.Possible) != "[clinger stonefly]" || r.Class != "sensitive" {
		t.Errorf("%+v", r)
	}
	if got := fmt.Sprint(k.PathsTo()); got != "map[clinger:[1a] stonefly:[1a] worm:[1b]]" {
		t.Error(got)
	}
}

// Where a name holds all of a set and nothing else of the key, it is the better
// one; another set of the same key is named as one.
func TestASetThatHasANameOfItsOwn(t *testing.T) {
	k := compile(t, `[key]
id = "shared"
title = "A key with shared ends"
source = "invented"
[couplet.1]
ask = "Legs"
a = { text = "Six legs", traits = { legs = "6" }, to = "2" }
b = { text = "No legs", traits = { legs = "0" }, taxon = "worm" }
[couplet.2]
ask = "Tails"
a = { text = "Three", traits = { tails = "3" }, taxon = ["swimmer", "clinger"] }
b = { text = "Two", traits = { tails = "2" }, taxon = ["swimmer", "stonefly"] }
`)
	if v := asked(t, k, "1a", "2a").Verdict(); v.Level != key.ToGroup || v.Taxon != "ephemeroptera" || v.Set != nil {
		t.Errorf("%+v", v)
	}
	if v := asked(t, k, "1a", "2b").Verdict(); v.Level != key.ToSet || fmt.Sprint(v.Set) != "[swimmer stonefly]" {
		t.Errorf("%+v", v)
	}
}

// By hand: three kinds, two of them at one end, all after one question. No key
// that tells as little can ask fewer than the entropy of 2/3 and 1/3, 0.918 bits;
// with weights of a half and two quarters it is that of a half and a half, 1 bit.
func TestTheBoundOfAKeyWithASharedEnd(t *testing.T) {
	s := compile(t, sharedKey+"[commonness]\nsource = \"invented\"\nweight = { worm = 2, clinger = 1, stonefly = 1 }\n").Stats()
	want := -(2.0/3)*math.Log2(2.0/3) - (1.0/3)*math.Log2(1.0/3)
	if s.Ends != 3 || s.MeanFlat != 1 || math.Abs(s.Bound-want) > 1e-12 || math.Abs(s.BoundWeighted-1) > 1e-12 {
		t.Errorf("%+v", s)
	}
}

// An end point without a weight is as common as the middle one of the others; it
// takes the weights of the others from nobody.
func TestAnEndPointWithoutAWeight(t *testing.T) {
	k := compile(t, smallKey+"\n[commonness]\nsource = \"invented\"\nweight = { worm = 7, swimmer = 2, clinger = 1 }\n")
	if got := fmt.Sprintf("%.4f", k.Prior()); got != "[0.5833 0.1667 0.0833 0.1667]" {
		t.Errorf("the prior is %s, not 7, 2, 1 and 2 of 12", got)
	}
	if s := k.Stats(); math.Abs(s.MeanWeighted-(7+3*5)/12.0) > 1e-12 {
		t.Errorf("%+v", s)
	}
}
