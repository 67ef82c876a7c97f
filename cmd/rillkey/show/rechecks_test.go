package show_test

import (
	"fmt"
	"testing"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
)

// Of all visits those records stay that would tell most, whatever the order of the visits.
func TestRechecksKeepThoseThatWouldTellMost(t *testing.T) {
	visits := []*scoring.Recheck{
		{Visit: scoring.Subject{ID: "v1"}, Records: []scoring.RecheckRecord{{Record: "a", Gain: 0.2}, {Record: "b", Gain: 0.1}}},
		{Visit: scoring.Subject{ID: "v2"}, Wordless: true,
			Records: []scoring.RecheckRecord{{Record: "c", Gain: 0.5}, {Record: "d", Gain: 0.1}}},
		{Visit: scoring.Subject{ID: "v3"}, Records: []scoring.RecheckRecord{{Record: "e", Gain: 0.2, Moves: 1}}},
	}
	for _, order := range [][]int{{0, 1, 2}, {2, 1, 0}, {1, 0, 2}} {
		var l show.Rechecks
		for _, i := range order {
			l.Add(fmt.Sprint("file ", i), visits[i], 3)
		}
		got := ""
		for _, r := range l.Records {
			got += r.Record
		}
		if got != "cea" || l.Doubtful != 5 || l.Records[0].File != "file 1" || !l.Records[0].Wordless || l.Records[1].Wordless {
			t.Errorf("%v: %s of %d: %+v", order, got, l.Doubtful, l.Records)
		}
	}
}
