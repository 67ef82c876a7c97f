package key

import (
	"maps"
	"slices"

	"rillkey/taxa"
)

const (
	// lostShare is the share of animals in a tray that have lost a part which is
	// easily lost (memory).
	lostShare = 0.05
	// slipShare is the share of answers that are any state at all, each as often
	// as the next: a slip of hand or tongue (memory). It keeps every likelihood
	// above zero.
	slipShare = 0.002
)

// Rates says how often people go wrong.
type Rates struct {
	Misread map[string]float64 // by trait, the share of answers that are wrong, 0 to 0.5
	Lost    float64            // share of animals that have lost a part easily lost
}

// FileRates are the rates that the vocabulary states.
func FileRates(v *taxa.Vocabulary) Rates {
	r := Rates{Misread: map[string]float64{}, Lost: lostShare}
	for _, t := range v.Traits() {
		r.Misread[t.ID] = t.Misread
	}
	return r
}

// EvenRates is the same misread rate for every trait, with no part lost.
func EvenRates(v *taxa.Vocabulary, rate float64) Rates {
	r := Rates{Misread: map[string]float64{}}
	for _, t := range v.Traits() {
		r.Misread[t.ID] = rate
	}
	return r
}

// Times is r with every rate multiplied, and none above 0.5.
func (r Rates) Times(factor float64) Rates {
	out := Rates{Misread: maps.Clone(r.Misread), Lost: min(0.5, r.Lost*factor)}
	for id, m := range out.Misread {
		out.Misread[id] = min(0.5, m*factor)
	}
	return out
}

// Readings gives, for every state that an animal can have and every state of
// the same trait, the chance that the one is read as the other; each row sums
// to 1. A part may first be lost; what is left is then misread at the trait's
// rate, as one of the states it is mistaken for, or where none is named as any
// other, all equally often.
func (r Rates) Readings(trait *taxa.Trait) [][]float64 {
	n := len(trait.States)
	misread := make([][]float64, n)
	for i, s := range trait.States {
		misread[i] = make([]float64, n)
		wrong := s.MistakenFor
		if len(wrong) == 0 {
			wrong = slices.DeleteFunc(trait.StateIDs(), func(id string) bool { return id == s.ID })
		}
		spread(misread[i], i, indexes(trait, wrong), r.Misread[trait.ID])
	}
	out := make([][]float64, n)
	for i, s := range trait.States {
		kept := make([]float64, n)
		spread(kept, i, indexes(trait, s.LostAs), r.Lost)
		out[i] = make([]float64, n)
		for between, share := range kept {
			for j := range n {
				out[i][j] += share * misread[between][j]
			}
		}
	}
	return out
}

// spread puts the share away from home equally on the others, the rest at home.
func spread(row []float64, home int, others []int, share float64) {
	if len(others) == 0 {
		share = 0
	}
	row[home] = 1 - share
	for _, j := range others {
		row[j] += share / float64(len(others))
	}
}

// slipped is readings with the share of slips in it.
func slipped(readings [][]float64) [][]float64 {
	out := make([][]float64, len(readings))
	for i, row := range readings {
		out[i] = make([]float64, len(row))
		for j, p := range row {
			out[i][j] = (1-slipShare)*p + slipShare/float64(len(row))
		}
	}
	return out
}

func indexes(trait *taxa.Trait, ids []string) []int {
	out := make([]int, len(ids))
	for i, id := range ids {
		out[i] = trait.State(id)
	}
	return out
}

// mask is states as bits, by their place in the trait.
func mask(trait *taxa.Trait, ids []string) uint64 {
	m := uint64(0)
	for _, j := range indexes(trait, ids) {
		m |= 1 << j
	}
	return m
}
