package authored

import (
	"strings"
	"testing"
)

// What keys, catalogs and regions are written in needs no decoder; whatever else there
// is has it. FuzzParse holds both against the decoder.
func TestUsualTextsNeedNoDecoder(t *testing.T) {
	for _, row := range []struct {
		text string
		want bool
	}{
		{"", true},
		{"# Größen\n[taxon.\"a b\"] # one\r\nlength_mm = [1.5, -20, # to\n 3,\n]\n", true},
		{"traits = { legs = \"6\", tails = ['2', \"3\"] }\nlens = true", true},
		{"a = \"\"\nb = \"x \\\"y\\\" \\\\ \\n\\t\"\nc = {}\nd = []\n", true},
		{"a = \"\"\"x\"\"\"\n", false},
		{"a = '''x'''\n", false},
		{"a = \"\\u0041\"\n", false},
		{"a = \"x\n", false},
		{"a = \"x", false},
		{"a = \"x\\", false},
		{"a.b = 1\n", false},
		{"[[a]]\n", false},
		{"[a] b = 1\n", false},
		{"[a\n", false},
		{"a = 1 b = 2\n", false},
		{"a = 01\n", false},
		{"a = 1_000\n", false},
		{"a = 1.\n", false},
		{"a = -\n", false},
		{"a = 1234567890123456\n", false},
		{"a = 1979-05-27\n", false},
		{"a = [1 2]\n", false},
		{"a = [,1]\n", false},
		{"a = [1", false},
		{"a = {b = 1,}\n", false},
		{"a = {b = 1\n}\n", false},
		{"a = 1 # \x01\n", false},
		{"a = 1\rb = 2\n", false},
		{"\ufeffa = 1\n", false},
		{"a = \"\xff\"\n", false},
		{"a = " + strings.Repeat("[", 40) + strings.Repeat("]", 40) + "\n", false},
	} {
		if got := usual(row.text); got != row.want {
			t.Errorf("%q: %v, want %v", row.text, got, row.want)
		}
	}
}

// A key that is there twice is found by the scanner; the decoder says so.
func TestWhatIsThereTwiceIsFoundInUsualTexts(t *testing.T) {
	for _, text := range []string{"a = 1\na = 2\n", "[a]\n[a]\n", "[a.b]\n[a]\nb = 1\n", "[a]\nb = 1\n[a.b]\n",
		"a = {b = 1, b = 2}\n", "a = [{b = 1, b = 2}]\n", "a = {}\n[a]\n"} {
		var report Report
		if !usual(text) || Parse("f", []byte(text), &report) != nil || len(report.Findings()) != 1 {
			t.Errorf("%q: usual %v, %v", text, usual(text), report.Findings())
		}
	}
}
