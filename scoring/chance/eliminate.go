package chance

import (
	"math/bits"
	"slices"
)

// sums gives the chances of what the set adds, as [kindSet.follow] does, but forgets
// the count of a kind as soon as no record that is left may be of it: only what it
// adds counts then, and states that differ in nothing else become one. Where all
// counts fit into a plain slice, that is taken as soon as it is less work.
func (set *kindSet) sums(a Accrual, left *int) (*massFunction[parts], bool) {
	width := bits.Len64(uint64(a.Most))
	if width*len(set.kinds) > 64 {
		return nil, false
	}
	budget, dense := *left, width*len(set.kinds) <= mostDense
	if dense {
		budget = min(budget, set.denseWork(width))
	}
	rest := budget
	out, ok := set.eliminate(a, width, &rest)
	if *left -= budget - rest; !ok && dense {
		return set.follow(a, left)
	}
	return out, ok
}

// denseWork is the work of following the set in a plain slice.
func (set *kindSet) denseWork(width int) (work int) {
	for _, f := range set.distributions {
		work += len(f.Outcomes)
	}
	return work << (width * len(set.kinds))
}

// partial is a state with what the kinds that it no longer holds have added.
type partial struct {
	state number
	parts
}

func (k partial) hash() uint64 { return scattered(k.parts.hash() + uint64(k.state)) }

// eliminate follows the records in an order in which kinds are forgotten early.
func (set *kindSet) eliminate(a Accrual, width int, left *int) (*massFunction[parts], bool) {
	order, done := set.order()
	now := newMassFunction(set.forget(a, partial{state: number(set.pack(width))}, done[0], width))
	for n, i := range order {
		f := set.distributions[i]
		if *left -= len(now.keys) * len(f.Outcomes) * sparse; *left < 0 {
			return nil, false
		}
		places, next := set.places(f), roomFor[partial](2*len(now.keys))
		for j, k := range now.keys {
			for m, o := range f.Outcomes {
				then := partial{number(moved(uint64(k.state), places[m]*width, width, f.Count, a.Most)), k.parts}
				next.add(set.forget(a, then, done[n+1], width), now.p[j]*o.Chance)
			}
		}
		if now = next; len(now.keys) > mostStates {
			return nil, false
		}
	}
	out := roomFor[parts](len(now.keys))
	for i, k := range now.keys {
		out.add(k.parts, now.p[i])
	}
	return out, true
}

// forget takes the counts of some kinds out of a state, and adds what they add.
func (set *kindSet) forget(a Accrual, k partial, places []int, width int) partial {
	for _, at := range places {
		n := uint64(k.state) >> (at * width) & (1<<width - 1)
		own := partOf(a, set.kinds[at], int64(n))
		k.num, k.den = k.num+own.num, k.den+own.den
		k.state &^= number(n << (at * width))
	}
	return k
}

// order is the records in the order in which they are followed, and, before the
// first of them and after each, the places of the kinds of which none is left: next
// is always the kind whose records bring in the fewest others.
func (set *kindSet) order() (order []int, done [][]int) {
	of := make([]uint64, len(set.distributions)) // kinds by record
	for i, f := range set.distributions {
		for _, at := range set.places(f) {
			if at >= 0 {
				of[i] |= 1 << at
			}
		}
	}
	var seen uint64
	left := make([]int, len(of))
	for i := range left {
		left[i] = i
	}
	done = [][]int{set.closed(of, left, ^uint64(0))}
	for len(left) > 0 {
		kind := set.cheapest(of, left, seen)
		rest := left[:0]
		for _, i := range left {
			if of[i]>>kind&1 == 0 {
				rest = append(rest, i)
				continue
			}
			order, done, seen = append(order, i), append(done, nil), seen|of[i]
		}
		left = rest
		done[len(order)] = set.closed(of, left, seen)
		seen &= set.open(of, left)
	}
	return order, done
}

// open is the kinds that records which are left may be of.
func (set *kindSet) open(of []uint64, left []int) (kinds uint64) {
	for _, i := range left {
		kinds |= of[i]
	}
	return kinds
}

// closed are the places of those of some kinds that no record which is left may be of.
func (set *kindSet) closed(of []uint64, left []int, among uint64) (places []int) {
	among &^= set.open(of, left)
	for at := range set.kinds {
		if among>>at&1 == 1 {
			places = append(places, at)
		}
	}
	return places
}

// cheapest is the place of the kind, of those which records that are left may be of,
// whose records bring in the fewest kinds that were not seen.
func (set *kindSet) cheapest(of []uint64, left []int, seen uint64) int {
	with := make([]uint64, len(set.kinds))
	for _, i := range left {
		for kinds := of[i]; kinds != 0; kinds &= kinds - 1 {
			with[bits.TrailingZeros64(kinds)] |= of[i]
		}
	}
	cost := func(at int) int {
		if with[at] == 0 {
			return len(set.kinds) + 1
		}
		return bits.OnesCount64(with[at] &^ seen)
	}
	places := make([]int, len(set.kinds))
	for at := range places {
		places[at] = at
	}
	return slices.MinFunc(places, func(x, y int) int { return cost(x) - cost(y) })
}
