package key

import "strings"

// Retell says to another inquiry, whose key may be another one of the same catalog,
// what was told of the creature: the features as they were answered, observed or
// heard, and its length. What nobody could tell is left for it to ask.
func (q *Inquiry) Retell(to *Inquiry) error {
	for i := range q.given {
		g := &q.given[i]
		for _, said := range g.says {
			tell := to.Observe
			if g.heard {
				tell = to.Hear
			}
			if err := tell(said.Trait, said.States...); err != nil {
				return err
			}
			to.given[len(to.given)-1].retold = g.asked || g.retold
		}
		if g.length > 0 {
			if err := to.ObserveLength(g.length); err != nil {
				return err
			}
		}
	}
	return nil
}

// inTraits is [Inquiry.Path] without numbers of couplets, so that every key of the
// catalog can follow it: "tails=2+3" for "4a", and "tails?" for "4?".
func (q *Inquiry) inTraits() []string {
	out := []string{}
	for i := range q.given {
		g := &q.given[i]
		if g.question.Couplet == nil {
			out = append(out, g.answer())
			continue
		}
		for _, said := range g.says {
			out = append(out, said.Trait+"="+strings.Join(said.States, "+"))
		}
		if g.pick == Unsure {
			for _, trait := range g.question.Couplet.Traits() {
				out = append(out, trait+Unsure)
			}
		}
	}
	return out
}
