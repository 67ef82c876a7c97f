package export

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// A spreadsheet takes a cell for a formula, and may run a program for it, that
// begins with one of these (OWASP Foundation, "CSV Injection": = + - @, tab and
// carriage return); the full-width forms are memory. The cell may begin after a
// separator too, where a spreadsheet parts cells otherwise than by commas.
const (
	formulaStarts = "=+-@\t\r\n＝＋－＠"
	separators    = ";\t"
	harmless      = '\'' // before a formula: the cell is a text
)

// asText is a cell that no spreadsheet takes for a formula; [asWritten] gives
// back the cell. A number stays as it is.
func asText(cell string) string {
	if !strings.ContainsAny(cell, formulaStarts) {
		return cell
	}
	if _, err := strconv.ParseFloat(cell, 64); err == nil {
		return cell
	}
	var out strings.Builder
	for rest := cell; rest != ""; {
		if starts(rest) {
			out.WriteRune(harmless)
		}
		rest = upToSeparator(rest, &out)
	}
	return out.String()
}

// asWritten is the cell that asText made harmless.
func asWritten(cell string) string {
	if !strings.ContainsRune(cell, harmless) {
		return cell
	}
	var out strings.Builder
	for rest := cell; rest != ""; {
		if starts(rest) {
			rest = strings.TrimPrefix(rest, string(harmless))
		}
		rest = upToSeparator(rest, &out)
	}
	return out.String()
}

// starts tells whether a cell begins a formula, behind any marks that take it for
// a text already.
func starts(cell string) bool {
	cell = strings.TrimLeft(cell, string(harmless))
	first, _ := utf8.DecodeRuneInString(cell)
	return strings.ContainsRune(formulaStarts, first)
}

// upToSeparator writes what comes before the next place where a cell may begin,
// and gives the rest.
func upToSeparator(s string, out *strings.Builder) (rest string) {
	end := len(s)
	if i := strings.IndexAny(s, separators); i >= 0 {
		end = i + 1
	}
	out.WriteString(s[:end])
	return s[end:]
}
