// Package quiet keeps the screen library from questioning the terminal while
// the program starts.
//
// That library asks the terminal for its background colour as soon as it is
// imported, before main runs, and waits five seconds for terminals that do not
// answer, on every command. A terminal called dumb is not asked. So TERM says
// dumb from before that library is initialised until [Restore].
//
// This package imports nothing but os: packages are initialised in the order of
// their import paths as far as their imports allow (The Go Programming Language
// Specification, "Program initialization"), and the screen library has to wait
// for fmt, which has to wait for strconv, which comes after this path.
package quiet

import "os"

var kept, known = hush()

func hush() (string, bool) {
	term, ok := os.LookupEnv("TERM")
	// An environment that cannot be set costs the wait and nothing else.
	_ = os.Setenv("TERM", "dumb")
	return term, ok
}

// Restore puts TERM back as it was. It must run before anything reads TERM.
func Restore() {
	if !known {
		_ = os.Unsetenv("TERM")
		return
	}
	_ = os.Setenv("TERM", kept)
}
