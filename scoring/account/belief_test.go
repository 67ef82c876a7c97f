package account_test

import (
	"math"
	"testing"

	"rillkey/scoring/account"
	"rillkey/scoring/visit"
)

func TestBelief(t *testing.T) {
	chance := func(taxon string, p float64) visit.Chance { return visit.Chance{Taxon: taxon, Probability: p} }
	looked := func(taxon string, sure float64) []visit.LookedAgain {
		return []visit.LookedAgain{{SecondLook: visit.SecondLook{Taxon: taxon, Confidence: sure}}}
	}
	tests := []struct {
		label string
		d     visit.Identification
		looks []visit.LookedAgain
		want  []visit.Chance
	}{
		{"nothing stated: at its word", visit.Identification{Taxon: "perlidae"}, nil, []visit.Chance{chance("perlidae", 1)}},
		{"wholly sure, whatever rivals were listed",
			visit.Identification{Taxon: "perlidae", Confidence: 1, Also: []visit.Chance{chance("perlodidae", 0.25)}}, nil,
			[]visit.Chance{chance("perlidae", 1)}},
		{"chances given, the rest on the name",
			visit.Identification{Taxon: "perlidae", Confidence: 0.5, Also: []visit.Chance{chance("perlodidae", 0.25)}}, nil,
			[]visit.Chance{chance("perlidae", 0.75), chance("perlodidae", 0.25)}},
		{"only how sure, the rest on what was not excluded",
			visit.Identification{Taxon: "perlidae", Confidence: 0.5,
				Possible: []string{"perlidae", "perlodidae", "nemouridae", "plecoptera"}}, nil,
			[]visit.Chance{chance("perlidae", 0.5), chance("perlodidae", 0.25), chance("nemouridae", 0.25)}},
		{"a name for all that was possible has no rivals there, so those of the catalog count",
			visit.Identification{Taxon: "plecoptera", Confidence: 0.5, Possible: []string{"perlidae", "perlodidae"}}, nil,
			[]visit.Chance{chance("plecoptera", 0.5), chance("ephemeroptera", 0.25), chance("coleoptera-larva-other", 0.25)}},
		{"undecided among two", visit.Identification{Undecided: true, Possible: []string{"perlidae", "perlodidae"}}, nil,
			[]visit.Chance{chance("perlidae", 0.5), chance("perlodidae", 0.5)}},
		{"undecided with chances", visit.Identification{
			Undecided: true, Possible: []string{"perlidae", "perlodidae"}, Also: []visit.Chance{chance("perlidae", 0.75)}},
			nil, []visit.Chance{chance("perlidae", 0.75), chance("perlodidae", 0.25)}},
		{"undecided without anything", visit.Identification{Undecided: true}, nil, []visit.Chance{chance("", 1)}},
		{"an id that nobody knows rivals of", visit.Identification{Taxon: "jackalope", Confidence: 0.75}, nil,
			[]visit.Chance{chance("jackalope", 0.75), chance("", 0.25)}},
		{"chances beyond 1 are scaled", visit.Identification{
			Taxon: "perlidae", Also: []visit.Chance{chance("perlodidae", 1), chance("nemouridae", 1)}}, nil,
			[]visit.Chance{chance("perlodidae", 0.5), chance("nemouridae", 0.5)}},
		{"a second person agrees: 0.75 x 0.75 to 0.25 x 0.25",
			visit.Identification{Taxon: "perlidae", Also: []visit.Chance{chance("perlodidae", 0.25)}},
			looked("perlidae", 0.75), []visit.Chance{chance("perlidae", 0.9), chance("perlodidae", 0.1)}},
		{"a second person as sure of the rival leaves it open",
			visit.Identification{Taxon: "perlidae", Also: []visit.Chance{chance("perlodidae", 0.25)}},
			looked("perlodidae", 0.75), []visit.Chance{chance("perlidae", 0.5), chance("perlodidae", 0.5)}},
		{"a name nobody thought of shares by half", visit.Identification{Taxon: "perlidae"}, looked("nemouridae", 0.75),
			[]visit.Chance{chance("perlidae", 0.5), chance("nemouridae", 0.5)}},
		{"a second person who does not say how sure",
			visit.Identification{Taxon: "perlidae", Also: []visit.Chance{chance("perlodidae", 0.25)}},
			looked("perlodidae", 0), []visit.Chance{chance("perlidae", 0.75), chance("perlodidae", 0.25)}},
		{"what was settled after a second look is certain", visit.Identification{Taxon: "perlidae", Confidence: 1},
			[]visit.LookedAgain{{SecondLook: visit.SecondLook{Taxon: "nemouridae", Confidence: 0.75}, Settled: true}},
			[]visit.Chance{chance("perlidae", 1)}},
		{"a look after that is a doubt again", visit.Identification{Taxon: "perlidae", Confidence: 1}, looked("nemouridae", 0.75),
			[]visit.Chance{chance("perlidae", 0.5), chance("nemouridae", 0.5)}},
		{"who agrees with what is certain changes nothing", visit.Identification{Taxon: "perlidae"}, looked("perlidae", 0.75),
			[]visit.Chance{chance("perlidae", 1)}},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			of := account.New(&visit.Visit{}, visit.Tally{Records: []visit.Record{{Identification: tt.d, Looks: tt.looks}}}, catalog(t))
			got := of.Belief(&of.Records[0])
			ok := len(got) == len(tt.want)
			for i := range got {
				ok = ok && got[i].Taxon == tt.want[i].Taxon && math.Abs(got[i].Probability-tt.want[i].Probability) < 1e-12
			}
			if !ok {
				t.Errorf("%v, want %v", got, tt.want)
			}
		})
	}
}

// Any record, however odd, has chances that sum to 1.
func FuzzBelief(f *testing.F) {
	f.Add("perlidae", 0.5, 0.3, 0.4, true, "baetidae")
	f.Add("", math.NaN(), -1.0, 7.0, false, "jackalope")
	f.Fuzz(func(t *testing.T, taxon string, sure, a, b float64, undecided bool, other string) {
		rec := visit.Record{Identification: visit.Identification{Taxon: taxon, Confidence: sure, Undecided: undecided, Count: 1,
			Also: []visit.Chance{{Taxon: other, Probability: a}, {Taxon: "elmidae", Probability: b}}}}
		if !(sure >= 0 && sure <= 1) || !(a >= 0 && a <= 1) || !(b >= 0 && b <= 1) {
			return // no file holds such figures
		}
		sum := 0.0
		of := account.New(&visit.Visit{}, visit.Tally{Records: []visit.Record{rec}}, catalog(t))
		for _, c := range of.Belief(&of.Records[0]) {
			sum += c.Probability
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Errorf("%+v sums to %v", rec, sum)
		}
	})
}
