package visit

import (
	"reflect"
	"testing"
)

// What a tally is once the visit is finished, and a record once it is amended, is what
// replaying the file with that entry comes to.
func TestATallyForetold(t *testing.T) {
	file := begin(t)
	a := add(t, file)
	for _, s := range []Sample{{Label: "1", Habitat: "riffle"}, {Label: "2", Habitat: "riffle"}, {Label: "3", Habitat: "riffle"}} {
		a.add(s)
	}
	rec := a.add(Identification{Sample: "1", Taxon: "baetidae", Rank: "family", Count: 5, Confidence: 0.9})
	read := func() Tally {
		v, err := Read(file)
		if err != nil {
			t.Fatal(err)
		}
		return v.Tally()
	}
	less, none, other := -2, -3, "perlidae"
	for _, change := range []Amendment{
		{Entry: rec.ID, Reason: "x", Change: Change{More: &less}},
		{Entry: rec.ID, Reason: "x", Change: Change{Taxon: &other}},
		{Entry: rec.ID, Reason: "x", Change: Change{More: &none}},
	} {
		before, _ := read().Record(rec.ID)
		want, stays := before.Apply(change)
		a.add(change)
		got, there := read().Record(rec.ID)
		if there != stays {
			t.Fatalf("%+v: in the tally %v, foretold %v", change.Change, there, stays)
		}
		if there && !reflect.DeepEqual(got.Identification, want.Identification) {
			t.Errorf("%+v: %+v, foretold %+v", change.Change, got.Identification, want.Identification)
		}
	}
	a.add(Identification{Sample: "2", Taxon: "baetidae", Rank: "family", Count: 1, Confidence: 0.9})
	want := read().OnceFinished()
	a.add(Finish{})
	got := read()
	got.Finishes = nil
	if !reflect.DeepEqual(got, want) {
		t.Errorf("finished it is\n%+v, foretold\n%+v", got, want)
	}
	if want.Samples[1].State != Sorted || want.Samples[2].State != NotSorted {
		t.Errorf("states %v, %v", want.Samples[1].State, want.Samples[2].State)
	}
}
