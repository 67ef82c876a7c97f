// Package keytest gives tests the keys that are built in, and reads those of their own.
package keytest

import (
	"os"
	"runtime/debug"
	"sync"
	"testing"
	"testing/fstest"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
)

// Tests that ask the keys make much that lives short; to collect it less often takes
// a sixth off their time.
func init() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
	}
}

// Times is how often a test does something: usually, or in short runs.
func Times(usually, short int) int {
	if testing.Short() {
		return short
	}
	return usually
}

// Thoroughly is how often a test does something: where .ci/run runs it, or usually.
func Thoroughly(there, usually int) int {
	if os.Getenv("RILLKEY_CI") == "1" {
		return there
	}
	return usually
}

// Catalog is the built-in catalog.
func Catalog(t testing.TB) *taxa.Catalog {
	t.Helper()
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	return catalog
}

// Invented is a catalog of a test's own traits and taxa.
func Invented(t testing.TB, traits, animals string) *taxa.Catalog {
	t.Helper()
	catalog, err := taxa.Load(fstest.MapFS{"traits.toml": {Data: []byte(traits)}, "animals.toml": {Data: []byte(animals)}}, "")
	if err != nil {
		t.Fatal(err)
	}
	return catalog
}

// Checked is a key of a test's own, which must be sound.
func Checked(t testing.TB, text string, catalog *taxa.Catalog) *couplets.Sound {
	t.Helper()
	sound, err := couplets.LoadText([]byte(text), "k.toml", catalog)
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return sound
}

// Sound is the built-in key of that file, checked, and the catalog that it is
// checked against. Nobody may change it.
func Sound(t testing.TB, file string) (*couplets.Sound, *taxa.Catalog) {
	t.Helper()
	catalog := Catalog(t)
	read, _ := sounds.LoadOrStore(file, sync.OnceValues(func() (*couplets.Sound, error) {
		return couplets.Load(couplets.Embedded(), file, file, catalog)
	}))
	sound, err := read.(func() (*couplets.Sound, error))()
	if err != nil {
		t.Fatal(err)
	}
	return sound, catalog
}

// sounds are the keys that were read, by file.
var sounds sync.Map

// Key is the usual built-in key.
func Key(t testing.TB) *key.Key {
	t.Helper()
	return Model(t).Key()
}

// Model is the usual built-in key with the vocabulary's misread rates.
func Model(t testing.TB) *key.Model {
	t.Helper()
	sound, catalog := Sound(t, couplets.DefaultName)
	m, err := usual(sound, catalog)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// usual makes the model once.
func usual(sound *couplets.Sound, catalog *taxa.Catalog) (*key.Model, error) {
	once.Do(func() {
		model, modelErr = key.Compile(sound, catalog).Model(key.FileRates(catalog.Vocabulary()))
	})
	return model, modelErr
}

var (
	once     sync.Once
	model    *key.Model
	modelErr error
)
