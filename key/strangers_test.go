package key_test

import (
	"io/fs"
	"slices"
	"testing"
	"testing/fstest"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/key/trim"
	"rillkey/taxa"
)

// brook is the built-in key cut to a few kinds.
func brook(t *testing.T, kinds ...string) *key.Key {
	t.Helper()
	sound, catalog := keytest.Sound(t, couplets.DefaultName)
	data, err := fs.ReadFile(couplets.Embedded(), couplets.DefaultName)
	if err != nil {
		t.Fatal(err)
	}
	cut, err := trim.Keep(data, sound, func(end string) bool { return slices.Contains(kinds, end) })
	if err != nil {
		t.Fatal(err)
	}
	sound, err = couplets.Load(fstest.MapFS{"brook.toml": {Data: cut.Text}}, "brook.toml", "brook.toml", catalog)
	if err != nil {
		t.Fatal(err)
	}
	return key.Compile(sound, catalog)
}

// Of the animals that a key of four kinds leaves out, truthfully described, hardly
// one gets the name of a kind of the key; its own kinds keep theirs.
func TestWhatAKeyLeavesOutIsNotNamedAsWhatItHolds(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a while")
	}
	k := brook(t, "baetidae", "perlidae", "simuliidae", "gammaridae")
	m := fileModel(t, k)
	wrong, all := 0, 0
	for _, kind := range keytest.Key(t).Ends() {
		q := inquire(t, m, key.DefaultOptions())
		answers(t, q, kind)
		v := q.Verdict()
		switch {
		case k.EndsIn(kind.ID):
			if v.Taxon != kind.ID {
				t.Errorf("%s, which the key holds, comes to %s %q after %v", kind.ID, v.Level, v.Taxon, v.Path)
			}
		case v.Level == key.ToKind:
			wrong++
			fallthrough
		default:
			all++
		}
	}
	if share := float64(wrong) / float64(all); share > 0.10 {
		t.Errorf("%.3f of the kinds that the key leaves out get the name of one that it holds", share)
	}
}

// A snail in a key without snails is none of its kinds, and looks like a snail.
func TestNoneThatTheKeyHolds(t *testing.T) {
	q := inquire(t, fileModel(t, brook(t, "baetidae", "perlidae", "simuliidae", "gammaridae")), key.DefaultOptions())
	for _, said := range []string{"shell=coil", "legs=0"} {
		if err := q.Say(said); err != nil {
			t.Fatal(err)
		}
	}
	if v := q.Verdict(); v.Level != key.NotInKey || v.Named() || v.OutsideKey < 0.9 || v.Enclosing != "gastropoda" {
		t.Errorf("%+v", v)
	}
}

// An animal that shows what no kind of the catalog shows is probably none of them.
func TestWhatNoCatalogHolds(t *testing.T) {
	q := inquire(t, keytest.Model(t), key.DefaultOptions())
	for _, said := range []string{"legs=14", "shell=coil", "outline=thread", "tails=3", "suckers=ends", "wings=hard"} {
		if err := q.Say(said); err != nil {
			t.Fatal(err)
		}
	}
	if v := q.Verdict(); v.Level != key.NotInKey || v.Class != "" {
		t.Errorf("%+v", v)
	}
}

// oneCrayfish is a key that leads to one family of crayfish.
const oneCrayfish = `[key]
id     = "brook"
title  = "Three animals of our brook"
source = "common practice"

[couplet.1]
ask = "How many legs?"
a   = { text = "Ten legs.", traits = { legs = "10" }, taxon = "cambaridae" }
b   = { text = "Six legs.", traits = { legs = "6" }, taxon = "plecoptera" }
c   = { text = "No legs.", traits = { legs = "0" }, taxon = "turbellaria" }
`

