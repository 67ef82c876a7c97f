package scoring

import (
	"math"
	"testing"

	"rillkey/scoring/visit"
)

// A closer and a broader name of one animal are no rivals, whichever came first.
func TestACloserNameIsNoRival(t *testing.T) {
	for _, row := range []struct{ first, second string }{{"ephemeroptera", "baetidae"}, {"baetidae", "ephemeroptera"}} {
		y := newTray("riffle-three").riffles()
		y.event(visit.Identification{Sample: "1", Taxon: row.first, Count: 60, Confidence: 0.95,
			Also: []visit.Chance{{Taxon: "plecoptera", Probability: 0.05}}})
		y.event(visit.SecondLook{Entry: "e4", Taxon: row.second, Confidence: 0.95})
		a := rules(t).Account(&y.v)
		b := a.Belief(&a.Records[0])
		// By hand: 0.95 x 0.95 against 0.05 x 0.05.
		if len(b) != 2 || b[0].Taxon != row.first || math.Abs(b[0].Probability-0.9025/0.905) > 1e-12 {
			t.Errorf("%s, then %s: %+v", row.first, row.second, b)
		}
		if list, err := rules(t).Recheck(rules(t).Account(&y.v), 1); err != nil || len(list.Records) != 0 {
			t.Errorf("%s, then %s: listed as doubtful: %+v", row.first, row.second, list)
		}
		if g := rules(t).Agreement(a); len(g.Differing) != 0 || *g.Disagreement != 0 {
			t.Errorf("%s, then %s: %+v differ in %v %%", row.first, row.second, g.Differing, *g.Disagreement)
		}
	}
}

// By hand: a scud called by its family and by its order, and a midge called a
// midge by both, agree throughout: kappa is 1.
func TestKappaKnowsRanks(t *testing.T) {
	y := newTray("riffle-three").riffles().animals("1", "gammaridae", 1).animals("1", "chironomidae", 1)
	y.event(visit.SecondLook{Entry: "e4", Taxon: "amphipoda"}).event(visit.SecondLook{Entry: "e5", Taxon: "chironomidae"})
	if a := rules(t).Agreement(rules(t).Account(&y.v)); a.Kappa == nil || *a.Kappa != 1 {
		t.Errorf("%+v", a.Kappa)
	}
}

func TestDoubtfulMeansDoubtful(t *testing.T) {
	y := newTray("riffle-three").riffles()
	y.event(unsure("1", "psephenidae", 2, "elmidae", 0.005)) // over 0.99
	y.event(unsure("1", "amphipoda", 1, "fish", 0.5))
	y.event(visit.Identification{Sample: "2", Count: 1, Undecided: true, Possible: []string{"ephemeroptera", "plecoptera"}})
	list, err := rules(t).Recheck(rules(t).Account(&y.v), 1)
	if err != nil || len(list.Records) != 2 || list.Records[0].Name != "set aside" || list.Records[1].Taxon != "amphipoda" {
		t.Errorf("%v %+v", err, list)
	}
}
