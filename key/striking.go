package key

import (
	"math"
	"slices"

	"rillkey/taxa"
)

// TraitState is one state of a trait, as something to look for.
type TraitState struct {
	Trait  *taxa.Trait
	State  string  // id
	Chance float64 // that this animal is seen to show it, as things stand
}

// leastChance is the chance below which nobody is asked whether something
// strikes them: it would be missed in nearly every tray.
const leastChance = 0.01

// leastStriking is the information in bits below which a mark is not worth a
// place in the list.
const leastStriking = 0.05

// Striking are up to most marks that nobody overlooks and that, said at once,
// would tell most about this animal for the effort of looking. Each is chosen as
// if none before it were there, so that together they part what is left. What was
// said or left open before is not among them, nor what needs a lens.
func (q *Inquiry) Striking(most int) []TraitState {
	rest := slices.Clone(q.belief.P())
	open := strikingMarks(q)
	var out []TraitState
	for len(out) < most {
		best, most := -1, 0.0
		for i := range open {
			bits := open[i].yesOrNo(rest) / q.opts.Effort.forLook(open[i].Trait.Look)
			if !open[i].taken && bits > most {
				best, most = i, bits
			}
		}
		if best < 0 || most < leastStriking {
			break
		}
		open[best].taken = true
		out = append(out, open[best].TraitState)
		ruleOut(rest, open[best].shows)
	}
	return out
}

// marked is a mark that may be offered.
type marked struct {
	TraitState
	sight
	taken bool
}

// sight is what a mark says of the kinds, by kind.
type sight struct {
	trait   int       // its number in the model
	state   string    // id
	shows   []float64 // the chance that the mark is seen
	entropy []float64 // the entropy of that in bits
}

// sights are those of all marks that strike people and need no lens.
func (m *Model) sights() (out []sight) {
	for n, t := range m.traits {
		for s, state := range t.States {
			if !state.Striking || t.Look == taxa.Lens {
				continue
			}
			one := sight{n, state.ID, make([]float64, len(m.kinds)), make([]float64, len(m.kinds))}
			for i := range one.shows {
				one.shows[i] = m.table.Likelihood(n, 1<<s, i)
				one.entropy[i] = entropy2(one.shows[i])
			}
			out = append(out, one)
		}
	}
	return out
}

// strikingMarks are all that can still be offered.
func strikingMarks(q *Inquiry) []marked {
	var out []marked
	gone, _ := goneFrom(q)
	for _, one := range q.model.striking() {
		t := q.model.traits[one.trait]
		if q.belief.Seen(one.trait) != 0 || gone != nil && gone[one.trait] || leftOpen(q, t.Trait) {
			continue
		}
		m := marked{TraitState: TraitState{Trait: t.Trait, State: one.state}, sight: one}
		for i, p := range q.belief.P() {
			m.Chance += p * m.shows[i]
		}
		if m.Chance >= leastChance {
			out = append(out, m)
		}
	}
	return out
}

// yesOrNo is the information in bits that yes or no is expected to give about the
// end point, of chances p: its mutual information with it.
func (s sight) yesOrNo(p []float64) float64 {
	chance, within := 0.0, 0.0
	for i, x := range p {
		chance += x * s.shows[i]
		within += x * s.entropy[i]
	}
	return entropy2(chance) - within
}

// entropy2 is the entropy of a coin in bits.
func entropy2(x float64) float64 {
	if x <= 0 || x >= 1 {
		return 0
	}
	return -x*math.Log2(x) - (1-x)*math.Log2(1-x)
}

// ruleOut makes p what is left where the answer was no.
func ruleOut(p, yes []float64) {
	sum := 0.0
	for i := range p {
		p[i] *= 1 - yes[i]
		sum += p[i]
	}
	for i := range p {
		p[i] /= max(sum, math.SmallestNonzeroFloat64)
	}
}

// leftOpen reports whether the trait was asked and could not be told.
func leftOpen(q *Inquiry, t *taxa.Trait) bool {
	return slices.ContainsFunc(q.given, func(g given) bool {
		return g.pick == Unsure && g.question.Trait == t
	})
}
