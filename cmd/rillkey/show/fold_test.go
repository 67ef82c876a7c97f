//go:build !js

package show

import (
	"slices"
	"strings"
	"testing"
)

// A date, a range and a figure below nought stay in one line; other hyphens part.
func TestFiguresStayInOneLine(t *testing.T) {
	said := "Determined on 2026-06-01, S = -5, by 3-2-1, slow-flowing"
	for width := 13; width < 40; width++ {
		lines := fold(said, width)
		for _, whole := range []string{"2026-06-01,", "-5,", "3-2-1,"} {
			if !slices.ContainsFunc(lines, func(l string) bool { return strings.Contains(l, whole) }) {
				t.Errorf("%d: %q is broken in %q", width, whole, lines)
			}
		}
		if strings.ContainsRune(strings.Join(lines, ""), '\u2011') {
			t.Errorf("%d: another hyphen than was written in %q", width, lines)
		}
	}
}
