package paper

import (
	"strings"
	"testing"

	"rillkey/scoring"
	"rillkey/scoring/scheme"
)

func shareOf(id string, value float64, terms ...scheme.Term) scoring.Index {
	return scoring.Index{ID: id, Value: &value, Terms: terms}
}

func TestSentencesOnTheMixture(t *testing.T) {
	terms := []scheme.Term{{Kind: "mayfly", Label: "Mayfly", Count: 60}, {Kind: "midge", Label: "Midge", Count: 40}}
	families := []scheme.Term{{Kind: "baetidae", Count: 45}, {Kind: "heptageniidae", Count: 15}}
	full := &scoring.Grade{Beside: []scoring.Index{
		shareOf("percent-ept", 60, terms...), shareOf("ept-families", 2, families...), shareOf("percent-dominant", 60, terms...)}}
	few := &scoring.Grade{Beside: []scoring.Index{
		shareOf("percent-ept", 60, scheme.Term{Count: 3}), shareOf("percent-dominant", 100, scheme.Term{Count: 3})}}
	tests := []struct {
		name   string
		g      *scoring.Grade
		inPart bool
		want   []string
		not    string
	}{
		{"with and without", full, false,
			[]string{"60 % of the animals; 15.0 % without", "kind, mayfly, makes 60 %", "often a sign of stress"}, ""},
		{"a part sorted", full, true, []string{"60 % of the animals."}, "without"},
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