// What nobody can tell from an end point is no stranger beside it: a crayfish is named
// in either region, and by a key that leads to one family of them.
func TestATwinIsNoStranger(t *testing.T) {
	t.Parallel()
	one := func(file string) (*couplets.Sound, *taxa.Catalog) {
		if file != "" {
			return keytest.Sound(t, file)
		}
		catalog := keytest.Catalog(t)
		return keytest.Checked(t, oneCrayfish, catalog), catalog
	}
	for file, want := range map[string]string{couplets.DefaultName: "astacidea", "north-west-europe.toml": "astacidea", "": "cambaridae"} {
		sound, catalog := one(file)
		m, err := key.Compile(sound, catalog).Model(key.FileRates(catalog.Vocabulary()))
		if err != nil {
			t.Fatal(err)
		}
		q, err := m.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		for _, seen := range []string{"legs=10", "forelegs=pincers", "outline=long"} {
			if err := q.Say(seen); err != nil {
				t.Fatal(err)
			}
		}
		if v := q.Verdict(); v.Taxon != want {
			t.Errorf("%s: ten legs and pincers are %q, likeliest %s (%v)", file, v.Taxon, v.Likeliest, v.LikeliestProbability)
		}
	}
}

// What somebody took for an animal and what no list counts is likeliest what it is, where
// the key does not lead to it either, and never has the class of something that counts.
func TestWhatCountsNowhereIsNotNamedAsWhatCounts(t *testing.T) {
	t.Parallel()
	for _, row := range []struct {
		why, taxon string
		said       []string
	}{
		{"a seed", "debris", []string{"living=thing", "like=seed", "skin=hard", "move=still"}},
		{"a twig without legs", "debris", []string{"living=thing", "legs=0", "like=stick", "colour=brown"}},
		{"nobody, and no animal", "debris", []string{"legs=nobody", "living=thing"}},
		{"a hollow stonefly with its six legs", "shed-skin", []string{"living=skin", "tails=2", "legs=6", "colour=brown"}},
		{"a scale that came off a fish and swims", "branchiura",
			[]string{"flat=flat", "outline=disc", "suckers=pair", "legs=8", "move=swim", "eyes=spots"}},
		{"a white ribbon from a fish", "cestoda",
			[]string{"flat=flat", "outline=long", "colour=pale", "head=none", "eyes=none", "suckers=none", "move=still", "legs=0"}},
		{"little white worms on a crayfish", "branchiobdellida",
			[]string{"suckers=hind", "move=loop", "rings=rings", "colour=pale", "head=none", "flat=round"}},
		{"a worm with paddles and feelers", "polychaeta",
			[]string{"rings=rings", "hair=hairy", "antennae=pairs", "outline=long", "skin=soft", "legs=0"}},
		{"red plush that walks dry", "land-mite", []string{"colour=red", "hair=hairy", "legs=8", "land=yes", "rings=none"}},
		{"pincers and no tail, three millimetres", "pseudoscorpiones",
			[]string{"forelegs=pincers", "legs=8", "flat=flat", "land=yes", "antennae=none"}},
		{"one pill on threads", "opiliones", []string{"legs=8", "leg-length=long", "rings=none", "land=yes", "hair=bare"}},
		{"bait", "land-maggot",
			[]string{"like=maggot", "outline=tapered", "hind=plain", "air-spots=two", "mouth=hooks", "land=yes", "legs=0"}},
	} {
		for _, file := range []string{couplets.DefaultName, "north-west-europe.toml"} {
			sound, catalog := keytest.Sound(t, file)
			q := inquire(t, fileModel(t, key.Compile(sound, catalog)), key.DefaultOptions())
			for _, one := range row.said {
				if err := q.Say(one); err != nil {
					t.Fatal(err)
				}
			}
			v := q.Verdict()
			if v.Likeliest != row.taxon || v.Class != "" && v.Class != taxa.NotScored {
				t.Errorf("%s: %s is likeliest %s (%.2f), of class %q, not %s",
					file, row.why, v.Likeliest, v.LikeliestProbability, v.Class, row.taxon)
			}
			isEnd := func(e *taxa.Taxon) bool { return e.ID == v.Taxon }
			if v.Taxon != row.taxon && slices.ContainsFunc(sound.Ends, isEnd) {
				t.Errorf("%s: %s is named %s", file, row.why, v.Taxon)
			}
		}
	}
}
