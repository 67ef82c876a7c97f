package scoring

import (
	"math"
	"strings"
	"testing"

	"rillkey/scoring/visit"
)

func TestASampleSortedInPart(t *testing.T) {
	y := newTray("riffle-families").sample("1", "riffle", 0.37)
	y.event(visit.Sample{Label: "2", Habitat: "riffle", Area: 0.37, Fraction: 0.25, Said: visit.Sorted})
	y.animals("1", "baetidae", 10).animals("2", "simuliidae", 5)
	g := y.grade(t)
	// 10 x 4 + 20 x 6 = 160 of 30 animals; presence counts kinds as they are.
	fbi, presence := g.Indices[0], g.Indices[1]
	if *fbi.Value != 5.33 || fbi.Terms[1].Count+fbi.Terms[0].Count != 30 ||
		!strings.Contains(strings.Join(fbi.Remarks, " "), "divided by that here") {
		t.Errorf("%+v", fbi)
	}
	if *presence.Value != 4 || presence.Terms[1].Count != 5 || !strings.Contains(strings.Join(presence.Remarks, " "), "as counted") {
		t.Errorf("%+v", presence)
	}
	for _, i := range append(g.Indices, g.Further...) {
		if !i.Withheld && !strings.Contains(strings.Join(i.Remarks, " "), "only a share of 0.25 of sample 2") {
			t.Errorf("%s is silent on the share: %q", i.ID, i.Remarks)
		}
	}
	if fbi.Animals != 15 || presence.Animals != 15 {
		t.Errorf("15 animals were seen, and the values are said to rest on %d and %d", fbi.Animals, presence.Animals)
	}
	if y.v.Tally().Records[1].Count != 5 {
		t.Error("the tally itself stays as it is")
	}
}

// Several samples sorted in part are told of once.
func TestSamplesSortedInPartAreToldOfAtOnce(t *testing.T) {
	y := newTray("riffle-families")
	y.event(visit.Sample{Label: "1", Habitat: "riffle", Area: 0.37, Fraction: 0.25, Said: visit.Sorted})
	y.event(visit.Sample{Label: "2", Habitat: "riffle", Area: 0.37, Fraction: 0.5, Said: visit.Sorted})
	y.animals("1", "baetidae", 10).animals("2", "simuliidae", 5)
	for _, i := range y.grade(t).Indices {
		said := strings.Join(i.Remarks, " ")
		if strings.Count(said, "share of") != 2 || strings.Count(said, "Not all was sorted") != 1 {
			t.Errorf("%s: %q", i.ID, i.Remarks)
		}
	}
}

func TestCountsDoNotOverflow(t *testing.T) {
	y := newTray("riffle-families").event(visit.Sample{Label: "1", Habitat: "riffle", Area: 0.37, Fraction: 1e-300, Said: visit.Sorted})
	sure := visit.Identification{Sample: "1", Count: visit.MaxCount, Confidence: 1}
	for range 1200 {
		for _, sure.Taxon = range []string{"baetidae", "simuliidae"} {
			y.event(sure)
		}
	}
	g := y.grade(t)
	if i := g.Indices[0]; *i.Value != 5 {
		t.Errorf("as many of 4 as of 6 are 5, got %v", *i.Value)
	}
	for _, i := range append(g.Indices, g.Further...) {
		if i.Value != nil && (math.IsNaN(*i.Value) || *i.Value < 0 || *i.Value > 100) {
			t.Errorf("%s is %v", i.ID, *i.Value)
		}
	}
}

func TestOutlook(t *testing.T) {
	y := newTray("seven-samples")
	for _, label := range []string{"1", "2", "3"} {
		y.sample(label, "riffle", 0).animals(label, "baetidae", 3)
	}
	y.animals("1", "perlidae", 1).animals("2", "perlidae", 1).animals("1", "tipulidae", 2).animals("2", "elmidae",
		1).animals("3", "asellidae", 1).animals("3", "plecoptera", 2)
	// Mayfly and stonefly in all three, three kinds in one each, none in two:
	// Q0 = 2/3 x 3 x 2 / 2 = 2; with four samples more
	// 5 + 2 (1 - (1 - 3 / (3 x 2 + 3))^4) = 5 + 2 (1 - (2/3)^4).
	o := y.grade(t).Effort.Forecast
	if want := 5 + 2*(1-math.Pow(2.0/3, 4)); o == nil || o.Found != 5 || o.Samples != 3 || o.Required != 7 ||
		math.Abs(o.Expected-want) > 1e-12 || math.Abs(o.InAll-7) > 1e-12 {
		t.Fatalf("%+v", o)
	}
	if o.Low < 5 || o.High < o.Expected || o.InAllLow < 5 || o.InAllTop < 7 {
		t.Errorf("%+v", o)
	}
	one := newTray("seven-samples").sample("1", "riffle", 0).animals("1", "perlidae", 1)
	if o := one.grade(t).Effort.Forecast; o != nil {
		t.Errorf("one sample foretells nothing: %+v", o)
	}
	full := newTray("riffle-families").sample("1", "riffle", 0).sample("2", "riffle", 0).animals("1", "perlidae", 1)
	if o := full.grade(t).Effort.Forecast; o != nil {
		t.Errorf("at full effort nothing is foretold: %+v", o)
	}
}
