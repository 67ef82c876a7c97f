package scoring_test

import (
	"testing"

	"rillkey/scoring"
	"rillkey/taxa"
)

func TestProtocolFor(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	rules, err := scoring.EmbeddedRules(catalog)
	if err != nil {
		t.Fatal(err)
	}
	of := func(ids ...string) *taxa.Region { return &taxa.Region{Protocols: ids} }
	for _, row := range []struct {
		why    string
		region *taxa.Region
		want   string
	}{
		{"no region", nil, scoring.UsualProtocol},
		{"a region that names none", of(), scoring.UsualProtocol},
		{"the first that a region names", of("riffle-families", "riffle-three"), "riffle-families"},
	} {
		if p, err := rules.ProtocolFor(row.region); err != nil || p.ID != row.want {
			t.Errorf("%s: %v, %v", row.why, p, err)
		}
	}
	if _, err := rules.ProtocolFor(of("no-such")); err == nil {
		t.Error("a protocol that is not there is passed over")
	}
	if p, err := scoring.NoRules(catalog).ProtocolFor(nil); p != nil || err != nil {
		t.Errorf("rules without a protocol have %v, %v", p, err)
	}
}
