package question

import (
	"slices"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// kind says what a block of text is, for its place and its ink.
type kind int

const (
	title kind = iota
	advice
	lead  // a letter to answer with, and its text
	entry // a key, and what it does
	going // where the animal goes: one line if it goes to a place
	remark
)

// block is one paragraph, fit for a terminal. The mark stands before it.
type block struct {
	kind       kind
	mark, text string
}

// going is where the animal goes, if that is known.
func (s *sitting) going() []block {
	if s.destination == (Destination{}) {
		return nil
	}
	return []block{{going, s.destination.Name, s.destination.Rest}}
}

// blocks are what the person is asked, in words.
func (s *sitting) blocks() []block {
	switch s.stage {
	case choosing:
		return append([]block{
			{title, "", wording.Text("Which answer do you want to look at again?")},
			{remark, "", wording.Text("The answer most likely misread comes first. The others are kept.")},
		}, leads(s.choices())...)
	case unsettled:
		return unsettledBlocks(s)
	case anew:
		return anewBlocks(s)
	case striking:
		return strikingBlocks(s)
	case hearing:
		return hearingBlocks(s)
	}
	return questionBlocks(s)
}

// questionBlocks are the question that the inquiry asks.
func questionBlocks(s *sitting) []block {
	blocks := []block{{title, "", s.where() + ": " + plain.OneLine(headline(*s.now.question))}}
	if n := s.unsureInARow(); n >= tired {
		offer := wording.Sprintf("Can't tell, %d times in a row. You can set this animal aside for a second look: %s. "+
			"Then %s Or go on here.", n, s.press(stop), s.now.stopping())
		if s.now.named() {
			offer = wording.Sprintf("Can't tell, %d times in a row. You can stop here: %s. Then %s Or go on here.",
				n, s.press(stop), s.now.stopping())
		}
		blocks = append(blocks, block{advice, "", offer})
	}
	if why := s.now.why(); why != "" {
		blocks = append(blocks, block{remark, "", why})
	}
	if said := leftOpen(s); said != "" {
		blocks = append(blocks, block{remark, "", said})
	}
	blocks = append(blocks, s.looking()...)
	blocks = append(blocks, leads(s.choices())...)
	if n := len(s.now.likely); s.now.supposed == nil || 1 < n && n <= few {
		blocks = append(blocks, block{remark, "", s.left()})
	}
	if s.now.stopped() {
		blocks = append(blocks, block{remark, "",
			wording.Sprintf("If you stop here (%s): %s", strings.TrimPrefix(s.press(stop), "press "), s.now.stopping())})
	}
	return blocks
}

// leftOpen is the lead that was chosen where a trait is asked for of which it left several
// states open, and the others are not offered; empty where none was.
func leftOpen(s *sitting) string {
	q := s.question()
	if q.Trait == nil {
		return ""
	}
	of := func(c couplets.Condition) bool { return c.Trait == q.Trait.ID }
	for _, g := range slices.Backward(s.q.Given()) {
		if g.Question.Couplet != nil && slices.ContainsFunc(g.Says, of) {
			return plain.OneLine(wording.Sprintf("You said: %s Which is it?", full(words(g))))
		}
	}
	return ""
}

// left says which kinds are possible still, or where the last answer made them more, again.
func (s *sitting) left() string {
	switch {
	case s.grew:
		return s.now.possible(true) + " " + wording.Sprintf("Before your last answer it was %s, so that was not expected. "+
			"If you doubt it, %s.", kinds(s.fewer), s.press(again))
	case s.rose: // as a true answer often makes it
		return s.now.possible(true)
	}
	return s.now.possible(false)
}

func headline(q key.Question) string {
	if q.Couplet != nil {
		return q.Couplet.Ask
	}
	return q.Trait.Question
}

// looking says how to look: what waiting helps, what a single trait asks for,
// and what it takes.
func (s *sitting) looking() []block {
	var blocks []block
	q := s.question()
	waits := q.Couplet != nil && q.Couplet.Wait != ""
	if waits {
		blocks = append(blocks, block{advice, wording.Text("Wait:"), plain.OneLine(q.Couplet.Wait)})
	}
	if q.Trait != nil && q.Trait.How != "" {
		blocks = append(blocks, block{advice, wording.Text("Look:"), plain.OneLine(q.Trait.How)})
	}
	if n := needs(s.traits(), waits); n != "" {
		blocks = append(blocks, block{advice, wording.Text("Use:"), n})
	}
	return blocks
}

func leads(choices []choice) []block {
	var blocks []block
	for _, c := range choices {
		blocks = append(blocks, block{lead, c.letter + ":", c.text})
	}
	return blocks
}

// anewBlocks are a question that was answered before.
func anewBlocks(s *sitting) []block {
	g := s.q.Given()[s.place]
	blocks := []block{{title, "", wording.Sprintf("Once more%s: %s", label(g.Question), plain.OneLine(headline(g.Question)))}}
	for _, suspect := range s.now.suspects {
		if suspect.Given == s.place {
			doubt := plain.Capital(show.Misread(suspect.Probability))
			blocks = append(blocks, block{remark, "", plain.OneLine(wording.Sprintf("You said: %s %s.", full(words(g)), doubt))})
		}
	}
	blocks = append(blocks, s.looking()...)
	return append(blocks, leads(s.choices())...)
}

// unsettledBlocks say what the answers lack, and what can be done.
func unsettledBlocks(s *sitting) []block {
	heading := wording.Text("The answers do not settle it")
	if !s.now.open() {
		heading = wording.Text("The answers do not fit together")
	}
	blocks := []block{{title, "", heading}}
	if s.now.nothingFits {
		blocks = append(blocks, block{remark, "", wording.Text("No kind in this key shows all of that: an answer was misread, or the " +
			"animal is not in the key.")})
	}
	first := s.now.suspects[0]
	return append(blocks,
		block{remark, "", s.now.most()},
		block{remark, "", wording.Sprintf("Most suspect: %s %s.", told(s.q.Given()[first.Given]),
			plain.Capital(show.Misread(first.Probability)))},
		block{advice, "", wording.Sprintf("%s to look again at an answer; the others are kept. %s to end: %s",
			plain.Capital(s.press(again)), plain.Capital(s.press(stop)), s.now.stopping())})
}

// press says how an answer beside the choices is given: by its key, or on a page
// by its button.
func (s *sitting) press(mark string) string {
	if !s.buttons {
		return wording.Sprintf("press %s", mark)
	}
	for _, k := range s.answers() {
		if k.mark == mark {
			return wording.Sprintf("tap \"%s\"", plain.Capital(k.short))
		}
	}
	return wording.Text("go on")
}

// where says which question this is.
func (s *sitting) where() string {
	return wording.Sprintf("Question %d%s", s.q.Questions()+1, label(*s.now.question))
}

// label is where a question stands in the printed key, in brackets; empty for one
// that the key does not ask.
func label(q key.Question) string {
	if q.Couplet != nil {
		return wording.Sprintf(" (couplet %s)", plain.OneLine(q.ID()))
	}
	return ""
}

// traits are the traits that the question speaks of, in their order.
func (s *sitting) traits() []*taxa.Trait {
	q := s.question()
	if q.Trait != nil {
		return []*taxa.Trait{q.Trait}
	}
	var out []*taxa.Trait
	for _, l := range q.Couplet.Leads {
		for _, c := range l.Conditions {
			t := s.now.catalog.Vocabulary().Trait(c.Trait)
			if t != nil && !slices.Contains(out, t) {
				out = append(out, t)
			}
		}
	}
	return out
}

// needs says what it takes beyond the naked eye, if anything; patience is left
// out where the advice to wait was given already.
func needs(ts []*taxa.Trait, advised bool) string {
	var lens, patience bool
	for _, t := range ts {
		lens = lens || t.Look == taxa.Lens
		patience = patience || t.Look == taxa.Patience && !advised
	}
	switch {
	case lens && patience:
		return wording.Text("a hand lens, and patience until it moves.")
	case lens:
		return wording.Text("a hand lens.")
	case patience:
		return wording.Text("patience, until it moves.")
	}
	return ""
}

// help says how to look, and what each of the keys does. extra tells of what only
// a screen has.
func (s *sitting) help(keys []answerKey, extra bool) []block {
	var blocks []block
	if how := howToLook(s); len(how) > 0 {
		blocks = append(append(blocks, block{title, "", wording.Text("How to look")}), how...)
	}
	blocks = append(blocks, block{title, "", wording.Text("What you can answer")})
	for _, k := range keys {
		text := k.long
		if extra {
			text += k.extra
		}
		blocks = append(blocks, block{entry, k.mark + ":", text})
	}
	if extra {
		blocks = append(blocks, block{entry, wording.Text("arrows:"),
			wording.Text("move the page up and down. Page Up, Page Down, Home, End and the space bar work too.")})
	}
	if s.destination != (Destination{}) {
		blocks = append(blocks, block{remark, "", s.destination.whole() + "."})
	}
	return append(blocks, soFar(s)...)
}

// howToLook says of each trait that is asked about how it is seen; nothing where none is.
func howToLook(s *sitting) (blocks []block) {
	if s.stage != asking && s.stage != anew {
		return nil
	}
	for _, t := range s.traits() {
		text := plain.OneLine(t.Question + " " + t.How)
		if n := needs([]*taxa.Trait{t}, false); n != "" {
			text += wording.Sprintf(" Use %s", n)
		} else {
			text += wording.Text(" Your eyes are enough.")
		}
		blocks = append(blocks, block{remark, "", text})
	}
	return blocks
}

// soFar are the answers that were given.
func soFar(s *sitting) []block {
	given := s.q.Given()
	if len(given) == 0 {
		return nil
	}
	all := plain.OneLine(show.AnswerList(s.now.catalog.Vocabulary(), given))
	return []block{{remark, "", wording.Sprintf("Your answers so far: %s.", all)}}
}
