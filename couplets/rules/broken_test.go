package rules_test

import (
	"bytes"
	"io/fs"
	"math/rand/v2"
	"os"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/authored"
)

// whole is a key that nothing is wrong with, as people lay one out.
const whole = `# The [key] of our brook.
[key]
id     = "brook"
title  = "Animals of our brook"
source = "invented"
start  = "1"

[couplet.1]
ask  = "Legs"
[couplet.1.a]
text   = "Six legs behind the head"
traits = { legs = "6" }
to     = "2"
[couplet.1.b]
text   = "No legs to be seen"
traits = { legs = "0" }
to     = "3"

[couplet.2]
ask  = "Tails"
wait = "Let it rest in a finger of water."
stop = "insecta"
[couplet.2.a]
text   = "Three tails at the hind end"
traits = { tails = "3" }
taxon  = "mayfly"
[couplet.2.b]
text   = "Two tails at the hind end"
traits = { tails = "2" }
taxon  = "stonefly"
[couplet.2.c]
text   = "No tail at the hind end"
traits = { tails = "none" }
taxon  = "beetle"

[couplet.3]
ask  = "Gills"
[couplet.3.a]
text   = "Tufts along the belly"
traits = { gills = "yes" }
taxon  = "leech"
[couplet.3.b]
text   = "A smooth belly"
traits = { gills = "no" }
taxon  = "worm"

[commonness]
source = "invented"
[commonness.weight]
mayfly   = 5
stonefly = 3
beetle   = 2
leech    = 1
worm     = 4
`

const oneGoal = `[couplet.3]
ask  = "Colour"
[couplet.3.a]
text   = "Red"
traits = { colour = "red" }
taxon  = "leech"
[couplet.3.b]
text   = "Green"
traits = { colour = "green" }
taxon  = "leech"

[commonness]
source = "invented"
[commonness.weight]
mayfly   = 5
stonefly = 3
beetle   = 2
leech    = 1
`

