// Package keytest gives tests the keys that are built in.
package keytest

import (
	"testing"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
)

// Catalog is the built-in catalog.
func Catalog(t testing.TB) *taxa.Catalog {
	t.Helper()
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	return catalog
}

// Sound is the built-in key of that file, checked, and the catalog that it is
// checked against.
func Sound(t testing.TB, file string) (*couplets.Sound, *taxa.Catalog) {
	t.Helper()
	catalog := Catalog(t)
	sound, err := couplets.Load(couplets.Embedded(), file, file, catalog)
	if err != nil {
		t.Fatal(err)
	}
	return sound, catalog
}

// Key is the usual built-in key.
func Key(t testing.TB) *key.Key {
	t.Helper()
	return key.Compile(Sound(t, couplets.DefaultName))
}

// Model is the usual built-in key with the vocabulary's misread rates.
func Model(t testing.TB) *key.Model {
	t.Helper()
	k := Key(t)
	m, err := k.Model(key.FileRates(k.Catalog().Vocabulary()))
	if err != nil {
		t.Fatal(err)
	}
	return m
}
