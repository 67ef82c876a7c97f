package key

import (
	"slices"
	"strings"
	"unicode"

	"rillkey/taxa/pattern"
)

// InOwnWords stands in a path before what a person said in own words: "said:tails=2".
const InOwnWords = "said:"

// lookedAgain stands before what was seen at a further look, and saidStop says that the
// questions were ended.
const (
	lookedAgain = "/"
	saidStop    = "stop"
)

// joint is a sign that belongs to the words on both its sides.
var joint = pattern.New(`\s*([=+:/])\s*`)

// PathAnswers parts the answers of a path, which stand between commas or, as a
// path is shown, between spaces: "1b 77a, tails=2+3 hooks?".
func PathAnswers(path string) []string {
	return strings.FieldsFunc(joint().ReplaceAllString(path, "$1"), func(r rune) bool { return r == ',' || unicode.IsSpace(r) })
}

// written is what was said as a path has it.
func (g *given) written() string {
	looks := []string{}
	for _, look := range g.earlier {
		looks = append(looks, look.pick)
	}
	for range g.stood + 1 {
		looks = append(looks, g.pick)
	}
	if len(looks) == 1 {
		if g.heard {
			return InOwnWords + g.answer()
		}
		return g.answer()
	}
	first := *g
	first.pick = looks[0]
	return first.answer() + strings.ReplaceAll(lookedAgain+strings.Join(looks[1:], lookedAgain), ",", "+")
}

// AnswersAlone is a path, as [Inquiry.Path] gives it, without lengths.
func AnswersAlone(path []string) []string {
	return slices.DeleteFunc(slices.Clone(path), func(p string) bool { return strings.HasPrefix(p, "length=") })
}
