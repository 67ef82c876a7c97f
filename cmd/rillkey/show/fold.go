//go:build !js

package show

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"rillkey/taxa/pattern"
)

// beforeFigure is a hyphen or a minus that belongs to the figure behind it.
var beforeFigure = pattern.New(`-(\d)`)

// fold breaks words into lines; "3-5", "2026-05-16" and "-5" are never broken.
func fold(words string, width int) []string {
	const unbroken = "\u2011"
	own := strings.Contains(words, unbroken)
	lines := strings.Split(ansi.Wrap(beforeFigure().ReplaceAllString(words, unbroken+"$1"), max(10, width), ""), "\n")
	for i, l := range lines {
		if !own {
			l = strings.ReplaceAll(l, unbroken, "-")
		}
		lines[i] = strings.TrimLeft(l, " ")
	}
	return lines
}
