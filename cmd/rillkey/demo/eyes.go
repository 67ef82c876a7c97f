package demo

import (
	"cmp"
	"fmt"
	"slices"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
)

// SecondAnswer is an answer that was looked at again, because it was likely misread.
type SecondAnswer struct {
	First, Anew key.Given
	Probability float64 // that the first was misread
}

// suspicious is how probably misread an answer must be for a second look.
const suspicious = 0.2

// Name answers an inquiry by looking at an animal of the taxon: "can't tell"
// where a trait could not be made out or the trait table does not say. An answer
// that was likely misread is looked at again, and then read rightly.
func (f Catch) Name(m *key.Model) (*key.Inquiry, []SecondAnswer, error) {
	animal := m.Key().Catalog().Taxon(f.Taxon)
	if animal == nil {
		return nil, nil, fmt.Errorf("the demo's script: there is no taxon %q in this catalog", f.Taxon)
	}
	q, err := m.Inquire(key.DefaultOptions())
	if err != nil {
		return nil, nil, err
	}
	first, second := f.eyes(animal)
	if f.Length > 0 {
		if err := q.ObserveLength(f.Length); err != nil {
			return nil, nil, err
		}
	}
	var looks []SecondAnswer
	for {
		if err := first.answer(q); err != nil {
			return nil, nil, err
		}
		look, err := second.lookAgain(q)
		if err != nil {
			return nil, nil, err
		}
		if look == nil {
			return q, looks, nil
		}
		looks = append(looks, *look)
	}
}

// Answer answers all that an inquiry still asks, as at the first look.
func (f Catch) Answer(q *key.Inquiry) error {
	animal := q.Model().Key().Catalog().Taxon(f.Taxon)
	if animal == nil {
		return fmt.Errorf("there is no taxon %q in this catalog", f.Taxon)
	}
	first, _ := f.eyes(animal)
	return first.answer(q)
}

func (f Catch) eyes(animal *taxa.Taxon) (first, second eyes) {
	return eyes{animal, f.Unsure, f.Misread}, eyes{animal, f.Unsure, nil}
}

// eyes look at one animal.
type eyes struct {
	animal  *taxa.Taxon
	unsure  []string
	misread map[string]string
}

// answer answers until nothing more is asked.
func (e eyes) answer(q *key.Inquiry) error {
	for now := q.Question(); now != nil; now = q.Question() {
		if err := q.Answer(e.pick(*now)); err != nil {
			return err
		}
	}
	return nil
}

// lookAgain gives the most suspect answer anew, if it is suspect and reads
// otherwise at a second look.
func (e eyes) lookAgain(q *key.Inquiry) (*SecondAnswer, error) {
	suspects := q.Suspects()
	if len(suspects) == 0 || suspects[0].Probability < suspicious {
		return nil, nil
	}
	place := suspects[0].Given
	before := q.Given()[place]
	if err := q.Reask(place, e.pick(before.Question)); err != nil {
		return nil, err
	}
	after := q.Given()[place]
	if after.Answer == before.Answer {
		return nil, nil
	}
	return &SecondAnswer{before, after, suspects[0].Probability}, nil
}

// pick is the first lead whose conditions the animal meets, or the state that it
// most often shows.
func (e eyes) pick(q key.Question) string {
	if q.Couplet == nil {
		return e.state(q.Trait)
	}
	for _, lead := range q.Couplet.Leads {
		if !slices.ContainsFunc(lead.Conditions, func(c couplets.Condition) bool { return !e.meets(c) }) {
			return lead.Letter
		}
	}
	return key.Unsure
}

func (e eyes) state(t *taxa.Trait) string {
	if wrong := e.misread[t.ID]; wrong != "" {
		return wrong
	}
	shown := e.animal.States(t.ID)
	if shown == nil || slices.Contains(e.unsure, t.ID) {
		return key.Unsure
	}
	return slices.MaxFunc(shown, func(a, b taxa.Weight) int { return cmp.Compare(a.Share, b.Share) }).State
}

func (e eyes) meets(c couplets.Condition) bool {
	if wrong := e.misread[c.Trait]; wrong != "" {
		return slices.Contains(c.States, wrong)
	}
	return !slices.Contains(e.unsure, c.Trait) &&
		slices.ContainsFunc(e.animal.States(c.Trait), func(w taxa.Weight) bool { return slices.Contains(c.States, w.State) })
}
