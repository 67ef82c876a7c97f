package visit

import "testing"

// What an expert or a leader settles is certain, however unsure the first name was.
func TestASettledNameIsCertain(t *testing.T) {
	unsure := Identification{Sample: "1", Taxon: "baetidae", Rank: "family", Count: 3, Confidence: 0.91}
	for _, row := range []struct {
		name   string
		body   Amendment
		expert string
		kept   string
	}{
		{"settled", Amendment{Reason: "seen again", Change: NamedForCertain("plecoptera", "order")}, "", ""},
		{"an expert's", Determined("", "plecoptera", "order", "Dr Wren", "2026-06-20", " museum "), "Dr Wren", "museum"},
		{"an expert's, kept nowhere", Determined("", "plecoptera", "order", "Dr Wren", "2026-06-20", " "), "Dr Wren", ""},
	} {
		path := begin(t)
		to := add(t, path)
		to.add(Sample{Label: "1", Habitat: "riffle"})
		row.body.Entry = to.add(unsure).ID
		to.add(row.body)
		r, ok := read(t, path).Tally().Record(row.body.Entry)
		if !ok || r.Taxon != "plecoptera" || r.Rank != "order" || r.Confidence != 1 || r.Expert != row.expert || r.Kept != row.kept {
			t.Errorf("%s: %+v", row.name, r)
		}
	}
}
