package visit_test

import (
	"testing"

	"rillkey/scoring/visit"
)

func TestFileName(t *testing.T) {
	for _, row := range []struct {
		site     string
		obscured bool
		more     []string
		want     string
	}{
		{"Mill Brook", false, nil, "2026-05-16-mill-brook.visit.toml"},
		{"Mill Brook", false, []string{"Ada"}, "2026-05-16-mill-brook-ada.visit.toml"},
		{"Mill Brook", true, nil, "2026-05-16-stream.visit.toml"}, // an obscured site is not told
		{"Mill Brook", true, []string{"Ada"}, "2026-05-16-ada.visit.toml"},
		{"!", false, nil, "2026-05-16-stream.visit.toml"},
	} {
		if got := visit.FileName("2026-05-16", row.site, row.obscured, row.more...); got != row.want {
			t.Errorf("%+v is called %s", row, got)
		}
	}
}

func TestNamedAsFile(t *testing.T) {
	for _, row := range []struct{ name, more, want string }{
		{"both", "", "both.visit.toml"},
		{"both.toml", "", "both.visit.toml"},
		{"both.visit", "", "both.visit.toml"},
		{"a/both.visit.toml", "", "a/both.visit.toml"},
		{"mill.visit.toml", "-salvaged", "mill-salvaged.visit.toml"},
	} {
		if got := visit.NamedAsFile(row.name, row.more); got != row.want {
			t.Errorf("%s%s: %s", row.name, row.more, got)
		}
	}
}
