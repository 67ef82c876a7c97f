package scoring

import (
	"fmt"
	"testing"

	"rillkey/scoring/visit"
)

// A vial is for what an expert can settle: a doubtful name, in the words of the table where
// it was set aside, and no salamander.
func TestSpecimensAreDoubtfulAndScored(t *testing.T) {
	y := newTray("riffle-three").riffles()
	y.event(unsure("1", "ephemeroptera", 4, "plecoptera", 0.4))
	y.event(unsure("1", "amphipoda", 1, "salamander", 0.7)) // likelier what no index scores
	y.event(visit.Identification{Sample: "1", Taxon: "elmidae", Count: 2, Confidence: 1})
	y.event(visit.Identification{Sample: "2", Undecided: true, Count: 1, Possible: []string{"perlidae", "perlodidae"}})
	y.event(visit.Identification{Sample: "2", Undecided: true, Count: 1, Possible: []string{"tipulidae", "athericidae", "simuliidae",
		"chironomidae"}})
	catalog, a := rules(t).catalog, rules(t).Account(&y.v)
	list, err := rules(t).Recheck(a, 1)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]RecheckRecord{}
	for _, s := range list.Specimens(a.Tally, catalog) {
		got[s.Taxon+fmt.Sprint(len(s.Rivals))] = s
	}
	if len(got) != 3 {
		t.Errorf("%+v", got)
	}
	if s := got["ephemeroptera1"]; s.Rivals == nil || s.Rivals[0].Taxon != "plecoptera" {
		t.Errorf("a doubtful mayfly has a vial: %+v", got)
	}
	if s := got["2"]; s.Rivals == nil || s.Rivals[0].Taxon != "perlidae" || s.Rivals[0].Chance != 0.5 {
		t.Errorf("what was set aside is one of the two that were said: %+v", got)
	}
}

// The feature that settles a record parts the name from the likeliest other, or the two
// likeliest where there is no name.
func TestSettlingPartsTheTwoLikeliest(t *testing.T) {
	catalog := rules(t).catalog
	for _, row := range []struct {
		why    string
		record RecheckRecord
		two    string
	}{
		{"a name and what else it may be", RecheckRecord{Taxon: "ephemeroptera", Rivals: []Alternative{{Taxon: "plecoptera"}}},
			"ephemeroptera plecoptera"},
		{"no name", RecheckRecord{Rivals: []Alternative{{Taxon: "plecoptera"}, {Taxon: "zygoptera"}, {Taxon: "fish"}}},
			"plecoptera zygoptera"},
		{"nothing else", RecheckRecord{Taxon: "ephemeroptera"}, ""},
		{"one that is not known here", RecheckRecord{Taxon: "ephemeroptera", Rivals: []Alternative{{Taxon: "unicorn"}}}, ""},
	} {
		trait, two := row.record.Settling(catalog)
		said := ""
		if trait != nil {
			said = two[0].ID + " " + two[1].ID
		}
		if said != row.two {
			t.Errorf("%s: %q, want %q", row.why, said, row.two)
		}
	}
}

func TestWhatTellsMostComesFirst(t *testing.T) {
	for _, row := range []struct {
		x, y RecheckRecord
		want int
	}{
		{RecheckRecord{Gain: 1}, RecheckRecord{Gain: 0.5, Moves: 9}, -1},
		{RecheckRecord{Gain: 0.5}, RecheckRecord{Gain: 0.5, Moves: 9}, 1},
		{RecheckRecord{Gain: 0.5, Moves: 9}, RecheckRecord{Gain: 0.5, Moves: 9}, 0},
	} {
		if got := CompareGain(&row.x, &row.y); got != row.want {
			t.Errorf("%+v, %+v: %d", row.x, row.y, got)
		}
	}
}
