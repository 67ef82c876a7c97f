package streams

import (
	"math"
	"math/rand/v2"
	"slices"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// The simulation shares no code with key/trial: streams, what is seen of an animal,
// damage and answers are written anew here, from the catalog and the vocabulary.

// stream is how often each of some kinds turns up.
type stream struct {
	kinds []*taxa.Taxon
	share []float64
}

// newStream draws 8 to 29 kinds of the key's, the common ones more readily, and how
// abundant they are there, which has nothing to do with that.
func newStream(k *key.Key, random *rand.Rand) stream {
	ends, weights := k.Ends(), slices.Clone(k.Prior())
	var s stream
	for range 8 + random.IntN(22) {
		i := pick(weights, random)
		s.kinds = append(s.kinds, ends[i])
		s.share = append(s.share, math.Exp(1.1*random.NormFloat64()))
		weights[i] = 0
	}
	return s
}

func (s stream) animal(random *rand.Rand) *taxa.Taxon { return s.kinds[pick(s.share, random)] }

// pick is a place, by weight.
func pick(weights []float64, random *rand.Rand) int {
	sum := 0.0
	for _, w := range weights {
		sum += w
	}
	u := random.Float64() * sum
	for i, w := range weights {
		if u -= w; u < 0 {
			return i
		}
	}
	return len(weights) - 1
}

// person reads animals: how many times as often wrongly as the vocabulary says.
type person struct {
	times  float64
	hasty  float64 // share of the animals on which they give up after two answers
	random *rand.Rand
}

// seen is what a person reads of one animal, by trait; a trait that the catalog
// does not know of the animal is not made out.
func (p person) seen(animal *taxa.Taxon, v *taxa.Vocabulary) map[string]string {
	out := map[string]string{}
	for _, t := range v.Traits() {
		shown := animal.States(t.ID)
		if shown == nil {
			continue
		}
		var shares []float64
		for _, w := range shown {
			shares = append(shares, w.Share)
		}
		out[t.ID] = p.read(t, t.State(shown[pick(shares, p.random)].State))
	}
	return out
}

// read is the state that a person takes a true one for. One part in twenty that
// easily breaks off has; three misreads in four are for the look-alikes that the
// vocabulary names; one answer in a hundred is a slip.
func (p person) read(t *taxa.Trait, state int) string {
	if lost := t.States[state].LostAs; len(lost) > 0 && p.random.Float64() < 0.05 {
		state = t.State(lost[p.random.IntN(len(lost))])
	}
	s := t.States[state]
	switch {
	case p.random.Float64() < 0.01:
		return p.other(t, state)
	case p.random.Float64() >= min(0.5, p.times*t.Misread):
		return s.ID
	case len(s.MistakenFor) > 0 && p.random.Float64() < 0.75:
		return s.MistakenFor[p.random.IntN(len(s.MistakenFor))]
	}
	return p.other(t, state)
}

// other is any other state; a striking one is hardly ever seen where it is not.
func (p person) other(t *taxa.Trait, state int) string {
	i := p.random.IntN(len(t.States) - 1)
	if i >= state {
		i++
	}
	if t.States[i].Striking && p.random.Float64() < 0.95 {
		return t.States[state].ID
	}
	return t.States[i].ID
}

// keyed is an animal as a person keys it, to the end of the questions.
func (p person) keyed(m *key.Model, animal *taxa.Taxon) *key.Inquiry {
	seen := p.seen(animal, m.Key().Catalog().Vocabulary())
	q, err := m.Inquire(key.DefaultOptions())
	hasty := p.hasty > 0 && p.random.Float64() < p.hasty
	for err == nil && q.Question() != nil {
		if err = q.Answer(answer(q.Question(), seen)); hasty && q.Questions() == 2 {
			q.Stop()
		}
	}
	if err != nil {
		panic(err) // a test's own mistake
	}
	return q
}

func answer(q *key.Question, seen map[string]string) string {
	if q.Trait != nil {
		if s := seen[q.Trait.ID]; slices.Contains(q.States(), s) {
			return s
		}
		return key.Unsure
	}
	for _, l := range q.Couplet.Leads {
		if !slices.ContainsFunc(l.Conditions, func(c couplets.Condition) bool { return !slices.Contains(c.States, seen[c.Trait]) }) {
			return l.Letter
		}
	}
	return key.Unsure
}

// tray is a visit with what its animals truly are.
type tray struct {
	records []visit.Record
	true_   []*taxa.Taxon // of each record
}

const samples = 3
