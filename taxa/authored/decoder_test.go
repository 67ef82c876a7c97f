package authored_test

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"

	"rillkey/taxa/authored"
)

// Whatever the text: it is accepted just where the decoder accepts it, every key
// and value is the one that the decoder sees, and no finding lies outside it.
func FuzzParse(f *testing.F) {
	f.Add(sample)
	for _, row := range texts {
		f.Add(row.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		var report authored.Report
		top := authored.Parse("f", []byte(text), &report)
		found := report.Findings()
		if top == nil && len(found) == 0 {
			t.Fatal("refused without a finding")
		}
		if len(found) > 0 && found[0].Rule == "too-deep" {
			return
		}
		var decoded map[string]any
		_, err := toml.Decode(text, &decoded)
		if err == nil && top == nil && strings.HasSuffix(found[0].Message, "something else too") {
			return // of which the decoder would keep one
		}
		if err == nil && top == nil && found[0].Rule == "control-character" {
			return // the decoder takes characters that nobody sees
		}
		if (err == nil) != (top != nil) {
			t.Fatalf("the decoder says %v, Parse %v", err, found)
		}
		if top != nil {
			sameTable(t, decoded, top)
			top.Done()
		}
		lines := strings.Split(text, "\n")
		for _, fd := range report.Findings() {
			if fd.Line < 1 || fd.Line > len(lines) || fd.Col < 1 || fd.Col > len([]rune(lines[fd.Line-1]))+1 {
				t.Fatalf("%v lies outside the text %q", fd, text)
			}
		}
	})
}

