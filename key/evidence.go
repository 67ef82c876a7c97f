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
	q.observe(both, length)
}

// observe sets what was read of every trait, as bits, and the length in mm.
func (q *Inquiry) observe(states []uint64, length float64) {
	beliefs := []*belief.Belief{q.belief}
	if q.suppose != nil {
		beliefs = append(beliefs, q.suppose.strict)
	}
	for _, b := range beliefs {
		if length != q.measured {
			b.ObserveOther(q.model.logLengths(length))
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
	q.measured = length
}

// logLengths is by end point; nil for no length.
func (m *Model) logLengths(mm float64) []float64 {
	if mm == 0 {
		return nil
	}
	out := m.lengthLikelihoods(mm)
	for i, l := range out {
		out[i] = math.Log(l)
	}
	return out
}
