package export

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"time"

	"rillkey/scoring/visit"
)

// Every text that people may write of a record comes back from the tables, corrected too, is
// told where it names somebody, and stays at home where words do.
func TestTextsOfARecord(t *testing.T) {
	for _, kept := range visit.RecordTexts() {
		t.Run(kept.Key, func(t *testing.T) {
			random, now := bytes.NewReader(bytes.Repeat([]byte(kept.Key), 64)), time.Date(2026, 5, 16, 9, 0, 0, 0, time.UTC)
			v, err := visit.Begin(visit.Header{Site: "Tarn Brook", Date: "2026-05-16", Protocol: "riffle-three", People: []string{"Oona"},
				Begun: now}, random)
			if err != nil {
				t.Fatal(err)
			}
			add := func(b visit.Body) string {
				t.Helper()
				e, err := v.Add(now, "Oona", b, random)
				if err != nil {
					t.Fatal(err)
				}
				return e.ID
			}
			add(visit.Sample{Label: "1", Habitat: "riffle"})
			record := visit.Identification{Sample: "1", Taxon: "perlidae", Rank: "family", Count: 2}
			*kept.Text(&record) = "Oona's shelf"
			amendment := visit.Amendment{Entry: add(record), Reason: "moved"}
			*kept.Change(&amendment.Change) = ptr("with Oona")
			add(amendment)
			if now := v.Tally().Records[0].Identification; *kept.Text(&now) != "with Oona" {
				t.Errorf("corrected it is %q", *kept.Text(&now))
			}
			back, err := readTables(t, tables(t, []*visit.Visit{v}, open))
			if err != nil || len(back) != 1 || !bytes.Equal(back[0].Encode(), v.Encode()) {
				t.Errorf("%v: it comes back as %v", err, back)
			}
			told := Discretion{}.Telling(v)
			if len(told) != 2 || slices.ContainsFunc(told, func(one Telling) bool { return one.Kind != kept.Kind }) {
				t.Errorf("told of it: %v", told)
			}
			if text := string(Discretion{Wordless: true}.Apply(v).Encode()); strings.Contains(text, "Oona") {
				t.Errorf("somebody is named:\n%s", text)
			}
		})
	}
}
