// Package pattern holds regular expressions that are compiled when they are first
// used: all of them together took a fifth of the time in which the program starts,
// and most commands use none.
package pattern

import (
	"regexp"
	"sync"
)

// New is the regular expression, which must be sound. Several may use it at once.
//
// It is kept out of line, and makes less than sync.OnceValue does, because a program
// calls it for all its expressions before anything runs.
//
//go:noinline
func New(expression string) func() *regexp.Regexp {
	return (&once{expression: expression}).compiled
}

type once struct {
	expression string
	first      sync.Once
	regexp     *regexp.Regexp
}

func (o *once) compiled() *regexp.Regexp {
	o.first.Do(func() { o.regexp = regexp.MustCompile(o.expression) })
	return o.regexp
}
