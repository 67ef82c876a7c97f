package show

import (
	"fmt"
	"strings"
	"testing"

	"rillkey/scoring/condition"
	"rillkey/scoring/visit"
)

func TestGoingHomeTellsWhatIsLeft(t *testing.T) {
	aside := visit.Record{ID: "abc", Identification: visit.Identification{Sample: "1", Cell: "B4", Count: 2, Undecided: true}}
	named := visit.Record{ID: "def", Identification: visit.Identification{Sample: "1", Taxon: "perlidae", Count: 3, Kept: "with \x1bAnn"}}
	noted := []visit.Noted{{ID: "c", Values: condition.Values{"ph": {Number: 7}}}}
	many := visit.Tally{}
	for i := range 9 {
		r := aside
		r.ID = fmt.Sprint("r", i)
		many.Records = append(many.Records, r)
	}
	tests := []struct {
		name      string
		t         visit.Tally
		want, not []string
	}{
		{"nothing found", visit.Tally{}, []string{"boots", "Nothing is noted of weather"}, []string{"Put the animals", "without a name"}},
		{"set aside", visit.Tally{Records: []visit.Record{aside}},
			[]string{"2 are recorded", "2 in sample 1, cell B4 [abc]", "Does a vial"}, nil},
		{"kept and noted", visit.Tally{Records: []visit.Record{named}, Noted: noted}, []string{"Ann [def]"},
			[]string{"\x1b", "Nothing is noted", "without a name", "Does a vial"}},
		{"many", many, []string{"[r5]; and 3 more"}, []string{"[r6]"}},
	}
	for _, test := range tests {
		got := strings.Join(GoingHome(test.t, nil, ""), "\n")
		for _, want := range test.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s: no %q in\n%s", test.name, want, got)
			}
		}
		for _, not := range test.not {
			if strings.Contains(got, not) {
				t.Errorf("%s: %q in\n%s", test.name, not, got)
			}
		}
	}
}
