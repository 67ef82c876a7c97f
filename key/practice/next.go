package practice

import (
	"math/rand/v2"
	"slices"
	"time"
)

// What one more animal is expected to do: the part of a kind's error on sight, and of
// a misreading that is set right, that goes (tuned on simulated learners).
const (
	sightGain   = 0.4
	readingGain = 0.3
)

const (
	// restAfterCall is how many animals lie between two comparisons that errors call.
	restAfterCall = 6
	// heldBack is what is left of the worth of a kind that is among those met last: a
	// sitting brings few kinds twice, but those that were confused (tuned as well).
	heldBack = 0.02
)

// weights are what a misread of each state of each trait costs in all tallies to come.
type weights struct {
	states [][]float64
	kinds  []float64 // what the errors on each kind cost
	times  []float64
}

// weigh is what this person's errors cost at a moment.
func (l *Learner) weigh(at time.Time) weights {
	c := l.course
	prior := l.firsts.prior()
	w := weights{make([][]float64, len(c.traits)), make([]float64, len(c.kinds)), l.allTimes()}
	for n, t := range c.traits {
		w.states[n] = make([]float64, len(t.States))
	}
	for i := range c.kinds {
		right, wrong := l.sights[i].now(at, prior)
		silent := max(0, 1-right-wrong)
		_, cost := l.walkError(i, w.times)
		w.kinds[i] = c.common[i] * (wrong*l.sightPrice(i) + silent*cost)
		for k := range c.steps[i] {
			s := &c.steps[i][k]
			for state, share := range s.share {
				w.states[s.trait][state] += c.common[i] * silent * s.visit * share * s.price
			}
		}
	}
	return w
}

// sightPrice is what a wrong name on sight costs: by the kinds that this one was taken
// for, and that it is like.
func (l *Learner) sightPrice(kind int) float64 {
	sum, total := 0.0, 0.0
	for j, n := range l.sights[kind].taken {
		sum += n * l.course.price[kind][j]
		total += n
	}
	for _, j := range l.course.alike[kind] {
		sum += 0.5 * l.course.price[kind][j]
		total += 0.5
	}
	if total == 0 {
		return 0.5
	}
	return sum / total
}

// gains are the cost that one animal of each kind is expected to take away.
func (l *Learner) gains(at time.Time) []float64 {
	w := l.weigh(at)
	out := make([]float64, len(l.course.kinds))
	for i := range out {
		out[i] = sightGain * w.kinds[i]
		for k := range l.course.steps[i] {
			s := &l.course.steps[i][k]
			for state, share := range s.share {
				if share > 0 {
					m := l.misreading(s.trait, state, w.times[s.trait], s.fits)
					out[i] += readingGain * s.visit * share * m * m * w.states[s.trait][state]
				}
			}
		}
	}
	return out
}

// Next is the kind to be met next: one that a comparison calls, else the one that is
// expected to take most error from the tallies to come. Kinds met just before are held
// back, and the one met last never comes again at once; r parts equals.
func (l *Learner) Next(at time.Time, r *rand.Rand) string {
	for len(l.calls) > 0 {
		next := l.calls[0]
		l.calls = l.calls[1:]
		if !l.justMet(next, 1) {
			return l.course.kinds[next].ID
		}
	}
	best, most := -1, 0.0
	for i, g := range l.gains(at) {
		switch {
		case l.justMet(i, 1):
			continue
		case l.justMet(i, rememberLast):
			g *= heldBack
		}
		g *= 1 + 1e-6*r.Float64()
		if best < 0 || g > most {
			best, most = i, g
		}
	}
	return l.course.kinds[best].ID
}

// justMet reports whether a kind is among so many that were met last.
func (l *Learner) justMet(kind, among int) bool {
	return slices.Contains(l.last[max(0, len(l.last)-among):], kind)
}

// call has an error call a comparison of exactly the two kinds confused: the one it
// was taken for, then its own again.
func (l *Learner) call(kind int, m *Meeting) {
	if m.Test != "" || m.Right() || l.sinceCall < restAfterCall || len(l.calls) > 0 {
		return
	}
	if other, ok := l.course.kindPlace[m.takenFor()]; ok && other != kind {
		l.calls, l.sinceCall = append(l.calls, other, kind), 0
	}
}
