package scoring_test

import (
	"fmt"
	"time"

	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// A visit of one sample, by a protocol that asks for three, has no grade, and the
// grade says why.
func ExampleRules_Grade() {
	catalog, err := taxa.Embedded()
	if err != nil {
		fmt.Println(err)
		return
	}
	rules, err := scoring.EmbeddedRules(catalog)
	if err != nil {
		fmt.Println(err)
		return
	}
	begun := time.Date(2026, 5, 16, 9, 0, 0, 0, time.UTC)
	v := &visit.Visit{Header: visit.Header{ID: "v1", Site: "Otter Run", Date: "2026-05-16", Protocol: "riffle-three", Begun: begun}}
	v.Events = []visit.Event{
		{ID: "s1", Time: begun, Who: "Oona", Body: visit.Sample{Label: "1", Habitat: "riffle", Area: 0.37, Said: visit.Sorted}},
		{ID: "a1", Time: begun, Who: "Oona", Body: visit.Identification{Sample: "1", Taxon: "perlidae", Count: 12, Confidence: 1}},
	}
	grade, err := rules.Grade(rules.Account(v), scoring.GradeOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(grade.Withheld(), grade.Indices[0].Reason)
	// Output:
	// true too few samples: 1 taken of 3 required; missing: 2 riffle samples of 0.37 square metres
}
