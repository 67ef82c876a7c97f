package question

import (
	"slices"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// When two questions in a row could not be told, and once where the questions are over
// without the name of a kind, the marks on which what is left differs are listed: what is
// seen of them is ticked, and the rest stays open. The list is shown as what was heard is.

// mostListed are listed at once: as many as a screen of 24 lines has room for.
const mostListed = 12

// list turns to the marks on which what is left differs, and reports whether there are any.
func list(s *sitting) bool {
	s.listed = s.q.Questions()
	marks := s.q.Differing(mostListed)
	if len(marks) == 0 {
		return false
	}
	s.q.PassOver(marks)
	s.passed, s.passedAfter = marks, len(s.q.Given())
	offerMarks(s, marks)
	return true
}

// listAgain turns back to the list that was left just now, and reports whether there was
// one; from there back goes to the question before.
func listAgain(s *sitting) bool {
	if s.passed == nil || len(s.q.Given()) != s.passedAfter {
		return false
	}
	marks := s.passed
	s.passed, s.said, s.sizing = nil, "", false
	offerMarks(s, marks)
	return true
}

// offerMarks lists marks to be ticked.
func offerMarks(s *sitting, marks []key.TraitState) {
	s.heard, s.later = nil, nil
	for i, m := range marks {
		s.heard = append(s.heard, heard{Seen: taxa.Seen{Trait: m.Trait, States: []string{m.State}}, saying: i})
	}
	s.stage, s.ticking = hearing, true
}

// listAfter lists them after questions in a row that nobody could tell, none of them before
// the last list.
func listAfter(s *sitting) {
	if s.walks || s.stage != asking || s.now.supposed != nil {
		return
	}
	if min(s.unsureInARow(), s.q.Questions()-s.listed) >= openInRow {
		list(s)
	}
}

// listLast lists them where the questions are over without the name of a kind, once, and
// reports whether there were any.
func listLast(s *sitting) bool {
	if s.walks || s.listedLast || !s.q.EndsOpen() {
		return false
	}
	s.listedLast = true
	return list(s)
}

// noteTicked notes what is ticked before something else is said, and says so first.
func noteTicked(s *sitting) {
	said := s.said
	if !anyTicked(s) {
		s.heard, s.ticking = nil, false
		return
	}
	takeTicked(s)
	s.said = strings.TrimSpace(s.said + " " + said)
}

// sayBeside notes what is ticked and turns to own words.
func sayBeside(s *sitting) {
	s.said = ""
	noteTicked(s)
	s.strike()
}

// takeTicked notes what is ticked; several states of one trait as one of them.
func takeTicked(s *sitting) {
	var seen []taxa.Seen
	for _, h := range s.heard {
		switch last := len(seen) - 1; {
		case !h.taken:
		case last >= 0 && seen[last].Trait == h.Trait:
			seen[last].States = append(slices.Clone(seen[last].States), h.States...)
		default:
			seen = append(seen, h.Seen)
		}
	}
	for _, one := range seen {
		s.observe(one, s.q.Observe)
	}
	switch {
	case len(seen) == 0:
		s.said = nothingNoted(s)
	case len(seen) > 1 && s.buttons:
		s.said = wording.Sprintf("Noted: %d things.", len(seen))
	case len(seen) > 1:
		s.said = wording.Sprintf("Noted: %d things. < takes them back one by one.", len(seen))
	}
	s.heard, s.ticking = nil, false
}

// nothingNoted says so of what was looked at now: what was noted before stands.
func nothingNoted(s *sitting) string {
	if len(s.q.Given()) > 0 {
		return wording.Text("Nothing more is noted.")
	}
	return wording.Text("Nothing is noted.")
}

// tickedWords are those of a mark that may be ticked, with the name of its trait where they
// do not say it: beside marks of other parts they may tell of any.
func tickedWords(s *sitting, i int) string {
	one := s.heard[i].Seen
	return plain.Capital(plain.OneLine(show.TraitStates(one.Trait, one.States)))
}

// anyTicked reports whether something is ticked.
func anyTicked(s *sitting) bool {
	return slices.ContainsFunc(s.heard, func(h heard) bool { return h.taken })
}

// tickingBlocks ask which of the marks are seen.
func tickingBlocks(s *sitting) []block {
	how := wording.Text("A letter ticks one that you see; Enter notes them, and leaves the rest open.")
	if s.buttons {
		how = wording.Text("Tick all that you see, and note it. The rest stays open.")
	}
	return append([]block{{title, "", wording.Text("Do you see any of these?")}, {advice, "", how}}, leads(s.choices())...)
}

// tickingKeys are the keys while marks are ticked.
func tickingKeys(s *sitting) []answerKey {
	enter := wording.Text("none of these: go on")
	if anyTicked(s) {
		enter = wording.Text("note those with an x")
	}
	keys := []answerKey{{mark: "Enter", short: enter}, {mark: listed(s.choices()), short: wording.Text("tick")}}
	if len(s.figuresNow()) > 0 {
		keys = append(keys, answerKey{mark: enlarge, short: wording.Text("drawings")})
	}
	return append(keys, answerKey{mark: say, short: wording.Text("say what you see")},
		answerKey{mark: "h", short: wording.Text("help")}, answerKey{mark: "q", short: wording.Text("leave")})
}
