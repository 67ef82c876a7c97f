package draft_test

import (
	"strings"
	"testing"

	"rillkey/key/draft"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/wording"
)

// A sheet says of its animals what a catalog does, whatever the encoding.
func TestASheetFillsTheCatalog(t *testing.T) {
	const text = "animal,scientific name,rank,group,class,length (cm),notes,tails,gills (lens)\n" +
		"müfly,Ephemera,genus,Mayflies,sensitive,1.5-2.5,seen in May,3,yes\n" +
		"stonefly,,,,somewhat sensitive,8 mm,,2,no\n"
	utf16 := "\xff\xfe"
	for _, r := range text {
		utf16 += string([]byte{byte(r), byte(r >> 8)})
	}
	latin := ""
	for _, r := range text {
		latin += string([]byte{byte(r)})
	}
	for _, row := range []struct{ why, data string }{{"UTF-8", text}, {"with a mark", "\ufeff" + text}, {"UTF-16", utf16},
		{"Windows-1252", latin}} {
		t.Run(row.why, func(t *testing.T) {
			var report authored.Report
			s := draft.ReadSheet("t.csv", []byte(row.data), &report)
			if s == nil {
				t.Fatal(report.Findings())
			}
			c := catalogOf(t, s)
			mayfly, stonefly := c.Taxon("mufly"), c.Taxon("stonefly")
			switch {
			case mayfly == nil || stonefly == nil:
				t.Fatal("missing: ", s.IDs)
			case mayfly.Scientific != "Ephemera", mayfly.Rank != "genus", mayfly.Parent != "mayflies", mayfly.Class != taxa.Sensitive,
				mayfly.Length != taxa.Range{Min: 15, Max: 25}, mayfly.Name() != "müfly":
				t.Errorf("%+v", mayfly)
			case stonefly.Rank != taxa.Informal, stonefly.Parent != "", stonefly.Class != taxa.SomewhatSensitive,
				stonefly.Length != taxa.Range{Min: 8, Max: 8}:
				t.Errorf("%+v", stonefly)
			case c.Vocabulary().Trait("gills").Look != taxa.Lens, c.Vocabulary().Trait("tails").Look != taxa.Eye,
				len(c.Vocabulary().Traits()) != 2:
				t.Errorf("%+v", c.Vocabulary().Traits())
			}
		})
	}
}

// A column in which all rows differ would part every animal at once, and is a note.
func TestAColumnInWhichAllDifferIsNoTrait(t *testing.T) {
	text := "animal,name elsewhere,tails\n"
	for _, name := range []string{"a", "b", "c", "d", "e", "f"} {
		text += name + ",word " + name + "," + map[bool]string{true: "2", false: "3"}[name < "d"] + "\n"
	}
	s := sheetOf(t, text)
	if len(s.Remarks) != 1 || s.Remarks[0].Rule != "all-differ" || s.Remarks[0].Line != 2 {
		t.Error(s.Remarks)
	}
	if traits := catalogOf(t, s).Vocabulary().Traits(); len(traits) != 1 || traits[0].ID != "tails" {
		t.Errorf("%+v", traits)
	}
}

// A word that no column takes is told once, however many rows have it, and beside it
// stand the words of the language in use.
func TestAColumnTakesTheWordsOfTheLanguage(t *testing.T) {
	wording.Use(&wording.Translation{Language: "de", Say: map[string]string{"rank": "Rang", "species": "Art", " or ": " oder "}})
	defer wording.Use(nil)
	if s := sheetOf(t, "Name,Rang,Beine\na,Art,6\nb,Art,8\n"); len(s.IDs) != 2 || len(s.Traits) != 1 {
		t.Errorf("%v %v", s.IDs, s.Traits)
	}
	for text, want := range map[string]string{
		"Name,Rang,Beine\na,Sorte,6\nb,Sorte,8\nc,Sorte,10\n": `t.csv:2:3: bad-cell: "sorte" is no Rang`,
		"Name,Beine\na,6 oder 8\nb,10\n":                      `t.csv:2:3: joined-states: "6 oder 8" is several numbers`,
	} {
		var report authored.Report
		draft.ReadSheet("t.csv", []byte(text), &report)
		if found := report.Findings(); len(found) != 1 || !strings.HasPrefix(found[0].Error(), want) {
			t.Errorf("%v", found)
		}
	}
}
