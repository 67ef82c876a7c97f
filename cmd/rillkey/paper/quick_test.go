package paper_test

import (
	"strings"
	"testing"

	"rillkey/cmd/rillkey/paper"
	"rillkey/couplets"
	"rillkey/taxa"
)

// Every kind of the key for a first afternoon has two marks of its own, and stands
// on the sheet once, in every region that it lives in.
func TestTheQuickSheetHasEveryKindOnce(t *testing.T) {
	whole, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range whole.Regions() {
		catalog := whole.InRegion(r)
		_, key, err := couplets.Examine(couplets.Embedded(), "kinds.toml", "kinds.toml", catalog)
		if err != nil {
			t.Fatal(err)
		}
		var b strings.Builder
		if _, err := paper.QuickSheet(catalog, key, false).WriteTo(&b); err != nil {
			t.Fatal(err)
		}
		for _, end := range key.Ends {
			card := catalog.Card(end.ID)
			if card == nil || card.Taxon != end.ID {
				t.Errorf("%s has no card of its own", end.ID)
				continue
			}
			want := 0 // crayfish are called so in both regions
			for _, other := range key.Ends {
				if other.Name() == end.Name() && r.Holds(other.ID, catalog) {
					want = 1
				}
			}
			if n := strings.Count(b.String(), "<b>"+end.Name()+"</b>"); n != want {
				t.Errorf("%s: %s stands on the sheet %d times, not %d", r.ID, end.ID, n, want)
			}
		}
	}
}
