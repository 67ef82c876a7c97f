// Package practice is what a person learns in and what is known of them: animals
// drawn to be met, one person's readings and names as they are believed to be, and
// which animal comes next.
//
// Begin with [Course], [Learner] and [PersonRecord].
//
// # The person
//
// A [Learner] holds, for every state of a trait, the chance that the person reads it
// as each other one, and for every kind the chances that they name it on sight
// rightly, wrongly, or not. All are means of Dirichlet distributions (Gelman and
// others, Bayesian Data Analysis, section 3.4, from memory): a prior worth a few
// readings, and what was seen, older readings counting less because people learn.
// The prior of readings is that of the vocabulary, times how much more or less often
// this person misreads all traits, and the trait, than the vocabulary says. What is
// known on sight is partly forgotten from day to day.
//
// # The next animal
//
// Each next animal is the one from which most error is expected to go out of this
// person's future tallies ([Learner.Next]): how common the kind is, times what the
// name it is taken for does to the grade, times the chance of that, and for each
// feature that the walk to it reads, the same over all kinds that are read by it. An
// error calls a comparison of exactly the two kinds confused (Jacoby, Massey and
// Kellman 2024), look-alikes follow one another (Birnbaum, Kornell, Bjork and Bjork
// 2013), and no kind comes twice in a row.
//
// The package takes no time and no chance of its own, and writes nothing.
package practice

import (
	"math/rand/v2"
	"slices"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/bitset"
	"rillkey/taxa/wording"
)

// Plan is what a course is made for.
type Plan struct {
	// Common is how common each kind is, by taxon and in any unit; nil takes the
	// key's own, and a kind that is missing never comes.
	Common map[string]float64
	// Effect is what it does to the grade when an animal of a is called b, from 0 for
	// nothing to 1 for the most that any two kinds make; nil takes 1 for all.
	Effect func(a, b string) float64
	// Kinds are those that can be shown; nil takes all of the key's.
	Kinds func(t *taxa.Taxon) bool
}

// Course is what is practised: the kinds of a key, how common they are, how they
// are read. It is not changed by practice and may be shared.
type Course struct {
	key       *key.Key
	v         *taxa.Vocabulary
	traits    []*taxa.Trait
	place     map[string]int // of a trait, by its id
	prior     [][][]float64  // readings of the vocabulary, by trait and state
	kinds     []*taxa.Taxon
	kindPlace map[string]int // of a kind, by its id
	common    []float64      // sums to 1
	price     [][]float64    // what it costs to call the one the other
	steps     [][]step       // by kind
	alike     [][]int        // by kind, the kinds it is taken for
	ready     Readiness
}

// step is one thing that the walk to a kind reads.
type step struct {
	trait int
	fits  []bool    // by state, whether the walk stays on its way
	share []float64 // of the kind's animals, by state
	visit float64   // chance that the walk comes here
	price float64   // mean cost of the names that a misread leads to
}

// namePrice is the part of an error's cost that a wrong name has whatever it does to
// the grade (common practice: a list of kinds is used for more than a grade).
const namePrice = 0.25

// NewCourse makes a course of a key. It is an error if fewer than two kinds are left.
func NewCourse(k *key.Key, p Plan) (*Course, error) {
	c := &Course{key: k, v: k.Catalog().Vocabulary(), place: map[string]int{}, kindPlace: map[string]int{}, ready: usualReadiness()}
	rates := key.FileRates(c.v)
	rates.Lost = 0
	c.traits = c.v.Asked()
	for i, t := range c.traits {
		c.place[t.ID] = i
		c.prior = append(c.prior, rates.Readings(t))
	}
	total := 0.0
	for i, t := range k.Ends() {
		w := k.Prior()[i]
		if p.Common != nil {
			w = p.Common[t.ID]
		}
		if w <= 0 || p.Kinds != nil && !p.Kinds(t) {
			continue
		}
		c.kindPlace[t.ID] = len(c.kinds)
		c.kinds, c.common = append(c.kinds, t), append(c.common, w)
		total += w
	}
	if len(c.kinds) < 2 {
		return nil, wording.NewError("fewer than two kinds are left to practise; there is nothing to tell apart")
	}
	for i := range c.common {
		c.common[i] /= total
	}
	c.pay(p.Effect)
	c.resemble()
	c.walk()
	return c, nil
}

// pay fills in what it costs to call one kind another.
func (c *Course) pay(effect func(a, b string) float64) {
	c.price = make([][]float64, len(c.kinds))
	for i, a := range c.kinds {
		c.price[i] = make([]float64, len(c.kinds))
		for j, b := range c.kinds {
			switch {
			case i == j:
			case effect == nil:
				c.price[i][j] = 1
			default:
				c.price[i][j] = namePrice + (1-namePrice)*min(1, max(0, effect(a.ID, b.ID)))
			}
		}
	}
}

// resemble finds the kinds that each is taken for, as the catalog says it for them
// or what holds them.
func (c *Course) resemble() {
	catalog := c.key.Catalog()
	c.alike = make([][]int, len(c.kinds))
	for i, t := range c.kinds {
		named := t.Mistaken
		for _, above := range catalog.Ancestors(t.ID) {
			named = slices.Concat(named, above.Mistaken)
		}
		for _, m := range named {
			for j, other := range c.kinds {
				if j != i && catalog.IsUnder(other.ID, m.Taxon) {
					c.likens(i, j)
					c.likens(j, i)
				}
			}
		}
	}
}

