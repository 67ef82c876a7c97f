package key

import "math"

// What goes wrong goes wrong in several answers at once: who looks carelessly does so
// at every part, and an animal that is young, hurt or of a kind that the table has
// wrong is unlike its kind in more than one. A share of all that is keyed is taken to
// be such (memory, all of it; chosen so that of names that simulated hard people get
// at 0.9 as many are right as is claimed).
const (
	oddShare  = 0.2
	oddTimes  = 3   // how many times as often is misread then
	oddUnlike = 0.2 // share of what is to be seen then that is not as the table has it
	// Whoever guesses instead of saying "can't tell" looks carelessly more often: for
	// each that could not be told the odds of that are so many times as large. Of 46
	// accounts of animals in words as many come out as narrow with it as without anything
	// odd, and three fewer if it is 1; at 0.7 as many, and 1 to 2 of 100 hard people's animals
	// fewer are rightly named.
	oddUntold = 0.4
	// oddAtLeast is of how many traits something must be known, by as many answers, before
	// it shows whether several are odd: as few as name an animal of a small key are as
	// their readings have them.
	oddAtLeast = 5
	// oddSettle is the probability at which questions stop where something may be odd:
	// where answers lean on each other the last hundredths are worth least, and one
	// question more shows it. Of names that hard people get on seeds that nothing was chosen
	// by 94.0 of 100 are right with it and 93.5 at 0.97, after 0.3 questions more; of all
	// animals 66.3 and 66.4 are rightly named.
	oddSettle = 0.99
)

// findOdd works out, for every trait, the chance that a state by the table is read as
// each state where something is odd: half of what is not as the table has it is what
// people mistake for that, the rest any state.
func findOdd(m *Model) {
	if m.rates.Lost == 0 {
		return // people of whom all is known
	}
	rates := m.rates.Times(oddTimes)
	for _, t := range m.traits {
		readings, n := rates.believed(t.Trait), len(t.States)
		odd := make([][]float64, n)
		for s := range odd {
			shows := showsOdd(t, s)
			odd[s] = make([]float64, n)
			for is, row := range readings {
				for j, p := range row {
					odd[s][j] += shows[is] * p
				}
			}
		}
		m.odd = append(m.odd, odd)
	}
}

// showsOdd is the chance of each state in something odd that by the table has this one.
// What strikes everybody is there even then as the table has it.
func showsOdd(t *trait, state int) []float64 {
	own := make([]float64, len(t.States))
	own[state] = 1
	out := t.mistaken(own)
	for s := range out {
		out[s] *= oddUnlike * nearShare
	}
	out[state] += 1 - oddUnlike
	stray(out, t.Trait, state, oddUnlike*(1-nearShare))
	return out
}

// addOdd is the log-likelihood of every kind, or nil for none, with how many times as
// likely all that was seen is where something may be odd.
func addOdd(m *Model, log []float64, seen []uint64, given []given) []float64 {
	if answersIn(given) < oddAtLeast {
		return log
	}
	times := timesOdd(m, seen)
	if times == nil {
		return log
	}
	share := oddOf(given)
	out := make([]float64, len(m.kinds))
	copy(out, log)
	for i := range out {
		out[i] += math.Log(1 - share + share*times[i])
	}
	return out
}

// timesOdd is, by kind, how many times as likely what was seen is where something is
// odd; nil where too little was seen.
func timesOdd(m *Model, seen []uint64) (times []float64) {
	if m.odd == nil || known(seen) < oddAtLeast {
		return nil
	}
	for n, states := range seen {
		if states == 0 {
			continue
		}
		h := m.hangsOn(n)
		of := timesOddOf(m, n, states, h != nil && h.affirmed(seen[h.whole]))
		if times == nil {
			times = of
			continue
		}
		for i, x := range of {
			times[i] *= x
		}
	}
	return times
}

// answersIn is how many answers say something: a couplet that asks for several traits has
// one.
func answersIn(given []given) (n int) {
	for i := range given {
		if len(given[i].says) > 0 {
			n++
		}
	}
	return n
}

// known is of how many traits something was seen.
func known(seen []uint64) (n int) {
	for _, states := range seen {
		if states != 0 {
			n++
		}
	}
	return n
}

// timesOddOf is that of one trait, there if it is known to be there.
func timesOddOf(m *Model, n int, states uint64, there bool) []float64 {
	t, out := m.traits[n], make([]float64, len(m.kinds))
	for i := range out {
		truth := t.truth[i]
		if there && !wholeAlways(m, m.hangs[n], i) {
			truth = statesBut(truth, m.hangs[n].none)
		}
		out[i] = seenAs(truth, m.odd[n], states) / seenAs(truth, t.readings, states)
	}
	return out
}

// statesBut are the chances of states where it is not this one, if that can be.
func statesBut(truth []float64, state int) []float64 {
	left := 1 - truth[state]
	if left <= 0 || left >= 1 {
		return truth
	}
	out := make([]float64, len(truth))
	for s, share := range truth {
		if s != state {
			out[s] = share / left
		}
	}
	return out
}

// oddOf is the probability that something is odd, by how often the person could not tell.
func oddOf(given []given) float64 {
	odds := oddShare / (1 - oddShare)
	for i := range given {
		if given[i].asked && given[i].pick == Unsure {
			odds *= oddUntold
		}
	}
	return odds / (1 + odds)
}

// settlesAt is the probability of a name at which questions stop. Whoever asks for a
// name no surer than is required gets it at that.
func settlesAt(q *Inquiry) float64 {
	if q.model.odd == nil || q.opts.Settle == q.opts.Required {
		return q.opts.Settle
	}
	return max(q.opts.Settle, oddSettle)
}
