package practice

import (
	"cmp"
	"math"
	"slices"
	"time"

	"rillkey/taxa"
	"rillkey/taxa/sorting"
)

// Learner is what is known of one person. It is for one goroutine at a time.
type Learner struct {
	course    *Course
	rows      [][]row // by trait and state
	traits    []misreads
	all       misreads
	sights    []sight // by kind
	firsts    firsts
	pace      float64 // usual seconds to a name on sight, 0 before there is one
	last      []int   // the kinds met last, the newest at the end
	calls     []int   // kinds that a comparison calls next
	sinceCall int     // animals since a comparison was called
	counts    map[SpecimenSource]map[string]tally
}

// row is how often one state was read as each, the older the less; told is the part of
// it that was told of, which tests are not, and rightly how often it was read so after
// the last of these.
type row struct {
	read, told []float64
	rightly    int
}

// misreads is how many readings of a trait were misread, and how many were expected
// to be; the older the less.
type misreads struct{ seen, expected float64 }

// Weights of what was read before when something is read once more, and of priors,
// in readings (tuned on simulated learners; see package learnertest).
const (
	fadeRow   = 0.97
	fadeTrait = 0.98
	fadeAll   = 0.99
	priorRow  = 15.0
	// How many expected misreads it takes for a factor to be half learned.
	priorTrait = 4.0
	priorAll   = 3.0
)

// NewLearner is somebody of whom nothing is known.
func (c *Course) NewLearner() *Learner {
	l := &Learner{course: c, rows: make([][]row, len(c.traits)), traits: make([]misreads, len(c.traits)),
		sights: make([]sight, len(c.kinds)), sinceCall: restAfterCall, counts: map[SpecimenSource]map[string]tally{}}
	for i, t := range c.traits {
		l.rows[i] = make([]row, len(t.States))
		for s := range t.States {
			l.rows[i][s] = row{read: make([]float64, len(t.States)), told: make([]float64, len(t.States))}
		}
	}
	for i := range l.sights {
		l.sights[i] = newSight(len(c.kinds))
	}
	return l
}

// Take learns from a meeting. What the course does not know is passed over: a person's
// record outlives an edition of the key.
func (l *Learner) Take(m Meeting) {
	l.sinceCall++
	for i := range m.Readings {
		l.read(&m.Readings[i], &m)
	}
	kind, ok := l.course.kindPlace[m.Kind]
	if !ok {
		return
	}
	l.see(kind, &m)
	if l.last = append(l.last, kind); len(l.last) > rememberLast {
		l.last = l.last[1:]
	}
	l.call(kind, &m)
}

// rememberLast is how many of the kinds met last are held back.
const rememberLast = 20

// read takes in one reading. What was told in words hardly says how well somebody
// reads an animal, so that it counts for the rates of words alone.
func (l *Learner) read(r *Reading, m *Meeting) {
	n, ok := l.course.place[r.Trait]
	if !ok {
		return
	}
	t := l.course.traits[n]
	is := t.State(r.Is)
	if is < 0 || slices.ContainsFunc(r.Given, func(s string) bool { return t.State(s) < 0 }) || len(r.Given) == 0 {
		return
	}
	expected := 0.0
	for j, p := range l.course.prior[n][is] {
		if !slices.Contains(r.Fit, t.States[j].ID) {
			expected += p
		}
	}
	l.count(r, m.Source, expected)
	if m.Source == WordsSource {
		return
	}
	l.all.fade(fadeAll, r.Blame, expected)
	l.traits[n].fade(fadeTrait, r.Blame, expected)
	l.rows[n][is].fade(l.course.prior[n][is], is, r, t.State, m.Test == "")
}

func (m *misreads) fade(keep, wrong, expected float64) {
	m.seen = m.seen*keep + wrong
	m.expected = m.expected*keep + expected
}

// fade takes a reading into a row: as what was to be seen, where the answer holds it,
// else parted among the states that the answer stands for, as the vocabulary has it.
func (w *row) fade(prior []float64, is int, r *Reading, place func(string) int, told bool) {
	for j := range w.read {
		w.read[j] *= fadeRow
		w.told[j] *= fadeRow
	}
	w.read[is] += 1 - r.Blame
	if !r.Wrong() {
		w.rightly++
		return
	}
	if told {
		w.rightly = 0
	}
	total := 0.0
	for _, s := range r.Given {
		total += prior[place(s)] + 1e-6
	}
	for _, s := range r.Given {
		part := r.Blame * (prior[place(s)] + 1e-6) / total
		if w.read[place(s)] += part; told {
			w.told[place(s)] += part
		}
	}
}

// factor is how many times as often as expected somebody misreads.
func (m misreads) factor(strength, expectedTimes float64) float64 {
	return (strength + m.seen) / (strength + m.expected*expectedTimes)
}

// times is how many times as often as the vocabulary says the person misreads a trait.
func (l *Learner) times(trait int) float64 {
	all := l.all.factor(priorAll, 1)
	return all * l.traits[trait].factor(priorTrait, all)
}

