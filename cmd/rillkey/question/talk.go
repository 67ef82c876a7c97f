package question

import (
	"slices"

	"rillkey/cmd/rillkey/figure"
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// Talk asks about one creature as values, for a page: the words, answers and
// drawings of the screen and the lines. It is for one goroutine at a time.
type Talk struct{ s *sitting }

// NewTalk begins to ask; see [Lines].
func NewTalk(q *key.Inquiry, to Destination, drawings Drawings) *Talk {
	t := &Talk{sit(q, to, drawings)}
	t.s.buttons = true
	t.offer()
	return t
}

// QuestionsAlone is [NewTalk] for the questions alone: nobody is asked first what strikes them.
// buttons says that answers have buttons, not keys.
func QuestionsAlone(q *key.Inquiry, drawings Drawings, buttons bool) *Talk {
	t := &Talk{sit(q, Destination{}, drawings)}
	t.s.walks, t.s.buttons = true, buttons
	return t
}

// Traits are the traits that the present question speaks of; none when it is no
// question about the animal.
func (t *Talk) Traits() []*taxa.Trait {
	if t.s.done || t.s.stage != asking && t.s.stage != anew {
		return nil
	}
	return t.s.traits()
}

// Paragraph is one of words. Advice is what to do or mind while looking.
type Paragraph struct {
	Advice bool
	Words  string
}

// Choice is something to choose; its figure, if there is one, is [Talk.Figure].
type Choice struct {
	Answer string // what to say to choose it
	Words  string
	Picked bool // among what was heard: it will be noted
}

// Also is an answer beside the options.
type Also struct{ Answer, Short, Long string }

// Asked is what stands to be answered.
type Asked struct {
	Title   string
	Before  []Paragraph // above the options
	Options []Choice
	After   []Paragraph // below them
	Also    []Also
	Words   bool        // own words are taken
	Confirm bool        // what was heard is to be confirmed
	Said    string      // what came of the last answer
	How     []Paragraph // how to look, for who asks
	SoFar   string      // the answers that were given; empty before the first
}

// Now is what stands to be answered; nothing once [Talk.Ended].
func (t *Talk) Now() Asked {
	if t.s.done {
		return Asked{Said: t.s.said}
	}
	a := Asked{Said: t.s.said, Confirm: t.s.stage == hearing, Words: t.s.stage == asking && t.s.now.supposed == nil ||
		t.s.stage == striking}
	for _, b := range t.s.blocks() {
		switch {
		case b.kind == lead:
			continue
		case b.kind == title:
			a.Title = b.text
		case len(a.Options) > 0:
			a.After = append(a.After, Paragraph{b.kind == advice, joined(b)})
		default:
			a.Before = append(a.Before, Paragraph{b.kind == advice, joined(b)})
			if b.kind == remark {
				a.After, a.Before = append(a.After, a.Before[len(a.Before)-1]), a.Before[:len(a.Before)-1]
			}
		}
	}
	a.Options, a.Also = t.options(), t.also()
	for _, b := range howToLook(t.s) {
		a.How = append(a.How, Paragraph{Words: b.text})
	}
	for _, b := range soFar(t.s) {
		a.SoFar = b.text
	}
	return a
}

func joined(b block) string {
	if b.mark == "" {
		return b.text
	}
	return b.mark + " " + b.text
}

func (t *Talk) options() []Choice {
	var out []Choice
	for i, c := range t.s.choices() {
		o := Choice{Answer: c.letter, Words: c.text}
		if t.s.stage == hearing {
			o.Words, o.Picked = t.s.heardWords(i), t.s.heard[i].taken
		}
		out = append(out, o)
	}
	return out
}

// Figure is the figure of the option at a place from 0; empty where there is none. It
// takes many times as long as the words, which therefore come first.
func (t *Talk) Figure(i int) figure.Figure {
	if t.s.done {
		return figure.Figure{}
	}
	if figures := t.s.figuresNow(); i >= 0 && i < len(figures) {
		return figures[i]
	}
	return figure.Figure{}
}

// also are the answers that a page has a button for: help stands on the page.
func (t *Talk) also() (out []Also) {
	if t.s.stage == striking || t.s.stage == hearing {
		if t.s.sizing && t.s.q.Length() > 0 {
			return []Also{{back, wording.Text("Leave it as it is"), wording.Text("the questions go on.")}}
		}
		if t.s.sizing {
			return []Also{{back, wording.Text("Leave it open"), wording.Text("the questions go on.")}}
		}
		if t.s.ticking {
			return []Also{{back, wording.Text("None of these: go on"), wording.Text("the questions go on.")}}
		}
		return []Also{{back, wording.Text("None of this: ask me"), wording.Text("the questions, one by one.")}}
	}
	for _, k := range t.s.answers() {
		if slices.Contains([]string{key.Unsure, back, again, stop, say}, k.mark) && !(t.s.walks && k.mark == say) {
			out = append(out, Also{k.mark, k.short, k.long})
		}
	}
	return out
}

// Answer takes the answer of an option or of one beside them.
func (t *Talk) Answer(a string) {
	if t.s.done {
		return
	}
	switch choice := slices.IndexFunc(t.s.choices(), func(c choice) bool { return c.letter == a }); {
	case t.s.stage == striking && choice >= 0:
		t.s.pickMark(choice)
	case t.s.stage == hearing && choice >= 0:
		t.s.toggle(choice)
	case t.s.stage == hearing && (a == back || t.s.ticking && a == key.Unsure), t.s.stage == striking:
		t.s.heard, t.s.later = nil, nil
		t.s.said = ""
		t.s.settle()
	default:
		t.s.answer(a)
		t.offer()
	}
}

// Hear takes own words; what is understood then stands to be confirmed.
func (t *Talk) Hear(words string) {
	if !t.s.done {
		t.s.hear(words)
	}
}

// Confirm notes what was heard and is picked.
func (t *Talk) Confirm() {
	if !t.s.done && t.s.stage == hearing {
		t.s.takeHeard()
		t.offer()
	}
}

// Measure tells the length of the animal in mm, as [key.Inquiry.ObserveLength].
func (t *Talk) Measure(mm float64) error {
	if err := t.s.q.ObserveLength(mm); err != nil {
		return err
	}
	t.s.done = false
	t.s.settle()
	return nil
}

// Reopen goes back to the questions from a name, to look at an answer again.
func (t *Talk) Reopen() {
	t.s.reopen()
}

// Stopped reports whether the questions ended because somebody stopped them.
func (t *Talk) Stopped() bool {
	given := t.s.q.Given()
	return t.s.done && t.s.outcome == Named && len(given) > 0 && given[len(given)-1].Answer == "stop"
}

// GoOn goes on with the questions that somebody stopped.
func (t *Talk) GoOn() {
	if t.Stopped() {
		t.s.q.Back()
		t.s.done, t.s.said = false, ""
		t.s.settle()
	}
}

// Ended reports whether the questions have ended.
func (t *Talk) Ended() bool { return t.s.done }

// Inquiry is what the answers have made.
func (t *Talk) Inquiry() *key.Inquiry { return t.s.q }

// offer turns to the marks when it is time for them.
func (t *Talk) offer() {
	if t.s.done {
		return
	}
	if marks := t.s.offers(); marks != nil {
		t.s.strikeBy(marks)
	}
}
