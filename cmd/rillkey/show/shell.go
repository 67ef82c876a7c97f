package show

import (
	"strings"

	"rillkey/taxa/pattern"
)

var plainWord = pattern.New(`^[A-Za-z0-9_%+=:,./-]+$`)

// ShellWord is a word of a command line as a shell takes it.
func ShellWord(s string) string {
	if plainWord().MatchString(s) {
		return s
	}
	return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'"
}
