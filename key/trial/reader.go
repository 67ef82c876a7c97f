package trial

import (
	"cmp"
	"slices"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/trial/described"
)

// What the screens do (package question): so many marks are offered to be ticked after so
// many questions in a row that nobody could tell, and once where the questions are over
// without the name of a kind.
const (
	marksOffered = 12
	openInRow    = 2
)

// reader answers for a described animal and knows nothing but its words.
type reader struct {
	*described.Animal
	q      *key.Inquiry
	openIn int // questions in a row that could not be told
	// cantTells counts those that could not be told.
	cantTells int
	lists     int // of marks that were offered
	// accused reports whether an answer that is true was called more likely misread
	// than not: just after it was given, or at the end.
	accused bool
}

// read leads an inquiry to its end: the two most striking things unasked, then
// what is asked, and the length where the program asks for it, at the end.
func read(a *described.Animal, m *key.Model, o key.Options, spoken bool) (*reader, error) {
	q, err := m.Inquire(o)
	if err != nil {
		return nil, err
	}
	r := &reader{Animal: a, q: q}
	first := r.sayCoded
	if spoken {
		first = r.speak
	}
	if err := first(); err != nil {
		return nil, err
	}
	if err := r.answerAll(); err != nil {
		return nil, err
	}
	if a.Length.Known() && q.Length() == 0 {
		if err := r.measure(); err != nil {
			return nil, err
		}
		if err := r.answerAll(); err != nil {
			return nil, err
		}
	}
	if q.EndsOpen() {
		if err := r.tick(); err != nil {
			return nil, err
		}
		if err := r.answerAll(); err != nil {
			return nil, err
		}
	}
	told := accusing(q)
	r.accuse(told.atTheEnd())
	return r, nil
}

// sayCoded says the two most striking things as they are coded, as if in own words.
func (r *reader) sayCoded() error {
	for _, trait := range r.Striking {
		if err := r.q.Hear(trait, r.States(trait)...); err != nil {
			return err
		}
	}
	return nil
}

// measure says the length, if the words do.
func (r *reader) measure() error {
	r.q.LeaveLength()
	if !r.Length.Known() {
		return nil
	}
	return r.q.ObserveLength((r.Length.Min + r.Length.Max) / 2)
}

// answerAll answers until nothing more is asked.
func (r *reader) answerAll() error {
	told := accusing(r.q)
	for {
		if r.q.LengthFirst() {
			if err := r.measure(); err != nil {
				return err
			}
			continue
		}
		now := r.q.Question()
		if now == nil {
			break
		}
		if r.openIn >= openInRow {
			r.openIn = 0
			if err := r.tick(); err != nil {
				return err
			}
			continue
		}
		pick := r.answer(now)
		if err := r.q.Answer(pick); err != nil {
			return err
		}
		if pick == key.Unsure {
			r.openIn, r.cantTells = r.openIn+1, r.cantTells+1
		} else {
			r.openIn = 0
		}
		r.accuse(told.last())
	}
	return nil
}

// tick ticks of the marks that are offered all that the words tell of.
func (r *reader) tick() error {
	marks := r.q.Differing(marksOffered)
	r.q.PassOver(marks)
	if len(marks) > 0 {
		r.lists++
	}
	seen := map[string][]string{}
	for _, m := range marks {
		if slices.Contains(r.States(m.Trait.ID), m.State) {
			seen[m.Trait.ID] = append(seen[m.Trait.ID], m.State)
		}
	}
	for _, m := range marks {
		if states := seen[m.Trait.ID]; states != nil {
			delete(seen, m.Trait.ID)
			if err := r.q.Observe(m.Trait.ID, states...); err != nil {
				return err
			}
		}
	}
	return nil
}

// accuse notes that an answer was called misread, all of which are true but in
// accounts with a fact that is wrong, and where own words were misunderstood, so that the
// account says something against it.
func (r *reader) accuse(g *key.Given) {
	if g != nil && r.Kind != described.MisreadAccount {
		_, denied := r.compare(g.Says)
		r.accused = r.accused || !denied
	}
}

// answer is, of a trait, the first state offered that the words fit; of a
// couplet, the lead that they tell of.
func (r *reader) answer(q *key.Question) string {
	if q.Trait == nil {
		return r.lead(q.Couplet)
	}
	for _, s := range q.States() {
		if slices.Contains(r.States(q.Trait.ID), s) {
			return s
		}
	}
	return key.Unsure
}

// lead is the first lead of which the words say all, else the one of which they
// say something while they deny all others.
func (r *reader) lead(c *couplets.Couplet) string {
	open := ""
	for _, l := range c.Leads {
		holds, denied := r.compare(l.Conditions)
		switch {
		case holds == len(l.Conditions):
			return l.Letter
		case denied:
		case holds == 0 || open != "":
			open = key.Unsure
		default:
			open = l.Letter
		}
	}
	return cmp.Or(open, key.Unsure)
}

// compare counts the conditions that the words say hold, and tells whether they
// deny one.
func (r *reader) compare(conditions []couplets.Condition) (holds int, denied bool) {
	for _, c := range conditions {
		said := r.States(c.Trait)
		switch {
		case slices.ContainsFunc(said, func(s string) bool { return slices.Contains(c.States, s) }):
			holds++
		case said != nil:
			denied = true
		}
	}
	return holds, denied
}
