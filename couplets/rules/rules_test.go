package rules

import (
	"fmt"
	"io/fs"
	"math"
	"strings"
	"testing"

	"rillkey/couplets"
	"rillkey/taxa"
)

func TestEmbeddedKeysRaiseNoWarning(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	names, err := fs.Glob(couplets.Embedded(), "*.toml")
	if err != nil || len(names) == 0 {
		t.Fatal("no embedded key", err)
	}
	for _, name := range names {
		f, s, err := couplets.Examine(couplets.Embedded(), name, name, catalog)
		if err != nil {
			t.Errorf("%s:\n%v", name, err)
			continue
		}
		subject := &Input{File: f, Sound: s, Catalog: catalog}
		if region := catalog.RegionNamed(f.ID); region != nil {
			subject.Region = region.Taxa
		}
		for _, w := range Warnings(subject) {
			t.Error(w)
		}
	}
}

func TestLengthsInTexts(t *testing.T) {
	none := math.Inf(1)
	for _, row := range []struct {
		text        string
		least, most float64
	}{
		{"longer than 20 mm", 20, none},
		{"Up to 1.5 cm long", 0, 15},
		{"under half an inch", 0, 12.7},
		{"at least 1/2 inch", 12.7, none},
		{"8-40 mm", 8, 40},
		{"8 to 40 millimetres", 8, 40},
		{"about 5 mm", 5, none}, // young ones are shorter
		{"NO LONGER THAN 3 mm", 0, 3},
	} {
		got := claims(row.text)
		if len(got) != 1 || math.Abs(got[0].least-row.least) > 1e-9 || got[0].most != row.most && math.Abs(got[0].most-row.most) > 1e-9 {
			t.Errorf("%q: %+v, want %g to %g", row.text, got, row.least, row.most)
		}
	}
	for _, text := range []string{"three tails", "6 in a row", "2 pairs", "10 minutes", "the size of a grain of rice"} {
		if got := claims(text); len(got) > 0 {
			t.Errorf("%q speaks of no length: %+v", text, got)
		}
	}
}

func TestLines(t *testing.T) {
	word := strings.Repeat("x", 29)
	for _, row := range []struct {
		why, text string
		want      int
	}{
		{"nothing", "", 1},
		{"two words that just fit", word + " " + word + "y", 1},
		{"one letter more", word + "y " + word + "y", 2},
		{"a word of exactly two lines", strings.Repeat("x", 120), 2},
		{"a word of two lines and a letter", strings.Repeat("x", 121), 3},
		{"letters count, not bytes", strings.Repeat("é", 60), 1},
	} {
		if got := lines(row.text); got != row.want {
			t.Errorf("%s: %d lines, want %d", row.why, got, row.want)
		}
	}
}

// One mistake made in every couplet does not bury the others.
func TestFindingsOfOneRuleAreBounded(t *testing.T) {
	f := &couplets.File{}
	for i := range 2 * mostPerRule {
		f.Couplets = append(f.Couplets, couplets.Couplet{
			ID: fmt.Sprint(i), Ask: "thorax", Leads: []couplets.Lead{{Letter: "a", Text: "not so"}}})
	}
	byRule := map[string]int{}
	for _, w := range Warnings(&Input{File: f}) {
		byRule[w.Rule]++
	}
	if byRule["hard-word"] != mostPerRule || byRule["only-negates"] != mostPerRule {
		t.Error(byRule)
	}
}
