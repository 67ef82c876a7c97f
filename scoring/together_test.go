package scoring

import (
	"math"
	"slices"
	"strings"
	"testing"

	"rillkey/scoring/account"
	"rillkey/scoring/visit"
)

// besideOthers are rules that judge names together: all families are equally common.
func besideOthers(t *testing.T) *Rules {
	t.Helper()
	r := rules(t)
	weights := map[string]float64{}
	for _, x := range r.catalog.Taxa() {
		if x.Rank == "family" {
			weights[x.ID] = 1
		}
	}
	f := account.NewFauna(r.catalog, weights)
	return r.JudgedAmong(func() *account.Fauna { return f })
}

// keyed adds an animal that was keyed, with what else it may be.
func (y *tray) keyed(sample, taxon string, sure float64, other string, p float64) *tray {
	return y.event(visit.Identification{
		Sample: sample, Taxon: taxon, Count: 1, Confidence: sure, Path: []string{"1a"},
		Also: []visit.Chance{{Taxon: other, Probability: p}}})
}

func gradeTogether(t *testing.T, y *tray) (*Grade, *Recheck) {
	t.Helper()
	r := besideOthers(t)
	a := r.Account(&y.v)
	g, err := r.Grade(a, GradeOptions{})
	if err != nil {
		t.Fatal(err)
	}
	list, err := r.Recheck(a, 0)
	if err != nil {
		t.Fatal(err)
	}
	return g, list
}

// One animal named as the look-alike of thirty others is more likely one of them:
// the value counts it as it was named, the chances do not, the grade says so, and
// recheck has it first.
func TestOneBesideManyLookAlikes(t *testing.T) {
	y := newTray("riffle-families").sample("1", "riffle", 0)
	for range 30 {
		y.keyed("1", "baetidae", 0.999, "siphlonuridae", 0.001)
	}
	y.keyed("1", "siphlonuridae", 0.7, "baetidae", 0.3)
	for range 80 {
		y.animals("1", "hydropsychidae", 1)
	}
	g, list := gradeTogether(t, y)
	said := strings.Join(g.Remarks, " ")
	if !strings.Contains(said, "Beside all others of the visit this name is more likely wrong than right: primitive minnow mayfly (1).") {
		t.Errorf("%s", said)
	}
	if first := list.Records[0]; first.Taxon != "siphlonuridae" || first.Sure > 0.5 {
		t.Errorf("%+v", first)
	}
	// 30 x 4 + 1 x 7 + 80 x 4 = 447; 447 / 111 = 4.03 (Hilsenhoff 1988, as the scheme has it).
	fbi := g.Indices[0]
	if *fbi.Value != 4.03 || fbi.Identification.Low != 4 {
		t.Errorf("%v, from %v to %v", *fbi.Value, fbi.Identification.Low, fbi.Identification.High)
	}
}

// A value that leaves out what has no close name says what it would be with it.
func TestAValueOutsideOfWhatNamesSay(t *testing.T) {
	y := newTray("riffle-families").sample("1", "riffle", 0).sure("1", "baetidae", 120).
		event(visit.Identification{Sample: "1", Taxon: "plecoptera", Count: 120, Confidence: 1,
			Possible: []string{"perlidae", "perlodidae"}})
	g, _ := gradeTogether(t, y)
	fbi := g.Indices[0]
	said := strings.Join(fbi.Remarks, " ")
	if !strings.Contains(said, "The value goes by the names as they were said.") || fbi.Identification.High >= 4 || *fbi.Value != 4 {
		t.Errorf("%v, from %v to %v: %s", *fbi.Value, fbi.Identification.Low, fbi.Identification.High, said)
	}
}

// What stands on one animal is said, with what would be left.
func TestKindsOnSingleAnimals(t *testing.T) {
	y := newTray("riffle-three").riffles()
	for _, s := range []string{"1", "2", "3"} {
		y.animals(s, "baetidae", 40)
	}
	y.animals("1", "perlidae", 1).animals("2", "tipulidae", 1).animals("3", "elmidae", 2)
	g := y.grade(t)
	// Mayfly, stonefly and riffle beetle are worth 3 each, crane fly 2: 11, and 6 without two.
	want := "2 kinds stand on a single animal each: stonefly, crane fly. Without them the value would be 6."
	if said := strings.Join(g.Indices[0].Remarks, " "); *g.Indices[0].Value != 11 || !strings.Contains(said, want) {
		t.Errorf("%v: %s", *g.Indices[0].Value, said)
	}
	// A mean over kinds hangs on them as well: (10 + 4 + 5) / 3 = 6.33, and 4.5 without the one of 10.
	y = newTray("all-habitats-three-minutes").sample("1", "all", 0).animals("1", "baetidae", 90).animals("1", "elmidae",
		40).animals("1", "perlidae", 1)
	want = "1 kind stands on a single animal: golden stonefly (Perlidae). Without it the value would be 4.50."
	if said := strings.Join(y.grade(t).Indices[0].Remarks, " "); !strings.Contains(said, want) {
		t.Error(said)
	}
}

