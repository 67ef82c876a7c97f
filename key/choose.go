package key

import (
	"math"
	"slices"

	"rillkey/couplets"
)

// doubted is the share of the belief that the author's order must keep: with
// less on what its walk leaves possible, an earlier answer was likely misread,
// and the rest of the path would ask about another animal.
const doubted = 0.5

// atHome is the share of the belief that must lie beneath a couplet for it to be
// asked out of its turn. Its words were written for the animals beneath it: to
// anyone else they would name an animal that is not in the tray. The trait by
// itself asks the same in words for all.
const atHome = 0.9

// After "can't tell", or after something was said unasked, the author's couplet is asked
// while it is worth this share of the best question; a question is asked while it is
// expected to tell so many bits, the chance that it cannot be answered considered
// (memory), and while fewer than so many could not be told, in all and in a row. Of
// accounts of animals in words, those with odd numbers, as many come out as narrow at 0.02
// as at 0.03, which asks 0.1 less that cannot be told, but one fewer of those said in own
// words, and at 0.045 three fewer; of hard people's names 0.3 in 100 fewer are right at
// 0.03. As many come out with five in a row as with more, and fewer with four.
const (
	serves      = 0.5
	tooLittle   = 0.02
	mostUntold  = 12
	untoldInRow = 5
	moreInRow   = 1.3
)

// Question is what to ask now, nil when there is nothing more to ask: the name
// is sure enough, nothing left to ask would tell, or enough was asked.
func (q *Inquiry) Question() *Question {
	if !q.chosen {
		q.question, q.chosen = chooseNext(q), true
	}
	return q.question
}

func chooseNext(q *Inquiry) *Question {
	if q.stopped || q.Questions() >= q.opts.Most {
		return nil
	}
	if settled(q) {
		return nil
	}
	gone, doubted := goneFrom(q)
	next := chooseOf(q, gone)
	if next == nil && doubted {
		next = chooseOf(q, nil)
	}
	if next != nil && nearlyOne(q) && keepsTheName(q, next) {
		return nil
	}
	return next
}

// nearlyOne reports whether one kind of the key is as probable as a name is to be, and has
// it: what is open then is mostly whether the animal is one that the key leaves out.
func nearlyOne(q *Inquiry) bool {
	top := likeliestOf(q)
	return q.suppose == nil && top < len(q.model.ends) && q.belief.P()[top] >= q.opts.Required && seenTraits(q) >= leastSeen &&
		len(q.Likely(max(leastPossible, q.opts.Settle))) == 1
}

// keepsTheName reports whether the likeliest kind keeps the required probability whatever
// is answered.
func keepsTheName(q *Inquiry, asked *Question) bool {
	top := likeliestOf(q)
	for _, pick := range asked.picks() {
		says, err := asked.conditions(pick)
		if err != nil {
			return false
		}
		q.take(given{question: *asked, pick: pick, says: says, asked: true})
		kept := q.belief.P()[top] >= q.opts.Required
		q.Back()
		if !kept {
			return false
		}
	}
	return true
}

// picks are the answers that a question offers.
func (q Question) picks() (out []string) {
	switch {
	case q.Couplet != nil:
		for _, l := range q.Couplet.Leads {
			out = append(out, l.Letter)
		}
		return out
	case len(q.Left) > 0:
		return q.Left
	}
	return q.Trait.StateIDs()
}

// chooseOf is what to ask now but for traits of which nothing is to be seen.
func chooseOf(q *Inquiry, gone []bool) *Question {
	c := keyedBy(q, gone)
	if c != nil && tellsAll(q) {
		return &Question{Couplet: c, Phase: Keyed}
	}
	phase := Chosen
	if q.opts.Order == AuthorsOrder && q.walk.Ended() {
		phase = Confirming
		if isConfirmed(q) >= q.opts.Confirm {
			return nil
		}
	}
	next, most := bestOf(q, phase, gone)
	if c != nil && massBeneath(q, c) >= atHome &&
		worthOf(q, q.model.number(Question{Couplet: c}), heldBy(q), canBeTold(q)).worth >= serves*most.worth {
		return &Question{Couplet: c, Phase: Keyed}
	}
	if q.suppose == nil && promisesTooLittle(q, most.hoped) {
		return nil
	}
	return next
}

