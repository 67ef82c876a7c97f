package key

import (
	"slices"

	"rillkey/taxa"
)

// What people can tell of an animal when they are asked (memory, but for the
// order: of accounts by people who wrote what they saw unasked, five in six tell
// the colour, two in three the movement, half the legs and outline, hardly one what
// takes a lens, and hardly one what is not there). Chosen by the accounts with odd
// numbers, about which they come out alike.
const (
	toldAtAGlance = 0.85
	toldByEye     = 0.35
	toldInTime    = 0.4
	toldByLens    = 0.2
	toldStriking  = 0.8  // what nobody overlooks
	toldUsual     = 0.25 // how much less often what most animals show, or lack, is told
	// toldStrength is how many questions these chances are worth, beside what the
	// person could tell so far.
	toldStrength = 3
	// easierUntold is how much "can't tell" counts against what is easier to see.
	easierUntold = 0.5
	// unsureAgain is the chance that somebody who could not tell a trait in one
	// question can tell it in another, or tell what hangs on it.
	unsureAgain = 0.5
	// toldOfPart is the least chance that somebody who told of a part that is not
	// everybody's can tell what it is like, lens or none: of those whose accounts have
	// gills, a case or suckers in them 67 in 167 times tell what else hangs on these.
	toldOfPart = 0.4
)

// ease says how easily a trait is seen, 0 the most easily.
func ease(t *taxa.Trait) int {
	switch {
	case t.Glance:
		return 0
	case t.Look == taxa.Lens:
		return 3
	case t.Look == taxa.Patience:
		return 2
	}
	return 1
}

// untoldNow is how many of the last questions could not be told, one behind another.
func untoldNow(q *Inquiry) int {
	n := 0
	for i := len(q.given) - 1; i >= 0 && q.given[i].asked && q.given[i].pick == Unsure; i-- {
		n++
	}
	return n
}

// untoldOf is how many questions could not be told.
func untoldOf(q *Inquiry) int {
	n := 0
	for i := range q.given {
		if q.given[i].asked && q.given[i].pick == Unsure {
			n++
		}
	}
	return n
}

// tellsAll reports whether the person is taken to be able to tell whatever is asked: who
// could tell everything so far, and said nothing unasked. Who did has said what strikes
// them, and of the next things asked every second one could not be told (of accounts of
// animals in words).
func tellsAll(q *Inquiry) bool {
	return untoldOf(q) == 0 && !slices.ContainsFunc(q.given, func(g given) bool { return !g.asked && !g.retold && len(g.says) > 0 })
}

// answerable is the chance that the person can answer a question, as things
// stand: by how easily its traits are seen, by whether this animal is likely to
// show what nobody overlooks or what all show, and by what the person could tell so
// far.
func answerable(q *Inquiry, a *ask, told [4]float64) float64 {
	if tellsAll(q) {
		return 1
	}
	chance := told[q.model.hardest(a)]
	if a.couplet == nil && toldOfWhole(q, a.traits[0]) {
		chance = max(chance, toldOfPart)
	}
	if len(a.traits) == 1 {
		striking, usual := q.model.overlookedByNobody(a.traits[0]), q.model.unremarkable(a.traits[0])
		strikes, goes := readAs(q, a.traits[0], striking), readAs(q, a.traits[0], usual&^striking)
		chance = strikes*toldStriking + (max(0, 1-strikes-goes)+goes*toldUsual)*chance
	}
	chance *= leastTold(q.model, a)
	if slices.ContainsFunc(a.traits, func(t int) bool { return passedOver(q, t) }) {
		chance *= toldPassed
	}
	for i := range q.given {
		g := &q.given[i]
		if !g.asked || g.pick != Unsure {
			continue
		}
		before := &q.model.asks[q.model.number(g.question)]
		if slices.ContainsFunc(a.traits, func(t int) bool { return slices.Contains(before.traits, t) || g.hangs[t] }) {
			return chance * unsureAgain
		}
	}
	return chance
}

// leastTold is how many times as often as what takes as much to see the trait of a question
// that is least often told is told.
func leastTold(m *Model, a *ask) float64 {
	least := 1.0
	for _, t := range a.traits {
		if told := m.traits[t].Told; told > 0 {
			least = min(least, told)
		}
	}
	return least
}

// toldOfWhole reports whether a trait hangs on something that was seen and that most
// animals do not have.
func toldOfWhole(q *Inquiry, trait int) bool {
	h := q.model.hangsOn(trait)
	if h == nil {
		return false
	}
	seen := q.belief.Seen(h.whole)
	return h.affirmed(seen) && seen&q.model.unremarkable(h.whole) == 0
}

// canBeTold is, by ease, the chance that the person can tell what is asked. Whoever
// cannot tell something will hardly tell what is harder to see.
func canBeTold(q *Inquiry) [4]float64 {
	chance := [4]float64{toldAtAGlance, toldByEye, toldInTime, toldByLens}
	var asked, told [4]float64
	for i := range q.given {
		g := &q.given[i]
		if !g.asked {
			continue
		}
		at := q.model.hardest(&q.model.asks[q.model.number(g.question)])
		for e := range chance {
			switch {
			case g.pick == Unsure && e < at:
				asked[e] += easierUntold
			case g.pick == Unsure:
				asked[e]++
			case e <= at:
				asked[e]++
				told[e]++
			}
		}
	}
	for e := range chance {
		chance[e] = (chance[e]*toldStrength + told[e]) / (toldStrength + asked[e])
	}
	return chance
}

// hardest is the ease of the trait of a question that is hardest to see.
func (m *Model) hardest(a *ask) int {
	at := 0
	for _, t := range a.traits {
		at = max(at, ease(m.traits[t].Trait))
	}
	return at
}

// overlookedByNobody are the states of a trait that strike everybody, as bits.
func (m *Model) overlookedByNobody(trait int) uint64 {
	states := uint64(0)
	for s, state := range m.traits[trait].States {
		if state.Striking {
			states |= 1 << s
		}
	}
	return states
}

// unremarkable are the states of a trait that most animals show, or that say that it
// is not there, as bits.
func (m *Model) unremarkable(trait int) uint64 { return m.shown.usual[trait] | m.shown.none[trait] }

// readAs is the probability that a trait is read as one of these states.
func readAs(q *Inquiry, trait int, states uint64) float64 {
	read := 0.0
	if states == 0 {
		return 0
	}
	for i, p := range q.belief.P() {
		if p > negligible {
			read += p * q.model.table.Likelihood(trait, states, i)
		}
	}
	return min(1, read)
}

// negligible is the probability of a kind that need not be looked at.
const negligible = 1e-6
