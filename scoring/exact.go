package scoring

import (
	"math/bits"
	"slices"

	"rillkey/scoring/scheme"
)

// mostStates is how many states an exact computation follows before it is left
// to simulation.
const mostStates = 1 << 15

// mostWork is how much work an exact computation may be: a step from one state to
// another is 1, or sparse where states have to be looked up. It is a few hundredths
// of a second, about what a simulation takes.
const (
	mostWork = 1 << 23
	sparse   = 16
)

// parts is a numerator and a denominator in the making.
type parts struct{ num, den int64 }

// exact follows the records one by one through a formula that can be taken
// apart. Where parts are proportional to counts, each record adds its own. Else
// the kinds that share uncertain records stand and fall together: for each such
// set of kinds all counts that can arise are followed, up to the count beyond
// which nothing changes, and the sets, which are independent of each other, are
// added up. ok is false where that would be too much.
func (s grader) exact(a scheme.Accrual, distributions []kindDistribution) (c chances, ok bool) {
	total := newMassFunction(parts{})
	left := mostWork
	if a.Most == 0 {
		each := make([]*massFunction[parts], len(distributions))
		for i, f := range distributions {
			each[i] = partsOf(a, f)
		}
		if leastWork(each) > mostWork {
			return c, false
		}
		for _, own := range each {
			if total, ok = plus(total, own, &left); !ok {
				return c, false
			}
		}
		return valuesOf(a, total), true
	}
	for _, set := range s.sets(a, distributions) {
		own, ok := set.follow(a, &left)
		if !ok {
			return c, false
		}
		if total, ok = plus(total, own, &left); !ok {
			return c, false
		}
	}
	return valuesOf(a, total), true
}

// partsOf are the parts that a record may add.
func partsOf(a scheme.Accrual, f kindDistribution) *massFunction[parts] {
	own := newMassFunction[parts]()
	for _, o := range f.outcomes {
		own.add(partOf(a, o.Kind, f.count), o.Chance)
	}
	return own
}

// leastWork is what adding up independent sums takes at least: n sums and m sums
// make n + m - 1 different ones at least, since they have an order that adding keeps.
func leastWork(each []*massFunction[parts]) (work int) {
	sums := 1
	for _, own := range each {
		work += sums * len(own.keys) * sparse
		sums += len(own.keys) - 1
	}
	return work
}

// partOf is what animals of a kind add to a formula.
func partOf(a scheme.Accrual, kind int, count int64) parts {
	if kind == scheme.None || count == 0 {
		return parts{}
	}
	num, den := a.Part(kind, count)
	return parts{num, den}
}

// valuesOf are the chances of the values that the sums come to.
func valuesOf(a scheme.Accrual, total *massFunction[parts]) chances {
	values := newMassFunction[scheme.Ratio]()
	for i, k := range total.keys {
		values.add(a.Value(k.num, k.den), total.p[i])
	}
	return chancesOf(values)
}

// plus adds two independent sums, unless that is more than the work left.
func plus(a, b *massFunction[parts], left *int) (*massFunction[parts], bool) {
	if *left -= len(a.keys) * len(b.keys) * sparse; *left < 0 {
		return nil, false
	}
	out := newMassFunction[parts]()
	for i, x := range a.keys {
		for j, y := range b.keys {
			out.add(parts{x.num + y.num, x.den + y.den}, a.p[i]*b.p[j])
		}
		if len(out.keys) > mostStates {
			return nil, false
		}
	}
	return out, true
}

// kindSet is a set of kinds that share uncertain records.
type kindSet struct {
	kinds         []int
	sure          []int64 // animals that are certainly of each kind
	distributions []kindDistribution
	from          []int // which of all distributions those are
}

// sets parts the kinds that may have animals into sets without a shared record.
func (s grader) sets(a scheme.Accrual, distributions []kindDistribution) []*kindSet {
	sure, linked := make([]int64, len(s.Kinds)), make([]int, len(s.Kinds))
	for k := range linked {
		linked[k] = k
	}
	for _, f := range distributions {
		if k := f.outcomes[0].Kind; f.certain() && k != scheme.None {
			sure[k] = min(sure[k]+f.count, a.Most)
		}
	}
	root := func(k int) int {
		for linked[k] != k {
			k = linked[k]
		}
		return k
	}
	var open []int
	for i, f := range distributions {
		first := scheme.None
		for _, o := range f.outcomes {
			if o.Kind == scheme.None || sure[o.Kind] == a.Most {
				continue // changes nothing
			}
			if first == scheme.None {
				first = root(o.Kind)
			}
			linked[root(o.Kind)] = first
		}
		if !f.certain() && first != scheme.None {
			open = append(open, i)
		}
	}
	sets := make([]*kindSet, len(s.Kinds))
	for k := range linked {
		i := root(k)
		if sets[i] == nil {
			sets[i] = &kindSet{}
		}
		sets[i].kinds, sets[i].sure = append(sets[i].kinds, k), append(sets[i].sure, sure[k])
	}
	for _, i := range open {
		f := distributions[i]
		for _, o := range f.outcomes {
			if o.Kind != scheme.None && sure[o.Kind] < a.Most {
				set := sets[root(o.Kind)]
				set.distributions, set.from = append(set.distributions, f), append(set.from, i)
				break
			}
		}
	}
	return slices.DeleteFunc(sets, func(set *kindSet) bool {
		return set == nil || len(set.distributions) == 0 && !slices.ContainsFunc(set.sure, func(n int64) bool { return n > 0 })
	})
}

