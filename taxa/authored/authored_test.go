package authored_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
)

const sample = `# a key
[key]
id = "here" # trailing
title = """one "quoted" """

["odd key"]
a.b = 1

[couplet.4.a]
traits = { tails = "3", legs = ["6", "none"] }
text = 'three tails'

[[row]]
n = 1
[[row]]
n = 2
`

func TestPositionsAreThoseOfTheText(t *testing.T) {
	var report authored.Report
	top := authored.Parse("f.toml", []byte(sample), &report)
	if top == nil {
		t.Fatal(report.Findings())
	}
	key, lead := top.Sub("key"), top.Sub("couplet").Sub("4").Sub("a")
	for _, row := range []struct {
		what string
		got  authored.Pos
		want string
	}{
		{"a value", key.Pos("id"), "f.toml:3:6"},
		{"a key", key.KeyPos("id"), "f.toml:3:1"},
		{"a value after a multi-line string", lead.Pos("text"), "f.toml:11:8"},
		{"a table", lead.Here(), "f.toml:9:1"},
		{"a quoted table name", top.Sub("odd key").Here(), "f.toml:6:1"},
		{"a dotted key", top.Sub("odd key").Sub("a").Pos("b"), "f.toml:7:7"},
		{"a value in an inline table", lead.Sub("traits").Pos("tails"), "f.toml:10:20"},
		{"an element of a list in an inline table", lead.Sub("traits").Elem("legs", 1), "f.toml:10:38"},
		{"a missing key falls back on its table", lead.Pos("to"), "f.toml:9:1"},
	} {
		if row.got.String() != row.want {
			t.Errorf("%s: at %s, want %s", row.what, row.got, row.want)
		}
	}
	if got := strings.Join(top.Keys(), " "); got != "key odd key couplet row" {
		t.Errorf("keys out of file order: %q", got)
	}
}

