package scoring

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"rillkey/scoring/account"
	"rillkey/scoring/visit"
)

// By hand: of three kinds with weights of 5, 3 and 2 one pick takes the first in 5 of
// 10 cases; two leave the third out in 5/10 x 3/5 + 3/10 x 5/7 of them.
func TestKindsArePickedByHowCommonTheyAre(t *testing.T) {
	s := rules(t).grader("presence")
	weights := make([]float64, len(s.Kinds))
	weights[0], weights[1], weights[2] = 5, 3, 2
	for number, want := range map[int][]float64{
		1: {0.5, 0.3, 0.2},
		2: {1 - 0.3*2/7 - 0.2*3/8, 1 - 0.5*2/5 - 0.2*5/8, 1 - 0.5*3/5 - 0.3*5/7},
		3: {1, 1, 1},
	} {
		p := s.pick(weights, number, make([]bool, len(s.Kinds)), 1)
		for k, in := range want {
			if error := 4 * math.Sqrt(in*(1-in)/picks); math.Abs(p.shares[k]-in) > error+1e-9 {
				t.Errorf("%d of 3: the kind %d is picked in %.4f, not %.4f", number, k, p.shares[k], in)
			}
		}
	}
}

// visitWith is a complete visit in which 40 animals of each taxon were found.
func visitWith(names ...string) *visit.Visit {
	v := &visit.Visit{Header: visit.Header{ID: "v", Site: "Otter Run", Date: "2026-05-16", Protocol: "riffle-three"}}
	for i := range 3 {
		v.Events = append(v.Events, visit.Event{
			ID: fmt.Sprint("s", i), Body: visit.Sample{Label: fmt.Sprint(i + 1), Habitat: "riffle", Area: 0.37, Said: visit.Sorted}})
	}
	for i, name := range names {
		v.Events = append(v.Events, visit.Event{
			ID: fmt.Sprint("e", i), Body: visit.Identification{Sample: "1", Taxon: name, Count: 40, Confidence: 1}})
	}
	return v
}

func TestWhatIsExpectedHere(t *testing.T) {
	common := map[string]float64{"baetidae": 30, "perlidae": 20, "psephenidae": 10, "elmidae": 10, "hydropsychidae": 20,
		"chironomidae": 1, "simuliidae": 1, "hirudinea": 1, "oligochaeta": 1, "asellidae": 1, "gammaridae": 1, "physidae": 1}
	r := rules(t)
	fauna := account.NewFauna(r.catalog, common)
	r = r.JudgedAmong(func() *account.Fauna { return fauna })
	grade := func(names ...string) *Expected {
		g, err := r.Grade(r.Account(visitWith(names...)), GradeOptions{})
		if err != nil {
			t.Fatal(err)
		}
		return g.Expected
	}
	tolerant := []string{"chironomidae", "simuliidae", "hirudinea", "oligochaeta", "physidae"}
	x := grade(tolerant...)
	if x == nil || !x.Short() || x.Kinds != 5 || !strings.Contains(x.Words, "some are fewer than chance makes them: 0 sensitive, where ") ||
		!strings.Contains(x.Words, "more likely there than not: mayfly, caddisfly") || !strings.Contains(x.Words, "as well as harm does") {
		t.Errorf("%+v", x)
	}
	if x = grade("baetidae", "perlidae", "hydropsychidae", "elmidae", "chironomidae"); x == nil || x.Short() ||
		!strings.Contains(x.Words, "nothing is missing beyond chance") ||
		!strings.Contains(x.Words, "more likely there than not: water penny.") {
		t.Errorf("%+v", x)
	}
	if x = grade(tolerant[:4]...); x != nil {
		t.Errorf("of four kinds nothing is expected: %+v", x)
	}
	// Without a region, or before all samples are there, nobody can say.
	if g, _ := rules(t).Grade(rules(t).Account(visitWith(tolerant...)), GradeOptions{}); g.Expected != nil {
		t.Errorf("%+v", g.Expected)
	}
	short := visitWith(tolerant...)
	short.Events = short.Events[1:]
	for i := range short.Events[2:] {
		d := short.Events[2+i].Body.(visit.Identification)
		d.Sample = "2"
		short.Events[2+i].Body = d
	}
	if g, _ := r.Grade(r.Account(short), GradeOptions{}); g.Expected != nil {
		t.Errorf("%+v", g.Expected)
	}
}
