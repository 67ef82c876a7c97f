package scoring

import (
	"slices"
	"testing"

	"rillkey/scoring/scheme"
	"rillkey/taxa"
)

// What a region names is followed there and nowhere else; what no region names, everywhere.
func TestFollowedProtocols(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	r := rules(t)
	if got := r.Followed(catalog); len(got) != len(r.Protocols()) {
		t.Errorf("without a region %d of %d may be followed", len(got), len(r.Protocols()))
	}
	for _, here := range catalog.Regions() {
		got := r.Followed(catalog.InRegion(here))
		for _, p := range r.Protocols() {
			names := func(of *taxa.Region) bool { return slices.Contains(of.Protocols, p.ID) }
			may := slices.ContainsFunc(got, func(q *scheme.Protocol) bool { return q.ID == p.ID })
			if elsewhere := !names(here) && slices.ContainsFunc(catalog.Regions(), names); may == elsewhere {
				t.Errorf("%s in %s: may be followed: %v", p.ID, here.ID, may)
			}
		}
	}
}
