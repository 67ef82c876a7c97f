package key

import "math"

// believe brings the belief up to what was said.
func (q *Inquiry) believe() {
	q.chosen, q.question, q.stopped = false, nil, false
	for i := range q.given {
		q.stopped = q.stopped || q.given[i].stop
	}
	states, other := evidenceOf(q.model, q.given)
	q.other = other
	together := addOdd(q.model, other, states, q.given)
	q.belief.ObserveAll(states, together)
	if q.suppose != nil {
		q.suppose.strict.ObserveAll(states, together)
	}
}

// evidenceOf is what was read of every trait, as bits, and the log-likelihood of what
// else is known, by kind; nil for nothing.
func evidenceOf(m *Model, given []given) (states []uint64, other []float64) {
	both := make([]uint64, len(m.traits))
	any := make([]uint64, len(m.traits))
	length := 0.0
	for i := range given {
		g := &given[i]
		if g.length > 0 {
			length = g.length
		}
		for _, p := range m.parts(g.says) {
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
	m.dropAbsent(both)
	other = m.givenTheWhole(m.others(length, given), both)
	other = m.addUnasked(other, both, given)
	other = addLeftOut(m, other, both, given)
	return both, m.addBefallen(other, both, length)
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
		if g.stood == 0 && len(g.earlier) == 0 {
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