// Without the single animals of the best sample another one may be the best.
func TestKindsOnSingleAnimalsOfTheBestSample(t *testing.T) {
	y := newTray("riffle-best").riffles()
	y.animals("1", "baetidae", 120).animals("1", "perlidae", 1).animals("1", "elmidae", 1)
	y.animals("2", "baetidae", 60).animals("2", "perlidae", 60).animals("3", "baetidae", 120)
	g := y.grade(t)
	y.v.Events = slices.DeleteFunc(y.v.Events, func(e visit.Event) bool {
		d, ok := e.Body.(visit.Identification)
		return ok && d.Count == 1
	})
	// Mayfly, stonefly and riffle beetle are worth 3 each: 9, and 6 by the second sample.
	want, rest := "Without them the value would be 6.", y.grade(t).Indices[0]
	if said := strings.Join(g.Indices[0].Remarks, " "); *g.Indices[0].Value != 9 || *rest.Value != 6 || rest.Sample != "2" ||
		!strings.Contains(said, want) {
		t.Errorf("%v, %v: %s", *g.Indices[0].Value, *rest.Value, said)
	}
}

// What a broad name may be lies between two values, or it is all one.
func TestWhatABroadNameCouldDo(t *testing.T) {
	// A crane fly or a midge is another 2 or 1; where both were found, nothing.
	for _, c := range []struct {
		more []string
		want string
	}{
		{nil, "turned out to be, the value would lie between 3 ("},
		{[]string{"plecoptera"}, "turned out to be, the value would lie between 6 ("},
	} {
		y := newTray("riffle-three").riffles()
		for _, s := range []string{"1", "2", "3"} {
			y.animals(s, "baetidae", 60)
			for _, taxon := range c.more {
				y.animals(s, taxon, 10)
			}
		}
		if said := strings.Join(y.animals("1", "diptera", 9).grade(t).Indices[0].Remarks, " "); !strings.Contains(said, c.want) {
			t.Errorf("no %q in %s", c.want, said)
		}
	}
	y := newTray("riffle-three").riffles()
	for _, s := range []string{"1", "2", "3"} {
		for _, taxon := range []string{"baetidae", "physidae", "hydrobiidae"} {
			y.animals(s, taxon, 60)
		}
	}
	said := strings.Join(y.animals("1", "gastropoda", 9).grade(t).Indices[0].Remarks, " ")
	if want := "turned out to be, the value would be "; !strings.Contains(said, want) || strings.Contains(said, "would lie between") {
		t.Errorf("no %q in %s", want, said)
	}
}

// No number of a visit is told for certain beside a range of the same number: where closer
// names could move a value, the chances because of names do not have it fixed.
func TestWhatCloserNamesCouldMoveIsNotCertain(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	moved := 0
	for _, protocol := range []string{"riffle-three", "riffle-best", "riffle-families", "seven-samples", "all-habitats-three-minutes"} {
		for _, broad := range []string{"tipulidae", "diptera", "trichoptera", "plecoptera", "coleoptera"} {
			y := newTray(protocol)
			for _, n := range []string{"1", "2", "3", "4", "5", "6", "7"} {
				y.sample(n, "riffle", 0.37).sure(n, "nemouridae", 20).sure(n, "baetidae", 20).sure(n, "chironomidae", 3).
					event(visit.Identification{Sample: n, Taxon: broad, Count: 9, Confidence: 1})
			}
			g, _ := gradeTogether(t, y)
			for _, i := range append(g.Indices, g.Further...) {
				if i.Low == nil || *i.Low == *i.High || i.Identification == nil {
					continue
				}
				moved++
				if x := i.Identification; x.Low == x.High && math.Abs(x.Mean-x.Low) < 1e-9 {
					t.Errorf("%s, %s: %s is %v for certain, and from %v to %v with closer names", protocol, broad, i.Title,
						i.Identification.Low, *i.Low, *i.High)
				}
			}
		}
	}
	if moved < 20 {
		t.Errorf("only %d values have a range", moved)
	}
}
