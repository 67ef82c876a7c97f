package taxa_test

import (
	"strings"
	"testing"

	"rillkey/taxa"
)

// What is read in a region is in its own spelling; everything else stays.
func BenchmarkIn(b *testing.B) {
	c, err := taxa.Embedded()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		c.InRegion(c.RegionNamed("north-america"))
	}
}

func TestARegionReadsInItsOwnSpelling(t *testing.T) {
	t.Parallel()
	c, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	read := func(c *taxa.Catalog) string {
		var all []string
		for _, trait := range c.Vocabulary().Traits() {
			all = append(all, trait.Question, trait.How)
			for _, s := range trait.States {
				all = append(all, s.Label)
			}
		}
		for _, x := range c.Taxa() {
			all = append(all, x.Handling, x.Habit)
			for _, m := range x.Mistaken {
				all = append(all, m.Tell)
			}
		}
		for _, card := range c.Cards() {
			all = append(all, card.Marks[0].Words, card.Marks[1].Words, card.Life, card.Food, card.Tells, card.Silent, card.Months,
				card.Try)
		}
		return strings.Join(all, "\n")
	}
	british, american := read(c.InRegion(c.RegionNamed("north-west-europe"))), read(c.InRegion(c.RegionNamed("north-america")))
	for _, word := range []string{"skimmer", "darner", "water strider", "northern case maker", "striped stonefly"} {
		if i := strings.Index(british, word); i >= 0 {
			t.Errorf("a European reads %q", british[max(0, i-30):min(len(british), i+30)])
		}
	}
	for _, word := range []string{"colour", "grey", "neighbour", "plough", "mould", "armour", "utumn"} {
		if !strings.Contains(british, word) {
			t.Errorf("%q is not British any more", word)
		}
		if i := strings.Index(american, word); i >= 0 {
			t.Errorf("an American reads %q", american[max(0, i-30):min(len(american), i+30)])
		}
	}
	if n := strings.Count(american, "color"); n < 3 || strings.Contains(american, "\x00") {
		t.Errorf("%d times color", n)
	}
	us := c.InRegion(c.RegionNamed("north-america"))
	if seen, unclear, err := us.Vocabulary().Understand("grey"); err != nil || len(seen) != 1 || len(unclear) > 0 {
		t.Errorf("grey is not understood there: %v, %v, %v", seen, unclear, err)
	} else if seen[0].Trait != us.Vocabulary().Trait(seen[0].Trait.ID) {
		t.Error("what is understood is of another vocabulary")
	}
}