func (c *Course) likens(i, j int) {
	if !slices.Contains(c.alike[i], j) {
		c.alike[i] = append(c.alike[i], j)
	}
}

// walk finds, for every kind, what its walk reads when nothing is misread.
func (c *Course) walk() {
	sound := c.key.Sound()
	c.steps = make([][]step, len(c.kinds))
	for i, t := range c.kinds {
		visit := map[int]float64{}
		if top := sound.TopDown(); len(top) > 0 {
			visit[top[0]] = 1
		}
		end := slices.IndexFunc(sound.Ends, func(e *taxa.Taxon) bool { return e.ID == t.ID })
		for _, at := range sound.TopDown() {
			if p := visit[at]; p > 0 {
				c.pass(i, end, &sound.Couplets[at], p, visit)
			}
		}
	}
}

// pass takes a kind through one couplet.
func (c *Course) pass(kind, end int, at *couplets.Couplet, p float64, visit map[int]float64) {
	sound, t := c.key.Sound(), c.kinds[kind]
	var own []*couplets.Lead
	total := 0.0
	chances := make([]float64, len(at.Leads))
	wrong := bitset.New(len(sound.Ends))
	for n := range at.Leads {
		l := &at.Leads[n]
		ends := sound.EndsOf(l)
		if !ends.Has(end) {
			ends.Each(wrong.Add)
			continue
		}
		own = append(own, l)
		chances[n] = leadShare(t, l)
		total += chances[n]
	}
	for n, l := range at.Leads {
		if total > 0 && l.Next != "" && chances[n] > 0 {
			visit[sound.Place(l.Next)] += p * chances[n] / total
		}
	}
	c.addSteps(kind, own, p, c.meanPrice(kind, wrong))
}

// leadShare is how likely animals of a kind show what a lead stands for.
func leadShare(t *taxa.Taxon, l *couplets.Lead) float64 {
	out := 1.0
	for _, cond := range l.Conditions {
		if shown := t.States(cond.Trait); shown != nil {
			sum := 0.0
			for _, w := range shown {
				if slices.Contains(cond.States, w.State) {
					sum += w.Share
				}
			}
			out *= sum
		}
	}
	return out
}

// meanPrice is the mean cost of calling the kind one of these end points.
func (c *Course) meanPrice(kind int, ends bitset.Set) float64 {
	sum, total := 0.0, 0.0
	ends.Each(func(e int) {
		if j, ok := c.kindPlace[c.key.Sound().Ends[e].ID]; ok && j != kind {
			sum += c.common[j] * c.price[kind][j]
			total += c.common[j]
		}
	})
	if total == 0 {
		return 1
	}
	return sum / total
}

// addSteps adds what a couplet reads of a kind: each trait that its own leads ask for.
func (c *Course) addSteps(kind int, own []*couplets.Lead, visit, price float64) {
	t := c.kinds[kind]
	fits := map[int][]bool{}
	var order []int
	for _, l := range own {
		for _, cond := range l.Conditions {
			n := c.place[cond.Trait]
			if fits[n] == nil {
				fits[n] = make([]bool, len(c.traits[n].States))
				order = append(order, n)
			}
			for _, s := range cond.States {
				fits[n][c.traits[n].State(s)] = true
			}
		}
	}
	for _, n := range order {
		shown := t.States(c.traits[n].ID)
		if shown == nil {
			continue
		}
		s := step{trait: n, fits: fits[n], share: make([]float64, len(fits[n])), visit: visit, price: price}
		for _, w := range shown {
			s.share[c.traits[n].State(w.State)] += w.Share
		}
		c.steps[kind] = append(c.steps[kind], s)
	}
}

// Key is the key that is practised.
func (c *Course) Key() *key.Key { return c.key }

// Ready are the lines by which people are called ready: the usual ones, but for
// [Course.ReadyBy].
func (c *Course) Ready() Readiness { return c.ready }

// ReadyBy is the same course with other lines by which people are called ready.
func (c *Course) ReadyBy(r Readiness) *Course {
	other := *c
	other.ready = r
	return &other
}

// Kinds are the kinds that are practised, in the order of the key.
func (c *Course) Kinds() []*taxa.Taxon { return c.kinds }

// Common is how common a kind is among those that are practised; they sum to 1. It
// is 0 for any other.
func (c *Course) Common(kind string) float64 {
	if i, ok := c.kindPlace[kind]; ok {
		return c.common[i]
	}
	return 0
}

// Usually reports whether most animals of the course show this state of the trait.
func (c *Course) Usually(trait, state string) bool {
	sum, known := 0.0, 0.0
	for i, k := range c.kinds {
		for _, w := range k.States(trait) {
			known += c.common[i] * w.Share
			if w.State == state {
				sum += c.common[i] * w.Share
			}
		}
	}
	return 2*sum > known
}

// ByCommonness draws a kind as often as it is met.
func (c *Course) ByCommonness(r *rand.Rand) string {
	at := r.Float64()
	for i, k := range c.kinds {
		if at -= c.common[i]; at < 0 {
			return k.ID
		}
	}
	return c.kinds[len(c.kinds)-1].ID
}
