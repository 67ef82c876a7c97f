package merge

import (
	"slices"
	"strings"

	"rillkey/taxa/wording"
)

// What the remarks begin with that hold what another version has.
var (
	merged       = wording.Mark("Merged: here the other version has")
	draftedAgain = wording.Mark("Drafted again:")
)

// MergedRemark is the first line of the remarks of a file that was merged, in the language
// in use.
func MergedRemark() string { return wording.Text(merged) }

// DraftedRemark is the first line of the remarks of a file that was drafted again, in the
// language in use.
func DraftedRemark() string { return wording.Text(draftedAgain) }

// Unread are the lines of a text, the first being 1, that begin a remark with what
// another version has, written in English or in the language in use: nobody has chosen yet.
func Unread(text string) (lines []int) {
	var marks []string
	for _, mark := range []string{merged, draftedAgain, MergedRemark(), DraftedRemark()} {
		if mark = "# " + mark; !slices.Contains(marks, mark) {
			marks = append(marks, mark)
		}
	}
	line, at := 1, 0
	for {
		next := strings.Index(text[at:], "# ")
		if next < 0 {
			return lines
		}
		line += strings.Count(text[at:at+next], "\n")
		at += next
		if slices.ContainsFunc(marks, func(mark string) bool { return strings.HasPrefix(text[at:], mark) }) {
			lines = append(lines, line)
		}
		at += len("# ")
	}
}