// promisesTooLittle reports whether somebody who could not tell so much as this one is
// not asked what is expected to tell so many bits.
func promisesTooLittle(q *Inquiry, hoped float64) bool {
	n, row := untoldOf(q), untoldNow(q)
	if n == 0 {
		return false
	}
	least := tooLittle * math.Pow(moreInRow, float64(max(0, row-1))) * float64(n) / float64(q.Questions())
	return n >= mostUntold || row >= untoldInRow || hoped < least
}

// keyedBy is the couplet that is next in the author's order, nil where that order
// does not serve: the walk has ended, or the belief has left its path. Where
// somebody could not tell, both branches are gone through.
func keyedBy(q *Inquiry, gone []bool) *couplets.Couplet {
	c := q.walk.Couplet()
	if c == nil || q.opts.Order != AuthorsOrder || q.suppose != nil {
		return nil
	}
	n := q.model.number(Question{Couplet: c})
	if a := &q.model.asks[n]; q.opts.NoLens && q.model.needsLens(a) || closedTo(q)[n] || a.speaksOf(gone) || asksInVain(q, a) {
		return nil
	}
	left, p := 0.0, q.belief.P()
	q.walk.possible().Each(func(i int) { left += p[i] })
	if left < doubted*(1-q.strangerProbability()) {
		return nil
	}
	return c
}

// isConfirmed counts the questions that were asked to confirm.
func isConfirmed(q *Inquiry) int {
	n := 0
	for i := range q.given {
		if q.given[i].asked && q.given[i].question.Phase == Confirming {
			n++
		}
	}
	return n
}

// value is what a question is worth.
type value struct {
	bits  float64 // expected information
	hoped float64 // that times the chance that the person can answer
	worth float64 // that for its effort
}

func worthOf(q *Inquiry, ask int, held *group, told [4]float64) value {
	a := &q.model.asks[ask]
	bits := gainOf(q, ask, held)
	hoped := bits * answerable(q, a, told)
	return value{bits, hoped, hoped / math.Sqrt(q.model.effort(a, q.opts.Effort))}
}

// bestOf is the question with the highest expected information for its effort
// among all that can still be asked, nil when none tells anything to speak of.
func bestOf(q *Inquiry, phase Phase, gone []bool) (*Question, value) {
	closed, held, implied, told := closedTo(q), heldBy(q), impliedBy(q), canBeTold(q)
	found, most := -1, value{}
	for i := range q.model.asks {
		a := &q.model.asks[i]
		if closed[i] || a.speaksOf(gone) || asksInVain(q, a) ||
			a.couplet == nil && outOfPlace(q, a.traits[0]) || q.model.idle(a, implied) || q.opts.NoLens &&
			q.model.needsLens(a) || a.couplet != nil && massBeneath(q, a.couplet) < atHome {
			continue
		}
		if v := worthOf(q, i, held, told); v.bits >= q.opts.Least && v.worth > most.worth {
			found, most = i, v
		}
	}
	if found < 0 {
		return nil, most
	}
	a := &q.model.asks[found]
	if a.couplet != nil {
		return &Question{Couplet: a.couplet, Phase: phase, Gain: most.bits}, most
	}
	return &Question{Trait: a.trait.Trait, Left: leftIn(q, a), Phase: phase, Gain: most.bits}, most
}

