package plain

import (
	"strings"

	"rillkey/taxa/pattern"
)

// Unbroken is a hyphen at which no line ends.
const Unbroken = "\u2011"

// fileName is a word that may be the name of a file.
var fileName = pattern.New(`\S*[^\s.]\.[a-z]\S*`)

// WholeNames is s with unbroken hyphens in what may be names of files, which are copied as
// a whole.
func WholeNames(s string) string {
	return fileName().ReplaceAllStringFunc(s, func(name string) string { return strings.ReplaceAll(name, "-", Unbroken) })
}
