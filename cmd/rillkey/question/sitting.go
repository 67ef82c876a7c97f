// Package question asks a person about one creature: one couplet of the key at
// a time, on a screen of its own or line by line, in the same words.
//
// The letters a to f are a couplet's leads and nothing else. Everything else is
// a sign, or a letter no lead can have: ? can't tell, < back, h how to look, s
// stop here, q leave.
package question

import (
	"fmt"
	"strings"

	"rillkey/cmd/rillkey/ask/terminal"
	"rillkey/couplets"
	"rillkey/key"
)

// Outcome is how asking came to an end.
type Outcome int

const (
	// Left means that the person went away: the walk stands where they left it
	// and has no result.
	Left Outcome = iota
	// Named means that the walk has ended, by itself or because the person
	// stopped it; its result may still be a set of possibilities.
	Named
)

// Look is how the screen is painted.
type Look = terminal.Look

// The answers that are no leads.
const (
	back  = "<"
	howTo = "h"
	stop  = "s"
	leave = "q"
)

// sitting is a walk and what was last said about it: the part that the screen
// and the lines share.
type sitting struct {
	walk    *key.Walk
	said    string // remark on the last answer, fit for a terminal
	done    bool
	outcome Outcome
}

func sit(w *key.Walk) *sitting {
	s := &sitting{walk: w}
	s.settle()
	return s
}

func (s *sitting) settle() {
	if s.walk.Ended() {
		s.done, s.outcome = true, Named
	}
}

// answer acts on an answer to the present question and reports whether it was
// one; if not, what was said tells which are.
func (s *sitting) answer(a string) bool {
	c := s.walk.Couplet()
	switch {
	case a == back:
		s.back()
	case a == stop:
		s.walk.Stop()
		s.said = ""
	case a == leave:
		s.done, s.outcome = true, Left
		return true
	case s.walk.Answer(c.ID+a) != nil:
		s.said = refusal(c, a)
		return false
	case a == key.Unsure:
		s.said = "Can't tell: nothing is ruled out."
	default:
		s.said = "Noted: " + terminal.Safe(c.ID) + a + "."
	}
	s.settle()
	return true
}

// back goes back by one question. What was observed before the first one is not
// an answer, and stays.
func (s *sitting) back() {
	if s.walk.Questions() == 0 {
		s.said = "This is the first question."
		return
	}
	before := s.walk.Path()
	s.walk.Back()
	s.said = "Back one question."
	if n := len(s.walk.Path()); n < len(before) {
		s.said = "Back: your answer " + terminal.Safe(before[n]) + " is taken away."
	}
}

func refusal(c *couplets.Couplet, a string) string {
	if len(a) == 1 && strings.Contains(couplets.Letters, a) {
		return fmt.Sprintf("There is no %s here: it is %s.", a, listed(c))
	}
	return fmt.Sprintf("That is no answer here. Choose %s, or ? for can't tell, or h for help.", listed(c))
}
