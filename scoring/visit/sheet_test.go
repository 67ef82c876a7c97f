package visit

import (
	"reflect"
	"strings"
	"testing"
)

// Rows gone through in two copies of a visit, in samples that mean one, are rows
// gone through; those of a withdrawn sample are not.
func TestRowsOfTheSheetGoneThrough(t *testing.T) {
	a, b, _ := copies(t, []Body{Sample{Label: "A1", Habitat: "riffle"}, Sample{Label: "B1", Habitat: "riffle"}},
		SheetRows{Sample: "A1", Rows: []string{"mayfly", "scud"}},
		SheetRows{Sample: "a1", Rows: []string{"scud", "leech"}, WrittenIn: true})
	m, _, err := Unite([]*Visit{a, b}, false)
	if err != nil {
		t.Fatal(err)
	}
	want := []SheetRows{{Sample: "A1", Rows: []string{"mayfly", "scud", "leech"}, WrittenIn: true}}
	if got := m.Tally().Answered; !reflect.DeepEqual(got, want) {
		t.Errorf("merged: %+v, want %+v", got, want)
	}

	path := begin(t)
	put := add(t, path)
	sample := put.add(Sample{Label: "1", Habitat: "riffle"})
	put.add(SheetRows{Sample: "1", Rows: []string{"mayfly"}})
	put.add(Amendment{Entry: sample.ID, Reason: "spilled", Withdrawn: true})
	if got := read(t, path).Tally().Answered; got != nil {
		t.Errorf("of a withdrawn sample: %+v", got)
	}
}

func TestRowsOfTheSheetThatAreRefused(t *testing.T) {
	path := begin(t)
	put := add(t, path)
	put.add(Sample{Label: "1", Habitat: "riffle"})
	for _, row := range []struct {
		body SheetRows
		want string
	}{
		{SheetRows{Sample: "2", Rows: []string{"mayfly"}}, "no sample"},
		{SheetRows{Sample: "1"}, "no row"},
		{SheetRows{Sample: "1", Rows: []string{"May fly"}}, "not an id"},
		{SheetRows{Sample: "1", Rows: make([]string, MaxList+1)}, "at most"},
	} {
		if _, err := Append(path, noon, "", row.body, someRandom()); err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("%+v: %v, want %q", row.body, err, row.want)
		}
	}
	put.add(Finish{})
	if _, err := Append(path, noon, "", SheetRows{Sample: "1", Rows: []string{"mayfly"}}, someRandom()); err == nil {
		t.Error("a finished visit takes rows of its sheet")
	}
}
