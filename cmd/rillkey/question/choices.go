package question

import (
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// letters are what answers are chosen by, in order: no key with another meaning
// is among them.
const letters = "abcdefgijklmnoptuxyz0123456789"

// choice is one thing that can be chosen by a letter.
type choice struct {
	letter string
	pick   string // what the inquiry is told
	text   string // fit for a terminal
}

// choices are what can be chosen at present.
func (s *sitting) choices() []choice {
	switch s.stage {
	case choosing:
		return suspectChoices(s)
	case unsettled:
		return nil
	case striking:
		return markChoices(s)
	case hearing:
		return heardChoices(s)
	}
	return choicesOf(s.question())
}

// question is what is asked, for the first time or anew.
func (s *sitting) question() key.Question {
	if s.stage == anew {
		return s.q.Given()[s.place].Question
	}
	return *s.now.question
}

// choicesOf are a couplet's leads by their own letters, or a trait's states. Of
// more states than there are letters the last can only be typed as a word.
func choicesOf(q key.Question) []choice {
	var out []choice
	if q.Couplet != nil {
		for _, l := range q.Couplet.Leads {
			out = append(out, choice{l.Letter, l.Letter, plain.OneLine(l.Text)})
		}
		return out
	}
	states := q.States()
	for i, id := range states[:min(len(states), len(letters))] {
		out = append(out, choice{letters[i : i+1], id, plain.OneLine(q.Trait.States[q.Trait.State(id)].Label)})
	}
	return out
}

// suspectChoices are the answers that can be given anew.
func suspectChoices(s *sitting) []choice {
	chances := map[int]float64{}
	for _, suspect := range s.now.suspects {
		chances[suspect.Given] = suspect.Probability
	}
	var out []choice
	given := s.q.Given()
	for i, place := range s.doubtful() {
		text := told(given[place])
		if p, ok := chances[place]; ok {
			text += " " + plain.Capital(show.Misread(p)) + "."
		}
		out = append(out, choice{letter: letters[i : i+1], text: text})
	}
	return out
}

// told is an answer in plain words, with what it answered.
func told(g key.Given) string {
	if mm, ok := strings.CutPrefix(g.Answer, "length="); ok {
		return wording.Text("How long is it?") + " " + full(plain.OneLine(mm)+" mm")
	}
	asked, answer := subject(g.Question), wording.Text("can't tell")
	if len(g.Says) > 0 {
		answer = words(g)
	}
	return plain.OneLine(asked + " " + full(answer))
}

// subject is what a question is about.
func subject(q key.Question) string {
	if q.Couplet == nil {
		return q.Trait.Question
	}
	if strings.HasSuffix(q.Couplet.Ask, "?") {
		return q.Couplet.Ask
	}
	return q.Couplet.Ask + ":"
}

// words are the words that were chosen.
func words(g key.Given) string {
	if c := g.Question.Couplet; c != nil {
		for _, l := range c.Leads {
			if c.ID+l.Letter == g.Answer {
				return l.Text
			}
		}
	}
	var out []string
	for _, s := range g.Says {
		if others := show.AllBut(g.Question.Trait, s.States); others != "" {
			return others
		}
		for _, id := range s.States {
			out = append(out, g.Question.Trait.States[g.Question.Trait.State(id)].Label)
		}
	}
	return strings.Join(out, wording.Text(", or "))
}

// full is a text with a full stop at its end.
func full(text string) string {
	if strings.HasSuffix(text, ".") || strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}

// listed is choices in a sentence: "a or b".
func listed(choices []choice) string {
	if len(choices) == 0 {
		return ""
	}
	marks := make([]string, len(choices))
	for i, c := range choices {
		marks[i] = c.letter
	}
	last := len(marks) - 1
	if last == 0 {
		return marks[0]
	}
	if last > 3 {
		return wording.Sprintf("%s to %s", marks[0], marks[last])
	}
	return wording.Sprintf("%s or %s", strings.Join(marks[:last], ", "), marks[last])
}
