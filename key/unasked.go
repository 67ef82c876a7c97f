package key

import (
	"math"

	"rillkey/taxa"
)

// unaskedMisread is how many times as often as when they are asked people misread what
// they say unasked, which they say because they saw it: of 2,353 facts in 281 accounts
// of whole animals in words 55 are not as the table has them, where the vocabulary's
// rates have 234 (measured, by people who coded the words without the name).
const unaskedMisread = 0.25

// unasked is r for what people say unasked: parts are lost as often.
func (r Rates) unasked() Rates {
	out := r.Times(unaskedMisread)
	out.Lost = r.Lost
	return out
}

// toldAsShare is how often people who are not asked tell a state as one of those that it is
// told as: who says of a seed that it has no legs was not offered that nobody is there
// (memory).
const toldAsShare = 0.5

// unaskedReadings are what people say unasked, by state.
func (r Rates) unaskedReadings(t *taxa.Trait) [][]float64 {
	out := r.unasked().believed(t)
	for i, s := range t.States {
		if len(s.ToldAs) == 0 {
			continue
		}
		for j := range out[i] {
			out[i][j] *= 1 - toldAsShare
		}
		spread(out[i], indexes(t, s.ToldAs), toldAsShare)
	}
	return out
}

// addUnasked adds to the log-likelihood of every kind that traits known from own words
// alone are misread less than what is asked, and may have been misunderstood: what is
// noted is then as common among all animals as it is.
func (m *Model) addUnasked(log []float64, seen []uint64, given []given) []float64 {
	for t, states := range seen {
		if states == 0 || !onlyHeard(given, m.traits[t].ID) {
			continue
		}
		if log == nil {
			log = make([]float64, len(m.kinds))
		}
		likely, mean := m.traits[t].unaskedLikelihoods(states), 0.0
		for i, p := range m.prior {
			mean += p * likely[i]
		}
		for i := range log {
			log[i] += math.Log(((1-mistakenWords)*likely[i] + mistakenWords*mean) / m.table.Likelihood(t, states, i))
		}
	}
	return log
}

// unaskedLikelihoods are, by kind, the chance that one of these states, as bits, is
// what people say unasked where they speak of the trait.
func (t *trait) unaskedLikelihoods(states uint64) []float64 {
	readings, out := t.unasked(), make([]float64, len(t.truth))
	for i, shows := range t.truth {
		for s, share := range shows {
			if share > 0 {
				out[i] += share * reads(readings[s], states)
			}
		}
	}
	return out
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
