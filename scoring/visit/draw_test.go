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
		v.Events = append(v.Events, visit.Event{ID: fmt.Sprint("l", i), Body: visit.SecondLook{Entry: order[at], Taxon: "heptageniidae"}})
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

// The next of the draw is the first that nobody looked at twice.
func TestNextDrawn(t *testing.T) {
	v := keyed("v1", 3)
	for i, id := range v.Draw() {
		if next, ok := visit.NextDrawn(v); !ok || next.ID != id {
			t.Errorf("%v, %v, want %s", next.ID, ok, id)
		}
		v = &visit.Visit{Header: v.Header, Events: append(v.Events,
			visit.Event{ID: fmt.Sprint("l", i), Body: visit.SecondLook{Entry: id, Taxon: "baetidae"}})}
	}
	if next, ok := visit.NextDrawn(v); ok {
		t.Error(next)
	}
}

// Animals are counted over several visits by what they were recorded as.
func TestAnimalsByTaxon(t *testing.T) {
	one, two := keyed("v1", 3), keyed("v2", 2)
	two.Events = append(two.Events, visit.Event{ID: "u", Body: visit.Identification{Sample: "1", Undecided: true, Count: 4}},
		visit.Event{ID: "a", Body: visit.Amendment{Entry: "r00", Withdrawn: true, Reason: "twice"}})
	if got := visit.AnimalsByTaxon([]*visit.Visit{one, two}); fmt.Sprint(got) != "map[:4 baetidae:4]" {
		t.Error(got)
	}
}

func TestNextLabel(t *testing.T) {
	var t0 visit.Tally
	for i, want := range []string{"1", "3"} {
		if got := t0.NextLabel(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
		t0.Samples = append(t0.Samples, visit.Taken{Sample: visit.Sample{Label: []string{"1", "3"}[i]}},
			visit.Taken{Sample: visit.Sample{Label: "2"}})
	}
}

// Visits that were begun apart may be one where day and site go together.
func TestLookLikeOne(t *testing.T) {
	at := func(site, date string) *visit.Visit {
		return &visit.Visit{Header: visit.Header{Site: site, Date: date}}
	}
	for _, row := range []struct {
		other *visit.Visit
		want  bool
	}{
		{at("mill brook", "2026-05-16"), true}, {at("Mill Brok", "2026-05-16"), true},
		{at("Mill Brook", "2026-05-17"), false}, {at("Otter Run", "2026-05-16"), false},
	} {
		if got := visit.LookLikeOne([]*visit.Visit{at("Mill Brook", "2026-05-16"), row.other}); got != row.want {
			t.Errorf("%+v: %v", row.other.Header, got)
		}
	}
}
