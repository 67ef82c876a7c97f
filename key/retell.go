package key

import (
	"strings"

	"rillkey/couplets"
)

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
			last := &to.given[len(to.given)-1]
			last.retold = g.asked || g.retold
			last.stood, last.earlier = g.stood, earlierOf(g, said.Trait)
		}
		if g.length > 0 {
			if err := to.ObserveLength(g.length); err != nil {
				return err
			}
		}
	}
	return nil
}

// earlierOf is what an answer said of one of its traits before it was given anew.
func earlierOf(g *given, trait string) (out []reading) {
	for _, look := range g.earlier {
		for _, said := range look.says {
			if said.Trait == trait {
				out = append(out, reading{strings.Join(said.States, ","), []couplets.Condition{said}})
			}
		}
	}
	return out
}

// inTraits is [Inquiry.Path] without numbers of couplets, so that every key of the
// catalog can follow it: "tails=2+3" for "4a", and "tails?" for "4?".
func (q *Inquiry) inTraits() []string {
	out := []string{}
	for i := range q.given {
		g := &q.given[i]
		if g.question.Couplet == nil {
			out = append(out, g.written())
			continue
		}
		for _, said := range g.says {
			one := given{pick: strings.Join(said.States, ","), stood: g.stood, earlier: earlierOf(g, said.Trait)}
			one.question.Trait = q.model.key.catalog.Vocabulary().Trait(said.Trait)
			out = append(out, one.written())
		}
		if g.pick == Unsure {
			for _, trait := range g.question.Couplet.Traits() {
				out = append(out, trait+Unsure)
			}
		}
	}
	return out
}
