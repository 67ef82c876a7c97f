//go:build !js

package show

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
)

// beforeFigure is a hyphen or a minus that belongs to the figure behind it.
var beforeFigure = pattern.New(`-(\d)`)

// fold breaks words into lines; "3-5", "2026-05-16" and "-5" are never broken,
// nor the name of a file that has room.
func fold(words string, width int) []string {
	own := strings.Contains(words, plain.Unbroken)
	kept := plain.WholeNames(beforeFigure().ReplaceAllString(words, plain.Unbroken+"$1"))
	lines := strings.Split(ansi.Wrap(kept, max(10, width), ""), "\n")
	for i, l := range lines {
		if !own {
			l = strings.ReplaceAll(l, plain.Unbroken, "-")
		}
		lines[i] = strings.TrimLeft(l, " ")
	}
	return lines
}
