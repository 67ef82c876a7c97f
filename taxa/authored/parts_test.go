package authored

import (
	"fmt"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
)

// inParts reports whether a text is taken for TOML by its parts and the scanner.
func inParts(text string, size int) bool {
	cut := parts(text, size)
	if strings.Join(cut, "") != text {
		panic("something is lost between the parts")
	}
	return tooDeep(text) == 0 && takesEach(cut) && !newTree("f", text, &Report{}).scan().doubled
}

// Whatever the text: where each part is taken and nothing is there twice, the decoder
// takes the whole.
func FuzzParts(f *testing.F) {
	for _, text := range []string{"[a]\nb = 1\n[c]\nd = 2\n", "[a]\nb = 1\n[a.b]\nc = 1\n", "[a.b]\n[a]\nb = 1\n", "[a]\n[a]\n",
		"[[a]]\nb = 1\n[[a]]\nb = 2\n[a.c]\n", "a.b = 1\n[a]\nc = 2\n", "a = {}\n[a.b]\n", "[a]\nb = [\n[1],\n[2]]\n[c]\n",
		"[a]\nb = '''\n[c]\n'''\n[d]\n", "[a]\nb.c = 1\n[a.b]\nd = 1\n", "[a.b]\nx = 1\n[a]\nb.y = 2\n"} {
		f.Add(text, 2)
	}
	f.Fuzz(func(t *testing.T, text string, size int) {
		if size < 1 || size > 100 || !inParts(text, size) {
			return
		}
		var values map[string]any
		if _, err := toml.Decode(text, &values); err != nil {
			t.Fatalf("its parts %q are taken; of the whole the decoder says %v", parts(text, size), err)
		}
	})
}

// A long catalog is decoded part by part, and what is there twice is told as ever,
// wherever it stands.
func TestALongTextIsReadInParts(t *testing.T) {
	for _, row := range []struct{ why, text string }{
		{"a table that was there in another part", uniquely(4000) + "[taxon.t1]\n"},
		{"a mistake near the end", uniquely(4000) + "[taxon.z]\nname = x\n"},
		{"a value where tables were", uniquely(4000) + "[taxon]\nt1 = 2\n"},
	} {
		if len(parts(row.text, partSize)) < 3 {
			t.Fatal("it is not long enough to be parted")
		}
		var report Report
		var values map[string]any
		if _, err := toml.Decode(row.text, &values); err == nil {
			t.Fatal("the decoder takes it")
		}
		if Parse("f", []byte(row.text), &report) != nil || len(report.Findings()) != 1 || report.Findings()[0].Rule != "syntax" {
			t.Errorf("%s: %v", row.why, report.Findings())
		}
	}
	var report Report
	if top := Parse("f", []byte(uniquely(4000)), &report); top == nil || len(top.Sub("taxon").Keys()) != 4000 {
		t.Error("a sound text is not read", report.Findings())
	}
}

// uniquely is so many tables.
func uniquely(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "[taxon.t%d]\nname = \"as long as a line is\"\n", i)
	}
	return b.String()
}
