package visit_test

import (
	"fmt"
	"slices"
	"testing"

	"rillkey/scoring/visit"
)

// keyed is a visit of so many keyed records.
func keyed(id string, n int) *visit.Visit {
	v := &visit.Visit{Header: visit.Header{ID: id}}
	v.Events = append(v.Events, visit.Event{ID: "s", Body: visit.Sample{Label: "1", Habitat: "riffle"}})
	for i := range n {
		v.Events = append(v.Events, visit.Event{
			ID: fmt.Sprintf("r%02d", i), Body: visit.Identification{Sample: "1", Taxon: "baetidae", Count: 1, Path: []string{"legs=6"}}})
	}
	return v
}

// The draw is the same each time, another in another visit, and gives each record
// every place about as often.
func TestTheDrawIsFairAndStands(t *testing.T) {
	first := keyed("v1", 20).Draw()
	if len(first) != 20 || !slices.Equal(first, keyed("v1", 20).Draw()) || slices.Equal(first, keyed("v2", 20).Draw()) {
		t.Errorf("%v", first)
	}
	atTheHead := map[string]int{}
	const visits = 2000
	for i := range visits {
		atTheHead[keyed(fmt.Sprint("v", i), 5).Draw()[0]]++
	}
	for id, n := range atTheHead {
		if n < visits/5-80 || n > visits/5+80 { // four and a half standard errors
			t.Errorf("%s is drawn first %d times of %d", id, n, visits)
		}
	}
}

// As far as nobody skipped a record of the draw, chance chose; behind it somebody
// did, whatever the place in the draw.
func TestWhoSkipsARecordChooses(t *testing.T) {
	v := keyed("v1", 10)
	order := v.Draw()
	for i, at := range []int{0, 1, 3, 7} {
		v.Events = append(v.Events, visit.Event{ID: fmt.Sprint("l", i), Body: visit.SecondLook{Of: order[at], Taxon: "heptageniidae"}})
	}
	got := map[string]bool{}
	for _, c := range v.Confirmed() {
		got[c.Record] = c.Drawn
	}
	for at, want := range map[int]bool{0: true, 1: true, 3: false, 7: false} {
		if drawn, there := got[order[at]]; !there || drawn != want {
			t.Errorf("place %d of the draw: %v, want %v", at, drawn, want)
		}
	}
	if len(got) != 4 {
		t.Errorf("%v", got)
	}
}
