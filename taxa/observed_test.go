package taxa_test

import (
	"slices"
	"testing"

	"rillkey/taxa"
)

// What observers told of live animals of these families, their names known from elsewhere,
// is among what the catalog has them show (accounts written without sight of it).
func TestFamiliesShowWhatObserversTold(t *testing.T) {
	c, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range [][3]string{
		{"athericidae", "side-arms", "fleshy"},
		{"athericidae", "tail-hair", "fringed"},
		{"athericidae", "tail-length", "long"},
		{"chironomidae-red", "outline", "thread"},
		{"ceratopogonidae", "skin", "hard"},
		{"dixidae", "mouth", "fans"},
		{"ptychopteridae", "tails", "1"},
		{"ptychopteridae", "gill-form", "threads"},
		{"peltoperlidae", "head", "covered"},
		{"peltoperlidae", "outline", "tapered"},
		{"nemouridae", "outline", "spindle"},
		{"isonychiidae", "outline", "spindle"},
		{"leptohyphidae", "outline", "oval"},
		{"corixidae", "mouth", "small"},
		{"sialidae", "gill-form", "threads"},
		{"cordulegastridae", "move", "still"},
		{"gammaridae", "rings", "rings"},
		{"gammaridae", "hair", "spiny"},
		{"asellidae", "rings", "rings"},
		{"hydrachnidia", "head", "none"},
		{"astacidea", "colour", "pale"},
		{"brachycentridae", "leg-length", "long"},
		{"philopotamidae", "leg-length", "short"},
	} {
		shown := c.Taxon(row[0]).States(row[1])
		if !slices.ContainsFunc(shown, func(w taxa.Weight) bool { return w.State == row[2] && w.Share > 0 }) {
			t.Errorf("%s shows no %s=%s: %v", row[0], row[1], row[2], shown)
		}
	}
}
