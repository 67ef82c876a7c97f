package plain

import (
	"strings"

	"rillkey/taxa/pattern"
)

var bareWord = pattern.New(`^[A-Za-z0-9_%+=:,./-]+$`)

// ShellWord is a word of a command line as a shell takes it, as far as it is printable.
func ShellWord(s string) string {
	s = Printable(s)
	if bareWord().MatchString(s) {
		return s
	}
	return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'"
}

// CommandAtEnd parts a sentence from the command that ends it, to be typed; without one
// the command is empty.
func CommandAtEnd(words string) (before, command string) {
	for _, begins := range []string{": mkdir ", ": rillkey "} {
		if at := strings.LastIndex(words, begins); at >= 0 {
			return words[:at+1], words[at+2:]
		}
	}
	return words, ""
}

// ShellFiles are names of files as words of a command line, none of which is taken for a
// flag.
func ShellFiles(names ...string) string {
	words := make([]string, len(names))
	for i, name := range names {
		if strings.HasPrefix(name, "-") {
			name = "./" + name
		}
		words[i] = ShellWord(name)
	}
	return strings.Join(words, " ")
}
