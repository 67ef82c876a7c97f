package paper

import (
	"strings"
	"testing"

	"rillkey/cmd/rillkey/chart"
	"rillkey/scoring"
	"rillkey/scoring/scheme"
)

func shareOf(id string, value float64, terms ...scheme.Term) scoring.Index {
	return scoring.Index{ID: id, Value: &value, Terms: terms}
}

func ranged(i scoring.Index, low, high float64) scoring.Index {
	i.Low, i.High = &low, &high
	return i
}

func TestSentencesOnTheMixture(t *testing.T) {
	terms := []scheme.Term{{Kind: "mayfly", Label: "Mayfly", Count: 60}, {Kind: "midge", Label: "Midge", Count: 40}}
	families := []scheme.Term{{Kind: "baetidae", Count: 45}, {Kind: "heptageniidae", Count: 15}}
	full := &scoring.Grade{Further: []scoring.Index{
		shareOf("percent-ept", 60, terms...), shareOf("ept-families", 2, families...), shareOf("percent-dominant", 60, terms...)}}
	few := &scoring.Grade{Further: []scoring.Index{
		shareOf("percent-ept", 60, scheme.Term{Count: 3}), shareOf("percent-dominant", 100, scheme.Term{Count: 3})}}
	tests := []struct {
		name   string
		g      *scoring.Grade
		inPart bool
		want   []string
		not    string
	}{
		{"with and without", full, false,
			[]string{"60 % of the animals that count; 15.0 % without", "kind, mayfly, makes 60 %", "often a sign of stress"}, ""},
		{"a part sorted", full, true, []string{"60 % of the animals that count."}, "without"},
		{"equally many", &scoring.Grade{Further: []scoring.Index{shareOf("percent-dominant", 40, scheme.Term{Label: "Mayfly", Count: 40},
			scheme.Term{Label: "Worm", Count: 20}, scheme.Term{Label: "Midge", Count: 40})}}, false,
			[]string{"The commonest kinds, mayfly and midge, make 40 % of the animals that count each."}, "worm"},
		{"with a range", &scoring.Grade{Further: []scoring.Index{ranged(shareOf("percent-ept", 60, terms...), 48, 64.5),
			ranged(shareOf("percent-dominant", 60, terms...), 50, 61)}}, false, []string{
			"60 % of the animals that count (closer names: 48 to 64.5).",
			"makes 60 % of the animals that count (closer names: 50 to 61)."}, ""},
		{"three animals", few, false, nil, "%"},
		{"nothing known", &scoring.Grade{}, false, nil, "%"},
	}
	for _, test := range tests {
		got := strings.Join(mixture(test.g, test.inPart), "\n")
		for _, want := range test.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s: no %q in %s", test.name, want, got)
			}
		}
		if test.not != "" && strings.Contains(got, test.not) {
			t.Errorf("%s: %q in %s", test.name, test.not, got)
		}
	}
}

// Where two ways of feeding are equally frequent, none is said to be the most.
func TestNoWayOfFeedingPrevailsOfEquals(t *testing.T) {
	bars := func(counts ...int64) chart.Bars {
		g := chart.BarGroup{}
		for i, n := range counts {
			g.Bars = append(g.Bars, chart.Bar{Label: []string{"shredders", "gatherers", "predators"}[i], Count: n})
		}
		return chart.Bars{Groups: []chart.BarGroup{g}}
	}
	for _, c := range []struct {
		bars   chart.Bars
		inPart bool
		want   string
	}{
		{bars(30, 20, 10), false, "Of the 60 animals whose way of feeding is known, shredders are the most (50\u00a0%)."},
		{bars(25, 25, 10), false,
			"None prevails among the 60 animals whose way of feeding is known: shredders and gatherers are equally many."},
		{bars(25, 25, 10), true, "multiplied up: shredders and gatherers are equally many."},
		{bars(5, 5, 1), false, "known of 11 animals, too few to say"},
	} {
		if said := fed(c.bars, c.inPart); !strings.Contains(said, c.want) {
			t.Errorf("no %q in %q", c.want, said)
		}
	}
}
