package show_test

import (
	"bytes"
	"encoding/json"
	"io"
	"reflect"
	"testing"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/scoring/scheme"
	"rillkey/scoring/series"
)

// The table written visit by visit is the document that encoding it whole gives.
func TestTableJSONIsThatOfTheWhole(t *testing.T) {
	value := 3.5
	row := series.Row{File: "a", Summary: scoring.Summary{
		Visit: scoring.Subject{ID: "v", Site: "\x1b[31mred <b>", Date: "2026-05-16"}, Scheme: "presence", Title: "index",
		Value: &value, Rating: "good"}}
	withheld := row
	withheld.Value, withheld.Withheld, withheld.Reason, withheld.Aside = nil, true, "too few samples", "future"
	for _, table := range []*series.VisitTable{
		{Rows: []series.Row{}, Places: []series.Site{}, Problems: []string{}},
		{Rows: []series.Row{row, withheld, row}, Places: []series.Site{{Site: "x"}}, Problems: []string{"p"}},
	} {
		var whole, parts bytes.Buffer
		if err := show.JSON(&whole, table); err != nil {
			t.Fatal(err)
		}
		if err := show.TableJSON(&parts, table); err != nil {
			t.Fatal(err)
		}
		var a, b any
		if json.Unmarshal(whole.Bytes(), &a) != nil || json.Unmarshal(parts.Bytes(), &b) != nil || !reflect.DeepEqual(a, b) {
			t.Errorf("%s is not %s", parts.String(), whole.String())
		}
		table.Places = []series.Site{{Site: row.Visit.Site, Scheme: row.Scheme, Title: "index"}}
		fits(t, "table", func(w io.Writer, width int) error { return show.VisitTable(w, width, table) })
	}
}

func TestDoubtsAndSecondLooksFit(t *testing.T) {
	spread := &scoring.Spread{Method: "simulated", Draws: 10000,
		Ratings: []scoring.RatingChance{{Rating: "good\x1b", Chance: 0.998, Error: 0.004}, {Rating: "fair", Chance: 0.002}},
		Low:     1, High: 2, None: 0.01}
	value := 17.0
	grade := &scoring.Grade{
		Visit:   scoring.Subject{Site: "Otter Run", Date: "2026-05-16"},
		Indices: []scoring.Index{{Title: "index", Value: &value, Rating: "good", Identification: spread, Sampling: spread}},
		Further: []scoring.Index{{Title: "further", Value: &value, Rating: scheme.Unrated, Low: &value, High: &value},
			{Title: "none", Withheld: true, Reason: "too few"}},
		Effort: scoring.Effort{Taken: 2, Required: 7,
			Forecast: &scoring.RichnessForecast{Found: 5, Samples: 2, Required: 7, Expected: 6.6, High: 9, InAll: 8}},
	}
	for _, details := range []bool{false, true} {
		fits(t, "grade", func(w io.Writer, width int) error { return show.Grade(w, width, grade, details, "") })
	}
	list := &scoring.Recheck{Title: "index", Records: []scoring.RecheckRecord{{
		Record: "e1", Sample: "1", Cell: "A\x1b1", Name: "stonefly", Taxon: "plecoptera", Count: 3, Sure: 0.8, Gain: 0.1,
		Rivals: []scoring.Alternative{{Taxon: "ephemeroptera", Name: "mayfly", Chance: 0.2}},
		Tell: &scoring.TellApart{Question: "How many tails?", How: "Float it.",
			Shows: []scoring.Shows{{Name: "stonefly", States: []string{"two"}}}},
	}, {Record: "e2", Name: "set aside", Looks: 1, Tell: &scoring.TellApart{Words: "Look under a lens."}}}}
	fits(t, "recheck", func(w io.Writer, width int) error { return show.Recheck(w, width, list, 1, "") })
	fits(t, "recheck of nothing", func(w io.Writer, width int) error { return show.Recheck(w, width, &scoring.Recheck{}, 1, "") })
	third := 33.3
	agreed := &scoring.Agreement{Records: 3, Disagreement: &third,
		Differing: []scoring.Differ{{Record: "e1", First: "plecoptera", Counts: "jackalope\x07", Settled: true}},
		Remarks:   []string{"look closer"}}
	fits(t, "agreement", func(w io.Writer, width int) error { return show.Agreement(w, width, catalog(t), agreed) })
}
