package account_test

import (
	"testing"

	"rillkey/scoring"
	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

func catalog(t *testing.T) *taxa.Catalog {
	t.Helper()
	cat, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	return cat
}

// accountOf is the account of one record in a sample of which a share was sorted.
func accountOf(t *testing.T, share float64, rec visit.Identification) (*account.Account, *scheme.Scheme) {
	t.Helper()
	cat := catalog(t)
	rules, err := scoring.EmbeddedRules(cat)
	if err != nil {
		t.Fatal(err)
	}
	rec.Sample = "1"
	tally := visit.Tally{
		Samples: []visit.Taken{{Sample: visit.Sample{Label: "1", Fraction: share}}},
		Records: []visit.Record{{ID: "e1", Identification: rec}},
	}
	return account.New(&visit.Visit{}, tally, cat), rules.Scheme("presence")
}

// The kinds are those of the assessment form that the scheme presence names.
func TestARecordIsBoundOnce(t *testing.T) {
	for _, tt := range []struct {
		label string
		rec   visit.Identification
		kind  string // empty where it has none
		why   scheme.Why
		among bool // some kinds it may be are told
		any   bool
	}{
		{"a family is its kind", visit.Identification{Taxon: "perlidae", Count: 1}, "stonefly", "", false, false},
		{"a broad name is of an open kind", visit.Identification{Taxon: "coleoptera", Count: 1}, "", scheme.WhyAmbiguous, true, false},
		{"unless all that it may be is of one",
			visit.Identification{Taxon: "coleoptera", Count: 1, Possible: []string{"elmidae"}}, "riffle-beetle", "", false, false},
		{"what was set aside may be what was not excluded",
			visit.Identification{Undecided: true, Count: 1, Possible: []string{"perlidae"}}, "", scheme.WhySetAside, true, false},
		{"or anything, where nothing was", visit.Identification{Undecided: true, Count: 1}, "", scheme.WhySetAside, false, true},
		{"an unknown id may be anything", visit.Identification{Taxon: "jackalope", Count: 1}, "", scheme.WhyUnknownTaxon, false, true},
		{"a fish is never scored", visit.Identification{Taxon: "backbone", Count: 1}, "", scheme.WhyNotScored, false, false},
	} {
		a, s := accountOf(t, 0, tt.rec)
		bound := a.Rows(s.Counting())
		b := bound[0]
		kind := ""
		if b.Kind != scheme.None {
			kind = s.Kinds[b.Kind].ID
		}
		if kind != tt.kind || b.Why != tt.why || (len(b.MayBe) > 0) != tt.among || b.Any != tt.any || b.SampleTaken.Label != "1" {
			t.Errorf("%s: kind %q, %+v", tt.label, kind, b)
		}
		if again := a.Rows(s.Counting()); &again[0] != &bound[0] {
			t.Errorf("%s: it was bound again", tt.label)
		}
	}
}

// Animals of a sample sorted in part are divided by the share and rounded half up.
func TestAnimalsOfAPartAreMultipliedUp(t *testing.T) {
	for _, tt := range []struct {
		share  float64
		count  int
		animal int64
	}{{0, 5, 5}, {1, 5, 5}, {0.25, 5, 20}, {0.4, 1, 3}, {0.3, 1, 3}, {1e-12, 1 << 20, 1 << 30}} {
		a, s := accountOf(t, tt.share, visit.Identification{Taxon: "perlidae", Count: tt.count})
		if got := a.Rows(scheme.Counting{Kinds: s.KindSet, Scaled: true})[0].Animals; got != tt.animal {
			t.Errorf("%d animals in a share of %v are %d, want %d", tt.count, tt.share, got, tt.animal)
		}
		if got := a.Rows(scheme.Counting{Kinds: s.KindSet})[0].Animals; got != int64(tt.count) {
			t.Errorf("%d animals taken as counted are %d", tt.count, got)
		}
	}
}
