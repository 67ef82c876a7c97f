package couplets_test

import (
	"io/fs"
	"testing"

	"rillkey/couplets"
	"rillkey/taxa"
)

// No end of a built-in key is left without a commonness, in silence: it would count as
// the median of the others.
func TestEveryAnimalHasACommonness(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	files, err := fs.Glob(couplets.Embedded(), "*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal("no embedded key", err)
	}
	for _, file := range files {
		sound, err := couplets.Load(couplets.Embedded(), file, file, catalog)
		if err != nil {
			t.Fatal(err)
		}
		for _, end := range sound.Ends {
			if sound.Commonness[end.ID] == 0 {
				t.Errorf("taxon %s is in taxa/ and an end of couplets/%s, and has no line in its [commonness.weight]", end.ID, file)
			}
		}
	}
}
