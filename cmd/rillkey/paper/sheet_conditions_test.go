package paper

import (
	"slices"
	"testing"

	"rillkey/scoring/condition"
)

// The sheet has every condition once, in the order in which it is typed in, and
// every row of boxes is full.
func TestTheSheetHasAllConditionsInOrder(t *testing.T) {
	noted := condition.Values{"ph": {Number: 7.2, Instrument: "strips"}}
	boxes := conditionBoxes("", noted)[1:]
	var labels []string
	for _, b := range boxes {
		labels = append(labels, b.Label)
	}
	var want []string
	for _, f := range condition.Parameters() {
		want = append(want, f.Label())
	}
	if !slices.Equal(labels, want) {
		t.Errorf("the sheet has %q, the form asks %q", labels, want)
	}
	used := 0
	for _, b := range conditionBoxes("", noted) {
		if used += b.Wide; used > columnsOfBoxes {
			t.Fatalf("%s reaches over the edge", b.Label)
		}
		used %= columnsOfBoxes
	}
	if used != 0 {
		t.Errorf("the last row has %d columns of %d", used, columnsOfBoxes)
	}
	ph := boxes[slices.Index(labels, "pH")]
	if ph.value != "7.2 with strips" || len(ph.Rings) > 0 {
		t.Errorf("pH stands there as %+v", ph)
	}
}
