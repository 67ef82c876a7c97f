package network

import (
	"slices"
	"testing"

	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// Which animals do not belong is asked of the visit's own region: the one it names, else
// the only one that follows its protocol, else the one that the catalog is of.
func TestInvadersGoByTheVisitsOwnRegion(t *testing.T) {
	whole, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	found := []string{"varunidae", "dreissenidae", "baetidae", "bithyniidae", "dreissenidae", "never-heard-of"}
	inEurope := whole.InRegion(whole.RegionNamed("north-west-europe"))
	america, europe := []string{"bithyniidae", "dreissenidae"}, []string{"dreissenidae", "varunidae"}
	for _, row := range []struct {
		name    string
		catalog *taxa.Catalog
		header  visit.Header
		want    []string
	}{
		{"named", whole, visit.Header{Region: "north-america"}, america},
		{"named, whatever its protocol", whole, visit.Header{Region: "north-west-europe", Protocol: "riffle-three"}, europe},
		{"by its protocol", whole, visit.Header{Protocol: "riffle-three"}, america},
		{"by another protocol", whole, visit.Header{Protocol: "all-habitats-three-minutes"}, europe},
		{"of a region that is not there", whole, visit.Header{Region: "mars"}, nil},
		{"of a protocol that is not there", whole, visit.Header{Protocol: "mars"}, nil},
		{"where one region is meant", inEurope, visit.Header{Region: "north-america"}, europe},
	} {
		if got := InvadersIn(row.catalog)(&visit.Visit{Header: row.header}, found); !slices.Equal(got, row.want) {
			t.Errorf("%s: %v, not %v", row.name, got, row.want)
		}
	}
}
