package key

import (
	"math"
	"slices"

	"rillkey/taxa"
)

// Mark is one state of a trait, as something to look for.
type Mark struct {
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
func (q *Inquiry) Striking(most int) []Mark {
	rest := slices.Clone(q.belief.P())
	open := q.strikingMarks()
	var out []Mark
	for len(out) < most {
		best, most := -1, 0.0
		for i := range open {
			bits := yesOrNo(rest, open[i].shows) / q.opts.Effort.forLook(open[i].Trait.Look)
			if !open[i].taken && bits > most {
				best, most = i, bits
			}
		}
		if best < 0 || most < leastStriking {
			break
		}
		open[best].taken = true
		out = append(out, open[best].Mark)
		ruleOut(rest, open[best].shows)
	}
	return out
}

// marked is a mark that may be offered.
type marked struct {
	Mark
	shows []float64 // by kind, the chance that it is seen
	taken bool
}

// strikingMarks are all that can still be offered.
func (q *Inquiry) strikingMarks() []marked {
	var out []marked
	for n, t := range q.model.traits {
		if q.belief.Seen(n) != 0 || q.leftOpen(t.Trait) || t.Look == taxa.Lens {
			continue
		}
		for s, state := range t.States {
			if !state.Striking {
				continue
			}
			m := marked{Mark: Mark{Trait: t.Trait, State: state.ID}, shows: q.model.shows(n, s)}
			for i, p := range q.belief.P() {
				m.Chance += p * m.shows[i]
			}
			if m.Chance >= leastChance {
				out = append(out, m)
			}
		}
	}
	return out
}

// shows is, by kind, the chance that a trait is read as a state.
func (m *Model) shows(trait, state int) []float64 {
	out := make([]float64, len(m.kinds))
	for i := range out {
		out[i] = m.table.Likelihood(trait, 1<<state, i)
	}
	return out
}

// yesOrNo is the information in bits that yes or no is expected to give about the
// end point: its mutual information with it.
func yesOrNo(p, yes []float64) float64 {
	chance, within := 0.0, 0.0
	for i, x := range p {
		chance += x * yes[i]
		within += x * entropy2(yes[i])
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
func (q *Inquiry) leftOpen(t *taxa.Trait) bool {
	return slices.ContainsFunc(q.given, func(g given) bool {
		return g.pick == Unsure && g.question.Trait == t
	})
}
