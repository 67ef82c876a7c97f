package key

import (
	"cmp"

	"rillkey/key/belief"
	"rillkey/taxa/sorting"
)

// Suspect is an answer with the chance that it is wrong.
type Suspect struct {
	Given       int    // its place in [Inquiry.Given]
	Answer      string // "4a", "tails=2"
	Probability float64
	// Again says that it was looked at again: nothing is gained by a third look.
	Again bool
}

// unlikeShare is how much of what animals show is not as the catalog has it for
// their kind: the young, the odd, and what the catalog has wrong. Of that nearShare
// is a state that people mistake for the catalog's, as what looks much alike passes
// into the other in animals too, and the rest any state. Without either every answer
// that the catalog does not expect is called a misreading: of accounts of animals in
// words, all true, one in five then has an answer accused; with the first alone one
// in eleven, with both fewer than one in ninety.
const (
	unlikeShare = 0.3
	nearShare   = 0.5
)

// Suspects gives, for every answer and observation of a trait, the probability
// that the animal truly has none of the states the answer stands for, given all
// that was said: the most suspect first, of equals the later, and what was looked
// at again last. An answer that combines traits is wrong when it is wrong in any
// of them.
func (q *Inquiry) Suspects() []Suspect {
	var out []Suspect
	asked, people := beliefUnheard(q), lookersOf(q)
	for i := range q.given {
		if g := &q.given[i]; len(g.says) > 0 {
			out = append(out, Suspect{i, g.answer(), suspicion(q, g, asked, people), g.stood > 0 || len(g.earlier) > 0})
		}
	}
	sorting.Stable(out, func(a, b Suspect) int {
		if a.Again != b.Again {
			return map[bool]int{true: 1, false: -1}[a.Again]
		}
		return cmp.Or(cmp.Compare(b.Probability, a.Probability), cmp.Compare(b.Given, a.Given))
	})
	return out
}

// suspicion is the probability that an answer is wrong. Who chose an answer among
// others is not accused because of words of their own, which may have been
// misunderstood: so it is wrong by what was asked alone, too.
func suspicion(q *Inquiry, g *given, asked *belief.Belief, people *lookersTold) float64 {
	if g.heard {
		return suspicionOfWords(q, g)
	}
	wrong := wrongByLookers(q, g, people)
	if asked == nil {
		return wrong
	}
	return min(wrong, chanceWrong(q.model, asked, g, true))
}

// suspicionOfWords is the probability that own words are wrong because the animal was
// misread: where they were misunderstood, nobody who said them is to look again. All
// that was said of one trait is one saying, wrong only if nothing of it is so: an
// animal of which somebody says that it loops and that it swims does either.
func suspicionOfWords(q *Inquiry, g *given) float64 {
	parts, misread := q.model.parts(g.says), 1.0
	for i := range parts {
		if q.model.traits[parts[i].Trait].Likeness {
			return 0 // nobody looks again at what it reminded them of
		}
		parts[i].States = heardOf(q, parts[i].Trait)
		rate := unaskedMisread * q.model.rates.Misread[q.model.traits[parts[i].Trait].ID]
		misread = min(misread, rate/(rate+mistakenWords))
	}
	return misread * chanceWrongIn(q.model, q.belief, g, parts, true)
}

// heardOf is all that was said of a trait in own words, as bits.
func heardOf(q *Inquiry, trait int) (states uint64) {
	for i := range q.given {
		if !q.given[i].heard {
			continue
		}
		for _, part := range q.model.parts(q.given[i].says) {
			if part.Trait == trait {
				states |= part.States
			}
		}
	}
	return states
}

// beliefUnheard is the belief by all that was not said in own words, nil where that is
// all or nothing.
func beliefUnheard(q *Inquiry) *belief.Belief {
	var asked []given
	for i := range q.given {
		if !q.given[i].heard {
			asked = append(asked, q.given[i])
		}
	}
	if q.suppose != nil || len(asked) == len(q.given) {
		return nil
	}
	b := q.model.table.New()
	states, other := evidenceOf(q.model, asked)
	b.ObserveAll(states, addOdd(q.model, other, states, asked))
	return b
}

// chanceWrong is the posterior probability that an answer is wrong, where all that animals
// show is as the table has it or, if unlike, unlikeShare of it is not. Given the kind,
// traits are independent, and what was read of each is known.
func chanceWrong(m *Model, b *belief.Belief, g *given, unlike bool) float64 {
	return chanceWrongIn(m, b, g, m.parts(g.says), unlike)
}