// follow gives the chances of what the set adds. A state is the counts of all
// kinds, each in as many bits as the largest count needs; ok is false where
// they do not fit into a word, or that is more than the work left.
func (set *kindSet) follow(a scheme.Accrual, left *int) (*massFunction[parts], bool) {
	width := bits.Len64(uint64(a.Most))
	if width*len(set.kinds) > 64 {
		return nil, false
	}
	states := set.start(width)
	for _, f := range set.distributions {
		if *left -= states.size() * len(f.outcomes) * states.cost(); *left < 0 {
			return nil, false
		}
		if states = set.step(a, states, f, width); states.size() > mostStates {
			return nil, false
		}
	}
	out := newMassFunction[parts]()
	states.each(func(state uint64, p float64) { out.add(set.adds(a, state, width), p) })
	return out, true
}

// start is what is certain.
func (set *kindSet) start(width int) states {
	states := newStates(width*len(set.kinds), mostDense)
	states.add(set.pack(width), 1)
	return states
}

// step follows one record more.
func (set *kindSet) step(a scheme.Accrual, from states, f kindDistribution, width int) states {
	places := set.places(f)
	next := from.fresh()
	from.each(func(state uint64, p float64) {
		for i, o := range f.outcomes {
			next.add(moved(state, places[i]*width, width, f.count, a.Most), p*o.Chance)
		}
	})
	return next
}

// adds is what the set adds in a state.
func (set *kindSet) adds(a scheme.Accrual, state uint64, width int) (sum parts) {
	for j, kind := range set.kinds {
		own := partOf(a, kind, int64(state>>(j*width)&(1<<width-1)))
		sum.num, sum.den = sum.num+own.num, sum.den+own.den
	}
	return sum
}

// pack is the state in which only what is certain was found.
func (set *kindSet) pack(width int) (state uint64) {
	for j, n := range set.sure {
		state |= uint64(n) << (j * width)
	}
	return state
}

// places are where in the set the kinds of the outcomes stand, -1 for those that
// change nothing.
func (set *kindSet) places(f kindDistribution) []int {
	out := make([]int, len(f.outcomes))
	for i, o := range f.outcomes {
		out[i] = slices.Index(set.kinds, o.Kind)
	}
	return out
}

// moved is the state with count animals more in the bits from at on.
func moved(state uint64, at, width int, count, most int64) uint64 {
	if at < 0 {
		return state
	}
	mask := uint64(1)<<width - 1
	had := int64(state >> at & mask)
	return state&^(mask<<at) | uint64(had+min(count, most-had))<<at
}

// mostDense is the number of bits up to which chances stand in a plain slice.
const mostDense = 14

// states are chances by state, in an order that does not change from run to run.
type states interface {
	add(state uint64, p float64)
	each(func(state uint64, p float64))
	fresh() states
	size() int // states that can be, or more
	cost() int // work of one step
}

func newStates(bits, dense int) states {
	if bits <= dense {
		return make(denseStates, 1<<bits)
	}
	return sparseStates{newMassFunction[uint64]()}
}

type denseStates []float64

func (d denseStates) add(state uint64, p float64) { d[state] += p }
func (d denseStates) fresh() states               { return make(denseStates, len(d)) }
func (d denseStates) size() int                   { return len(d) }
func (d denseStates) cost() int                   { return 1 }

func (d denseStates) each(f func(uint64, float64)) {
	for state, p := range d {
		if p > 0 {
			f(uint64(state), p)
		}
	}
}

type sparseStates struct{ *massFunction[uint64] }

// fresh has room for twice as many states, as one record mostly makes of them.
func (s sparseStates) fresh() states {
	n := 2 * len(s.keys)
	return sparseStates{&massFunction[uint64]{at: make(map[uint64]int, n), keys: make([]uint64, 0, n), p: make([]float64, 0, n)}}
}

func (s sparseStates) size() int { return len(s.keys) }
func (s sparseStates) cost() int { return sparse }

func (s sparseStates) each(f func(uint64, float64)) {
	for i, state := range s.keys {
		f(state, s.p[i])
	}
}
