package key

import (
	"cmp"
	"math/bits"
	"slices"
)

// Suspect is an answer with the chance that it is wrong.
type Suspect struct {
	Given       int    // its place in [Inquiry.Given]
	Answer      string // "4a", "tails=2"
	Probability float64
}

// Suspects gives, for every answer and observation of a trait, the probability
// that the animal truly has none of the states the answer stands for, given all
// that was said: the most suspect first, and of equals the later. An answer that
// combines traits is wrong when it is wrong in any of them.
func (q *Inquiry) Suspects() []Suspect {
	var out []Suspect
	for i := range q.given {
		if g := &q.given[i]; len(g.says) > 0 {
			out = append(out, Suspect{i, g.answer(), q.wrong(g)})
		}
	}
	slices.SortStableFunc(out, func(a, b Suspect) int {
		return cmp.Or(cmp.Compare(b.Probability, a.Probability), cmp.Compare(b.Given, a.Given))
	})
	return out
}

// wrong is the posterior probability that an answer is wrong. Given the end
// point, traits are independent, and what was read of each is known.
func (q *Inquiry) wrong(g *given) float64 {
	parts := q.model.parts(g.says)
	right := 0.0
	for i, p := range q.belief.P() {
		if p < 1e-12 {
			continue
		}
		all := p
		for _, part := range parts {
			all *= q.model.rightly(part.Trait, i, part.States, q.belief.Seen(part.Trait))
		}
		right += all
	}
	return min(1, max(0, 1-right))
}

// rightly is the chance that an animal of end point i, read as one of the states
// seen, truly has one of the states said.
func (m *Model) rightly(trait, i int, said, seen uint64) float64 {
	t := m.traits[trait]
	true_, all := 0.0, 0.0
	for s, share := range t.truth[i] {
		if share == 0 {
			continue
		}
		read := 0.0
		for r := seen; r != 0; r &= r - 1 {
			read += t.readings[s][bits.TrailingZeros64(r)]
		}
		all += share * read
		if said&(1<<s) != 0 {
			true_ += share * read
		}
	}
	return true_ / all
}
