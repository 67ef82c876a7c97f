package scoring

import (
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
	return r.JudgedAmong(func() []*account.Fauna { return []*account.Fauna{f} })
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
