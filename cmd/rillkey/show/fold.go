//go:build !js

package show

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

func fold(words string, width int) []string {
	lines := strings.Split(ansi.Wrap(words, max(10, width), ""), "\n")
	for i, l := range lines {
		lines[i] = strings.TrimLeft(l, " ")
	}
	return lines
}
