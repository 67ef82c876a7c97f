package key

import "math"

// What goes wrong goes wrong in several answers at once: who looks carelessly does so
// at every part. The rates of the vocabulary are about the mean of people who differ;
// which of them somebody is, all their answers together tell: a finite mixture over
// observers of different error rates (as Dawid and Skene 1979 have a rate for each
// observer; memory). And some of what is seen is not as the table has it, be the table
// wrong or the animal young or hurt. (Memory, all figures; chosen so that names of
// simulated hard people are truer, and accounts of animals in words come out as narrow.)
const (
	// unlikeTable is the share of what is to be seen that is not as the table has it.
	unlikeTable = 0.06
	// unlikeNear is the share of that which is what people mistake for what the table has;
	// the rest is any state, but a striking one so many times as often as another.
	unlikeNear     = 0.3
	unlikeStriking = 0.2
	// Whoever guesses instead of saying "can't tell" looks carelessly more often: for
	// each that could not be told careless people are so many times as likely.
	carelessUntold = 0.8
	// Up to oddBeyond known traits, or answers, nothing of that counts: as few as name an
	// animal of a small key are as their readings have them. From oddInFull on it counts in
	// full, between them in part.
	oddBeyond = 4
	oddInFull = 7
	// oddSettle is the probability at which questions stop where something may be odd:
	// where answers lean on each other the last hundredths are worth least, and one
	// question more shows it.
	oddSettle = 0.99
)

// lookers are the people: how many of all, and how many times as often as the vocabulary
// has it they misread. Together they misread 1.1 times as often.
var lookers = [...]struct{ share, times float64 }{{0.6, 0.5}, {0.2, 1}, {0.2, 3}}

// byLooker is one thing for each of the lookers.
type byLooker[T any] [len(lookers)]T

// findOdd works out, for every trait and looker, the chance that a state by the table is
// read as each state.
func findOdd(m *Model) {
	if m.rates.Lost == 0 {
		return // people of whom all is known
	}
	m.odd = make([]byLooker[[][]float64], len(m.traits))
	m.byLookers = make([]byLooker[[][]float64], len(m.traits))
	for l, people := range lookers {
		rates := m.rates.Times(people.times)
		for n, t := range m.traits {
			m.byLookers[n][l] = rates.believed(t.Trait)
			m.odd[n][l] = readUnlike(t, m.byLookers[n][l])
		}
	}
}

// readUnlike are readings of a trait where some of what is seen is not as the table has it.
func readUnlike(t *trait, readings [][]float64) [][]float64 {
	out := make([][]float64, len(t.States))
	for s := range out {
		out[s] = make([]float64, len(t.States))
		for is, share := range showsUnlike(t, s) {
			for j, p := range readings[is] {
				out[s][j] += share * p
			}
		}
	}
	return out
}

// showsUnlike is the chance of each state in what by the table has this one.
func showsUnlike(t *trait, state int) []float64 {
	own := make([]float64, len(t.States))
	own[state] = 1
	out := t.mistaken(own)
	for s := range out {
		out[s] *= unlikeTable * unlikeNear
	}
	out[state] += 1 - unlikeTable
	each := unlikeTable * (1 - unlikeNear) / float64(max(1, len(out)-1))
	for s := range out {
		share := each
		switch {
		case t.States[s].Leaves != nil:
			share *= imaginedShare
		case t.States[s].Striking:
			share *= unlikeStriking
		}
		if s != state {
			out[s] += share
			out[state] += each - share
		}
	}
	return out
}

// addOdd is the log-likelihood of every kind, or nil for none, with how many times as
// likely as by the readings of the vocabulary alone all that was seen is.
func addOdd(m *Model, log []float64, seen []uint64, given []given) []float64 {
	counts := oddCounts(min(known(seen), answersIn(given)))
	if m.odd == nil || counts == 0 {
		return log
	}
	shares, times := sharesOf(given), timesOdd(m, seen)
	out := make([]float64, len(m.kinds))
	copy(out, log)
	for i := range out {
		sum := 0.0
		for l, share := range shares {
			sum += share * times[l][i]
		}
		out[i] += math.Log(1 - counts + counts*sum)
	}
	return out
}

// oddCounts is how far it counts that something may be odd, 0 to 1, by of how many traits
// something is known, and by as many answers.
func oddCounts(known int) float64 {
	return min(1, max(0, float64(known-oddBeyond)/(oddInFull-oddBeyond)))
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

// sharesOf is how likely each of the lookers is, by how often the person could not tell.
func sharesOf(given []given) (shares byLooker[float64]) {
	sum := 0.0
	for l, people := range lookers {
		shares[l] = people.share
		for i := range given {
			if people.times > 1 && given[i].asked && given[i].pick == Unsure {
				shares[l] *= carelessUntold
			}
		}
		sum += shares[l]
	}
	for l := range shares {
		shares[l] /= sum
	}
	return shares
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

// timesOdd is, by looker and kind, how many times as likely what was seen is.
func timesOdd(m *Model, seen []uint64) (times byLooker[[]float64]) {
	for n, states := range seen {
		if states == 0 {
			continue
		}
		h := m.hangsOn(n)
		for l, of := range timesOddOf(m, n, states, h != nil && h.affirmed(seen[h.whole])) {
			if times[l] == nil {
				times[l] = of
				continue
			}
			for i, x := range of {
				times[l][i] *= x
			}
		}
	}
	return times
}

// timesOddOf is that of one trait, there if it is known to be there.
func timesOddOf(m *Model, n int, states uint64, there bool) (times byLooker[[]float64]) {
	t, odd := m.traits[n], byLooker[[][]float64]{}
	for l := range times {
		times[l], odd[l] = make([]float64, len(m.kinds)), chancesOf(m.odd[n][l], states)
	}
	usual := chancesOf(t.readings, states)
	for i := range m.kinds {
		truth := t.truth[i]
		if there && !wholeAlways(m, m.hangs[n], i) {
			truth = statesBut(truth, m.hangs[n].none)
		}
		read := seenAs(truth, usual)
		for l := range times {
			times[l][i] = seenAs(truth, odd[l]) / read
		}
	}
	return times
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

// settlesAt is the probability of a name at which questions stop. Whoever asks for a
// name no surer than is required gets it at that.
func settlesAt(q *Inquiry) float64 {
	if q.model.odd == nil || q.opts.Settle == q.opts.Required {
		return q.opts.Settle
	}
	return max(q.opts.Settle, oddSettle)
}