func TestEveryFindingHasItsPlace(t *testing.T) {
	for _, row := range []struct{ why, text, want string }{
		{"syntax", "a = \n", "f.toml:1:5: syntax:"},
		{"a doubled table is a syntax error", "[a]\nx = 1\n[a]\nx = 2\n", "f.toml:3:"},
		{"a value and a table under one key", "[a.b.c]\n[a]\nb = 1\n", "f.toml:3:1: syntax: this key is given a value"},
		{"a list and a dotted key", "[a]\nb = []\nb.c = 1\n", "f.toml:3:1: syntax: this key is given a value"},
		{"text where a number stands", "s = 12\n", `f.toml:1:5: wrong-kind: "s" must be text in quotes`},
		{"number where text stands", "n = \"x\"\n", `f.toml:1:5: wrong-kind: "n" must be a number`},
		{"not a number", "n = nan\n", `f.toml:1:5: wrong-kind: "n" must be a number`},
		{"list with a wrong element", "l = [\"a\",\n  3]\n", `f.toml:2:3: wrong-kind: "l" must hold texts`},
		{"terminal escape", `s = "\u001b[31mred"` + "\n", "f.toml:1:5: control-character:"},
		{"writing turned without an escape", "s = \"ab\u202ec\"\n",
			"f.toml:1:8: control-character: an invisible character stands here (U+202E)"},
		{"a note that is turned", "s = \"a\" # b\u2066c\n", "f.toml:1:12: control-character:"},
		{"a joiner where none is needed", "s = \"Bro\u200dok\"\n", "f.toml:1:5: control-character:"},
		{"a blank of no width in a name", "\"s\u200b\" = \"a\"\n", "f.toml:1:3: control-character:"},
		{"a mark of byte order within", "s = \"a\ufeff\"\n", "f.toml:1:7: control-character:"},
		{"a tag nobody sees", "s = \"a\U000e0041\"\n", "f.toml:1:7: control-character:"},
		{"turned writing", `s = "\u202eabc"` + "\n", "f.toml:1:5: control-character:"},
		{"unknown field", "s = \"\"\nspelt = 1\n", `f.toml:2:1: unknown-field: there is no field "spelt" here`},
		{"case matters", "S = \"\"\n", `f.toml:1:1: unknown-field: there is no field "S" here`},
		{"bad id", "[t.\"a/b\"]\n", "f.toml:1:1: bad-id:"},
		{"invalid UTF-8", "s = \"\xff\"\n", "f.toml:1:"},
		{"a lone escape does not crash", `"\`, "f.toml:1:1: syntax: the text that begins here"},
		{"keys that nest without end", "a = 1\n" + strings.Repeat("b.", 30000) + "b = 1", "f.toml:2:1: too-deep:"},
		{"tables that nest without end", "a = " + strings.Repeat("{a=", 30000), "f.toml:1:1: too-deep:"},
		{"lists that nest without end", "a = " + strings.Repeat("[", 30000), "f.toml:1:1: too-deep:"},
		{"binary noise", "\x00\x01\x02", "f.toml:1:1: syntax:"},
	} {
		t.Run(row.why, func(t *testing.T) {
			var report authored.Report
			if top := authored.Parse("f.toml", []byte(row.text), &report); top != nil {
				top.Str("s")
				top.Num("n")
				top.Strs("l")
				top.Subs("t")
				top.Done()
			}
			got := report.Findings()
			if len(got) == 0 || !strings.HasPrefix(got[0].Error(), row.want) {
				t.Errorf("got %v, want %s…", got, row.want)
			}
			if len(got) > 0 && plain.HasControl(got[0].Error()) {
				t.Errorf("the message itself holds a control character: %q", got[0].Error())
			}
		})
	}
}

func TestDotsAndBracketsInTextsDoNotNest(t *testing.T) {
	var report authored.Report
	deep := strings.Repeat("[.", 100)
	text := "# " + deep + "\na = \"" + deep + "\"\nb = '''" + deep + "\n'''\nc = [" + strings.Repeat("1.5, ", 100) + "]\n"
	if authored.Parse("f.toml", []byte(text), &report) == nil {
		t.Error(report.Findings())
	}
}

func TestLineBreaksInTextsAreBlanks(t *testing.T) {
	var report authored.Report
	top := authored.Parse("f.toml", []byte("s = \"\"\"two\nlines\"\"\"\nl = [\"a\\r\\nb\"]\n"), &report)
	if s, l := top.Str("s"), top.Strs("l"); s != "two lines" || l[0] != "a b" || len(report.Findings()) > 0 {
		t.Errorf("%q, %q, %v", s, l, report.Findings())
	}
}

// A file of nothing but mistakes is told of ten thousand, then they are counted.
// Its places are found in one walk, though they stand on one line.
func TestFindingsAreBounded(t *testing.T) {
	var report authored.Report
	mistakes := 500_000
	if testing.Short() {
		mistakes = 50_000
	}
	top := authored.Parse("f.toml", []byte("\"é\" = 1\nl = ["+strings.Repeat("1, ", mistakes)+"]\n"), &report)
	top.Strs("l")
	got := report.Findings()
	if last := got[len(got)-1]; len(got) != 10001 || last.Rule != "and-more" ||
		!strings.HasPrefix(last.Message, fmt.Sprint(mistakes-10_000, " more")) || last.Line != 2 || last.Col != 6+3*9999 {
		t.Errorf("%d findings, the last %v", len(got), last)
	}
}

// What a table may hold is told with each unknown field, and found once.
func TestUnknownFieldsAreFoundOnce(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a while")
	}
	var report authored.Report
	var text strings.Builder
	for i := range 12_000 {
		fmt.Fprintf(&text, "z%d = 1\n", i)
	}
	top := authored.Parse("f.toml", []byte(text.String()), &report)
	top.Str("s")
	top.Done()
	if got := report.Findings(); len(got) != 10001 || got[9999].Line != 10000 || !strings.HasSuffix(got[0].Hint, `are "s"`) {
		t.Errorf("%d findings, the first %v", len(got), got[0])
	}
}

func TestReadIsBounded(t *testing.T) {
	fsys := fstest.MapFS{
		"big.toml": {Data: make([]byte, authored.MaxSize+1)},
		"fit.toml": {Data: make([]byte, authored.MaxSize)},
		"dir/x":    {},
	}
	for _, row := range []struct{ name, want string }{
		{"big.toml", "big.toml: larger than 16 MB"},
		{"dir", "dir: this is a folder"},
		{"none.toml", "none.toml: no such file"},
		{"fit.toml", ""},
	} {
		_, err := authored.Read(fsys, row.name, row.name)
		if got := fmt.Sprint(err); row.want == "" && err != nil || !strings.HasPrefix(got, row.want) && row.want != "" {
			t.Errorf("%s: %v, want %q", row.name, err, row.want)
		}
	}
}