// broken are 108 ways to break a key, the 71 of an author's trial of the program
// met among them. Each is one edit, and the finding stands where at first stands after it.
var broken = []struct {
	why      string
	old, new string
	at       string
	rule     string // what is found, the cause first
	says     string // in the message or the mend
}{
	// Slips of writing.
	{"marks of two versions", "[couplet.2]\n", "<<<<<<< HEAD\n[couplet.2]\n", "<<<<<<<", "syntax", "two versions of a file clash"},
	{"the middle mark of two versions", "[couplet.2]\n", "=======\n[couplet.2]\n", "=======", "syntax", "keep one of the two"},
	{"a couplet twice", "[couplet.3]\n", "[couplet.2]\nask = \"x\"\n[couplet.3]\n", "[couplet.2]\nask = \"x\"", "syntax",
		"first in line 19"},
	{"a lead twice", "[couplet.2.c]", "[couplet.2.b]", "[couplet.2.b]\ntext   = \"No tail", "syntax", "first in line 27"},
	{"a field twice", "to     = \"2\"\n", "to     = \"2\"\nto     = \"2\"\n", "to     = \"2\"\n[couplet.1.b]", "syntax",
		"first in line 13"},
	{"[key] twice", "[couplet.1]\n", "[key]\nid = \"b\"\n[couplet.1]\n", "[key]\nid = \"b\"", "syntax", "stands in this file twice"},
	{"no closing mark", "\"Six legs behind the head\"", "\"Six legs behind the head", "\"Six legs", "syntax",
		"no quotation mark at its end"},
	{"no opening mark", "\"Six legs behind the head\"", "Six legs behind the head\"", "Six legs", "syntax", "put text in quotation marks"},
	{"curly marks", "\"Legs\"", "“Legs”", "“Legs", "syntax", "use straight ones"},
	{"low and high curly marks", "\"Legs\"", "„Legs“", "„Legs", "syntax", "use straight ones"},
	{"quotes within a text", "\"Six legs behind the head\"", "\"Six \"true\" legs\"", "true\" legs", "syntax",
		`write \" for a quotation mark within a text`},
	{"a backslash", "\"Six legs behind the head\"", "\"Six legs \\ none\"", "\\ none", "syntax", `write \\ for a backslash`},
	{"a colon", "to     = \"2\"", "to: \"2\"", ": \"2\"", "syntax", `write name = "value"`},
	{"no equals sign", "to     = \"2\"", "to \"2\"", "\"2\"\n[couplet.1.b]", "syntax", "= is missing"},
	{"nothing after it", "to     = \"2\"", "to     =", "\n[couplet.1.b]", "syntax", "the value after = is missing"},
	{"a word for a number", "mayfly   = 5", "mayfly   = often", "often", "syntax", "this is no value"},
	{"a sentence", "ask  = \"Gills\"", "ask for gills", "for gills", "syntax", "= is missing"},
	{"no bracket at the end", "[couplet.2.b]", "[couplet.2.b", "[couplet.2.b", "syntax", "no ] at its end"},
	{"no bracket at the beginning", "[couplet.2.b]", "couplet.2.b]", "]\ntext   = \"Two", "syntax", "= is missing"},
	{"two dots", "[couplet.2.b]", "[couplet..b]", "[couplet..b]", "syntax", "a part of the table's name is missing"},
	{"braces without an end", "{ tails = \"2\" }", "{ tails = \"2\"", "{ tails = \"2\"", "syntax", "put } at the end"},
	{"a list without an end", "{ tails = \"2\" }", "{ tails = [\"2\" }", "[\"2\" }", "syntax", "put ] after its last value"},
	{"a missing comma", "{ tails = \"2\" }", "{ tails = [\"2\" \"3\"] }", "\"3\"] }", "syntax", "a comma is missing"},
	{"a number with a zero before it", "mayfly   = 5", "mayfly   = 05", "05", "syntax", "this number cannot be read"},
	{"a decimal comma", "mayfly   = 5", "mayfly   = 0,5", ",5", "syntax", "write its decimals after a point"},
	{"Windows-1252", "Tufts", "T\xfcfts", "\xfcfts", "syntax", "save it as UTF-8"},
	{"line ends of very old programs", "ask  = \"Legs\"\n", "ask  = \"Legs\"\r", "\r[couplet", "syntax", "line ends of Linux or Windows"},
	{"a control character", "Tufts", "T\x07ufts", "\x07ufts", "syntax", "delete it"},
	{"an invisible character", "Tufts", "Tu\u200bfts", "\u200bfts", "control-character", "U+200B"},
	{"UTF-16", whole, utf16Of(whole), "\xff\xfe", "syntax", "save it as UTF-8"},
	{"a text of two lines", "\"A smooth belly\"", "\"A smooth\nbelly\"", "\"A smooth", "syntax", "three"},
	{"cut off", whole[strings.LastIndex(whole, "on  = \"worm\""):], "Z", "Z", "syntax", "= is missing after the name"},
	// Names that are not there.
	{"a misspelt state", "tails = \"3\"", "tails = \"thre\"", "\"thre\"", "unknown-trait", "no state \"thre\""},
	{"a misspelt trait", "{ tails = \"3\" }", "{ tials = \"3\" }", "\"3\" }", "unknown-trait", "did you mean \"tails\""},
	{"a state of another trait", "tails = \"3\"", "tails = \"yes\"", "\"yes\" }\ntaxon  = \"mayfly\"", "unknown-trait",
		"\"tails\" has no state \"yes\""},
	{"a misspelt taxon", "taxon  = \"mayfly\"", "taxon  = \"mayfli\"", "\"mayfli\"", "unknown-taxon", "did you mean \"mayfly\""},
	{"a misspelt stop", "stop = \"insecta\"", "stop = \"insect\"", "\"insect\"", "unknown-taxon", "did you mean \"insecta\""},
	{"a misspelt field", "text   = \"No legs", "txt    = \"No legs", "txt ", "unknown-field", "did you mean \"text\""},
	{"a field of another table", "ask  = \"Gills\"", "ask  = \"Gills\"\ncolour = \"red\"", "colour", "unknown-field", "\"colour\""},
	{"a lead to nowhere", "to     = \"2\"", "to     = \"9\"", "\"9\"", "unknown-couplet", "goes to couplet \"9\", which is not there"},
	{"a blank in a number", "to     = \"3\"", "to     = \"3 \"", "\"3 \"", "unknown-couplet", "did you mean \"3\""},
	{"a lead for a couplet", "to     = \"3\"", "to     = \"3a\"", "\"3a\"", "unknown-couplet", "did you mean \"3\""},
	{"two couplets for one", "to     = \"3\"", "to     = \"1/2\"", "\"1/2\"", "unknown-couplet",
		"goes to couplet \"1/2\", which is not there"},
	{"the table's name for a couplet", "to     = \"3\"", "to     = \"couplet.3\"", "\"couplet.3\"", "unknown-couplet",
		"did you mean \"3\""},
	{"a start that is not there", "start  = \"1\"", "start  = \"0\"", "\"0\"\n\n", "unknown-couplet", "starts at couplet \"0\""},
	{"a weight of an animal that is no end", "worm     = 4", "worm     = 4\nswimmer  = 1", "swimmer", "no-end-point",
		"is not an end point"},
	// Of another kind.
	{"a number for a couplet", "to     = \"3\"", "to     = 3", "3\n\n[couplet.2]", "wrong-kind", "quotation marks"},
	{"a number for a state", "legs = \"6\"", "legs = 6", "6 }", "wrong-kind", "quotation marks"},
	{"a text for a number", "mayfly   = 5", "mayfly   = \"5\"", "\"5\"", "wrong-kind", "without quotation marks: mayfly = 5"},
	{"a list for a text", "ask  = \"Gills\"", "ask  = [\"Gills\"]", "[\"Gills\"]", "wrong-kind", "\"ask\""},
	{"a text for a table", "traits = { gills = \"no\" }", "traits = \"no gills\"", "\"no gills\"", "wrong-kind", "\"traits\""},
	{"a capital", "gills = \"yes\"", "gills = \"Yes\"", "\"Yes\"", "unknown-trait", "its states are \"yes\", \"no\""},
	{"a way to write two states", "tails = \"2\"", "tails = \"2/3\"", "\"2/3\"", "unknown-trait", "no state \"2/3\""},
	{"an id with a blank", "id     = \"brook\"", "id     = \"our brook\"", "\"our brook\"", "bad-id", "lower-case letters"},
	{"a weight of nothing", "mayfly   = 5", "mayfly   = 0", "0\nstonefly", "bad-weight", "above 0"},
	{"an empty text", "text   = \"A smooth belly\"", "text   = \"\"", "\"\"", "empty", "\"text\""},
	{"an empty list", "taxon  = \"worm\"", "taxon  = []", "[]", "empty", "name the taxon"},
	{"no states", "{ gills = \"no\" }", "{ gills = [] }", "[] }", "no-states", "name the states"},
	{"no traits", "{ gills = \"no\" }", "{ }", "{ }", "no-traits", "say which"},
	// Shape.
	{"a lead missing", "[couplet.3.b]\ntext   = \"A smooth belly\"\ntraits = { gills = \"no\" }\ntaxon  = \"worm\"\n", "",
		"[couplet.3]", "one-lead", "[couplet.3.b]"},
	{"the first lead missing", "[couplet.3.a]\ntext   = \"Tufts along the belly\"\ntraits = { gills = \"yes\" }\n" +
		"taxon  = \"leech\"\n", "", "[couplet.3]", "one-lead", "[couplet.3.a]"},
	{"a letter left out", "[couplet.2.c]", "[couplet.2.d]", "[couplet.2.d]", "lead-letter", "without a gap"},
	{"two goals", "taxon  = \"mayfly\"", "taxon  = \"mayfly\"\nto     = \"3\"", "\"mayfly\"\nto", "two-ends", "keep one"},
	{"no goal", "taxon  = \"mayfly\"\n", "", "[couplet.2.a]", "dead-end", "add to"},
	{"no text", "text   = \"A smooth belly\"\n", "", "[couplet.3.b]", "missing-field", "\"text\""},
	{"no question", "ask  = \"Gills\"\n", "", "[couplet.3]", "missing-field", "\"ask\""},
	{"no [key]", "[key]\nid     = \"brook\"\ntitle  = \"Animals of our brook\"\nsource = \"invented\"\nstart  = \"1\"\n", "",
		"#", "missing-field", "the line [key] is missing"},
	{"a circle", "taxon  = \"leech\"", "to     = \"1\"", "\"1\"\n[couplet.3.b]", "cycle", "couplet"},
	{"a couplet that nothing leads to", "to     = \"3\"", "taxon  = [\"leech\", \"worm\"]", "[couplet.3]", "unreachable", "3"},
	{"a stop that does not hold all", "stop = \"insecta\"", "stop = \"mayfly\"", "\"mayfly\"\n[couplet.2.a]", "bad-stop", "stonefly"},
	// What people meet.
	{"a lead that contradicts an animal", "taxon  = \"mayfly\"", "taxon  = \"stonefly\"", "\"3\" }\ntaxon  = \"stonefly\"",
		"contradiction", "\"stonefly\", keyed below it, shows \"2\""},
	{"two leads with one state", "tails = \"2\" }", "tails = \"3\" }", "[couplet.2.b]", "overlap", "tails \"3\" is in both"},
	{"a lead that contradicts an animal further down", "taxon  = \"mayfly\"", "taxon  = \"worm\"", "\"6\" }", "contradiction",
		"\"worm\", keyed below it in line 26"},
	{"an end point split at the wrong couplet", "taxon  = \"leech\"", "to     = \"4\"\n[couplet.4]\nask = \"Tails\"\n[couplet.4.a]\n" +
		"text = \"Three\"\ntraits = { tails = \"3\" }\ntaxon = \"leech\"\n[couplet.4.b]\ntext = \"Two\"\ntraits = { tails = \"2\" }\n" +
		"taxon = \"mayfly\"", "\"0\" }\nto     = \"3\"", "contradiction", "\"mayfly\", keyed below it in line"},
	{"leads that overlap", "tails = \"2\"", "tails = [\"2\", \"3\"]", "[couplet.2.b]", "overlap", "tails \"3\" is in both"},
	{"an animal that no lead fits", "taxon  = \"mayfly\"", "taxon  = [\"mayfly\", \"swimmer\"]", "[couplet.2]", "gap",
		"\"swimmer\" can show tails \"2\""},
	// Sound, and worth a second thought.
	{"two leads with the same words", "\"No legs to be seen\"", "\"Six legs behind the head\"",
		"\"Six legs behind the head\"\ntraits = { legs = \"0\"", "same-words", "say the same words"},
	{"all leads to one animal", whole[strings.Index(whole, "[couplet.3]"):], oneGoal, "\"leech\"\n\n[commonness]",
		"same-goal", "all leads of couplet 3 go to the same place"},
	{"words of a draft", whole[strings.Index(whole, "Six legs"):strings.Index(whole, "\"\ntraits = { legs = \"0\" }")],
		"Six legs.\"\ntraits = { legs = \"6\" }\nto     = \"2\"\n[couplet.1.b]\ntext   = \"No legs.", "\"Legs\"",
		"as-drafted", "your own words"},
	// Further slips, of names and places.
	{"a lead under another name", "[couplet.2.b]", "[cuoplet.2.b]", "[cuoplet.2.b]", "unknown-field", "did you mean couplet"},
	{"a lead in the plural", "[couplet.2.b]", "[couplets.2.b]", "[couplets.2.b]", "unknown-field", "did you mean couplet"},
	{"a lead with a capital", "[couplet.2.b]", "[Couplet.2.b]", "[Couplet.2.b]", "unknown-field", "did you mean couplet"},
	{"a lead with hyphens", "[couplet.2.b]", "[couplet-2-b]", "[couplet-2-b]", "unknown-field", "[couplet.4.a]"},
	{"a lead without its dot", "[couplet.2.b]", "[couplet.2b]", "[couplet.2b]", "lead-letter", "write it as [couplet.2.b]"},
	{"a lead in round brackets", "[couplet.2.b]", "(couplet.2.b)", "(couplet.2.b)", "syntax", "square brackets"},
	{"a lead with blanks", "[couplet.2.b]", "[couplet 2 b]", "[couplet 2 b]", "syntax", "write it as [couplet.4.a]"},
	{"a lead with a capital letter", "[couplet.2.b]", "[couplet.2.B]", "[couplet.2.B]", "unknown-field", "check the spelling"},
	{"a lead with a number", "[couplet.2.b]", "[couplet.2.2]", "[couplet.2.2]", "unknown-field", "check the spelling"},
	{"a goal under another name", "to     = \"3\"", "goto   = \"3\"", "goto", "unknown-field", "\"to\""},
	{"an animal for a couplet", "to     = \"3\"", "to     = \"mayfly\"", "\"mayfly\"", "unknown-couplet", "taxon = \"mayfly\""},
	{"a couplet for an animal", "taxon  = \"mayfly\"", "taxon  = \"3\"", "\"3\"\n[couplet.2.b]", "unknown-taxon", "to = \"3\""},
	{"a comma at the end", "ask  = \"Gills\"", "ask  = \"Gills\",", ",\n[couplet.3.a]", "syntax", "delete it"},
	{"a semicolon at the end", "ask  = \"Gills\"", "ask  = \"Gills\";", ";", "syntax", "delete it"},
	{"a remark after strokes", "ask  = \"Gills\"", "ask  = \"Gills\" // look", " // look", "syntax", "write # in the place of //"},
	{"traits as a text", "traits = { tails = \"2\" }", "traits = \"tails = 2\"", "\"tails = 2", "wrong-kind", "must be a table"},
	{"traits as a list", "traits = { tails = \"2\" }", "traits = [\"tails\", \"2\"]", "[\"tails", "wrong-kind", "must be a table"},
	{"trait for traits", "traits = { tails = \"2\" }", "trait  = { tails = \"2\" }", "trait  =", "unknown-field", "\"traits\""},
	{"what is asked as a list", "ask  = \"Gills\"", "ask  = [\"Gills\"]", "[\"Gills", "wrong-kind", "must be text in quotes"},
	{"what is asked misspelt", "ask  = \"Gills\"", "aks  = \"Gills\"", "aks", "unknown-field", "\"ask\""},
	{"what is asked with a capital", "ask  = \"Gills\"", "Ask  = \"Gills\"", "Ask", "unknown-field", "\"ask\""},
	{"nothing asked", "ask  = \"Gills\"\n", "", "[couplet.3]", "missing-field", "\"ask\""},
	{"a text of blanks", "text   = \"No tail at the hind end\"", "text   = \"  \"", "\"  \"", "empty", "write something"},
	{"a start as a number", "start  = \"1\"", "start  = 1", "1\n\n[couplet.1]", "wrong-kind", "start = \"1\""},
	{"an id of two words", "id     = \"brook\"", "id     = \"our brook\"", "\"our brook\"", "bad-id", "hyphens"},
	{"a web page", "# The [key] of our brook.", "<!DOCTYPE html>", "<!DOCTYPE", "syntax", "plain text"},
	{"a weight of nothing", "mayfly   = 5", "mayfly   = 0", "0\n", "bad-weight", "above 0"},
	{"a weight in quotation marks", "mayfly   = 5", "mayfly   = \"5\"", "\"5\"", "wrong-kind", "number"},
	{"a lead back to its own couplet", "to     = \"3\"", "to     = \"1\"", "\"1\"\n\n[couplet.2]", "cycle", "send the lead elsewhere"},
}

