package key

import "math"

// mistakenWords is how often words of a person's own, found and shown to them as
// they were understood, are noted though they mean something else: of what is noted
// of accounts of animals in words 3 in 100 contradict them (measured), and as many
// again are taken to be overlooked (memory).
const mistakenWords = 0.06

// Hear is [Inquiry.Observe] of what a person said in words of their own: it may have
// been misunderstood, and is believed a little less.
func (q *Inquiry) Hear(trait string, states ...string) error {
	if err := q.Observe(trait, states...); err != nil {
		return err
	}
	q.given[len(q.given)-1].heard = true
	q.believe()
	return nil
}

// addHeard adds to the log-likelihood of every kind that traits known from own words
// alone may have been misunderstood: what is noted is then as common among all
// animals as it is.
func (m *Model) addHeard(log []float64, seen []uint64, given []given) []float64 {
	for t, states := range seen {
		if states == 0 || !onlyHeard(given, m.traits[t].ID) {
			continue
		}
		if log == nil {
			log = make([]float64, len(m.kinds))
		}
		all := 0.0
		for i, p := range m.prior {
			all += p * m.table.Likelihood(t, states, i)
		}
		for i := range log {
			log[i] += math.Log(1 - mistakenWords + mistakenWords*all/m.table.Likelihood(t, states, i))
		}
	}
	return log
}

// onlyHeard reports whether all that was said of a trait was heard in own words.
func onlyHeard(given []given, trait string) bool {
	heard := false
	for i := range given {
		for _, said := range given[i].says {
			if said.Trait == trait && !given[i].heard {
				return false
			}
			heard = heard || said.Trait == trait
		}
	}
	return heard
}
