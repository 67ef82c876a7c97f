package couplets_test

import (
	"io/fs"
	"strings"
	"testing"

	"rillkey/couplets"
	"rillkey/taxa"
)

// No animal of the catalog is left without a region, so that a new row cannot go
// unkeyed in silence.
func TestEveryAnimalBelongsToARegion(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	files, err := fs.Glob(couplets.Embedded(), "*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal("no embedded key", err)
	}
	met := map[string]bool{}
	for _, file := range files {
		region, err := couplets.EmbeddedRegion(strings.TrimSuffix(file, ".toml"), catalog)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range region.Taxa {
			met[r.Taxon] = true
		}
	}
	holds := map[string]bool{}
	for _, x := range catalog.Taxa() {
		holds[x.Parent] = true
	}
	for _, x := range catalog.Taxa() {
		keyed := x.States("outline") != nil // others are named only so that they are found
		if keyed && !holds[x.ID] && !met[x.ID] {
			t.Errorf("%s is in no file of couplets/regions", x.ID)
		}
	}
}
