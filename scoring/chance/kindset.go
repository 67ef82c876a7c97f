package chance

import (
	"math/bits"
	"slices"
)

// kindSet is a set of kinds that share uncertain records.
type kindSet struct {
	kinds         []int
	sure          []int64 // animals that are certainly of each kind
	distributions []KindDistribution
	indices       []int // which of all distributions those are
}

// sets parts the kinds that may have animals into sets without a shared record.
func (formula Formula) sets(a Accrual, distributions []KindDistribution) []*kindSet {
	sure, linked := make([]int64, formula.Kinds), make([]int, formula.Kinds)
	for k := range linked {
		linked[k] = k
	}
	for _, f := range distributions {
		if k := f.Outcomes[0].Kind; f.certain() && k != None {
			sure[k] = min(sure[k]+f.Count, a.Most)
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
		first := None
		for _, o := range f.Outcomes {
			if o.Kind == None || sure[o.Kind] == a.Most {
				continue // changes nothing
			}
			if first == None {
				first = root(o.Kind)
			}
			linked[root(o.Kind)] = first
		}
		if !f.certain() && first != None {
			open = append(open, i)
		}
	}
	sets := make([]*kindSet, formula.Kinds)
	for k := range linked {
		i := root(k)
		if sets[i] == nil {
			sets[i] = &kindSet{}
		}
		sets[i].kinds, sets[i].sure = append(sets[i].kinds, k), append(sets[i].sure, sure[k])
	}
	for _, i := range open {
		f := distributions[i]
		for _, o := range f.Outcomes {
			if o.Kind != None && sure[o.Kind] < a.Most {
				set := sets[root(o.Kind)]
				set.distributions, set.indices = append(set.distributions, f), append(set.indices, i)
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
func (set *kindSet) follow(a Accrual, left *int) (*massFunction[parts], bool) {
	width := bits.Len64(uint64(a.Most))
	if width*len(set.kinds) > 64 {
		return nil, false
	}
	states := set.start(width)
	for _, f := range set.distributions {
		if *left -= states.size() * len(f.Outcomes) * states.cost(); *left < 0 {
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
func (set *kindSet) step(a Accrual, from states, f KindDistribution, width int) states {
	places := set.places(f)
	next := from.fresh()
	from.each(func(state uint64, p float64) {
		for i, o := range f.Outcomes {
			next.add(moved(state, places[i]*width, width, f.Count, a.Most), p*o.Chance)
		}
	})
	return next
}

// adds is what the set adds in a state.
func (set *kindSet) adds(a Accrual, state uint64, width int) (sum parts) {
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
func (set *kindSet) places(f KindDistribution) []int {
	out := make([]int, len(f.Outcomes))
	for i, o := range f.Outcomes {
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
