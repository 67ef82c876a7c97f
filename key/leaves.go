package key

import "math/bits"

// A state that was said to leave little to be seen, such as a pupa, holds while so much
// of the belief lies on what shows it, or nothing else was said. Below the second share it
// was as likely misread, below the last there is no name yet, where more was said: once
// nothing more of it can be asked all else is.
const (
	mayBeLeft  = 0.05
	likelyLeft = 0.5
	surelyLeft = 0.9
)

// findLeaves notes, by trait and state, which traits a state leaves to be seen; nil for
// all of them.
func findLeaves(m *Model) {
	m.leaves = make([][][]bool, len(m.traits))
	for n, t := range m.traits {
		m.leaves[n] = make([][]bool, len(t.States))
		for s, state := range t.States {
			if state.Leaves == nil {
				continue
			}
			left := make([]bool, len(m.traits))
			left[n] = true
			for _, id := range state.Leaves {
				left[m.index[id]] = true
			}
			m.leaves[n][s] = left
		}
	}
}

// goneFrom are the traits of which nothing is to be seen in what was said to be a pupa, a
// shed skin or the like: nobody is asked for the eyes of those. Nil for none. Doubted are
// those where that was as likely misread.
func goneFrom(q *Inquiry) (gone []bool, doubted bool) {
	for n := range q.model.traits {
		seen := q.belief.Seen(n)
		left := q.model.leftBy(n, seen)
		if left == nil {
			continue
		}
		p := massShowing(q, n, seen)
		if p < mayBeLeft && seenTraits(q) > 1 {
			continue
		}
		if gone == nil {
			gone = make([]bool, len(q.model.traits))
		}
		doubted = doubted || p < likelyLeft || p < surelyLeft && seenTraits(q) > 1
		for t := range gone {
			gone[t] = gone[t] || !left[t]
		}
	}
	return gone, doubted
}

// leftBy are the traits that one of these states of a trait leaves to be seen, nil for all.
func (m *Model) leftBy(trait int, states uint64) []bool {
	var left []bool
	for rest := states; rest != 0; rest &= rest - 1 {
		leaves := m.leaves[trait][bits.TrailingZeros64(rest)]
		if leaves == nil {
			return nil
		}
		if left == nil {
			left = make([]bool, len(m.traits))
		}
		for t := range left {
			left[t] = left[t] || leaves[t]
		}
	}
	return left
}

// massShowing is the probability that the animal shows one of these states of a trait.
func massShowing(q *Inquiry, trait int, states uint64) float64 {
	sum := 0.0
	for i, p := range q.belief.P() {
		for rest := states; rest != 0 && p > negligible; rest &= rest - 1 {
			sum += p * q.model.traits[trait].truth[i][bits.TrailingZeros64(rest)]
		}
	}
	return sum
}

// speaksOf reports whether a question speaks of one of these traits; nil are none.
func (a *ask) speaksOf(traits []bool) bool {
	for _, t := range a.traits {
		if traits != nil && traits[t] {
			return true
		}
	}
	return false
}
