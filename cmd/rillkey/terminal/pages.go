package terminal

import (
	"slices"
	"strings"
)

// Paginate gives the lines of a text as pages for a screen of so many lines, each with whole
// parts, between empty lines, where they fit; a last line is left for which page it is. A
// screen of 0 lines has no end.
func Paginate(text string, height int) (pages []string) {
	lines := strings.Split(text, "\n")
	room := max(1, height-1)
	if height == 0 || len(lines) <= height {
		return []string{text}
	}
	for len(lines) > 0 {
		n := min(room, len(lines))
		if n < len(lines) && lines[n] != "" {
			if blank := lastBlank(lines[:n]); blank > 0 {
				n = blank
			}
		}
		pages = append(pages, strings.Join(lines[:n], "\n"))
		lines = lines[n:]
		for len(lines) > 0 && lines[0] == "" {
			lines = lines[1:]
		}
	}
	return pages
}

func lastBlank(lines []string) int {
	for i, line := range slices.Backward(lines) {
		if line == "" {
			return i
		}
	}
	return -1
}
