package chart

import (
	"strings"
	"unicode"
)

// em is the width of a character in parts of the size of the type. A page names
// no font, so this is what the widest of the usual sans-serif ones need.
func em(r rune) float64 {
	switch {
	case unicode.Is(unicode.Mn, r):
		return 0
	case strings.ContainsRune(" ijlI.,:;|!'()-ftr", r):
		return 0.42
	case strings.ContainsRune("mwMW%@…—", r):
		return 1
	case unicode.IsUpper(r) && r < 0x250:
		return 0.79
	case r < 0x250:
		return 0.64
	case r < 0x1100:
		return 0.95
	}
	return 1.15
}

// bolder is how much wider bold type runs.
const bolder = 1.12

func width(words string, size float64) (w float64) {
	for _, r := range words {
		w += em(r) * size
	}
	return w
}

// cut is words as far as there is room, with an ellipsis where some are gone.
func cut(words string, size, room float64) string {
	if width(words, size) <= room {
		return words
	}
	runes := []rune(words)
	for n := len(runes) - 1; n > 0; n-- {
		if s := strings.TrimRight(string(runes[:n]), " ") + "…"; width(s, size) <= room {
			return s
		}
	}
	return ""
}

// fold breaks words into lines that have room, at most so many; the last is cut.
func fold(words string, size, room float64, most int) []string {
	var lines []string
	line := ""
	for _, w := range strings.Fields(words) {
		longer := strings.TrimLeft(line+" "+w, " ")
		if line == "" || width(longer, size) <= room || len(lines) == most-1 {
			line = longer
			continue
		}
		lines, line = append(lines, cut(line, size, room)), w
	}
	return append(lines, cut(line, size, room))
}
