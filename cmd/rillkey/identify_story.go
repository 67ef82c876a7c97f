package main

import (
	"errors"
	"fmt"
	"io"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/question"
	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// toStory leads from the prompts after a name to the animal's card.
var toStory = ask.Option{Value: "d", Label: wording.Mark("what does it do?")}

// askOrTell puts fields after a name. The first has a way back to an answer, one to
// a closer name, and one to the animal's card, after which the fields are put again.
func (s *session) askOrTell(q *key.Inquiry, length float64, about string, fields ...ask.Field) (ask.Answers, error) {
	t, card := storyOf(q, length)
	if card != nil {
		fields[0].Instead = append(fields[0].Instead, toStory)
	}
	if s.canGoCloser(q) {
		fields[0].Instead = append(fields[0].Instead, toCloser)
	}
	if question.CanLookAgain(q) {
		fields[0].Instead = append(fields[0].Instead, backToAnswers)
	}
	for {
		answers, err := s.askAbout(about, fields...)
		if err != nil || answers[fields[0].Key] != toStory.Value {
			return answers, err
		}
		if err := s.tell(q, t, card); err != nil {
			return nil, err
		}
	}
}

// storyOf is what was named and its card; nil where it has none.
func storyOf(q *key.Inquiry, length float64) (*taxa.Taxon, *taxa.Card) {
	t := show.NewIdentified(q, length).Drawable()
	if t == nil {
		return nil, nil
	}
	return t, q.Model().Key().Catalog().Card(t.ID)
}

// tell shows the card.
func (s *session) tell(q *key.Inquiry, t *taxa.Taxon, card *taxa.Card) error {
	if err := show.Card(s.talk(), s.width, q.Model().Key().Catalog(), t, card); err != nil {
		return err
	}
	_, err := fmt.Fprintln(s.talk())
	return err
}

// anythingMore lets somebody look at the answers again, or read of the animal, where it is
// not saved; nothing typed, and the end of what is typed, end it.
func (s *session) anythingMore(q *key.Inquiry, length float64) error {
	if t, card := storyOf(q, length); card == nil && !s.canGoCloser(q) && !question.CanLookAgain(q) || s.flags.check != "" {
		if card != nil {
			s.plainly("What does it do? 'rillkey taxa %s --card' tells.", t.ID)
		}
		return nil
	}
	answers, err := s.askOrTell(q, length, "", ask.Field{Key: "more", Title: wording.Text("Anything more on this animal?"), Optional: true,
		Check: func(string) error { return wording.NewError("a letter of these, or Enter") }})
	switch {
	case errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, ask.ErrLeft):
		return nil
	case err != nil:
		return err
	case answers["more"] == backToAnswers.Value:
		return errLookAgain
	case answers["more"] == toCloser.Value:
		return errCloser
	}
	return nil
}
