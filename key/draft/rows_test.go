package draft_test

import (
	"slices"
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

// A key is given as the table of its ends, with their weights and the words of leads to one of
// them alone.
func TestGiveKey(t *testing.T) {
	sound, catalog := keytest.Sound(t, "north-america.toml")
	table := draft.GiveKey(catalog, sound)
	if len(table) < len(sound.Ends)+3 {
		t.Fatalf("%d rows for %d ends", len(table), len(sound.Ends))
	}
	wording := slices.Index(table[0], "wording")
	rows := table[len(table)-len(sound.Ends):]
	alone := map[string][]string{}
	for _, c := range sound.Couplets {
		for _, l := range c.Leads {
			if len(l.Taxa) == 1 {
				alone[l.Taxa[0]] = append(alone[l.Taxa[0]], l.Text)
			}
		}
	}
	for i, end := range sound.Ends {
		want := "?" // not known
		if texts := alone[end.ID]; len(texts) > 0 {
			want = texts[0]
		}
		if got := rows[i][wording]; got != want {
			t.Errorf("%s: %q, not %q", end.ID, got, want)
		}
	}
}