// utf16Of is a text as some editors save it, little end first.
func utf16Of(text string) string {
	out := "\xff\xfe"
	for i := range len(text) {
		out += text[i:i+1] + "\x00"
	}
	return out
}

// grammar are words of a parser, which no reader of a finding knows.
var grammar = []string{"expected", "unexpected", "token", "invalid", "delimiter", "terminat", "escape", "byte", "parse", "nil"}

// Every way to break a key is told where it was done, the cause first and what
// follows from it beneath it, in words that say what to do.
func TestEveryBreakageIsToldAtItsPlace(t *testing.T) {
	c := withoutLens(t)
	if found := examine(t, whole, c); len(found) > 0 {
		t.Fatal("the sound key:", found)
	}
	for _, row := range broken {
		t.Run(row.why, func(t *testing.T) {
			if strings.Count(whole, row.old) == 0 {
				t.Fatal("the edit fits nothing")
			}
			text := strings.Replace(whole, row.old, row.new, 1)
			found := examine(t, text, c)
			if len(found) == 0 {
				t.Fatal("nothing is found")
			}
			f := found[0]
			if want := placeOf(text, row.at); f.Line != want.Line || f.Col != want.Col || f.Rule != row.rule {
				t.Errorf("got %v, want %d:%d: %s", f, want.Line, want.Col, row.rule)
			}
			if !strings.Contains(f.Message+" "+f.Hint, row.says) || f.Hint == "" {
				t.Errorf("got %v, which does not say %q", f, row.says)
			}
			for _, word := range grammar {
				if strings.Contains(f.Message, word) {
					t.Errorf("%v speaks of %q", f, word)
				}
			}
			if len(found) > 1 {
				t.Logf("further: %v", found[1:])
			}
		})
	}
}

