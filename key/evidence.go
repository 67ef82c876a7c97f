package key

import (
	"math"

	"rillkey/key/belief"
)

// believe brings the belief up to what was said.
func (q *Inquiry) believe() {
	q.chosen, q.question, q.stopped = false, nil, false
	both := make([]uint64, len(q.model.traits))
	any := make([]uint64, len(q.model.traits))
	length := 0.0
	for i := range q.given {
		g := &q.given[i]
		q.stopped = q.stopped || g.stop
		if g.length > 0 {
			length = g.length
		}
		for _, p := range q.model.parts(g.says) {
			if any[p.Trait] == 0 {
				both[p.Trait] = p.States
			}
			both[p.Trait] &= p.States
			any[p.Trait] |= p.States
		}
	}
	for t := range both {
		if both[t] == 0 {
			both[t] = any[t]
		}
	}
	q.model.dropAbsent(both)
	other := q.model.givenTheWhole(q.model.others(length, q.given), both)
	other = q.model.addHeard(other, both, q.given)
	observeAgain(q, both, q.model.addBefallen(other, both, length))
}

// observeAgain sets what was read of every trait, as bits, and the log-likelihood of
// what else is known, by kind; nil for nothing.
func observeAgain(q *Inquiry, states []uint64, other []float64) {
	beliefs := []*belief.Belief{q.belief}
	if q.suppose != nil {
		beliefs = append(beliefs, q.suppose.strict)
	}
	for _, b := range beliefs {
		if other != nil || q.other != nil {
			b.ObserveOther(other)
		}
		// What is no longer seen goes first, so that the order in which the belief
		// took the rest is that in which it was said.
		for t, s := range states {
			if s == 0 {
				b.Observe(t, 0)
			}
		}
		for t, s := range states {
			if s != 0 {
				b.Observe(t, s)
			}
		}
	}
	q.other = other
}

// others is the log-likelihood, by kind, of the length in mm, 0 for none, and of
// what was looked at again; nil where there is neither.
func (m *Model) others(mm float64, given []given) []float64 {
	var out []float64
	if mm > 0 {
		out = m.lengthLikelihoods(mm)
		for i, l := range out {
			out[i] = math.Log(l)
		}
	}
	for i := range given {
		g := &given[i]
		if g.stood == 0 && len(g.before) == 0 {
			continue
		}
		if out == nil {
			out = make([]float64, len(m.kinds))
		}
		for _, p := range m.parts(g.says) {
			m.addLooks(out, g, p)
		}
	}
	return out
}
