package rules

import (
	"unicode/utf8"

	"strings"

	"rillkey/taxa/wording"
)

// A lead is read by a person bent over a tray: two lines of a narrow column.
const (
	textColumns = 60
	textLines   = 2
)

// longText finds leads that need more than two lines of 60 columns.
func longText(f *finder) {
	for c, l := range f.File.Leads() {
		if n := lines(l.Text); n > textLines {
			f.warn(l.TextPos, wording.Sprintf("lead %s%s takes %d lines of %d columns", c.ID, l.Letter, n, textColumns),
				wording.Sprintf("shorten it to %d lines, or move the rest to \"wait\"", textLines))
		}
	}
}

// lines is how many lines of textColumns a text takes, broken between words.
func lines(text string) int {
	n, at := 1, 0
	for word := range strings.FieldsSeq(text) {
		size := utf8.RuneCountInString(word)
		if at > 0 && at+1+size > textColumns {
			n, at = n+1, 0
		}
		if at > 0 {
			at++
		}
		at += size
		n += max(0, at-1) / textColumns // a word longer than a line is broken
		at -= max(0, at-1) / textColumns * textColumns
	}
	return n
}
