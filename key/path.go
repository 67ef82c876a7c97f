package key

import (
	"slices"
	"strings"
	"unicode"

	"rillkey/taxa/pattern"
)

// joint is a sign that belongs to the words on both its sides.
var joint = pattern.New(`\s*([=+])\s*`)

// PathAnswers parts the answers of a path, which stand between commas or, as a
// path is shown, between spaces: "1b 77a, tails=2+3 hooks?".
func PathAnswers(path string) []string {
	return strings.FieldsFunc(joint().ReplaceAllString(path, "$1"), func(r rune) bool { return r == ',' || unicode.IsSpace(r) })
}

// AnswersAlone is a path, as [Inquiry.Path] gives it, without lengths.
func AnswersAlone(path []string) []string {
	return slices.DeleteFunc(slices.Clone(path), func(p string) bool { return strings.HasPrefix(p, "length=") })
}
