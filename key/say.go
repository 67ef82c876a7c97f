package key

import (
	"fmt"
	"strings"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Say takes anything as it is written in a path: "4a", "4?", "tails=2+3" (or,
// as older paths have it, "tails=2,3"), "hooks?", "length=12", "stop"; "said:tails=2" is in
// own words, and after "/" stands what was seen at a further look, "4a/b", "tails=2/3". It
// need not answer the present question.
func (q *Inquiry) Say(text string) error {
	first, looks, again := strings.Cut(text, lookedAgain)
	if !again {
		return sayOnce(q, text)
	}
	if err := sayOnce(q, first); err != nil {
		return err
	}
	for _, look := range strings.Split(looks, lookedAgain) {
		if err := q.Reask(len(q.given)-1, strings.ReplaceAll(look, "+", ",")); err != nil {
			q.Back()
			return err
		}
	}
	return nil
}

// sayOnce is [Inquiry.Say] of one look.
func sayOnce(q *Inquiry, text string) error {
	if text == saidStop {
		q.Stop()
		return nil
	}
	if trait, states, ok := strings.Cut(text, "="); ok {
		if trait == "length" {
			return sayLength(q, states)
		}
		states = strings.ReplaceAll(states, "+", ",")
		if trait, ok := strings.CutPrefix(trait, InOwnWords); ok {
			return q.Hear(trait, strings.Split(states, ",")...)
		}
		if now := q.Question(); now != nil && now.Trait != nil && now.Trait.ID == trait {
			return q.Answer(states)
		}
		return q.Observe(trait, strings.Split(states, ",")...)
	}
	if now := q.Question(); now != nil {
		if pick, ok := strings.CutPrefix(text, now.ID()); ok && (pick == Unsure || now.Couplet != nil && len(pick) == 1) {
			return q.Answer(pick)
		}
	}
	if id, ok := strings.CutSuffix(text, Unsure); ok {
		if trait := q.model.key.catalog.Vocabulary().Trait(id); trait != nil {
			q.take(given{question: Question{Trait: trait}, pick: Unsure, asked: true})
			return nil
		}
	}
	return sayLead(q, text)
}

func sayLength(q *Inquiry, text string) error {
	var mm float64
	var rest string
	if n, _ := fmt.Sscanf(text+" .", "%g%s", &mm, &rest); n != 2 || rest != "." {
		return fmt.Errorf(wording.Text("%s is no length; give millimetres, for example length=12"), plain.Quote(text))
	}
	return q.ObserveLength(mm)
}

// sayLead takes the answer to a couplet wherever it stands.
func sayLead(q *Inquiry, text string) error {
	for i := range q.model.key.sound.Couplets {
		c := &q.model.key.sound.Couplets[i]
		pick, ok := strings.CutPrefix(text, c.ID)
		if !ok || len(pick) != 1 {
			continue
		}
		question := Question{Couplet: c, Phase: Keyed}
		if pick == Unsure {
			q.take(given{question: question, pick: Unsure, asked: true})
			return nil
		}
		says, err := question.conditions(pick)
		if err != nil {
			return err
		}
		q.take(given{question: question, pick: pick, says: says, asked: true})
		return nil
	}
	return fmt.Errorf(wording.Text("%s is no answer; say a lead such as 4a, can't tell such as 4?, or a state such as tails=2"),
		plain.Quote(text))
}
