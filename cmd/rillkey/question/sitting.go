// Package question asks a person about one creature: one question of an inquiry
// at a time, on a screen of its own or line by line, in the same words.
//
// Begin with [Talk], [Asked] and [Destination].
//
// Letters are the answers of the present question and nothing else; those that
// have another meaning are never among them. Everything else is a sign, or one
// of the letters left out: ? can't tell, < back, h how to look, r look again at
// an answer, v view the drawings, w say what you see, s stop here, q leave.
package question

import (
	"slices"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/terminal"
	"rillkey/key"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Ending is how asking came to an end.
type Ending int

const (
	// Left means that the person went away: the inquiry stands where they left it
	// and has no result.
	Left Ending = iota
	// Named means that the questions have ended, by themselves or because the
	// person stopped them; the verdict may still be that there is no name.
	Named
)

// Destination says in one line where what is named goes: its name, which gives
// way where the line is too long, and the rest.
type Destination struct{ Name, Rest string }

// whole is the destination in one line, however long.
func (d Destination) whole() string { return plain.OneLine(d.Name) + plain.Printable(d.Rest) }

// The answers that choose nothing.
const (
	back  = terminal.Back
	howTo = "h"
	again = "r"
	stop  = "s"
	leave = "q"
	// enlarge shows the figures one by one.
	enlarge = "v"
)

// isBack reports whether a key, or a line, means back.
func isBack(k string) bool { return k == back || k == "backspace" || k == "left" || k == "esc" }

// stage is what the person is asked at present.
type stage int

const (
	asking    stage = iota // the question of the inquiry
	choosing               // which answer to give anew
	anew                   // one answer, anew
	striking               // what strikes the person
	hearing                // whether what was said is understood
	unsettled              // the questions are over and there is no name: what now
)

// sitting is an inquiry and what was last said about it: the part that the
// screen and the lines share.
type sitting struct {
	q           *key.Inquiry
	destination Destination
	buttons     bool // answers have buttons, not keys
	walks       bool // only the questions are asked
	saidFirst   int  // things said before the first question, which back leaves alone
	stage       stage
	place       int   // of the answer that is given anew
	now         state // of the inquiry, for the words
	rose        bool  // the last answer left more kinds possible than before
	grew        bool  // the last answer left many more kinds possible than before
	fewer       int   // how many were possible before it
	said        string
	done        bool
	outcome     Ending
	gallery     gallery
	sizing      bool             // it is the length that is asked for
	marks       []key.TraitState // offered as striking
	offered     bool             // they were, before the first question
	ticking     bool             // of marks that are listed those seen are ticked; nothing was said
	listed      int              // how many questions were answered when marks were listed last
	heard       []heard          // what was said, as it is understood
	later       []heard          // more of it, which is shown after that

	listedLast  bool             // marks were listed where the questions were over
	passed      []key.TraitState // marks that were listed last, until back turns to them
	passedAfter int              // how much was said before them
}

func sit(q *key.Inquiry, to Destination, drawings Drawings) *sitting {
	s := &sitting{q: q, destination: to, saidFirst: len(q.Given()), gallery: gallery{drawings: drawings}}
	s.settle()
	return s
}

// muchMore is how many times as many kinds must be possible after an answer as
// before, for the answer to be called unexpected.
const muchMore = 1.25

// tired is after how many "can't tell" in a row the person is told that the
// animal can be set aside.
const tired = 3

// unsureInARow counts how often "can't tell" was answered since the last answer
// that told anything.
func (s *sitting) unsureInARow() int {
	n := 0
	for _, g := range slices.Backward(s.q.Given()) {
		if !g.Asked || len(g.Says) > 0 {
			break
		}
		n++
	}
	return n
}

// settle brings the sitting to where the inquiry stands.
func (s *sitting) settle() {
	s.now = stateOf(s.q)
	s.stage, s.rose, s.grew, s.sizing, s.ticking = asking, false, false, false, false
	if !s.walks && s.q.LengthFirst() {
		s.size()
		return
	}
	if s.now.question != nil || listLast(s) {
		return
	}
	if s.now.unsound() {
		s.stage = unsettled
		return
	}
	s.finish(Named)
}

// inWords is something that was said, in the words of the key.
func (s *sitting) inWords(g key.Given) string {
	return plain.OneLine(show.Answer(s.now.catalog.Vocabulary(), g))
}

func (s *sitting) finish(o Ending) { s.done, s.outcome = true, o }

// reopen goes back from the end of the questions to which answer to look at again.
func (s *sitting) reopen() {
	s.now, s.done, s.said, s.stage, s.heard, s.ticking = stateOf(s.q), false, "", choosing, nil, false
}

// CanLookAgain reports whether there is an answer to look at again.
func CanLookAgain(q *key.Inquiry) bool {
	return slices.ContainsFunc(q.Given(), func(g key.Given) bool { return g.Asked || len(g.Says) > 0 || measured(g) })
}

// answer acts on an answer and reports whether it was one; if not, what was said
// tells which are.
func (s *sitting) answer(a string) bool {
	switch {
	case a == leave:
		s.finish(Left)
		return true
	case a == stop:
		s.q.Stop()
		s.said = ""
		s.finish(Named)
		return true
	case a == back:
		s.back()
		return true
	case a == say && s.stage == asking && !s.walks:
		s.said = ""
		s.strike()
		return true
	case a == again && s.stage != choosing && len(s.doubtful()) > 0:
		s.stage, s.said = choosing, ""
		return true
	}
	i := slices.IndexFunc(s.choices(), func(c choice) bool { return c.letter == a })
	switch {
	case s.stage == asking && a == key.Unsure:
		return s.pick(key.Unsure)
	case s.stage == anew && a == key.Unsure:
		return s.pick(key.Unsure)
	case i < 0:
		s.said = s.refusal(a)
		return false
	case s.stage == choosing && measured(s.q.Given()[s.doubtful()[i]]):
		s.said = ""
		s.size()
		return true
	case s.stage == choosing:
		s.stage, s.place, s.said = anew, s.doubtful()[i], ""
		return true
	}
	return s.pick(s.choices()[i].pick)
}

// pick answers the present question, or the one that is asked anew, with a
// lead's letter, with states or with can't tell.
func (s *sitting) pick(pick string) bool {
	if s.stage == anew {
		old := s.q.Given()[s.place]
		if err := s.q.Reask(s.place, pick); err != nil {
			s.said = plain.OneLine(err.Error()) + "."
			return false
		}
		anew := s.q.Given()[s.place]
		s.said = wording.Sprintf("Answered anew: %s; before: %s.", s.inWords(anew), s.inWords(old))
		if anew.Answer == old.Answer {
			s.said = wording.Sprintf("Looked at again, and it stands: %s.", s.inWords(old))
		}
		s.settle()
		return true
	}
	before := len(s.now.likely)
	if err := s.q.Answer(pick); err != nil {
		s.said = plain.OneLine(err.Error()) + "."
		return false
	}
	s.said = wording.Sprintf("Noted: %s.", s.inWords(s.q.Given()[len(s.q.Given())-1]))
	s.settle()
	if pick == key.Unsure {
		s.said = wording.Text("Can't tell: nothing is ruled out.")
	}
	s.fewer, s.rose = before, len(s.now.likely) > before && pick != key.Unsure
	s.grew = float64(len(s.now.likely)) > muchMore*float64(before) && s.suspectLast()
	listAfter(s)
	return true
}

// suspectLast reports whether the last answer is the one most likely misread, and
// more likely so than not.
func (s *sitting) suspectLast() bool {
	return len(s.now.suspects) > 0 && s.now.suspects[0].Given == len(s.q.Given())-1 &&
		s.now.suspects[0].Probability > suspicious && !s.now.suspects[0].Again
}

// back goes back by one question, or to the list or question that the person
// came from. What was observed before the first question is not an answer, and
// stays.
func (s *sitting) back() {
	switch {
	case s.stage == anew:
		s.stage, s.said = choosing, ""
	case s.stage == choosing:
		s.said = ""
		s.settle()
	case listAgain(s):
	case len(s.q.Given()) <= s.saidFirst:
		s.said = wording.Text("This is the first question.")
	default:
		given := s.q.Given()
		s.q.Back()
		s.said = wording.Sprintf("Back, this is taken away: %s.", s.inWords(given[len(given)-1]))
		s.settle()
	}
}

// doubtful are the answers that can be given anew, by their place: the most suspect
// first, then the length, then what nobody could tell.
func (s *sitting) doubtful() []int {
	var out []int
	for _, suspect := range s.now.suspects {
		out = append(out, suspect.Given)
	}
	if i := lengthAt(s.q); i >= 0 {
		out = append(out, i)
	}
	for i, g := range s.q.Given() {
		if g.Asked && len(g.Says) == 0 {
			out = append(out, i)
		}
	}
	return out[:min(len(out), len(letters))]
}

// lengthAt is the place of the length that holds among what was said, -1 for none.
func lengthAt(q *key.Inquiry) int {
	at := -1
	for i, g := range q.Given() {
		if measured(g) {
			at = i
		}
	}
	return at
}

// measured reports whether something said is a length.
func measured(g key.Given) bool { return strings.HasPrefix(g.Answer, "length=") }

func (s *sitting) refusal(a string) string {
	listed := listed(s.choices())
	switch {
	case s.buttons:
		return wording.Text("That belonged to a page before this one. Choose from what stands here.")
	case s.stage == unsettled:
		return wording.Text("That is no answer here. Choose r to look again, s to set it aside, or h for help.")
	case len(a) == 1 && strings.Contains(letters, a):
		return wording.Sprintf("There is no %s here: it is %s.", a, listed)
	case s.stage == choosing:
		return wording.Sprintf("That is no answer here. Choose %s, or < for back.", listed)
	}
	return wording.Sprintf("That is no answer here. Choose %s, or ? for can't tell, or h for help.", listed)
}
