package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"rillkey/cmd/rillkey/ask"
	"rillkey/key"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// answered are the flags that the answers take the place of, and those that say
// only how people are asked.
var answered = []string{"ask", "far", "answers", "observe", "see", "length", "plain", "json", "visit", "sample", "count",
	"cell", "who", "note"}

// again is the command that gives the answers about an animal anew.
func (s *session) again(q *key.Inquiry, length float64, r recordFlags) string {
	words := []string{"rillkey", "identify"}
	add := func(flag, value string) {
		if value != "" {
			words = append(words, "--"+flag, plain.ShellWord(value))
		}
	}
	s.given.Visit(func(f *pflag.Flag) {
		switch {
		case slices.Contains(answered, f.Name):
		case f.Value.Type() == "bool" && f.Value.String() == "true":
			words = append(words, "--"+f.Name)
		default:
			words = append(words, "--"+f.Name+"="+plain.ShellWord(f.Value.String()))
		}
	})
	add("far", s.farOf(q))
	add("visit", s.visitFile)
	add("answers", strings.Join(key.AnswersAlone(q.Path()), ","))
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
	return strings.Join(words, " ")
}

// sameVisit is the flag that names the visit meant to the next command, see [naming].
func (vf *visitFolder) sameVisit() string {
	if vf.visitFile != "" {
		return " --visit " + plain.ShellWord(vf.visitFile)
	}
	return naming(vf.found)
}

// naming is the flag that names a visit to a command, with a blank before it; empty where
// every command finds the visit by itself, because it is the only one here.
func naming(file string) string {
	if here := namesHere(); file == "" || len(here) == 1 && here[0] == file {
		return ""
	}
	return " --visit " + plain.ShellWord(file)
}

// kept says how to go on with the answers about an animal that was not saved.
func (s *session) kept(q *key.Inquiry, length float64, r recordFlags, why string) {
	s.complain(wording.Sprintf("rillkey: %s; this animal is not saved yet. To save it with the same answers:", why))
	s.copied(s.again(q, length, r))
}

// copied prints a command on one line whatever the width, so that it can be copied.
func (s *session) copied(command string) { fmt.Fprintln(s.stderr, plain.Printable(command)) }

// toGoOn says how to go on with the questions that somebody left before there was a
// name.
func (s *session) toGoOn(q *key.Inquiry, length float64, err error) {
	if !errors.Is(err, cannotSay) || s.flags.check != "" || len(key.AnswersAlone(q.Path())) == 0 {
		return
	}
	s.complain(wording.Text("To go on from here:"))
	s.copied(wording.Sprintf("%s --ask", s.again(q, length, s.flags.record)))
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
	s.kept(q, length, s.flags.record, plain.Printable(wording.Reason(err).Error()))
	return fault{status: statusBadData}
}
