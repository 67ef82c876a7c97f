package publish

import (
	"strings"
	"testing"
	"testing/fstest"
)

func TestTheStreamOfASite(t *testing.T) {
	for _, row := range []struct{ site, want string }{
		{"Tanyard Brook, below the mill", "Tanyard Brook"},
		{"Tanyard Brook above the footbridge", "Tanyard Brook"},
		{"Mill Brook 3", "Mill Brook"},
		{"Mill Brook site 12", "Mill Brook"},
		{"Mill Brook (school)", "Mill Brook"},
		{"River Wye – Hay", "River Wye"},
		{"Otter Run", "Otter Run"},
		{"Upper Atbrook", "Upper Atbrook"},
		{", nowhere", ", nowhere"},
	} {
		if got := (*Streams)(nil).named(row.site); got != row.want {
			t.Errorf("%q lies on %q, not %q", row.site, got, row.want)
		}
	}
}

// No two names have one address, none is a name that Windows keeps, and further pages
// of one are none of another's.
func TestAddresses(t *testing.T) {
	names := []string{"Mill Brook", "Mill  Brook!", "mill brook", "CON", "Index", "Ruisseau de l'Étang", "Грязнуха", "谷川",
		"…", "", "Mill Brook--2", strings.Repeat("long ", 60), strings.Repeat("long ", 61)}
	seen := map[string]string{}
	for i, s := range slugs(names, func(n string) string { return n }) {
		if other, there := seen[s]; there {
			t.Errorf("%q and %q are both at %q", other, names[i], s)
		}
		seen[s] = names[i]
		if s == "" || s == "con" || s == "index" || strings.Contains(s, "--") ||
			strings.Trim(s, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" {
			t.Errorf("%q is at %q", names[i], s)
		}
	}
}

func FuzzLoadStreams(f *testing.F) {
	f.Add("[stream.a]\ntitle = \"A\"\nsites = [\"b\"]\n")
	f.Add("[stream.a]\ntitle = \"A\"\nsites = [\"b\", \"B\"]\n")
	f.Add("[stream]\n")
	f.Fuzz(func(t *testing.T, text string) {
		s, err := LoadStreams(fstest.MapFS{"s.toml": {Data: []byte(text)}}, "s.toml", "s.toml")
		if err == nil && s == nil {
			t.Error("neither streams nor an error")
		}
	})
}
