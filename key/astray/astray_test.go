package astray_test

import (
	"testing"

	"rillkey/key"
	"rillkey/key/astray"
	"rillkey/key/keytest"
)

// An invented table: four kinds, told apart by two traits. The swimmer varies.
const traits = `
[trait.legs]
question = "How many legs?"
look = "eye"
misread = 0.05
source = "invented"
[trait.legs.state.0]
label = "none"
[trait.legs.state.6]
label = "six"
[trait.tails]
question = "How many tails?"
look = "eye"
misread = 0.1
source = "invented"
[trait.tails.state.2]
label = "two"
[trait.tails.state.3]
label = "three"
`

const animals = `
[taxon.insect]
rank = "class"
scientific = "Insect"
source = "invented"
[taxon.insect.traits]
legs = "6"
[taxon.mayfly]
rank = "order"
scientific = "Mayfly"
parent = "insect"
source = "invented"
[taxon.mayfly.traits]
tails = "3"
[taxon.stonefly]
rank = "order"
scientific = "Stonefly"
parent = "insect"
source = "invented"
[taxon.stonefly.traits]
tails = "2"
[taxon.worm]
rank = "class"
scientific = "Worm"
source = "invented"
[taxon.worm.traits]
legs = "0"
`

const text = `
[key]
id = "k"
title = "K"
source = "invented"
[couplet.1]
ask = "Legs"
a = { text = "Six", traits = { legs = "6" }, to = "2" }
b = { text = "None", traits = { legs = "0" }, taxon = "worm" }
[couplet.2]
ask = "Tails"
a = { text = "Three", traits = { tails = "3" }, taxon = "mayfly" }
b = { text = "Two", traits = { tails = "2" }, taxon = "stonefly" }
`

func model(t *testing.T) *key.Model {
	t.Helper()
	catalog := keytest.Invented(t, traits, animals)
	m, err := key.Compile(keytest.Checked(t, text, catalog), catalog).Model(key.FileRates(catalog.Vocabulary()))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestAnAnimalIsLostWhereItsWayParts(t *testing.T) {
	for _, row := range []struct {
		why     string
		answers []string
		right   string
		couplet string // that lost it; empty for none
		taken   string
	}{
		{"named right", []string{"1a", "2a"}, "mayfly", "", ""},
		{"lost at the end", []string{"1a", "2a"}, "stonefly", "2", "2a"},
		{"lost at the start, and of no concern further down", []string{"1a", "2a"}, "worm", "1", "1a"},
		{"nobody could tell, which loses nothing", []string{"1a", "2?"}, "mayfly", "", ""},
		{"known to its class alone, which both leads lead to", []string{"1a", "2a"}, "insect", "", ""},
		{"known to its class alone, and led away from it", []string{"1b"}, "insect", "1", "1b"},
		{"a trait said unasked settles a couplet", []string{"tails=3", "1a"}, "stonefly", "2", "2a"},
	} {
		t.Run(row.why, func(t *testing.T) {
			m := model(t)
			c := astray.New(m)
			if err := c.Add(row.answers, m.Key().Catalog().Taxon(row.right)); err != nil {
				t.Fatal(err)
			}
			found := c.Couplets()
			switch {
			case row.couplet == "" && len(found) > 0:
				t.Errorf("lost: %+v", found)
			case row.couplet != "" && (len(found) != 1 || found[0].ID != row.couplet || found[0].Ways[0].Taken != row.taken ||
				found[0].Came != 1):
				t.Errorf("got %+v, want couplet %s", found, row.couplet)
			}
		})
	}
}

func TestAnswersOfAnotherKeyAreRefused(t *testing.T) {
	m := model(t)
	if err := astray.New(m).Add([]string{"1a", "9b"}, m.Key().Catalog().Taxon("mayfly")); err == nil {
		t.Error("taken")
	}
}

// With the key on paper nothing but the first name is kept: the animal went its way.
func TestOnPaperAnAnimalWentTheWayOfItsName(t *testing.T) {
	for _, row := range []struct{ why, named, right, couplet, taken string }{
		{"named right", "mayfly", "mayfly", "", ""},
		{"lost at the end", "mayfly", "stonefly", "2", "2a"},
		{"lost at the start", "worm", "mayfly", "1", "1b"},
		{"named too broadly for its way to be known", "insect", "stonefly", "", ""},
		{"named broadly, and wrong already there", "insect", "worm", "1", "1a"},
	} {
		m := model(t)
		c := astray.New(m)
		catalog := m.Key().Catalog()
		c.AddNamed(catalog.Taxon(row.named), catalog.Taxon(row.right))
		found := c.Couplets()
		if row.couplet == "" && len(found) > 0 ||
			row.couplet != "" && (len(found) != 1 || found[0].ID != row.couplet || found[0].Ways[0].Taken != row.taken) {
			t.Errorf("%s: %+v", row.why, found)
		}
	}
}

// An animal goes by its answers where they are kept, else by its name.
func TestConfirmed(t *testing.T) {
	for _, row := range []struct {
		why            string
		answers        []string
		named, couplet string
		onPaper        int
	}{
		{"its answers, whatever its name", []string{"1a", "2a"}, "worm", "2", 0},
		{"no answers", nil, "worm", "1", 1},
	} {
		m := model(t)
		c := astray.New(m)
		if err := c.AddConfirmed(row.answers, row.named, m.Key().Catalog().Taxon("stonefly")); err != nil {
			t.Fatal(err)
		}
		if found := c.Couplets(); len(found) != 1 || found[0].ID != row.couplet || c.OnPaper != row.onPaper {
			t.Errorf("%s: %+v, %d on paper", row.why, found, c.OnPaper)
		}
	}
	m := model(t)
	if err := astray.New(m).AddConfirmed(nil, "dragon", m.Key().Catalog().Taxon("worm")); err == nil {
		t.Error("a name that nothing has was taken")
	}
}
