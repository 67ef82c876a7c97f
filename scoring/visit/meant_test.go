package visit_test

import (
	"testing"

	"rillkey/scoring/visit"
)

// Who names a sample means it in whatever case; who names none, or one that is not there,
// means the latest.
func TestSampleMeant(t *testing.T) {
	tally := visit.Tally{
		Samples: []visit.Taken{{Sample: visit.Sample{Label: "Left"}}, {Sample: visit.Sample{Label: "2"}}},
		Records: []visit.Record{{Identification: visit.Identification{Sample: "2", Count: 3}},
			{Identification: visit.Identification{Sample: "Left", Count: 4, Undecided: true}}},
	}
	for _, row := range []struct {
		named []string
		want  string
	}{{nil, "2"}, {[]string{""}, "2"}, {[]string{"left"}, "Left"}, {[]string{"gone"}, "2"}, {[]string{"gone", "left"}, "Left"}} {
		if got := tally.SampleMeant(row.named...); got != row.want {
			t.Errorf("%q means %q, want %q", row.named, got, row.want)
		}
	}
	if got := (visit.Tally{}).SampleMeant("left"); got != "" {
		t.Errorf("%q of no sample", got)
	}
	if got := tally.AllAnimals(); got != 7 {
		t.Errorf("%d animals, want those set aside too", got)
	}
}
