package learned_test

import (
	"errors"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/key/learned"
	"rillkey/taxa"
	"rillkey/taxa/authored"
)

func catalog(t testing.TB) *taxa.Catalog {
	t.Helper()
	c, err := taxa.Load(fstest.MapFS{"traits.toml": {Data: []byte(`
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
state.2.label = "two tails"
state.3.label = "three tails"
`)}, "taxa.toml": {Data: []byte(`
[taxon.mayfly]
rank = "order"
scientific = "Ephemeroptera"
source = "memory"
traits = { legs = "6", tails = ["2", "3"] }
[taxon.stonefly]
rank = "order"
scientific = "Plecoptera"
source = "memory"
traits = { legs = "6", tails = "2" }
[taxon.worm]
rank = "class"
scientific = "Oligochaeta"
source = "memory"
traits = { legs = "0" }
`)}}, "")
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func said(trait string, states ...string) key.Given {
	return key.Given{Says: []couplets.Condition{{Trait: trait, States: states}}}
}

// By hand, with strengths of 5 and 4: tails 0.1 after 9 wrong of 61, of which 6.1 were
// expected: the group's factor is 14/11.1 = 1.261261, the trait's own 13/(4 +
// 1.261261 x 6.1) = 1.111710; legs have the group's factor alone. No rate falls below the
// vocabulary's.
func TestRatesAreGammaPoissonMeans(t *testing.T) {
	v := catalog(t).Vocabulary()
	for _, row := range []struct {
		why, file   string
		tails, legs float64
	}{
		{"nothing known: the vocabulary's rates", "", 0.1, 0.05},
		{"9 of 61", "[trait.tails]\nlooked = 61\nmisread = 9\n", 0.1 * 1.261261 * 1.111710, 0.05 * 1.261261},
		{"never wrong in 20", "[trait.tails]\nlooked = 20\nmisread = 0\n", 0.1, 0.05},
		{"never wrong in 20 that nobody would have noticed", "[trait.tails]\nlooked = 20\nmisread = 0\nexpected = 0\n", 0.1, 0.05},
		{"careful but for the tails", "[trait.tails]\nlooked = 60\nmisread = 15\n[trait.legs]\nlooked = 400\nmisread = 2\n",
			0.1 * 37.0 / 46 * 19 / (4 + 6*37.0/46), 0.05},
		{"chosen because they were doubtful", "[chosen.tails]\nlooked = 61\nmisread = 9\n", 0.1, 0.05},
		{"always wrong stays at the highest rate there is", "[trait.tails]\nlooked = 999\nmisread = 999\n", 0.5, 0.05 * 1004 / 104.9},
	} {
		r, err := learned.Read(fstest.MapFS{"own.toml": {Data: []byte(row.file)}}, "own.toml", "own.toml", v)
		if err != nil {
			t.Fatalf("%s: %v", row.why, err)
		}
		rates := r.Rates(key.FileRates(v))
		if math.Abs(rates.Misread["tails"]-row.tails) > 1e-5 || math.Abs(rates.Misread["legs"]-row.legs) > 1e-5 {
			t.Errorf("%s: tails %v, want %v; legs %v, want %v", row.why, rates.Misread["tails"], row.tails, rates.Misread["legs"], row.legs)
		}
	}
}

// bare is a count without what was expected.
func bare(c learned.TraitCount) learned.TraitCount {
	c.Expected = 0
	return c
}

// A misread tells on an animal that always shows one of two states, and not on one
// that may show both.
func TestWhatWouldHaveBeenNoticed(t *testing.T) {
	c := catalog(t)
	for right, want := range map[string]float64{"stonefly": 0.1, "mayfly": 0} {
		r := (&learned.Counts{}).Add([]key.Given{said("tails", "2")}, c.Taxon(right), c.Vocabulary(), true)
		if got := r.Count("tails").Expected; math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %v, want %v", right, got, want)
		}
	}
	chosen := (&learned.Counts{}).Add([]key.Given{said("tails", "3")}, c.Taxon("stonefly"), c.Vocabulary(), false)
	if chosen.Count("tails").Looked != 0 || chosen.Chosen("tails").Misread != 1 || chosen.Empty() {
		t.Errorf("%+v", chosen)
	}
}

