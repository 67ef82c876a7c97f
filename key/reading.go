package key

import (
	"maps"

	"rillkey/taxa"
)

const (
	// lostShare is the share of animals in a tray that have lost a part which is
	// easily lost (memory).
	lostShare = 0.05
	// astrayShare is the share of misreads that take the animal for any other
	// state, not one of those named as mistaken (memory).
	astrayShare = 0.25
	// slipShare is the share of answers that are any state at all, each as often
	// as the next: a slip of hand or tongue (memory). It keeps every likelihood
	// above zero.
	slipShare = 0.01
	// imaginedShare is how much less often a striking state is seen where it is
	// not than any other that nobody names as mistaken (memory).
	imaginedShare = 0.05
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

// LostOnly is r with no misreads: parts are lost, and what is left is read
// rightly.
func (r Rates) LostOnly() Rates { return Rates{Lost: r.Lost} }

// Readings gives, for every state that an animal can have and every state of
// the same trait, the chance that the one is read as the other; each row sums
// to 1. A part may first be lost; what is left is then misread at the trait's
// rate, or where the state has one at its own, as one of the states it is mistaken
// for, all equally often, or where none is named as any other; a striking state is
// hardly ever seen where it is not, so that fewer answers than the rate may be wrong.
func (r Rates) Readings(trait *taxa.Trait) [][]float64 { return r.readings(trait, 0) }

// readings is Readings with some share of the misreads going astray, to any
// other state.
func (r Rates) readings(trait *taxa.Trait, astray float64) [][]float64 {
	n := len(trait.States)
	misread := make([][]float64, n)
	for i, s := range trait.States {
		misread[i] = make([]float64, n)
		rate := r.misread(trait, s)
		misread[i][i] = 1 - rate
		if len(s.MistakenFor) > 0 {
			spread(misread[i], indexes(trait, s.MistakenFor), rate*(1-astray))
			rate *= astray
		}
		stray(misread[i], trait, i, rate)
	}
	out := make([][]float64, n)
	for i, s := range trait.States {
		left := make([]float64, n)
		left[i] = 1
		if len(s.LostAs) > 0 {
			left[i] = 1 - r.Lost
			spread(left, indexes(trait, s.LostAs), r.Lost)
		}
		out[i] = make([]float64, n)
		for between, share := range left {
			for j := range n {
				out[i][j] += share * misread[between][j]
			}
		}
	}
	return out
}

// misread is how often a state is misread: some are so more often than their trait.
func (r Rates) misread(trait *taxa.Trait, s taxa.State) float64 {
	rate := r.Misread[trait.ID]
	if s.Misread > 0 && trait.Misread > 0 {
		rate = min(0.5, rate*s.Misread/trait.Misread)
	}
	return rate
}

// spread adds a share to a row, equally on these places.
func spread(row []float64, places []int, share float64) {
	for _, j := range places {
		row[j] += share / float64(len(places))
	}
}

// stray adds a share to a row, equally on all states but its own; of that of a
// striking state most stays with the own one.
func stray(row []float64, trait *taxa.Trait, own int, share float64) {
	each := share / float64(len(row)-1)
	for j := range row {
		switch {
		case j == own:
		case trait.States[j].Striking:
			row[j] += each * imaginedShare
			row[own] += each * (1 - imaginedShare)
		default:
			row[j] += each
		}
	}
}

// believed is how the belief takes readings to go wrong: most as [Rates.Readings]
// has it, some astray, and a few by a slip.
func (r Rates) believed(trait *taxa.Trait) [][]float64 {
	out := r.readings(trait, astrayShare)
	n := float64(len(out))
	for i, row := range out {
		for j := range row {
			row[j] *= 1 - slipShare
		}
		row[i] += slipShare / n
		stray(row, trait, i, slipShare*(n-1)/n)
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
