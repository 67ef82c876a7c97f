package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Each page that is printed with a region says which version of it, at the foot of every
// sheet, and no version is more than text there.
func TestPrintedPagesSayTheVersionOfTheirRegion(t *testing.T) {
	home := filepath.Join(t.TempDir(), "brook")
	if _, complaints, status := spoken("region", "new", home); status != statusDone {
		t.Fatal(complaints)
	}
	head := filepath.Join(home, "region.toml")
	text, err := os.ReadFile(head)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct{ version, style, end string }{
		{`1`, `content: "region brook, version 1"`, `>region brook, version 1<`},
		{`2 </style>}\"b`, `content: "region brook, version 2 \3c\2fstyle\3e\7d\22 b"`, `>region brook, version 2 &lt;/style&gt;}&#34;b<`},
	} {
		changed := strings.Replace(string(text), `"1"`, `"`+row.version+`"`, 1)
		if err := os.WriteFile(head, []byte(changed), 0o644); err != nil {
			t.Fatal(err)
		}
		for _, page := range []string{"key", "figures", "sheet", "labels", "quick", "howto"} {
			out, complaints, status := spoken("print", page, "--region", home)
			if status != statusDone || strings.Count(out, row.style) != 1 || !strings.Contains(out, row.end) {
				style := out[max(0, strings.Index(out, "@bottom-right")):]
				t.Errorf("%s of version %s: %v, %s%.120q", page, row.version, status, complaints, style)
			}
		}
	}
}
