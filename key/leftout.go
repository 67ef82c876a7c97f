package key

import (
	"math"
	"slices"
)

// obviousUnsaid is how much less often than other animals those are left out in silence
// that bear what nobody overlooks of an obvious trait, where nobody asked for it (memory);
// where somebody did, and could not be told, the vocabulary says how much less often.
const obviousUnsaid = 0.5

// saidMuch is how many things are said in own words where an account of the animal is
// given, from which what is obvious would not be missing.
const saidMuch = 2

// addLeftOut adds to the log-likelihood of every kind what is left out of an account in
// the person's own words: nobody says much of a snail and nothing of its shell. It counts
// once for a trait, and not where nothing but questions was answered: of those many cannot
// be told for reasons that have nothing to do with the animal.
func addLeftOut(m *Model, log []float64, seen []uint64, said []given) []float64 {
	heard := 0
	for i := range said {
		if said[i].heard {
			heard++
		}
	}
	if heard < saidMuch || slices.ContainsFunc(m.traits, func(t *trait) bool { return t.Likeness && seen[m.index[t.ID]] != 0 }) {
		return log // who calls it a lobster has said what is obvious
	}
	for t, states := range m.obvious {
		if states == 0 || seen[t] != 0 {
			continue
		}
		if log == nil {
			log = make([]float64, len(m.kinds))
		}
		times := leftOut(m, t, said)
		for i, shows := range m.traits[t].truth {
			bears := 0.0
			for s, share := range shows {
				if states&(1<<s) != 0 {
					bears += share
				}
			}
			log[i] += math.Log(1 - (1-times)*min(1, bears))
		}
	}
	return log
}

// leftOut is how much less often one that bears it would be said so little of.
func leftOut(m *Model, trait int, said []given) float64 {
	for i := range said {
		if g := &said[i]; g.pick == Unsure && slices.Contains(m.asks[m.number(g.question)].traits, trait) {
			return m.traits[trait].Untold
		}
	}
	return obviousUnsaid
}

// findObvious finds, by trait, the states that nobody overlooks or leaves unsaid, as
// bits. It comes after [findLeaves]: of an empty shell's legs nothing is to be said.
func findObvious(m *Model) {
	m.obvious = make([]uint64, len(m.traits))
	for t := range m.traits {
		if !m.traits[t].Obvious {
			continue
		}
		for s, state := range m.traits[t].States {
			if state.Striking && m.leaves[t][s] == nil {
				m.obvious[t] |= 1 << s
			}
		}
	}
}
