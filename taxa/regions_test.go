package taxa_test

import (
	"maps"
	"slices"
	"testing"

	"rillkey/taxa"
)

func embedded(t *testing.T) *taxa.Catalog {
	t.Helper()
	c, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Regions()) == 0 {
		t.Fatal("no region")
	}
	return c
}

// seldom are the animals that no key leads to, which the belief keeps beside its kinds
// (taxa/seldom.toml): none counts anywhere.
var seldom = []string{"branchiura", "cestoda", "branchiobdellida", "polychaeta", "land-mite",
	"pseudoscorpiones", "opiliones", "land-maggot"}

// No animal of the catalog is left without a region, so that a new row cannot go
// unkeyed in silence; one that is left out on purpose is not scored, and says what tells
// it from what it is taken for.
func TestEveryAnimalBelongsToARegion(t *testing.T) {
	c := embedded(t)
	met, holds := map[string]bool{}, map[string]bool{}
	for _, region := range c.Regions() {
		for _, r := range region.Taxa {
			met[r.Taxon] = true
		}
	}
	for _, x := range c.Taxa() {
		holds[x.Parent] = true
	}
	for _, x := range c.Taxa() {
		keyed := x.States("outline") != nil // others are named only so that they are found
		if slices.Contains(seldom, x.ID) {
			if met[x.ID] || x.Class != taxa.NotScored || len(x.Mistaken) < 2 {
				t.Errorf("%s is in no key: met %v, class %q, %d look-alikes", x.ID, met[x.ID], x.Class, len(x.Mistaken))
			}
			continue
		}
		if keyed && !holds[x.ID] && !met[x.ID] {
			t.Errorf("%s is in no file of taxa/regions", x.ID)
		}
	}
}

// An animal is taken for those that live beside it only, and no first name stands
// for two animals of one region.
func TestARegionSpeaksOfItsOwnAnimals(t *testing.T) {
	c := embedded(t)
	for _, r := range c.Regions() {
		here := c.InRegion(r)
		called := map[string]string{}
		for _, resident := range r.Taxa {
			x := here.Taxon(resident.Taxon)
			if other := called[x.Name()]; other != "" {
				t.Errorf("%s: %q is the first name of %s and of %s", r.ID, x.Name(), other, x.ID)
			}
			called[x.Name()] = x.ID
			for _, m := range x.Mistaken {
				if !r.Holds(m.Taxon, c) {
					t.Errorf("%s: %s is taken for %s, which does not live there", r.ID, x.ID, m.Taxon)
				}
			}
		}
	}
	if slices.ContainsFunc(c.Taxon("gammaridae").Mistaken, func(m taxa.Mistaken) bool { return m.Taxon == "hyalellidae" }) == false {
		t.Error("no look-alike of another region was there to be left out")
	}
}

