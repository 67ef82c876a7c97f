package draft_test

import (
	"testing"

	"rillkey/key/draft"
	"rillkey/key/keytest"
	"rillkey/taxa"
)

// The rows of a key's draft are its ends, as common as the key has them; in a region those
// that are met there.
func TestRowsOf(t *testing.T) {
	sound, catalog := keytest.Sound(t, "north-america.toml")
	all := draft.RowsOf(sound, nil, catalog)
	if len(all) != len(sound.Ends) {
		t.Fatalf("%d rows of %d ends", len(all), len(sound.Ends))
	}
	for i, row := range all {
		if row.ID != sound.Ends[i].ID || row.Weight != sound.Weights()[row.ID] {
			t.Errorf("row %d is %+v", i, row)
		}
	}
	some := draft.RowsOf(sound, &taxa.Region{Taxa: []taxa.Resident{{Taxon: "plecoptera"}}}, catalog)
	for _, row := range some {
		if !catalog.IsUnder(row.ID, "plecoptera") {
			t.Errorf("%s is no stonefly", row.ID)
		}
	}
	if len(some) < 5 || len(some) == len(all) {
		t.Errorf("%d families of stoneflies", len(some))
	}
}
