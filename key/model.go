package key

import (
	"cmp"
	"slices"
	"sync"

	"rillkey/couplets"
	"rillkey/key/belief"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// Model is a key with the likelihoods of all that can be asked in it. It is not
// changed by inquiries and may be shared.
type Model struct {
	key    *Key
	rates  Rates
	table  *belief.Likelihoods
	ends   []*taxa.Taxon // that the key leads to
	kinds  []*taxa.Taxon // the ends, then the strangers; nil stands for what no catalog holds
	prior  []float64     // of the kinds, summing to 1
	traits []*trait
	index  map[string]int // trait id to its number
	asks   []ask          // all that can be asked, in the order of belief's questions
	groups []group        // nameable taxa, those with fewest end points first
	shown  shown          // what follows from an answer

	striking   func() []sight      // worked out once
	lengthFits func() []lengthFits // worked out once
	befallen   []befallen
	hangs      []*hang                 // by trait, what it hangs on, or nil
	obvious    []uint64                // by trait, the states that nobody leaves unsaid, as bits
	leaves     [][][]bool              // by trait and state, which traits it leaves to be seen; nil for all
	odd        []byLooker[[][]float64] // by trait, the chances of readings by each of the people; nil without
	byLookers  []byLooker[[][]float64] // those where all is as the table has it
}

// trait is a trait as the model needs it. The chances that kind i truly has
// state s are truth[i][s].
type trait struct {
	*taxa.Trait
	readings    [][]float64
	truth       [][]float64
	unlikeTable func() [][]float64 // see showsUnlikeTable; worked out once
	unasked     func() [][]float64 // readings of what is said unasked; worked out once
}

// ask is a question: a couplet, or a trait by itself.
type ask struct {
	couplet *couplets.Couplet
	trait   *trait
	traits  []int               // the traits it speaks of
	leads   [][]belief.Accepted // what each lead of a couplet stands for
}

// likens reports whether it is for what the animal is like, which nobody is asked.
func (a *ask) likens() bool { return a.couplet == nil && a.trait.Likeness }

// group is what can be named, and the kinds it holds, strangers among them: a
// taxon, or a set of end points that the key cannot part. The taxon of a set is
// the lowest worth naming that holds all of it, or nil.
type group struct {
	taxon *taxa.Taxon
	set   []*taxa.Taxon
	ends  []int
}

// Model prepares the belief over the key's end points, and over what else an
// animal may be, for people who go wrong at these rates and animals that are as
// common as [Key.Prior] has it. It refuses a trait of more than 64 states.
func (k *Key) Model(rates Rates) (*Model, error) { return k.model(rates, k.Prior(), true) }

// FlatModel is [Key.Model] with every end point equally likely beforehand.
func (k *Key) FlatModel(rates Rates) (*Model, error) { return k.model(rates, k.flat(), true) }

func (k *Key) model(rates Rates, prior []float64, open bool) (*Model, error) {
	m := &Model{key: k, rates: rates, ends: k.sound.Ends, kinds: k.sound.Ends, index: map[string]int{}, prior: prior}
	if open {
		m.kinds, m.prior = k.withStrangers(prior)
	}
	m.table = belief.New(m.prior)
	for _, t := range k.catalog.Vocabulary().Traits() {
		if err := m.addTrait(t); err != nil {
			return nil, err
		}
	}
	for i := range k.sound.Couplets {
		m.addCouplet(&k.sound.Couplets[i])
	}
	findHangs(m)
	findLeaves(m)
	findObvious(m)
	findBefallen(m)
	findOdd(m)
	findGroups(m)
	m.shown = m.readShown()
	m.striking = sync.OnceValue(m.sights)
	m.lengthFits = sync.OnceValue(m.readLengthFits)
	return m, nil
}

// Key is the key that the model belongs to.
func (m *Model) Key() *Key { return m.key }

// Prior is how common the end points are, in their order, by the weights of the
// key ([couplets.Sound.Weights]); the same for each where it has none. It sums
// to 1.
func (k *Key) Prior() []float64 {
	weights := k.sound.Weights()
	if weights == nil {
		return k.flat()
	}
	out := make([]float64, len(k.sound.Ends))
	sum := 0.0
	for i, t := range k.sound.Ends {
		out[i] = weights[t.ID]
		sum += out[i]
	}
	for i := range out {
		out[i] /= sum
	}
	return out
}

func (k *Key) flat() []float64 {
	out := make([]float64, len(k.sound.Ends))
	for i := range out {
		out[i] = 1 / float64(len(out))
	}
	return out
}

func (m *Model) addTrait(vt *taxa.Trait) error {
	t := &trait{Trait: vt, readings: m.rates.believed(vt), truth: m.truth(vt)}
	t.unlikeTable = sync.OnceValue(t.showsUnlikeTable)
	t.unasked = sync.OnceValue(func() [][]float64 { return m.rates.unaskedReadings(vt) })
	n, err := m.table.AddTrait(len(vt.States), func(i int, out []float64) {
		clear(out)
		for s, share := range t.truth[i] {
			for j, p := range t.readings[s] {
				out[j] += share * p
			}
		}
	})
	if err != nil {
		return wording.Errorf("the trait %s: %w", plain.Quote(vt.ID), err)
	}
	m.index[vt.ID] = n
	m.traits = append(m.traits, t)
	m.table.AddStates(n)
	m.asks = append(m.asks, ask{trait: t, traits: []int{n}})
	return nil
}

// truth is, by kind, the chance of each state. Of a kind for which the trait is
// unknown it is the mean of the others, weighted by the prior: then an answer,
// taken by itself, leaves its probability exactly where it was.
func (m *Model) truth(t *taxa.Trait) [][]float64 {
	out := make([][]float64, len(m.kinds))
	mean, weight := make([]float64, len(t.States)), 0.0
	for i, kind := range m.kinds {
		if kind == nil {
			out[i] = m.anything(t)
			continue
		}
		shown := kind.States(t.ID)
		if shown == nil {
			continue
		}
		out[i] = make([]float64, len(t.States))
		weight += m.prior[i]
		for _, w := range shown {
			out[i][t.State(w.State)] = w.Share
			mean[t.State(w.State)] += m.prior[i] * w.Share
		}
	}
	for s := range mean {
		if weight == 0 {
			mean[s] = 1 / float64(len(mean))
		} else {
			mean[s] /= weight
		}
	}
	for i := range out {
		if out[i] == nil {
			out[i] = mean
		}
	}
	return out
}

func (m *Model) addCouplet(c *couplets.Couplet) {
	answers := make([][]belief.Accepted, len(c.Leads))
	a := ask{couplet: c}
	for j, lead := range c.Leads {
		answers[j] = m.parts(lead.Conditions)
		for _, p := range answers[j] {
			if !slices.Contains(a.traits, p.Trait) {
				a.traits = append(a.traits, p.Trait)
			}
		}
	}
	m.table.AddQuestion(answers)
	a.leads = answers
	m.asks = append(m.asks, a)
}

// parts is conditions as the belief takes them.
func (m *Model) parts(conditions []couplets.Condition) []belief.Accepted {
	out := make([]belief.Accepted, len(conditions))
	for i, c := range conditions {
		n := m.index[c.Trait]
		out[i] = belief.Accepted{Trait: n, States: mask(m.traits[n].Trait, c.States)}
	}
	return out
}

// findGroups finds all that a verdict can name: end points, sets of them that
// share an end, and what stands above them at a rank worth naming, at class rank where
// there are no orders, or is offered as a stop. Of a set and a taxon that hold the same,
// the taxon comes first.
func findGroups(m *Model) {
	at, likeOrders := map[string]int{}, m.key.withoutOrders()
	add := func(t *taxa.Taxon, end int) {
		i, ok := at[t.ID]
		if !ok {
			i = len(m.groups)
			at[t.ID] = i
			m.groups = append(m.groups, group{taxon: t})
		}
		m.groups[i].ends = append(m.groups[i].ends, end)
	}
	for i, end := range m.ends {
		add(end, i)
		for _, up := range m.key.catalog.Ancestors(end.ID) {
			if m.key.nameable(up) || likeOrders[up.ID] {
				add(up, i)
			}
		}
	}
	for i := len(m.ends); i < len(m.kinds) && m.kinds[i] != nil; i++ {
		for _, up := range m.key.catalog.Ancestors(m.kinds[i].ID) {
			if _, held := at[up.ID]; held {
				add(up, i)
			}
		}
	}
	for _, shared := range m.key.shared {
		g := group{}
		shared.Each(func(end int) { g.ends, g.set = append(g.ends, end), append(g.set, m.ends[end]) })
		g.taxon = m.key.name(g.set)
		m.groups = append(m.groups, g)
	}
	sorting.Stable(m.groups, func(a, b group) int { return cmp.Compare(len(a.ends), len(b.ends)) })
}

// isUnder are the kinds that a taxon holds, by number.
func (m *Model) isUnder(taxon string) []bool {
	out := make([]bool, len(m.kinds))
	for i, kind := range m.kinds {
		out[i] = kind != nil && m.key.catalog.IsUnder(kind.ID, taxon)
	}
	return out
}

// LensSets are the end points that only a hand lens tells apart.
func (k *Key) LensSets() []couplets.LensSet { return k.sound.LensSets }
