package scoring_test

import (
	"math"
	"testing"

	"rillkey/scoring"
	"rillkey/taxa"
)

// The worths are those of the presence index: sensitive kinds 3, somewhat sensitive 2,
// tolerant 1 (testdata/published/presence-groups.toml).
func TestSwapGoesByWhatKindsAreWorth(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	rules, err := scoring.EmbeddedRules(catalog)
	if err != nil {
		t.Fatal(err)
	}
	swap, err := rules.Swap("riffle-three")
	if err != nil {
		t.Fatal(err)
	}
	for _, one := range []struct {
		a, b string
		want float64
	}{
		{"perlidae", "perlodidae", 0}, {"perlidae", "erpobdellidae", 1}, {"perlidae", "gammaridae", 0.5},
		{"gammaridae", "erpobdellidae", 0.5},
	} {
		if got := swap(one.a, one.b); math.Abs(got-one.want) > 1e-9 || swap(one.b, one.a) != got {
			t.Errorf("%s for %s: %v, want %v", one.a, one.b, got, one.want)
		}
	}
	if _, err := rules.Swap("no-such"); err == nil {
		t.Error("a protocol that nobody knows")
	}
}
