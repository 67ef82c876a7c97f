package rules

import (
	"testing"

	"rillkey/couplets"
	"rillkey/taxa"
)

// A built-in key must end in those of a region only where the region asks it, or asks one
// of its own.
func TestWhomAKeyMustEndIn(t *testing.T) {
	lives := []taxa.Resident{{Taxon: "baetidae"}}
	for _, row := range []struct {
		file, key string
		must      bool
	}{
		{"north-america.toml", "north-america", true},
		{"kinds.toml", "north-america", false},
		{"north-west-europe.toml", "north-america", false},
		{"north-america.toml", "our-brook", true},
		{"north-america.toml", "", true},
	} {
		got := ResidentsFor(row.file, &taxa.Region{Key: row.key, Taxa: lives})
		if (len(got) == 1) != row.must {
			t.Errorf("%s in a region that asks %q: %v", row.file, row.key, got)
		}
	}
	if ResidentsFor("north-america.toml", nil) != nil || Residents(nil) != nil {
		t.Error("somebody lives in no region")
	}
	if len(Residents(&taxa.Region{Taxa: lives})) != 1 {
		t.Error("nobody lives in the region")
	}
}

// An end is listed with itself, with what holds it, or with something that it holds.
func TestUnlistedEnds(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	sound := &couplets.Sound{}
	for _, id := range []string{"baetidae", "plecoptera"} {
		sound.Ends = append(sound.Ends, catalog.Taxon(id))
	}
	for _, row := range []struct {
		name   string
		listed []string
		want   string
	}{
		{"themselves", []string{"baetidae", "plecoptera"}, ""},
		{"what holds one, and what the other holds", []string{"ephemeroptera", "perlidae"}, ""},
		{"one beside it", []string{"heptageniidae", "plecoptera"}, "baetidae "},
		{"nothing", nil, "baetidae plecoptera "},
	} {
		r := &taxa.Region{}
		for _, id := range row.listed {
			r.Taxa = append(r.Taxa, taxa.Resident{Taxon: id})
		}
		got := ""
		for _, end := range Unlisted(sound, catalog, r) {
			got += end.ID + " "
		}
		if got != row.want {
			t.Errorf("%s: %q, not %q", row.name, got, row.want)
		}
	}
}
