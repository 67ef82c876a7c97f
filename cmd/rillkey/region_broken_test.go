package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// brokenRegions are ways to break a new region, each one edit of one of its files: without
// old words the file is to hold the new ones alone. The first finding is of the rule, at
// the line and column, and says what is to be done.
var brokenRegions = []struct {
	why, file, old, new string
	at, rule, says      string
}{
	{"the line [region] deleted", "region.toml", "[region]\n", "", "1:1", "missing-field", "begin the file with a line [region]"},
	{"an empty region.toml", "region.toml", "", "", "1:1", "missing-field", "begin the file with a line [region]"},
	{"[region] misspelt", "region.toml", "[region]", "[regoin]", "3:1", "unknown-field", `did you mean "region"?`},
	{"a blank version", "region.toml", `"1" `, `" " `, "6:12", "empty", "write something"},
	{"a blank licence", "region.toml", `"CC0-1.0"`, `" "`, "8:12", "empty", "write something"},
	{"a version as a number", "region.toml", `"1" `, "1 ", "6:12", "wrong-kind", `version = "1"`},
	{"a language in words", "region.toml", `"en"`, `"english"`, "9:12", "bad-language", "RFC 5646"},
	{"a protocol misspelt", "region.toml", `["first-look"]`, `["first-lok"]`, "11:14", "unknown-protocol", `did you mean "first-look"?`},
	{"an animal twice", "region.toml", `"worm"]`, `"worm", "snail"]`, "13:53", "doubled-id", "name each taxon once"},
	{"an end that is not in the list", "region.toml", `, "worm"]`, "]", "13:14", "not-listed", "add it to the list"},
	{"a class misspelt", "taxa/taxa.toml", `"sensitive"`, `"senstive"`, "8:16", "unknown-class", `did you mean "sensitive"?`},
	{"a rank misspelt", "taxa/taxa.toml", `"order"`, `"ordre"`, "4:16", "unknown-rank", `did you mean "order"?`},
	{"a stage of another tongue", "taxa/taxa.toml", `"larva"`, `"Larve"`, "7:16", "unknown-stage", "larva, pupa, adult"},
	{"an animal as its own parent", "taxa/taxa.toml", "[taxon.snail]\n", "[taxon.snail]\nparent = \"snail\"\n", "32:10",
		"parent-cycle", "correct the parent"},
	{"a former id that is one of today", "taxa/taxa.toml", "[taxon.snail]\n", "[taxon.snail]\nwas = [\"worm\"]\n", "32:8",
		"doubled-id", "keep its id"},
	{"two states called the same", "taxa/traits.toml", `"three tails"`, `"two tails"`, "24:9", "doubled-label", "what tells them apart"},
	{"a share in hundredths", "taxa/traits.toml", "0.1\n", "10%\n", "17:14", "syntax", "0.1 for ten in a hundred"},
	{"a share above a half", "taxa/traits.toml", "0.1\n", "10\n", "17:12", "out-of-range", "0.1 for one in ten"},
	{"states in the plural", "taxa/traits.toml", "tails.state.2", "tails.states.2", "21:1", "unknown-field", `did you mean "state"?`},
	{"the line [scheme] deleted", "schemes/first-index.toml", "[scheme]\n", "", "1:1", "missing-field", "a line [scheme]"},
	{"a group misspelt", "schemes/first-index.toml", "group = \"tolerant\"", "group = \"tolerent\"", "34:9", "unknown-group",
		`did you mean "tolerant"?`},
	{"a band into another", "schemes/first-index.toml", "to     = 5", "to     = 6", "41:1", "band-overlap", "begin where"},
	{"the line [protocol] deleted", "protocols/first-look.toml", "[protocol]\n", "", "1:1", "missing-field", "a line [protocol]"},
	{"samples in words", "protocols/first-look.toml", "samples = 3", "samples = \"three\"", "10:11", "wrong-kind", "samples = 12"},
	{"two animals with one name", "taxa/taxa.toml", `["snail"]`, `["Worm"]`, "46:17", "same-name",
		"give one of the two another first name"},
	{"two animals with one scientific name", "taxa/taxa.toml", `"Plecoptera"`, `"Ephemeroptera"`, "20:16",
		"same-name", "say which with stage"},
	{"a name of the region that another animal has", "region.toml", `"worm"]`, "\"worm\"]\n[called]\nsnail = [\"worm\"]", "15:10",
		"same-name", "another first name"},
	{"another key named beside key.toml", "region.toml", "version ", "key = \"nort-america\"\nversion ", "6:7",
		"other-key", "delete this line"},
	{"a scheme for a region that is not there", "schemes/first-index.toml", `["brook"]`, `["brok"]`, "8:12", "unknown-region",
		`did you mean "brook"?`},
	{"a remark of a merge", "key.toml", "to     = \"2\"\n", "to     = \"2\"\n# Merged: here the other version has\n#   to = \"3\"\n",
		"14:1", "leftover-remark", "delete the remark"},
	{"a remark of a merge in the animals", "taxa/taxa.toml", "[taxon.snail]\n", "# Drafted again:\n#   x = 1\n[taxon.snail]\n",
		"31:1", "leftover-remark", "delete the remark"},
	{"a file with .txt behind its name", "words.toml.txt", "", "[say]\n", "", "misnamed", "call it words.toml"},
	{"a file with a slip in its end", "taxa/birds.tml", "", "[taxon.wren]\n", "", "misnamed", "call it taxa/birds.toml"},
	{"a copy without the file", "taxa/birds.toml.bak", "", "[taxon.wren]\n", "", "misnamed", "call it taxa/birds.toml"},
	{"words downloaded twice", "words (1).toml", "", "[say]\n", "", "misnamed", "call it words.toml"},
	{"a scheme for another region", "schemes/first-index.toml", `["brook"]`, `["north-america"]`, "8:11", "unknown-region",
		"add this region if"},
	{"a share in quotation marks", "taxa/traits.toml", "0.1\n", "\"0,1\"\n", "17:12",
		"wrong-kind", "without quotation marks: misread = 0.1"},
	{"a length in quotation marks", "taxa/taxa.toml", "[taxon.snail]\n", "[taxon.snail]\nlength_mm = [\"2\", 8]\n", "32:14",
		"wrong-kind", "without quotation marks"},
	{"a length without its end", "taxa/taxa.toml", "[taxon.snail]\n", "[taxon.snail]\nlength_mm = 8\n", "32:13", "wrong-kind", "[1, 2]"},
	{"an empty name", "taxa/taxa.toml", `["snail"]`, `["snail", " "]`, "34:26", "empty", "take it out of the list"},
	{"an empty caution", "region.toml", `["What is dangerous or forbidden just here."]`, `[""]`, "12:14", "empty",
		"take it out of the list"},
	{"a region's name that is none", "region.toml", `"worm"]`, "\"worm\"]\n[called]\nsnail = []", "15:9", "empty", "delete the line"},
	{"a region's name of an animal that is gone", "region.toml", `"worm"]`, "\"worm\"]\n[called]\nsnale = \"snail\"", "15:1",
		"unknown-taxon", "snail"},
	{"a class of the region misspelt", "region.toml", `"worm"]`,
		"\"worm\"]\n[tolerance]\nsource = \"memory\"\n[tolerance.class]\nsnail = \"tolerent\"", "17:9",
		"unknown-class", `did you mean "tolerant"?`},
	{"a version that is a date", "region.toml", `"1" `, "2026-05-01 ", "6:12", "wrong-kind", `version = "2026-05-01"`},
	{"a former id in capitals", "taxa/taxa.toml", "[taxon.snail]\n", "[taxon.snail]\nwas = [\"Slug\"]\n", "32:8",
		"bad-id", "an earlier edition"},
	{"two taxa with each other's former id", "taxa/taxa.toml", "[taxon.snail]\n", "[taxon.snail]\nwas = [\"snail\"]\n", "32:8",
		"doubled-id", "keep its id"},
	{"a number of a couplet with a blank", "key.toml", "[couplet.1]", "[couplet.\"1 \"]", "8:1", "bad-id",
		"lower-case letters"},
	{"an animal mistaken for itself", "taxa/taxa.toml", "[taxon.mayfly.mistaken.stonefly]", "[taxon.mayfly.mistaken.mayfly]", "15:1",
		"own-name", "delete this table"},
	{"a habitat misspelt", "protocols/first-look.toml", "need.riffle", "need.rifle", "9:1", "unknown-habitat", `did you mean "riffle"?`},
	{"a form that is missing", "schemes/first-index.toml", "form ", "# form ", "4:1", "missing-field", "add a line form"},
	{"a way to combine misspelt", "protocols/first-look.toml", "combine ", "combin ", "7:1", "unknown-field", `did you mean "combine"?`},
	{"a file in Latin-1", "taxa/taxa.toml", "# What", "# Gr\xfcn", "1:5", "syntax", "save it as UTF-8"},
	{"a drawing out of the folder", "taxa/taxa.toml", "[taxon.snail]\n", "[taxon.snail]\nfigure = \"../../x.svg\"\n", "32:10",
		"bad-drawing", `name a file as "mayfly.svg"`},
	{"a header of words.toml that is none", "words.toml", "", "[sentences]\n", "1:1", "unknown-field", `"say"`},
}