// texts are constructs of every kind, and mistakes.
var texts = []struct{ why, text string }{
	{"texts of all four kinds", "a = 'b\\'\nc = \"d \\\"e\\\\ \\t\\n\\r\\n\"\nf = \"\"\"\ng\n\"h\" \"\"\"\ni = '''\r\nj'k'''\n"},
	{"texts with quotes before the end", "a = '''x''''\nb = \"\"\"y\"\"\"\"\"\nc = ''''''\n"},
	{"escapes by number, and of line breaks", "a = \"\\u00e9\\U0001F41B\\e\\x41\"\nb = \"\"\"x\\\n   y\"\"\"\n"},
	{"numbers", "a = 0\nb = -12\nc = 0.5\nd = -0.25\ne = 1_000\nf = 0x1F\ng = 6e3\nh = +7\ni = inf\nj = -nan\n" +
		"k = 9223372036854775807\nl = -0\n"},
	{"what looks like a number", "a = 01\n"},
	{"a number that is too large", "a = 9223372036854775808\n"},
	{"truth and dates", "a = true\nb = false # no\nc = 1979-05-27T07:32:00Z\nd = 1979-05-27 07:32:00 \ne = 07:32\n"},
	{"lists", "a = [1, 2, # two\n 3,\n]\nb = []\nc = [[1, 2], [\"]\"], 'x']\nd = [0x1, 2]\ne = [\"\\u0041\", '''\nb''']\n"},
	{"a list with a comma too many", "a = [1,,2]\n"},
	{"a list that begins with a comma", "a = [,1]\n"},
	{"a list without its end", "a = [1,\n"},
	{"tables in braces", "a = {b = 1, c = {d = 'x'}, }\ne = {}\nf = { # none\n g = 2\n, h = [1]}\n"},
	{"tables in braces in a list", "a = [{b = 1}, {b = 2, c.d = 3}]\n"},
	{"dotted keys in braces", "a = {b.c = 1, b.d = 2}\n"},
	{"a doubled key in braces", "a = {b = 1, b = 2}\n"},
	{"headers in any order", "[a.b.c]\nx = 1\n[a]\ny = 2\n[a.b]\nz = 3\n[ a . d ] # d\n"},
	{"a doubled header", "[a]\n[b]\n[a]\n"},
	{"a header where a value is", "[a]\nb = 1\n[a.b]\n"},
	{"a value where a table is", "[a.b]\n[a]\nb = 1\n"},
	{"a header through a table in braces", "a = {}\n[a.b]\n"},
	{"dotted keys", "a.b = 1\na.c.d = 2\n[e]\nf.g = 3\nf.h = 4\n"},
	{"a dotted key through a value", "a = 1\na.b = 2\n"},
	{"a dotted key through a stated table", "[a.b]\nx = 1\n[a]\nb.y = 2\n"},
	{"a header where dotted keys were", "a.b = 1\n[a]\nc = 2\n[a.d]\n"},
	{"quoted keys", "\"a b\".c = 1\n['d.e'.\"f\\u0041\"]\n\"\" = 2\n"},
	{"arrays of tables", "[a.\"b\\u0041\"]\r\nx=1979-05-27T07:32:00Z\r\n[[a.c]]\n[a.c.d]\n[[a.c]]\n[a.c.d]\ny = 1\n"},
	{"two values on a line", "a = 1 b = 2\n"},
	{"something after a header", "[a] b = 1\n"},
	{"no value", "a =\nb = 1\n"},
	{"no key", "= 1\n"},
	{"a byte order mark", "\ufeff[a]\nb = 1\n"},
	{"a byte order mark of another kind", "\xff\xfea = 1\n"},
	{"mistakes of several kinds, below what is sound", "[a]\nb = 1\nc = é\n"},
	{"a value that is none, twice", "[a]\nb = 1\n[b]\nb = 01 # x\nb = 2"},
	{"a text without its end, below what is sound", "[a]\nb = 1\n[b]\nc = \"x\n"},
	{"a long text without its end, below what is sound", "[a]\nb = 1\n[b]\nc = \"\"\"x\n"},
	{"a mistake in a list of several lines", "[a]\nb = 1\n[b]\nc = [\n1,\n2 3]\n"},
	{"a mistake in the line of an array of tables", "[a]\nb = 1\n[[a]] x\n"},
	{"a mistake after a doubled key in braces", "[a]\nb = 1\nc = {d.e = 1, d = 2} x\n"},
	{"no value at the end, below a short line", " \n0"},
	{"a header without its end", "[a]\nb = 1\n  [ a . c \nd = 1\n"},
	{"a mistake after a byte order mark", "\ufeffa = 1\nb = \n"},
	{"a control character in a comment", "a = 1 # \x01\n"},
	{"a line ending of old", "a = 1\rb = 2\n"},
	{"a text without its end", "a = \"b\\\""},
	{"a lone escape", `"\`},
	{"a doubled key above an odd mark", "\n0=\"\"\n0=\"\"\"\n0\"\"\"\n\n\""},
	{"two byte order marks", "\ufeff\ufeffN"},
	{"nothing", ""},
}

func TestTextsAreWhatTheDecoderSees(t *testing.T) {
	for _, row := range texts {
		t.Run(row.why, func(t *testing.T) {
			var report authored.Report
			top := authored.Parse("f", []byte(row.text), &report)
			var decoded map[string]any
			_, err := toml.Decode(row.text, &decoded)
			if (err == nil) != (top != nil) {
				t.Fatalf("the decoder says %v, Parse %v", err, report.Findings())
			}
			if top != nil {
				sameTable(t, decoded, top)
			}
		})
	}
}

func sameTable(t *testing.T, decoded map[string]any, table *authored.Table) {
	t.Helper()
	keys := table.Keys()
	if len(keys) != len(decoded) {
		t.Fatalf("the file shows keys %q, the decoder %v", keys, decoded)
	}
	for _, key := range keys {
		v, there := decoded[key]
		if !there || !table.Has(key) {
			t.Fatalf("no key %q in %v", key, decoded)
		}
		if below, isTable := v.(map[string]any); isTable != table.IsTable(key) {
			t.Fatalf("%q is a table: %v", key, isTable)
		} else if isTable {
			sameTable(t, below, table.Sub(key))
			continue
		}
		sameValue(t, key, v, table)
	}
}

func sameValue(t *testing.T, key string, v any, table *authored.Table) {
	t.Helper()
	same := true
	switch v := v.(type) {
	case string:
		same = table.Str(key) == oneLine(v) && slices.Equal(table.Strs(key), []string{oneLine(v)})
	case bool:
		same = table.Bool(key) == v
	case int64:
		whole, ok := table.Int(key)
		number, also := table.Num(key)
		same = ok && also && whole == v && number == float64(v)
	case float64:
		number, ok := table.Num(key)
		same = ok != (math.IsNaN(v) || math.IsInf(v, 0)) && (!ok || number == v)
	case []any:
		var texts []string
		var numbers []float64
		for _, e := range v {
			switch e := e.(type) {
			case string:
				texts = append(texts, oneLine(e))
			case int64:
				numbers = append(numbers, float64(e))
			case float64:
				if !math.IsNaN(e) && !math.IsInf(e, 0) {
					numbers = append(numbers, e)
				}
			}
		}
		same = slices.Equal(table.Strs(key), texts) && slices.Equal(table.Nums(key), numbers)
	default: // a date, an array of tables
		_, ok := table.Num(key)
		same = !ok && table.Str(key) == "" && table.Strs(key) == nil && table.Nums(key) == nil && !table.Bool(key)
	}
	if !same {
		t.Fatalf("%q is %v to the decoder, a %v", key, v, reflect.TypeOf(v))
	}
}

// oneLine is a text as authors mean it: their line breaks are blanks.
func oneLine(s string) string {
	return strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", " "), "\n", " ")
}

// The usual escapes are read without the decoder, and mean what it says; so does what
// only it reads.
func TestEscapesAreWhatTheDecoderSees(t *testing.T) {
	for _, spelt := range []string{`"a\nb"`, `"\"a\" \\ b"`, `"\\n"`, `"\\\\n\\\n"`, `"tab\there"`, `"\u00e4\U0001F41B"`, `"\ta \e"`,
		"\"\"\"a \\\n   b\\n\"\"\"", "\"\"\"\na\\\\b\"\"\"", `'a\nb'`, `""`, `"\r"`} {
		var report authored.Report
		top := authored.Parse("x.toml", []byte("v = "+spelt+"\n"), &report)
		var decoded map[string]any
		if _, err := toml.Decode("v = "+spelt+"\n", &decoded); err != nil {
			if top != nil {
				t.Errorf("%s is read, and the decoder says: %v", spelt, err)
			}
			continue
		}
		want := strings.ReplaceAll(strings.ReplaceAll(decoded["v"].(string), "\r\n", " "), "\n", " ")
		if got := top.Str("v"); got != want {
			t.Errorf("%s is read as %q, want %q", spelt, got, want)
		}
	}
}
