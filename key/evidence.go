package key

import "math"

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
	q.length(length)
	for t := range both {
		if both[t] == 0 {
			both[t] = any[t]
		}
	}
	// What is no longer seen goes first, so that the order in which the belief
	// took the rest is that in which it was said.
	for t, states := range both {
		if states == 0 {
			q.belief.Observe(t, 0)
		}
	}
	for t, states := range both {
		if states != 0 {
			q.belief.Observe(t, states)
		}
	}
}

func (q *Inquiry) length(mm float64) {
	if mm == q.measured {
		return
	}
	q.measured = mm
	if mm == 0 {
		q.belief.ObserveOther(nil)
		return
	}
	out := q.model.lengthLikelihoods(mm)
	for i, l := range out {
		out[i] = math.Log(l)
	}
	q.belief.ObserveOther(out)
}