func TestEveryBreakageOfARegionIsToldAtItsPlace(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	home := filepath.Join(t.TempDir(), "brook")
	if _, complaints, status := spoken("region", "new", home); status != statusDone {
		t.Fatal(complaints)
	}
	for _, row := range brokenRegions {
		t.Run(row.why, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "brook")
			if err := os.CopyFS(dir, os.DirFS(home)); err != nil {
				t.Fatal(err)
			}
			file := filepath.Join(dir, row.file)
			text := row.new
			if row.old != "" {
				was, err := os.ReadFile(file)
				if err != nil || strings.Count(string(was), row.old) == 0 {
					t.Fatal("the edit fits nothing", err)
				}
				text = strings.Replace(string(was), row.old, row.new, 1)
			}
			if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
			out, complaints, _ := spoken("region", "check", dir)
			first, rest, _ := strings.Cut(out+complaints, "\n")
			where := strings.Replace(fmt.Sprintf("%s:%s: ", file, row.at), "::", ":", 1)
			rule, said, told := strings.Cut(strings.TrimPrefix(strings.TrimPrefix(first, where), "warning: "), ": ")
			if !strings.HasPrefix(first, where) || !told || rule != row.rule || !strings.Contains(said, row.says) {
				t.Errorf("got %s\nwant %s%s, saying %q", first, where, row.rule, row.says)
			}
			if page, _, status := spoken("couplets", "check", "--explain", row.rule); status != statusDone ||
				!strings.Contains(first, "--explain "+row.rule) {
				t.Errorf("not explained: %s\n%s", first, page)
			}
			if strings.Count(rest, "\n") > 4 {
				t.Errorf("more than follows from it: %s", rest)
			}
		})
	}
}