// reading fills out with the chances that the person reads a state of a trait as each.
func (l *Learner) reading(trait, state int, times float64, out []float64) {
	prior, seen := l.course.prior[trait][state], l.rows[trait][state].read
	wrong, total := 0.0, priorRow
	for j, p := range prior {
		if j != state {
			wrong += p
		}
		total += seen[j]
	}
	scale := times
	if wrong > 0 {
		scale = min(times, mostMisread/wrong)
	}
	for j, p := range prior {
		if j == state {
			p = 1 - wrong*scale
		} else {
			p *= scale
		}
		out[j] = (priorRow*p + seen[j]) / total
	}
}

// mostMisread is the largest chance of a misread before anything was seen.
const mostMisread = 0.5

// Reads gives the chances that the person reads a state of a trait as each of the
// trait's states, in their order; nil for what the course does not know.
func (l *Learner) Reads(trait, state string) []float64 {
	n, ok := l.course.place[trait]
	if !ok || l.course.traits[n].State(state) < 0 {
		return nil
	}
	out := make([]float64, len(l.course.traits[n].States))
	l.reading(n, l.course.traits[n].State(state), l.times(n), out)
	return out
}

// rightly is the chance that the person reads a trait of animals of these kinds, all as
// common, as it is; 0.5 where nothing is known of it.
func (l *Learner) rightly(trait *taxa.Trait, kinds ...*taxa.Taxon) float64 {
	sum, known := 0.0, 0.0
	for _, k := range kinds {
		for _, w := range k.States(trait.ID) {
			if chances := l.Reads(trait.ID, w.State); chances != nil {
				sum += w.Share * chances[trait.State(w.State)]
				known += w.Share
			}
		}
	}
	if known == 0 {
		return 0.5
	}
	return sum / known
}

// misreading is the chance that a state is read as one that does not fit.
func (l *Learner) misreading(trait, state int, times float64, fits []bool) float64 {
	out := make([]float64, len(fits))
	l.reading(trait, state, times, out)
	sum := 0.0
	for j, p := range out {
		if !fits[j] {
			sum += p
		}
	}
	return sum
}

// Misreading is a state that the person may take for another.
type Misreading struct{ Trait, Is, TakenFor string }

// Misreads are the confusions that cost most in the person's tallies, the worst first.
func (l *Learner) Misreads(at time.Time, most int) []Misreading {
	weigh := l.weigh(at)
	type worth struct {
		Misreading
		cost float64
	}
	var all []worth
	for n, t := range l.course.traits {
		if l.traits[n].expected == 0 {
			continue
		}
		for s, state := range t.States {
			chances := l.Reads(t.ID, state.ID)
			worst := -1
			for j, p := range chances {
				if j != s && (worst < 0 || p > chances[worst]) {
					worst = j
				}
			}
			if worst < 0 || l.rows[n][s].told[worst] < 0.5 || l.rows[n][s].rightly >= mended {
				continue // nothing of the kind was seen and told lately
			}
			all = append(all, worth{Misreading{t.ID, state.ID, t.States[worst].ID}, (weigh.states[n][s] + 1e-9) * chances[worst]})
		}
	}
	sorting.Stable(all, func(a, b worth) int { return cmp.Compare(b.cost, a.cost) })
	var out []Misreading
	for _, w := range all[:min(most, len(all))] {
		out = append(out, w.Misreading)
	}
	return out
}

// mended is how often in a row a state is read rightly until an old misread is no longer
// told of (memory).
const mended = 2

// walkError is the chance that the walk to a kind goes astray, and what it costs.
func (l *Learner) walkError(kind int, times []float64) (chance, cost float64) {
	right := 1.0
	for i := range l.course.steps[kind] {
		s := &l.course.steps[kind][i]
		m := 0.0
		for state, share := range s.share {
			if share > 0 {
				m += share * l.misreading(s.trait, state, times[s.trait], s.fits)
			}
		}
		cost += right * s.visit * m * s.price
		right *= 1 - s.visit*m
	}
	return 1 - right, cost
}

// allTimes are those of all traits.
func (l *Learner) allTimes() []float64 {
	out := make([]float64, len(l.traits))
	for n := range out {
		out[n] = l.times(n)
	}
	return out
}

// Error is the share of animals that the person is expected to name wrongly in a
// tally of animals as common as the course has them, 0 to 1.
func (l *Learner) Error(at time.Time) float64 {
	sum := 0.0
	times, prior := l.allTimes(), l.firsts.prior()
	for i := range l.course.kinds {
		walk, _ := l.walkError(i, times)
		right, wrong := l.sights[i].now(at, prior)
		sum += l.course.common[i] * (wrong + (1-right-wrong)*walk)
	}
	return min(1, max(0, sum))
}

// days is the time between two moments in days, 0 at least.
func days(from, to time.Time) float64 {
	if from.IsZero() {
		return 0
	}
	return math.Max(0, to.Sub(from).Hours()/24)
}
