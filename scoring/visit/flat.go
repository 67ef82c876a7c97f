package visit

import "bytes"

// flat tells whether a block is as simple as every block written here: lists
// and tables at most two deep, no dotted keys, no texts over several lines.
// The TOML decoder takes more than a minute for 60 kB of "a.a.a.…" or of
// nested tables, so nothing else is given to it.
func flat(text []byte) bool {
	for line := range bytes.Lines(text) {
		if !flatLine(line) {
			return false
		}
	}
	return true
}

func flatLine(line []byte) bool {
	depth, dotted := 0, false
	for i := 0; i < len(line); i++ {
		switch c := line[i]; c {
		case '#':
			return depth == 0
		case '"', '\'':
			if bytes.HasPrefix(line[i:], []byte{c, c, c}) {
				return false
			}
			i = closingQuote(line, i)
		case '[', '{':
			depth++
		case ']', '}':
			depth--
		case '.':
			// Only a decimal point has a digit on both sides, and a number
			// has only one of them.
			if dotted || i == 0 || i+1 == len(line) || !isDigit(line[i-1]) || !isDigit(line[i+1]) {
				return false
			}
			dotted = true
		case ',', ' ', '=':
			dotted = false
		}
		if depth < 0 || depth > 2 {
			return false
		}
	}
	return depth == 0
}

// closingQuote is the index of the quote that ends the text begun at i, or
// the last of the line.
func closingQuote(line []byte, i int) int {
	quote := line[i]
	for i++; i < len(line); i++ {
		switch {
		case line[i] == quote:
			return i
		case line[i] == '\\' && quote == '"':
			i++
		}
	}
	return len(line) - 1
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
