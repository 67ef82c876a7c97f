package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/taxa/plain"
)

// answered are the flags that the answers take the place of, and those that say
// only how people are asked.
var answered = []string{"answers", "observe", "see", "length", "plain", "json", "visit", "sample", "count", "cell", "who", "note"}

// kept says how to go on with the answers about an animal that was not saved: the
// command that gives them anew.
func (s *session) kept(q *key.Inquiry, length float64, r recordFlags, why string) {
	words := []string{"rillkey", "identify"}
	add := func(flag, value string) {
		if value != "" {
			words = append(words, "--"+flag, show.ShellWord(value))
		}
	}
	s.given.Visit(func(f *pflag.Flag) {
		if !slices.Contains(answered, f.Name) {
			words = append(words, "--"+f.Name+"="+show.ShellWord(f.Value.String()))
		}
	})
	add("visit", s.visitFile)
	path := slices.DeleteFunc(slices.Clone(q.Verdict().Path), func(p string) bool { return strings.HasPrefix(p, "length=") })
	add("answers", strings.Join(path, ","))
	if length > 0 {
		add("length", fmt.Sprint(length))
	}
	if r.count != "1" {
		add("count", r.count)
	}
	add("sample", r.sample)
	add("cell", r.cell)
	add("who", r.who)
	add("note", r.note)
	s.complain("rillkey: " + why + "; this animal is not saved yet. To save it with the same answers:")
	// On one line whatever the width, so that it can be copied.
	fmt.Fprintln(s.err, plain.Printable(strings.Join(words, " ")))
}

// keeping is what an error after the questions ends the command with: going away
// loses no answers.
func (s *session) keeping(q *key.Inquiry, length float64, err error) error {
	left := errors.Is(err, ask.ErrLeft)
	if s.target.path == "" || !left && !errors.Is(err, io.ErrUnexpectedEOF) {
		return err
	}
	if left {
		s.kept(q, length, s.flags.record, "left")
		return cannotSay
	}
	s.kept(q, length, s.flags.record, plain.Printable(err.Error()))
	return fault{status: statusBadData}
}
