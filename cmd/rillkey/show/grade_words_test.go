package show_test

import (
	"strings"
	"testing"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/taxa/language"
	"rillkey/taxa/wording"
)

// What was found agrees in number, one kind as several, in each language.
func TestWhatWasFoundAgreesInNumber(t *testing.T) {
	defer wording.Use(nil)
	german, err := language.BuiltIn("de")
	if err != nil {
		t.Fatal(err)
	}
	mayfly, leech := scoring.KindFound{Label: "mayfly", Count: 1}, scoring.KindFound{Label: "leech", Count: 3}
	for _, c := range []struct {
		words *wording.Translation
		kinds []scoring.KindFound
		want  string
	}{
		{nil, nil, "we found nothing that counts."},
		{nil, []scoring.KindFound{mayfly}, "we found 1 kind that counts, with 1 animal."},
		{nil, []scoring.KindFound{mayfly, leech}, "we found 2 kinds that count, with 4 animals."},
		{german, []scoring.KindFound{mayfly}, "fanden wir 1 Gruppe, die zählt, und davon 1 Tier."},
		{german, []scoring.KindFound{mayfly, leech}, "fanden wir 2 Gruppen, die zählen, und davon 4 Tiere."},
	} {
		wording.Use(c.words)
		group := scoring.GroupFound{Label: "all", Kinds: c.kinds}
		for _, k := range c.kinds {
			group.Animals += k.Count
		}
		grade := &scoring.Grade{Visit: scoring.Subject{Site: "Otter Run", Date: "2026-05-16"}, Found: []scoring.GroupFound{group},
			Indices: []scoring.Index{{Title: "index", Withheld: true, Reason: "none"}}}
		if said := show.InWords(grade); !strings.Contains(said, c.want) {
			t.Errorf("no %q in %q", c.want, said)
		}
	}
}