func TestARegionChangesWhatTheCatalogSays(t *testing.T) {
	c := embedded(t)
	europe, america := c.InRegion(c.RegionNamed("north-west-europe")), c.InRegion(c.RegionNamed("north-america"))
	for _, row := range []struct {
		taxon, america, europe          string // first names
		inAmerica, inEurope             taxa.Class
		invaderInAmerica, invaderEurope bool
	}{
		{"gammaridae", "scud", "freshwater shrimp", taxa.SomewhatSensitive, taxa.SomewhatSensitive, false, true},
		{"asellidae", "aquatic sowbug", "water hoglouse", taxa.SomewhatSensitive, taxa.Tolerant, false, false},
		{"aphelocheiridae", "river saucer bug", "river saucer bug", taxa.Tolerant, taxa.Sensitive, false, false},
		{"baetidae", "small minnow mayfly", "swimming mayfly", taxa.Sensitive, taxa.Tolerant, false, false},
		{"chironomidae-red", "bloodworm", "bloodworm", taxa.Tolerant, taxa.Tolerant, false, false},
		{"dreissenidae", "zebra or quagga mussel", "zebra or quagga mussel", taxa.SomewhatSensitive, taxa.NotScored, true, true},
		{"plecoptera", "stonefly", "stonefly", taxa.Sensitive, "", false, false}, // Nemouridae 7, the others 10
		{"fish", "fish", "fish", taxa.NotScored, taxa.NotScored, false, false},
	} {
		a, e := america.Taxon(row.taxon), europe.Taxon(row.taxon)
		if a.Name() != row.america || e.Name() != row.europe {
			t.Errorf("%s is called %q and %q", row.taxon, a.Name(), e.Name())
		}
		if a.Class != row.inAmerica || e.Class != row.inEurope {
			t.Errorf("%s is %q and %q", row.taxon, a.Class, e.Class)
		}
		if (a.Invader != nil) != row.invaderInAmerica || (e.Invader != nil) != row.invaderEurope {
			t.Errorf("%s: invader %v and %v", row.taxon, a.Invader, e.Invader)
		}
	}
	if europe.Base() != c || c.InRegion(nil) != c || europe.InRegion(america.Region()).Region().ID != "north-america" {
		t.Error("a region is seen through another")
	}
}

// A name means what each region means by it; where none does, or all do, it is looked for
// everywhere.
func TestMeantByRegion(t *testing.T) {
	c := embedded(t)
	for _, row := range []struct {
		name       string
		in         []string
		taxon      string
		everywhere bool
	}{
		{"Baetidae", []string{"north-america", "north-west-europe"}, "baetidae", true},
		{"freshwater shrimp", []string{"north-west-europe"}, "gammaridae", false},
		{"dragon of the fen", nil, "", true},
	} {
		in, everywhere := taxa.MeantByRegion(c, row.name)
		if regions := slices.Sorted(maps.Keys(in)); !slices.Equal(regions, row.in) || everywhere != row.everywhere {
			t.Errorf("%s: %v, %v", row.name, in, everywhere)
		}
		for region, id := range in {
			if id != row.taxon {
				t.Errorf("%s is %s in %s", row.name, id, region)
			}
		}
	}
	if in, everywhere := taxa.MeantByRegion(c.InRegion(c.RegionNamed("north-america")), "scud"); len(in) > 0 || !everywhere {
		t.Errorf("in one region: %v, %v", in, everywhere)
	}
}

// A region is known by its protocol or its key where it alone has it, and follows its first
// protocol where nobody names one.
func TestRegionsByWhatTheyAloneHave(t *testing.T) {
	hills := &taxa.Region{ID: "hills", Key: "brooks", Protocols: []string{"kicks", "stones"}}
	plain := &taxa.Region{ID: "plain", Key: "ditches", Protocols: []string{"stones"}}
	coast := &taxa.Region{ID: "coast", Key: "ditches"}
	all := []*taxa.Region{hills, plain, coast}
	for _, row := range []struct {
		why  string
		got  *taxa.Region
		want *taxa.Region
	}{
		{"its protocol", taxa.OnlyRegion(all, "kicks"), hills},
		{"a protocol of two", taxa.OnlyRegion(all, "stones"), nil},
		{"a protocol of none", taxa.OnlyRegion(all, "dips"), nil},
		{"its key", taxa.OnlyRegionOfKey(all, "brooks"), hills},
		{"a key of two", taxa.OnlyRegionOfKey(all, "ditches"), nil},
		{"a key of none", taxa.OnlyRegionOfKey(all, "pools"), nil},
		{"no region", taxa.OnlyRegionOfKey(nil, "brooks"), nil},
	} {
		if row.got != row.want {
			t.Errorf("%s: %v, not %v", row.why, row.got, row.want)
		}
	}
	for region, want := range map[*taxa.Region]string{hills: "kicks", plain: "stones", coast: "", nil: ""} {
		if got := region.UsualProtocol(); got != want {
			t.Errorf("%v follows %q, not %q", region, got, want)
		}
	}
}
