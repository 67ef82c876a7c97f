// Package pattern holds regular expressions that are compiled when they are first
// used: all of them together took a fifth of the time in which the program starts,
// and most commands use none.
package pattern

import (
	"regexp"
	"sync"
)

// New is the regular expression, which must be sound. Several may use it at once.
func New(expression string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expression) })
}
