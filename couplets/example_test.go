package couplets_test

import (
	"fmt"
	"testing/fstest"

	"rillkey/couplets"
	"rillkey/taxa"
)

// A key is read and checked against a catalog in one go; only a sound one comes out.
func ExampleLoad() {
	catalog, err := taxa.Embedded()
	if err != nil {
		panic(err)
	}
	files := fstest.MapFS{"brook.toml": {Data: []byte(`[key]
id     = "brook"
title  = "Two animals of our brook"
source = "common practice"

[couplet.1]
ask = "Number of legs"
a   = { text = "Ten legs.", traits = { legs = "10" }, taxon = "astacidea" }
b   = { text = "No legs.", traits = { legs = "0" }, taxon = "turbellaria" }
`)}}
	sound, err := couplets.Load(files, "brook.toml", "brook.toml", catalog)
	if err != nil {
		panic(err)
	}
	for _, end := range sound.Ends {
		fmt.Println(end.Name())
	}
	// Output:
	// crayfish
	// flatworm
}
