// Package learnertest is people who learn to name stream animals, for tests that
// measure a teacher. It shares no code and no assumption with one: how these people
// confuse, learn and forget is their own, stated here, and from memory.
//
// Begin with [Person], [Habit] and [Reply].
//
// A person misreads each state of each trait at a rate of its own, as a favourite
// other state most often. A misread that is set right makes the rate smaller, and so,
// less, does a right reading. Each kind has a strength on sight, which grows with each
// animal met, and a confusion with another kind, which shrinks when the animal's name
// is told, and more so when the other kind was among the two met before. From one day
// to another the strength goes down, confusions come back in part, and rates of
// misreading hardly. A walk reads every couplet anew.
package learnertest

import (
	"math"
	"math/rand/v2"
	"slices"

	"rillkey/couplets"
	"rillkey/taxa"
)

// Habit is a kind of learner.
type Habit struct {
	Name     string
	Reading  float64 // share of a misread rate that goes with each that is set right
	Sight    float64 // share of what is still open that an animal adds to the strength
	Apart    float64 // share of a confusion that goes with each name told
	Eager    float64 // how soon a name is said on sight
	HalfLife float64 // days after which half the strength is gone, after one day's practice
	Lasting  float64 // what the half-life is multiplied by with each day that the kind is met
	Power    bool    // forgets by a power of time, else by halves
}

// Habits are three kinds of learner.
var Habits = []Habit{
	{Name: "quick, eager and forgetful", Reading: 0.30, Sight: 0.45, Apart: 0.30, Eager: 0.5, HalfLife: 2, Lasting: 1.8, Power: true},
	{Name: "steady", Reading: 0.20, Sight: 0.30, Apart: 0.22, Eager: 0.3, HalfLife: 4, Lasting: 2},
	{Name: "slow and wary", Reading: 0.12, Sight: 0.18, Apart: 0.15, Eager: 0.12, HalfLife: 7, Lasting: 2},
}

// Person is one learner.
type Person struct {
	habit  Habit
	sound  *couplets.Sound
	random *rand.Rand
	common []float64 // of the end points; sums to 1
	rates  map[string][]habitual
	kinds  []familiar
	last   []int // kinds met last
	exams  map[string]*exam
}

// habitual is how one state is misread: at a rate, once and now, and as what.
type habitual struct {
	first, now float64
	misread    []float64
}

// familiar is how one kind is known.
type familiar struct {
	strength, halfLife  float64
	confused, confused0 float64
	lookalike           int // the kind that it is taken for
	met                 float64
	metToday            bool
}

// New is a person who looks at the animals of a key, as common as these weights say.
// Misreads is how many times as often as the vocabulary says they misread.
func New(h Habit, sound *couplets.Sound, catalog *taxa.Catalog, common []float64, misreads float64, r *rand.Rand) *Person {
	p := &Person{habit: h, sound: sound, random: r, common: common, rates: map[string][]habitual{}, exams: map[string]*exam{}}
	for _, t := range catalog.Vocabulary().Asked() {
		p.rates[t.ID] = p.habits(t, misreads)
	}
	for i := range sound.Ends {
		k := familiar{strength: 0.15 * r.Float64(), halfLife: h.HalfLife, lookalike: p.likeness(catalog, i)}
		if r.Float64() < 0.1 {
			k.strength = 0.6
		}
		k.confused = 0.2 + 0.6*r.Float64()
		k.confused0 = k.confused
		p.kinds = append(p.kinds, k)
	}
	return p
}

// habits are how a trait is misread.
func (p *Person) habits(t *taxa.Trait, times float64) []habitual {
	out := make([]habitual, len(t.States))
	for i, s := range t.States {
		rate := min(0.5, t.Misread*times*math.Exp(0.6*p.random.NormFloat64()))
		as := make([]float64, len(t.States))
		favourite := p.random.IntN(len(t.States))
		if len(s.MistakenFor) > 0 && p.random.Float64() < 0.6 {
			favourite = t.State(s.MistakenFor[p.random.IntN(len(s.MistakenFor))])
		}
		total := 0.0
		for j := range as {
			switch {
			case j == i:
			case j == favourite:
				as[j] = 3
			default:
				as[j] = 1 / float64(len(as))
			}
			total += as[j]
		}
		for j := range as {
			if as[j] /= max(total, 1e-9); total == 0 {
				as[j] = 0
			}
		}
		if total == 0 {
			rate = 0
		}
		out[i] = habitual{rate, rate, as}
	}
	return out
}

// likeness is a kind that this person takes another for: one that the catalog calls a
// look-alike, or any of the same order.
func (p *Person) likeness(catalog *taxa.Catalog, kind int) int {
	var like, near []int
	own := p.sound.Ends[kind]
	for j, other := range p.sound.Ends {
		if j == kind {
			continue
		}
		if slices.ContainsFunc(own.Mistaken, func(m taxa.Mistaken) bool { return catalog.IsUnder(other.ID, m.Taxon) }) {
			like = append(like, j)
		}
		if other.Parent == own.Parent {
			near = append(near, j)
		}
	}
	switch {
	case len(like) > 0 && p.random.Float64() < 0.7:
		return like[p.random.IntN(len(like))]
	case len(near) > 0:
		return near[p.random.IntN(len(near))]
	}
	return (kind + 1 + p.random.IntN(len(p.sound.Ends)-1)) % len(p.sound.Ends)
}

// sight are the chances to name a kind on sight rightly and wrongly.
func (k *familiar) sight(eager float64) (right, wrong float64) {
	return k.strength * (1 - k.confused), k.confused * (eager*0.5*(1-k.strength) + k.strength)
}

// RateOf is how often the person misreads one state of a trait now.
func (p *Person) RateOf(trait *taxa.Trait, state string) float64 {
	return p.rates[trait.ID][trait.State(state)].now
}