// leftIn are the states that what was seen of a trait, or of that on which it hangs,
// leaves, nil for all.
func leftIn(q *Inquiry, a *ask) []string {
	seen := q.belief.Seen(a.traits[0])
	if h := q.model.hangsOn(a.traits[0]); h != nil && h.affirmed(q.belief.Seen(h.whole)) {
		if seen == 0 {
			seen = 1<<len(a.trait.States) - 1
		}
		if !h.lacking {
			seen &^= 1 << h.none
		}
	}
	if seen == 0 {
		return nil
	}
	var out []string
	for i, id := range a.trait.StateIDs() {
		if seen&(1<<i) != 0 {
			out = append(out, id)
		}
	}
	return out
}

// massBeneath is the probability of the end points beneath a couplet.
func massBeneath(q *Inquiry, c *couplets.Couplet) float64 {
	k := q.model.key
	mass, p := 0.0, q.belief.P()
	k.sound.EndsBeneath(k.sound.Place(c.ID)).Each(func(i int) { mass += p[i] })
	return mass
}

// gainOf is what a question is expected to tell, in bits. Once a set is held, it is
// what the question tells of which one of the set the animal is; once a kind is
// probable enough to be named, it is what it tells of whether it is that.
func gainOf(q *Inquiry, ask int, held *group) float64 {
	top := likeliestOf(q)
	switch {
	case q.suppose == nil && held != nil:
		return gainWithin(q, ask, held)
	case q.suppose == nil && q.belief.P()[top] >= q.opts.Required:
		in := make([]bool, len(q.model.kinds))
		in[top] = true
		return q.belief.GainOn(ask, in)
	case q.suppose == nil:
		return q.belief.Gain(ask)
	case massIn(q.belief.P(), q.suppose.ends) >= q.opts.Settle:
		return q.suppose.strict.GainOn(ask, q.suppose.ends)
	}
	return q.belief.GainOn(ask, q.suppose.ends)
}

// gainWithin is what a question tells of which one of a set the animal is: all
// that it tells, less what it tells of whether it is of the set (the chain rule
// of information).
func gainWithin(q *Inquiry, ask int, g *group) float64 {
	in := make([]bool, len(q.model.kinds))
	for _, i := range g.ends {
		in[i] = true
	}
	return q.belief.Gain(ask) - q.belief.GainOn(ask, in)
}

// closedTo are the questions not to be asked, or not again, by number: those for a
// likeness, those that were answered, a trait by itself of which one state is left, and
// all that speak of a trait that nobody could tell. A couplet that does not offer every
// state of its trait leaves the trait open: perhaps the animal's state was not among its
// leads.
func closedTo(q *Inquiry) []bool {
	unseen := make([]bool, len(q.model.traits))
	out := make([]bool, len(q.model.asks))
	for i := range q.given {
		g := &q.given[i]
		if !g.asked {
			continue
		}
		n := q.model.number(g.question)
		a := &q.model.asks[n]
		out[n] = true
		if g.pick == Unsure && offersAll(q, a) {
			unseen[a.traits[0]] = true
		}
	}
	for n := range q.model.asks {
		out[n] = out[n] || q.model.asks[n].likens() || slices.ContainsFunc(q.model.asks[n].traits, func(t int) bool { return unseen[t] })
	}
	return out
}

// number is that of a question among all that can be asked.
func (m *Model) number(q Question) int {
	return slices.IndexFunc(m.asks, func(a ask) bool {
		return a.couplet == q.Couplet && (a.trait == nil || a.trait.Trait == q.Trait)
	})
}

// offersAll reports whether a question has an answer for every state that is left of the
// one trait it speaks of.
func offersAll(q *Inquiry, a *ask) bool {
	if a.couplet == nil {
		return true
	}
	if len(a.traits) > 1 {
		return false
	}
	offered := uint64(0)
	for _, l := range a.couplet.Leads {
		offered |= q.model.parts(l.Conditions)[0].States
	}
	left := q.belief.Seen(a.traits[0])
	if left == 0 {
		left = 1<<len(q.model.traits[a.traits[0]].States) - 1
	}
	return left&^offered == 0
}
