package belief

import (
	"math"
	"slices"
)

// Belief is a probability for every kind, given what was observed. It is not
// safe for use by several goroutines at once.
type Belief struct {
	table *Likelihoods
	prior []float64 // logarithms
	seen  []uint64  // states observed of each trait, 0 when it was not
	order []int     // traits observed, in the order of their first observation
	extra []float64 // log-likelihood of what is no trait, or nil
	log   []float64 // log-probability, up to a constant
	p     []float64
	p32   []float32
	part  []float32   // scratch: probabilities of a part of the kinds
	rows  [][]float32 // scratch: rows of a question about traits partly seen
	ent   []float32
}

// New is the belief before anything was observed.
func (t *Likelihoods) New() *Belief { return t.newFrom(t.logPrior) }

// NewFrom is the belief before anything was observed, from another prior.
func (t *Likelihoods) NewFrom(prior []float64) *Belief { return t.newFrom(logs(prior)) }

func (t *Likelihoods) newFrom(logPrior []float64) *Belief {
	b := &Belief{
		table: t, prior: logPrior, seen: make([]uint64, len(t.traits)), order: make([]int, 0, len(t.traits)),
		log: make([]float64, t.kinds), p: make([]float64, t.kinds), p32: make([]float32, t.kinds),
		part: make([]float32, t.kinds), ent: make([]float32, t.kinds), rows: make([][]float32, t.most),
	}
	for a := range b.rows {
		b.rows[a] = make([]float32, t.kinds)
	}
	b.renew()
	return b
}

// Observe sets what is known of a trait: it was read as one of these states, as
// bits. It replaces what was known of it before; no states means that it was
// not observed.
func (b *Belief) Observe(trait int, states uint64) {
	before := b.seen[trait]
	if states == before {
		return
	}
	b.seen[trait] = states
	switch {
	case before == 0:
		b.order = append(b.order, trait)
		b.add(trait)
		b.normalise()
	case states == 0:
		b.order = slices.DeleteFunc(b.order, func(t int) bool { return t == trait })
		b.renew()
	default:
		b.renew()
	}
}

// ObserveAll sets what is known of every trait, as bits, and the log-likelihood, by
// kind, of whatever else is known, or nil.
func (b *Belief) ObserveAll(states []uint64, logLikelihood []float64) {
	b.observeOther(logLikelihood)
	// What is no longer seen goes first, so that the order in which the belief took
	// the rest is that in which it was said.
	for t, s := range states {
		if s == 0 {
			b.Observe(t, 0)
		}
	}
	for t, s := range states {
		if s != 0 {
			b.Observe(t, s)
		}
	}
}

// observeOther sets the log-likelihood, by kind, of whatever else is known of
// the animal; nil when nothing is.
func (b *Belief) observeOther(logLikelihood []float64) {
	b.extra = logLikelihood
	b.renew()
}

// Seen is the states, as bits, that a trait was observed to have; 0 when it was
// not.
func (b *Belief) Seen(trait int) uint64 { return b.seen[trait] }

// P are the probabilities by kind. They sum to 1 and must not be changed.
func (b *Belief) P() []float64 { return b.p }

// renew computes the belief anew, in the order in which traits were first
// observed, so that taking back the last observation is exact to the last bit.
func (b *Belief) renew() {
	copy(b.log, b.prior)
	for i, l := range b.extra {
		b.log[i] += l
	}
	for _, trait := range b.order {
		b.add(trait)
	}
	b.normalise()
}

func (b *Belief) add(trait int) {
	for i := range b.log {
		b.log[i] += math.Log(b.table.Likelihood(trait, b.seen[trait], i))
	}
}

func (b *Belief) normalise() {
	top := slices.Max(b.log)
	sum := 0.0
	for i, l := range b.log {
		b.p[i] = math.Exp(l - top)
		sum += b.p[i]
	}
	for i := range b.p {
		b.p[i] /= sum
		b.p32[i] = float32(b.p[i])
	}
}
