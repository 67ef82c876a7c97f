package terminal

import (
	"strings"
	"testing"
)

// A text that a screen has no room for is shown page by page: nothing of it is left
// out, no part is cut that fits a page, and one that fits is one page.
func TestATextOnASmallScreen(t *testing.T) {
	t.Parallel()
	text := "Site\n\nPeople\n  Ada\n  Bo\n\nSamples\n  1\n\nFound\n  a\n  b\n  c\n  d\n  e\n  f\n  g"
	for _, row := range []struct {
		height int
		first  []string // lines of the pages
	}{
		{0, []string{"Site"}}, {17, []string{"Site"}}, {16, []string{"Site", "Found"}},
		{9, []string{"Site", "Found"}}, {6, []string{"Site", "Samples", "Found", "  e"}}, {2, nil}, {1, nil},
	} {
		pages := Paginate(text, row.height)
		var all []string
		for i, page := range pages {
			lines := strings.Split(page, "\n")
			if len(pages) > 1 && len(lines) > max(1, row.height-1) {
				t.Errorf("height %d: page %d has %d lines", row.height, i, len(lines))
			}
			if row.first != nil && (i >= len(row.first) || lines[0] != row.first[i]) {
				t.Errorf("height %d: page %d begins with %q", row.height, i, lines[0])
			}
			all = append(all, lines...)
		}
		solid := func(s string) string { return strings.ReplaceAll(s, "\n\n", "\n") } // pages need no blank line between
		if got := strings.Join(all, "\n"); solid(got) != solid(text) {
			t.Errorf("height %d shows\n%s", row.height, got)
		}
	}
}
