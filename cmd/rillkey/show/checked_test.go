package show

import (
	"strings"
	"testing"

	"rillkey/taxa/authored"
)

// A trait misspelt at six places of a file is told once, with the other places beneath;
// another misspelling, another file and another rule keep their lines.
func TestATraitMisspeltAtSixPlacesIsToldOnce(t *testing.T) {
	c := NewChecked()
	add := func(file string, line int, rule, message string) {
		c.Errors = append(c.Errors, authored.Finding{Pos: authored.Pos{File: file, Line: line, Col: 3}, Rule: rule, Message: message})
	}
	for line := 10; line < 16; line++ {
		add("a.toml", line, "unknown-trait", "gillz")
	}
	add("a.toml", 12, "unknown-trait", "tailz")
	add("a.toml", 20, "missing-field", "gillz")
	add("a.toml", 21, "missing-field", "gillz")
	add("b.toml", 4, "unknown-trait", "gillz")
	c.Errors.Sort()
	var b strings.Builder
	if err := c.Text(&b); err != nil {
		t.Fatal(err)
	}
	var got []string
	for line := range strings.Lines(b.String()) {
		line, _, _ = strings.Cut(strings.TrimRight(line, "\n"), " (")
		got = append(got, line)
	}
	want := []string{"a.toml:10:3: unknown-trait: gillz", "    the same at 5 more places: 11:3, 12:3, 13:3, 14:3, 15:3",
		"a.toml:12:3: unknown-trait: tailz", "a.toml:20:3: missing-field: gillz", "a.toml:21:3: missing-field: gillz",
		"b.toml:4:3: unknown-trait: gillz", "10 errors, 0 warnings"}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s", strings.Join(got, "\n"))
	}
}
