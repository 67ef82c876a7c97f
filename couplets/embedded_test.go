package couplets_test

import (
	"io/fs"
	"testing"

	"rillkey/couplets"
	"rillkey/taxa"
)

// Every embedded key is sound against the embedded catalog: no contradiction,
// overlap or gap, every couplet reached.
func TestEmbeddedKeysAreSound(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	names, err := fs.Glob(couplets.Embedded(), "*.toml")
	if err != nil || len(names) == 0 {
		t.Fatal("no embedded key", err)
	}
	for _, name := range names {
		s, err := couplets.Load(couplets.Embedded(), name, name, catalog)
		if err != nil {
			t.Errorf("%s:\n%v", name, err)
			continue
		}
		t.Logf("%s: %d couplets, %d end points", name, len(s.Couplets), len(s.Ends))
	}
}
