package authored

import "strings"

// deepest is how deep keys and brackets may nest. The decoder's time grows with
// the square of the depth: a line of 60 kB of "a.a.a.…" keeps it busy for more
// than a minute.
const deepest = 16

// tooDeep is the first line that nests deeper than deepest, or 0.
func tooDeep(text string) int {
	s := &scanner{tree: &tree{text: text}}
	line, brackets, dots := 1, 0, 0
	for s.offset < len(text) {
		switch text[s.offset] {
		case '"', '\'':
			start := s.offset
			s.passQuoted()
			line += strings.Count(text[start:s.offset], "\n")
			continue
		case '#':
			s.comment()
			continue
		case '\n':
			line++
			dots = 0
		case '=', ',':
			dots = 0
		case '.':
			dots++
		case '[', '{':
			brackets++
		case ']', '}':
			brackets--
		}
		if dots > deepest || brackets > deepest {
			return line
		}
		s.offset++
	}
	return 0
}
