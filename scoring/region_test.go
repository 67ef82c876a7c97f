package scoring

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"rillkey/taxa"
)

// rulesIn are the embedded rules over the catalog as a region has it.
func rulesIn(t *testing.T, region string) (*taxa.Catalog, *Rules) {
	t.Helper()
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	catalog = catalog.InRegion(catalog.RegionNamed(region))
	rules, err := EmbeddedRules(catalog)
	if err != nil {
		t.Fatal(err)
	}
	return catalog, rules
}

// The classes of north-west Europe are those that the BMWP scores give: 8 to 10, 5
// to 7, 1 to 4 (common practice), so that no animal is tolerant by its class and
// sensitive by its score.
func TestClassesOfEuropeFollowTheScores(t *testing.T) {
	catalog, rules := rulesIn(t, "north-west-europe")
	s := rules.Scheme("bmwp")
	classes := map[string]taxa.Class{"10": taxa.Sensitive, "8": taxa.Sensitive, "7": taxa.SomewhatSensitive, "6": taxa.SomewhatSensitive,
		"5": taxa.SomewhatSensitive, "4": taxa.Tolerant, "3": taxa.Tolerant, "2": taxa.Tolerant, "1": taxa.Tolerant}
	n := 0
	for _, r := range catalog.Region().Taxa {
		p := s.Place(r.Taxon)
		if p.Why != "" {
			continue
		}
		n++
		if got, want := catalog.Taxon(r.Taxon).Class, classes[s.Kinds[p.Kind].Group]; got != want {
			t.Errorf("%s has the score %s and the class %q, want %q", r.Taxon, s.Kinds[p.Kind].Group, got, want)
		}
	}
	if n < 80 {
		t.Errorf("only %d animals have a score", n)
	}
}

// Class words are those of the protocol's first scheme: by the modified Virginia list
// a net-spinner and a hellgrammite are somewhat sensitive, by the Streamkeepers sheet
// sensitive (STANDARDS: both seen). A scheme of scores has no such words.
func TestClassWordsAreThoseOfTheProtocol(t *testing.T) {
	_, rules := rulesIn(t, "north-america")
	for _, row := range []struct {
		protocol, taxon string
		want            taxa.Class
	}{
		{"riffle-best", "hydropsychidae", taxa.SomewhatSensitive},
		{"riffle-three", "hydropsychidae", taxa.Sensitive},
		{"riffle-best", "corydalus", taxa.SomewhatSensitive},
		{"riffle-three", "corydalus", taxa.Sensitive},
		{"riffle-best", "trichoptera", ""}, // it may be either
		{"riffle-three", "trichoptera", taxa.Sensitive},
		{"riffle-three", "nematomorpha", taxa.NotScored},
	} {
		_, class, ok := rules.Classes(row.protocol)
		if !ok {
			t.Fatalf("%s has no classes", row.protocol)
		}
		if got, _ := class(row.taxon); got != row.want {
			t.Errorf("%s: %s is %q, want %q", row.protocol, row.taxon, got, row.want)
		}
	}
	for _, protocol := range []string{"riffle-families", "all-habitats-three-minutes", "nosuch"} {
		if _, _, ok := rules.Classes(protocol); ok {
			t.Errorf("%s has classes", protocol)
		}
	}
}

// An index of one region has no word over a visit to another, whatever was found.
func TestAnIndexOfAnotherRegionHasNoWord(t *testing.T) {
	_, rules := rulesIn(t, "north-america")
	for region, worded := range map[string]bool{"": true, "north-america": true, "north-west-europe": false} {
		y := alike("riffle-three", 67, "baetidae")
		y.v.Header.Region = region
		g, err := rules.Grade(rules.Account(&y.v), GradeOptions{})
		if err != nil {
			t.Fatal(err)
		}
		i := g.Indices[0]
		if i.Withheld == worded || !worded &&
			!strings.Contains(i.Reason, "was made for north-america, and the visit is in north-west-europe") {
			t.Errorf("%q: %q, %s", region, i.Rating, i.Reason)
		}
	}
}

// A presence index of 3 for mayflies and 2 for clams is 5, and 3 without the zebra
// mussels among them (sums: ours).
func TestForeignAnimalsAreNamedWithTheValueWithoutThem(t *testing.T) {
	for region, foreign := range map[string]bool{"north-america": true, "": false} {
		_, rules := rulesIn(t, region)
		y := alike("riffle-three", 67, "baetidae", "dreissenidae")
		g, err := rules.Grade(rules.Account(&y.v), GradeOptions{})
		if err != nil {
			t.Fatal(err)
		}
		said := strings.Join(g.Remarks, " ")
		for _, want := range []string{"no sign of clean water: zebra or quagga mussel",
			"Without them the Presence index, 3-2-1 is 3, not 5", "tell the local authority"} {
			if strings.Contains(said, want) != foreign {
				t.Errorf("region %q: %q in %q: want %v", region, want, said, foreign)
			}
		}
	}
}

// Those that only may be foreign are named where they are many, or the value is rated
// otherwise without them: 205 mud snails, but not one crayfish of 200 animals.
func TestAnimalsThatMayBeForeignAreNamedWhereTheyMatter(t *testing.T) {
	_, rules := rulesIn(t, "north-america")
	for _, row := range []struct {
		taxon string
		n     int
		want  string
	}{
		{"hydrobiidae", 205, "Some of the animals found may not belong here, and then are no sign of clean water: mud snail. Without them"},
		{"hydrobiidae", 1, ""}, {"astacidea", 1, ""},
	} {
		y := alike("riffle-three", 67, "baetidae", "perlidae", "psephenidae", "elmidae", "chironomidae").animals("1", row.taxon, row.n)
		g, err := rules.Grade(rules.Account(&y.v), GradeOptions{})
		if err != nil {
			t.Fatal(err)
		}
		if (row.want == "") != (g.Foreign == "") || !strings.HasPrefix(g.Foreign, row.want) {
			t.Errorf("%d %s: %q", row.n, row.taxon, g.Foreign)
		}
	}
}

// A crayfish counts alike by whatever name, since no key parts their families: two by
// two names are one kind.
func TestACrayfishCountsByAnyOfItsNames(t *testing.T) {
	_, rules := rulesIn(t, "north-america")
	value := func(protocol string, names ...string) (values []string) {
		y := alike(protocol, 67, append(names, "baetidae", "gammaridae")...)
		g, err := rules.Grade(rules.Account(&y.v), GradeOptions{})
		if err != nil {
			t.Fatal(err)
		}
		for _, i := range g.Indices {
			if i.Value != nil {
				values = append(values, fmt.Sprint(i.ID, " ", *i.Value))
			}
		}
		return values
	}
	for _, protocol := range []string{"riffle-three", "riffle-best", "all-habitats-three-minutes"} {
		want, without := value(protocol, "astacidea"), value(protocol)
		if slices.Equal(want, without) {
			t.Errorf("%s: a crayfish counts nothing: %v", protocol, want)
		}
		for _, names := range [][]string{{"cambaridae"}, {"astacidae"}, {"cambaridae", "astacidea"}} {
			if got := value(protocol, names...); !slices.Equal(got, want) {
				t.Errorf("%s: %v give %v, crayfish %v", protocol, names, got, want)
			}
		}
	}
}
