package draft_test

import (
	"testing"
	"testing/fstest"

	"rillkey/couplets"
	"rillkey/key/draft"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
)

// Whatever the text: a sheet is refused with a place in it, or its catalog loads
// and its draft, where anything differs, checks clean.
func FuzzSheet(f *testing.F) {
	f.Add("taxon,tails,gills\nmayfly,2/3,yes\nstonefly,2,no\nbeetle,0,?\n")
	f.Add("\ufefft;c;commonness\r\na;1;3\r\nb;2;1\r\n")
	f.Add("t,c\n\"a \"\"x\"\"\",\"1\\\"\nb,2\n")
	f.Add("t,c\na,1\nb\n")
	f.Add("t;état;c\na;0;0\nb;0;1\n") // a first letter of several bytes
	f.Fuzz(func(t *testing.T, text string) {
		var report authored.Report
		s := draft.ReadSheet("t.csv", []byte(text), &report)
		if s == nil {
			for _, found := range report.Findings() {
				if plain.HasControl(found.Error()) || found.Line < 1 && found.Rule != "and-more" {
					t.Fatalf("%q", found.Error())
				}
			}
			if len(report.Findings()) == 0 {
				t.Fatal("refused without a finding")
			}
			return
		}
		if len(s.IDs) > 12 || len(s.Traits) > 12 {
			return
		}
		table, err := s.Table(model)
		if err != nil {
			t.Fatal(err)
		}
		d, err := draft.New(table, model.Terms)
		if err != nil {
			return
		}
		catalog := catalogOf(t, s)
		key := d.Text(draft.Head{ID: "drafted", Title: "Drafted", Source: "a table", Commonness: s.Commonness()})
		if _, err := couplets.Load(fstest.MapFS{"k": {Data: key}}, "k", "k", catalog); err != nil {
			t.Fatalf("%v\n%s", err, key)
		}
	})
}