// chanceWrongIn is that of some parts of an answer.
func chanceWrongIn(m *Model, b *belief.Belief, g *given, parts []belief.Accepted, unlike bool) float64 {
	read, show := make([]readPart, len(parts)), make([][][]float64, len(parts))
	for n, part := range parts {
		t := m.traits[part.Trait]
		read[n], show[n] = m.readPart(g, part, t.readings, b.Seen(part.Trait)), t.truth
		if unlike {
			show[n] = t.unlikeTable()
		}
	}
	right := 0.0
	for i, p := range b.P() {
		if p < 1e-12 {
			continue
		}
		for n := range read {
			p *= read[n].rightly(show[n][i])
		}
		right += p
	}
	return min(1, max(0, 1-right))
}

// lookersTold is what all answers together tell of which of the lookers somebody is.
type lookersTold struct {
	counts float64 // how far it counts; 0 where nothing does
	seen   []uint64
	shares byLooker[float64]
	times  byLooker[[]float64] // by kind, how many times as likely what was seen is
}

func lookersOf(q *Inquiry) *lookersTold {
	m := q.model
	p := &lookersTold{seen: make([]uint64, len(m.traits))}
	for n := range p.seen {
		p.seen[n] = q.belief.Seen(n)
	}
	if m.odd == nil {
		return p
	}
	if p.counts = oddCounts(min(known(p.seen), answersIn(q.given))); p.counts > 0 {
		p.shares, p.times = sharesOf(q.given), timesOdd(m, p.seen)
	}
	return p
}

// wrongByLookers is the posterior probability that an answer is wrong, by which of the
// lookers all answers together tell that somebody is: of the careful what is odd is
// rather the animal's.
func wrongByLookers(q *Inquiry, g *given, people *lookersTold) float64 {
	m := q.model
	if people.counts == 0 {
		return chanceWrong(m, q.belief, g, true)
	}
	parts := m.parts(g.says)
	show := make([][][]float64, len(parts))
	usual, by := make([]readPart, len(parts)), byLooker[[]readPart]{}
	for n, part := range parts {
		t, seen := m.traits[part.Trait], people.seen[part.Trait]
		show[n], usual[n] = t.unlikeTable(), m.readPart(g, part, t.readings, seen)
		for l := range lookers {
			by[l] = append(by[l], m.readPart(g, part, m.byLookers[part.Trait][l], seen))
		}
	}
	right := 0.0
	for i, p := range q.belief.P() {
		if p < 1e-6 {
			continue
		}
		together, all := 0.0, 0.0
		add := func(weight float64, read []readPart) {
			all += weight
			for n := range read {
				weight *= read[n].rightly(show[n][i])
			}
			together += weight
		}
		add(1-people.counts, usual)
		for l := range lookers {
			add(people.counts*people.shares[l]*people.times[l][i], by[l])
		}
		right += p * together / all
	}
	return min(1, max(0, 1-right))
}

// readPart is a part of an answer: the states that it stands for and, by true state, the
// chance that it is read so, and that it was at all other looks.
type readPart struct {
	states       uint64
	read, looked []float64
}

func (m *Model) readPart(g *given, part belief.Accepted, readings [][]float64, seen uint64) readPart {
	p := readPart{states: part.States, read: make([]float64, len(readings)), looked: make([]float64, len(readings))}
	for s := range readings {
		p.read[s], p.looked[s] = reads(readings[s], seen), m.looks(g, part, s)
	}
	return p
}

// rightly is the chance that an animal that shows states with these chances, and is read
// as it was, truly has one of those that the part stands for.
func (p *readPart) rightly(shows []float64) float64 {
	true_, all := 0.0, 0.0
	for s, share := range shows {
		read := share * p.read[s] * p.looked[s]
		all += read
		if p.states&(1<<s) != 0 {
			true_ += read
		}
	}
	return true_ / all
}

// showsUnlikeTable is, by kind, the chance of each state where unlikeShare of what animals
// show is not as the table has it.
func (t *trait) showsUnlikeTable() [][]float64 {
	any, out := 1/float64(len(t.States)), make([][]float64, len(t.truth))
	for i, truth := range t.truth {
		near, shows := t.mistaken(truth), make([]float64, len(truth))
		for s, share := range truth {
			shows[s] = (1-unlikeShare)*share + unlikeShare*((1-nearShare)*any+nearShare*near[s])
		}
		out[i] = shows
	}
	return out
}

// mistaken is, by state, the chance of what people mistake for the states of a kind;
// a state that nobody mistakes stays what it is.
func (t *trait) mistaken(truth []float64) []float64 {
	out := make([]float64, len(truth))
	for s, share := range truth {
		if alike := t.States[s].MistakenFor; share > 0 && len(alike) > 0 {
			spread(out, indexes(t.Trait, alike), share)
		} else {
			out[s] += share
		}
	}
	return out
}