func TestSecondLooks(t *testing.T) {
	c := catalog(t)
	for _, row := range []struct {
		why, right string
		given      []key.Given
		legs, tail learned.TraitCount
	}{
		{"all right", "stonefly", []key.Given{said("legs", "6"), said("tails", "2")}, learned.TraitCount{Looked: 1},
			learned.TraitCount{Looked: 1}},
		{"a kind that varies shows both", "mayfly", []key.Given{said("tails", "2")}, learned.TraitCount{}, learned.TraitCount{Looked: 1}},
		{"one wrong", "stonefly", []key.Given{said("tails", "3")}, learned.TraitCount{}, learned.TraitCount{Looked: 1, Misread: 1}},
		{"a trait seen twice is counted once", "stonefly", []key.Given{said("tails", "2", "3"), said("tails", "3")},
			learned.TraitCount{}, learned.TraitCount{Looked: 1, Misread: 1}},
		{"a trait unknown for the kind is not counted", "worm", []key.Given{said("tails", "2")}, learned.TraitCount{},
			learned.TraitCount{}},
		{"can't tell is not counted", "stonefly", []key.Given{{}}, learned.TraitCount{}, learned.TraitCount{}},
	} {
		before := &learned.Counts{}
		r := before.Add(row.given, c.Taxon(row.right), c.Vocabulary(), true)
		if bare(r.Count("legs")) != row.legs || bare(r.Count("tails")) != row.tail {
			t.Errorf("%s: legs %v, tails %v", row.why, r.Count("legs"), r.Count("tails"))
		}
		if before.Count("tails") != (learned.TraitCount{}) {
			t.Errorf("%s: the record before was changed", row.why)
		}
	}
}

// An animal that was named with another key teaches nothing, and is said to: its
// path cannot be followed. One of this key teaches what was answered on its way.
func TestRecordsOfAnotherKeyAreLeftOut(t *testing.T) {
	m := keytest.Model(t)
	right := m.Key().Catalog().Taxon("astacidea")
	for _, row := range []struct {
		why   string
		path  []string
		trait string // counted
	}{
		{"this key's first couplet", []string{"1c"}, "legs"},
		{"a trait of the vocabulary", []string{"legs=10"}, "legs"},
		{"a couplet that this key has not", []string{"1c", "999a"}, ""},
		{"a lead that this key has not", []string{"1k"}, ""},
		{"a state of another vocabulary", []string{"legs=7"}, ""},
		{"a trait of another vocabulary", []string{"wheels=4"}, ""},
	} {
		before := &learned.Counts{}
		after, err := before.AddPath(m, row.path, right, true)
		switch {
		case row.trait == "" && (err == nil || after != nil):
			t.Errorf("%s: %v taught %v", row.why, row.path, after)
		case row.trait != "" && (err != nil || bare(after.Count(row.trait)) != (learned.TraitCount{Looked: 1})):
			t.Errorf("%s: %v, %v", row.why, after, err)
		}
		if !before.Empty() {
			t.Errorf("%s: the record before was changed", row.why)
		}
	}
}

func TestWrongFiles(t *testing.T) {
	v := catalog(t).Vocabulary()
	for _, row := range []struct{ why, file, rule string }{
		{"no such trait", "[trait.tail]\nlooked = 1\nmisread = 0\n", "unknown-trait"},
		{"more wrong than given", "[trait.tails]\nlooked = 1\nmisread = 2\n", "bad-count"},
		{"below zero", "[trait.tails]\nlooked = -1\nmisread = -2\n", "bad-count"},
		{"a number missing", "[trait.tails]\nlooked = 1\n", "missing-field"},
		{"a field nobody knows", "[trait.tails]\nlooked = 1\nmisread = 0\nseen = 3\n", "unknown-field"},
		{"no TOML", "[trait", "syntax"},
	} {
		_, err := learned.Read(fstest.MapFS{"own.toml": {Data: []byte(row.file)}}, "own.toml", "own.toml", v)
		var found authored.Findings
		if !errors.As(err, &found) || !strings.Contains(err.Error(), row.rule) {
			t.Errorf("%s: %v", row.why, err)
		}
	}
}

func FuzzRead(f *testing.F) {
	v := catalog(f).Vocabulary()
	f.Add("[trait.tails]\nlooked = 61\nmisread = 9\n")
	f.Add("[trait.tails]\nlooked = 1e9\nmisread = \"x\"\n")
	f.Fuzz(func(t *testing.T, text string) {
		r, err := learned.Read(fstest.MapFS{"own.toml": {Data: []byte(text)}}, "own.toml", "own.toml", v)
		if err != nil {
			return
		}
		again, err := learned.Read(fstest.MapFS{"own.toml": {Data: r.TOML(v)}}, "own.toml", "own.toml", v)
		if err != nil {
			t.Fatalf("what was written cannot be read: %v", err)
		}
		for _, id := range v.IDs() {
			if bare(r.Count(id)) != bare(again.Count(id)) || bare(r.Chosen(id)) != bare(again.Chosen(id)) {
				t.Fatalf("%s: %v became %v", id, r.Count(id), again.Count(id))
			}
		}
	})
}
