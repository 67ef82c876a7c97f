package scoring

import (
	"math"
	"testing"
	"time"

	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// Zones are the bands that values are rated by: every edge is rated as its zone
// says, and the zones leave no step between them.
func TestZonesAreTheBandsThatRate(t *testing.T) {
	cat, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	rules, err := EmbeddedRules(cat)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range rules.Schemes() {
		next := int64(0)
		for _, z := range s.Zones() {
			from := int64(math.Round(z.Lowest * float64(s.One())))
			if from != next || s.Band(from).Rating != z.Rating {
				t.Errorf("%s: %s begins at %d steps, not %d, and is rated %s", s.ID, z.Rating, from, next, s.Band(from).Rating)
			}
			if math.IsInf(z.Highest, 1) {
				next = -1
				continue
			}
			to := int64(math.Round(z.Highest * float64(s.One())))
			if s.Band(to).Rating != z.Rating {
				t.Errorf("%s: %s ends at a value rated %s", s.ID, z.Rating, s.Band(to).Rating)
			}
			next = to + 1
		}
		if len(s.Zones()) > 0 && next != -1 {
			t.Errorf("%s: the last zone has an upper edge", s.ID)
		}
	}
}

// What was drawn from by hand: mayflies in both samples, a stonefly in one.
func TestIncidenceCountsSamplesByKind(t *testing.T) {
	cat, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	rules, err := EmbeddedRules(cat)
	if err != nil {
		t.Fatal(err)
	}
	v := &visit.Visit{Header: visit.Header{Protocol: "seven-samples"}}
	for i, body := range []visit.Body{
		visit.Sample{Label: "1"}, visit.Sample{Label: "2"},
		visit.Identification{Sample: "1", Taxon: "baetidae", Count: 5},
		visit.Identification{Sample: "2", Taxon: "heptageniidae", Count: 1},
		visit.Identification{Sample: "2", Taxon: "plecoptera", Count: 9},
		visit.Identification{Sample: "2", Undecided: true, Count: 1},
	} {
		v.Events = append(v.Events, visit.Event{ID: string(rune('a' + i)), Time: time.Unix(int64(i), 0), Body: body})
	}
	x, err := rules.Incidence(rules.Account(v))
	if err != nil || x.Samples != 2 || x.Found() != 2 {
		t.Fatalf("%+v, %v", x, err)
	}
	if sum := x.Frequencies[0] + x.Frequencies[1]; sum != 3 {
		t.Errorf("one kind in two samples and one in one: %v", x.Frequencies)
	}
	v.Header.Protocol = "nosuch"
	if _, err := rules.Incidence(rules.Account(v)); err == nil {
		t.Error("a protocol that is not there has an incidence")
	}
}