// In a large key, too, the first finding is at the line that was broken, whatever else
// follows from it.
func TestABreakageOfABuiltInKeyIsToldFirst(t *testing.T) {
	c, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	data, err := fs.ReadFile(couplets.Embedded(), couplets.DefaultName)
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	goals := regexp.MustCompile(`(?m)^to     = "\d+"$`).FindAllStringIndex(text, -1)
	states := regexp.MustCompile(`(?m)^traits = \{ [a-z-]+ = "[a-z0-9-]+" \}$`).FindAllStringIndex(text, -1)
	texts := regexp.MustCompile(`(?m)^text   = ".*"$`).FindAllStringIndex(text, -1)
	heads := regexp.MustCompile(`(?m)^\[couplet\.\d+\]$`).FindAllStringIndex(text, -1)
	r := rand.New(rand.NewPCG(18, 71))
	rounds := 4
	if testing.Short() {
		rounds = 1
	}
	for range rounds {
		for _, row := range []struct {
			why, rule string
			at        [][]int
			edit      func(string) string
		}{
			{"to nowhere", "unknown-couplet", goals, func(string) string { return `to     = "9999"` }},
			{"a number without quotation marks", "wrong-kind", goals, func(s string) string { return strings.ReplaceAll(s, `"`, "") }},
			{"a lead for a couplet", "unknown-couplet", goals, func(s string) string { return strings.TrimSuffix(s, `"`) + `a"` }},
			{"in a circle", "cycle", goals, func(string) string { return `to     = "1"` }},
			{"a misspelt state", "unknown-trait", states, func(s string) string { return strings.Replace(s, `" }`, `x" }`, 1) }},
			{"a misspelt trait", "unknown-trait", states, func(s string) string { return strings.Replace(s, " = \"", "x = \"", 1) }},
			{"a number for a state", "wrong-kind", states, func(s string) string { return s[:strings.Index(s, `"`)] + "6 }" }},
			{"no closing mark", "syntax", texts, func(s string) string { return strings.TrimSuffix(s, `"`) }},
			{"curly marks", "syntax", texts, func(s string) string { return "text   = “Four”" }},
			{"marks of two versions", "syntax", heads, func(s string) string { return "<<<<<<< HEAD" }},
			{"a couplet twice", "syntax", heads, func(string) string { return "[couplet.1]" }},
		} {
			at := row.at[1+r.IntN(len(row.at)-1)]
			broken := text[:at[0]] + row.edit(text[at[0]:at[1]]) + text[at[1]:]
			found := examine(t, broken, c)
			if len(found) == 0 {
				t.Fatalf("%s: nothing is found", row.why)
			}
			if f := found[0]; f.Line != placeOf(text, text[at[0]:]).Line || f.Rule != row.rule || f.Hint == "" {
				t.Errorf("%s: got %v, want line %d: %s", row.why, f, placeOf(text, text[at[0]:]).Line, row.rule)
			}
		}
	}
}

// withoutLens is the catalog of the examples with gills that the naked eye sees.
func withoutLens(t *testing.T) *taxa.Catalog {
	files := fstest.MapFS{}
	for _, name := range []string{"traits.toml", "animals.toml"} {
		text, err := os.ReadFile("testdata/catalog/" + name)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = &fstest.MapFile{Data: bytes.ReplaceAll(text, []byte(`"lens"`), []byte(`"eye"`))}
	}
	c, err := taxa.Load(files, "")
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// placeOf is where a piece of a text begins; the end for an empty one.
func placeOf(text, piece string) authored.Pos {
	at := len(text)
	if piece != "" {
		at = strings.Index(text, piece)
	}
	from := strings.LastIndexByte(text[:at], '\n') + 1
	return authored.Pos{Line: strings.Count(text[:at], "\n") + 1, Col: utf8.RuneCountInString(text[from:at]) + 1}
}
