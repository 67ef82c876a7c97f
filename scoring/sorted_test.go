package scoring

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"rillkey/scoring/visit"
)

// Three riffles are taken; what was done to them since decides whether there is a
// grade.
func TestANetThatNobodySortedIsNoEmptyNet(t *testing.T) {
	say := func(y *tray, sample string, s visit.Sorting) {
		y.event(visit.Amendment{Entry: "e" + sample, Reason: "said at the tray", Change: visit.Change{Said: &s}})
	}
	tests := []struct {
		label    string
		fill     func(*tray)
		unsorted []Unsorted
		value    float64 // of the presence index, where nothing is unsorted
	}{
		{"nobody has begun", func(*tray) {}, []Unsorted{{"1", visit.NotSorted}, {"2", visit.NotSorted}, {"3", visit.NotSorted}}, 0},
		{"finished all the same", func(y *tray) { y.event(visit.Finish{}) },
			[]Unsorted{{"1", visit.NotSorted}, {"2", visit.NotSorted}, {"3", visit.NotSorted}}, 0},
		{"one tray is being sorted", func(y *tray) { y.animals("1", "perlidae", 4) },
			[]Unsorted{{"1", visit.BeingSorted}, {"2", visit.NotSorted}, {"3", visit.NotSorted}}, 0},
		{"a finish says that trays with animals are done",
			func(y *tray) { y.animals("1", "perlidae", 4).animals("3", "tipulidae", 1).event(visit.Finish{}) },
			[]Unsorted{{"2", visit.NotSorted}}, 0},
		{"and one that held nothing has to be said", func(y *tray) {
			y.animals("1", "perlidae", 4).animals("3", "tipulidae", 1).event(visit.Finish{})
			say(y, "2", visit.Empty)
		}, nil, 5},
		{"said one by one, without a finish", func(y *tray) {
			y.animals("1", "perlidae", 4)
			say(y, "1", visit.Sorted)
			say(y, "2", visit.Empty)
			say(y, "3", visit.Empty)
		}, nil, 3},
		{"three empty nets are worth 0", func(y *tray) {
			say(y, "1", visit.Empty)
			say(y, "2", visit.Empty)
			say(y, "3", visit.Empty)
		}, nil, 0},
		{"a word taken back, in spite of the finish", func(y *tray) {
			y.animals("1", "perlidae", 4).animals("2", "perlidae", 1).animals("3", "tipulidae", 1).event(visit.Finish{})
			say(y, "1", visit.NotSorted)
		}, []Unsorted{{"1", visit.BeingSorted}}, 0},
		{"a word that the animals speak against", func(y *tray) {
			say(y, "1", visit.Sorted)
			say(y, "2", visit.Empty)
			say(y, "3", visit.Empty)
			y.animals("1", "perlidae", 4).animals("2", "perlidae", 1)
		}, []Unsorted{{"2", visit.BeingSorted}}, 0},
		{"animals found after the word leave it standing", func(y *tray) {
			say(y, "1", visit.Sorted)
			say(y, "2", visit.Empty)
			say(y, "3", visit.Empty)
			y.animals("1", "perlidae", 4)
		}, nil, 3},
		{"animals that were taken out again are none", func(y *tray) {
			y.animals("1", "perlidae", 4).event(visit.Amendment{Entry: "e4", Reason: "a twig", Withdrawn: true}).event(visit.Finish{})
		}, []Unsorted{{"1", visit.NotSorted}, {"2", visit.NotSorted}, {"3", visit.NotSorted}}, 0},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			y := newTray("riffle-three")
			for _, label := range []string{"1", "2", "3"} {
				y.event(visit.Sample{Label: label, Habitat: "riffle", Area: 0.37})
			}
			tt.fill(y)
			g := y.grade(t)
			if want := append([]Unsorted{}, tt.unsorted...); !reflect.DeepEqual(g.Effort.Unsorted, want) ||
				g.Effort.Sorted != 3-len(want) || g.Effort.Complete != (len(want) == 0) {
				t.Fatalf("effort %+v, want unsorted %+v", g.Effort, want)
			}
			i := g.Indices[0]
			if len(tt.unsorted) == 0 {
				if i.Value == nil || *i.Value != tt.value {
					t.Errorf("%v, want %v: %s", words(i.Value), tt.value, i.Reason)
				}
				return
			}
			if !i.Withheld || i.Rating != "" || !strings.Contains(i.Reason, "sample "+tt.unsorted[0].Sample) &&
				!strings.Contains(i.Reason, "samples ") {
				t.Errorf("%+v", i)
			}
		})
	}
}

func words(v *float64) any {
	if v == nil {
		return "none"
	}
	return *v
}

// A sample that nobody looked at says nothing of how samples differ, and one that
// the protocol does not need holds up no grade.
func TestASampleTooManyIsNotWaitedFor(t *testing.T) {
	y := newTray("riffle-three").sample("1", "riffle", 0.37).event(visit.Sample{Label: "spare", Habitat: "riffle", Area: 0.37})
	y.sample("2", "riffle", 0.37).sample("3", "riffle", 0.37)
	y.animals("1", "perlidae", 2).animals("2", "perlidae", 1).animals("3", "perlidae", 7)
	g := y.grade(t)
	if !g.Effort.Complete || g.Effort.Taken != 4 ||
		!slices.Contains(g.Effort.Remarks, "sample spare is not yet sorted; the grade does not wait for it") {
		t.Errorf("effort %+v", g.Effort)
	}
	if s := g.Indices[0].Sampling; s == nil || s.Low != s.High {
		t.Errorf("all three samples hold the same kind, so drawing them again changes nothing: %+v", s)
	}
}

func TestWhatIsLackingInWords(t *testing.T) {
	e := Effort{Taken: 3, Required: 5, Missing: []MissingSamples{{"riffle", 2, 0}}, Unsorted: []Unsorted{
		{"1", visit.NotSorted}, {"2", visit.BeingSorted}, {"3", visit.NotSorted},
	}}
	want := "too few samples: 3 taken of 5 required; missing: 2 riffle samples; animals may still be in the tray: sample 2 is " +
		"being sorted, samples 1 and 3 are not yet sorted"
	if got := e.Lack(); got != want {
		t.Errorf("%q", got)
	}
}
