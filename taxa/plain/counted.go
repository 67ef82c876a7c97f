// Package plain makes text fit to show: printable, quoted, listed, counted,
// capitalised, folded and compared as people write names. Counts and lists are in the
// language in use.
package plain

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"rillkey/taxa/wording"
)

// Count is a number with its noun, which has an s for more or less than one: "1
// animal", "3 animals".
func Count(n int, noun string) string { return CountOf(n, noun, noun+"s") }

// CountOf is a number with the words that go with it: "1 row is", "2 rows are".
func CountOf(n int, one, many string) string {
	return strconv.Itoa(n) + " " + wording.Agree(n, one, many)
}

// Plural is a noun for so many things: "animal", "animals".
func Plural(n int, noun string) string { return wording.Agree(n, noun, noun+"s") }

// FormatFloat writes a value with as many decimals as it has.
func FormatFloat(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// Percent never rounds a doubt away: what is not certain is neither 0 nor 100 %.
// The blank before the sign does not break a line.
func Percent(p float64) string {
	switch {
	case p > 0 && p < 0.005:
		return wording.Text("under 1\u00a0%")
	case p < 1-1e-9 && p > 0.995:
		return wording.Text("over 99\u00a0%")
	}
	return fmt.Sprintf("%.0f\u00a0%%", 100*p)
}

// Capital is s with a capital first.
func Capital(s string) string {
	if s == "" {
		return ""
	}
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// And joins words as people speak: "a, b and c".
func And(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return wording.Sprintf("%s and %s", strings.Join(words[:len(words)-1], ", "), words[len(words)-1])
}
