package draft

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// exact finds the cheapest tree of these items; it gives up, with false and the
// best it has or nil, where taxa vary so much that there are more sets to look at
// than these.
func (b *bench) exact(items []item, sets int) (*Node, bool) {
	for _, it := range items {
		if len(b.varied[it.taxon]) > 0 {
			return b.exactVaried(items, sets)
		}
	}
	s := newSubsets(b, items)
	full := uint32(1)<<len(items) - 1
	s.solve(full)
	return s.tree(full), true
}

// subsets is the dynamic program over the sets of items that do not vary.
type subsets struct {
	*bench
	items  []item
	states []uint64 // by trait and item
	splits []split  // in two before those in more
	weight []float64
	cost   []float64 // by set; negative where not yet known
	pick   []int32   // the split taken, or -1
}

// split is a question as sets of items.
type split struct {
	question
	leads int
	items [MaxLeads]uint32 // on each side
	// What it costs each item at least and at most, by which other states are
	// still present.
	least, most []float64
}

func newSubsets(b *bench, items []item) *subsets {
	n := 1 << len(items)
	s := &subsets{bench: b, items: items, weight: make([]float64, n), cost: make([]float64, n), pick: make([]int32, n)}
	for set := range s.cost {
		s.cost[set], s.pick[set] = -1, -1
		if set > 0 {
			s.weight[set] = s.weight[set&(set-1)] + items[bits.TrailingZeros32(uint32(set))].weight
		}
	}
	s.states = make([]uint64, len(b.Traits)*len(items))
	alike := map[[MaxLeads]uint32][]int{}
	for j := range b.Traits {
		present := uint64(0)
		for i, it := range items {
			state := b.single(it.taxon, j)
			s.states[j*len(items)+i] = state
			present |= state
		}
		for _, way := range b.ways.partings(len(b.Traits[j].States), present) {
			s.addSplit(question{trait: j, sides: way}, alike)
		}
	}
	slices.SortStableFunc(s.splits, func(x, y split) int { return cmp.Compare(x.leads, y.leads) })
	return s
}

// addSplit adds a question, unless another parts the items alike and can cost
// none of them more. Of what parts alike it is told the places.
func (s *subsets) addSplit(q question, alike map[[MaxLeads]uint32][]int) {
	n := len(s.items)
	both := make([]float64, 2*n)
	one := split{question: q, leads: q.sides.len(), least: both[:n:n], most: both[n:]}
	t := &s.Traits[q.trait]
	effort := s.effort(q.trait, one.leads)
	for i, it := range s.items {
		state := s.state(q.trait, i)
		for k, side := range q.sides {
			if state&side != 0 {
				one.items[k] |= 1 << i
			}
		}
		k := bits.TrailingZeros64(state)
		others := q.sides.others(k)
		one.least[i] = it.weight * (effort + s.Mistake*t.leastTo(k, q.sides))
		one.most[i] = it.weight * (effort + s.Mistake*t.crossing(k, others))
	}
	parts := one.items
	slices.Sort(parts[:])
	for _, k := range alike[parts] {
		if !dearer(s.splits[k].most, one.least) {
			return
		}
	}
	alike[parts] = append(alike[parts], len(s.splits))
	s.splits = append(s.splits, one)
}

// leastTo is the least chance that a state is read as one of each other side, where
// some states of these are not there.
func (t *TableColumn) leastTo(state int, of sides) float64 {
	sum := 0.0
	for _, side := range of {
		if side == 0 || side>>state&1 == 1 {
			continue
		}
		least := math.Inf(1)
		for ; side != 0; side &= side - 1 {
			least = min(least, t.Readings[state][bits.TrailingZeros64(side)])
		}
		sum += least
	}
	return sum
}

func (s *subsets) state(trait, item int) uint64 { return s.states[trait*len(s.items)+item] }

// dearer reports whether any of x is above its like in y.
func dearer(x, y []float64) bool {
	for i := range x {
		if x[i] > y[i] {
			return true
		}
	}
	return false
}

func (s *subsets) solve(set uint32) float64 {
	if set&(set-1) == 0 {
		return 0
	}
	if s.cost[set] >= 0 {
		return s.cost[set]
	}
	best, pick := math.Inf(1), int32(-1)
	bound := s.bound(s.itemsOf(set))
	for k := range s.splits {
		p := &s.splits[k]
		if !s.parts(p, set) {
			continue
		}
		cost := s.price(p, set)
		for _, side := range p.items[:p.leads] {
			if cost >= best {
				break
			}
			cost += s.solve(set & side)
		}
		if cost < best {
			best, pick = cost, int32(k)
			if best <= bound*(1+1e-12) {
				break
			}
		}
	}
	if pick < 0 {
		best = s.doubt(s.itemsOf(set))
	}
	s.cost[set], s.pick[set] = best, pick
	return best
}

// parts reports whether a split has items of a set on each side, and is worth its
// leads there. Where a side is left without items there is a split of fewer leads.
func (s *subsets) parts(p *split, set uint32) bool {
	if p.leads == 2 {
		return set&p.items[0] != 0 && set&p.items[1] != 0
	}
	var comes [MaxLeads]float64
	for k, side := range p.items[:p.leads] {
		if set&side == 0 {
			return false
		}
		comes[k] = s.weight[set&side]
	}
	return s.saves(p.trait, comes[:p.leads], s.weight[set])
}

// price is what a split costs the items of a set.
func (s *subsets) price(p *split, set uint32) float64 {
	all := p.sides.all()
	if bits.OnesCount64(all) == p.leads {
		return sumOf(p.most, set)
	}
	present := uint64(0)
	for rest := set; rest != 0; rest &= rest - 1 {
		present |= s.state(p.trait, bits.TrailingZeros32(rest))
	}
	if present == all {
		return sumOf(p.most, set)
	}
	t, sum := &s.Traits[p.trait], 0.0
	effort := s.effort(p.trait, p.leads)
	for ; set != 0; set &= set - 1 {
		i := bits.TrailingZeros32(set)
		k := bits.TrailingZeros64(s.state(p.trait, i))
		sum += s.items[i].weight * (effort + s.Mistake*t.crossing(k, p.sides.others(k)&present))
	}
	return sum
}

func sumOf(each []float64, set uint32) float64 {
	sum := 0.0
	for ; set != 0; set &= set - 1 {
		sum += each[bits.TrailingZeros32(set)]
	}
	return sum
}

func (s *subsets) itemsOf(set uint32) []item {
	out := make([]item, 0, exactTaxa)
	for ; set != 0; set &= set - 1 {
		out = append(out, s.items[bits.TrailingZeros32(set)])
	}
	return out
}

func (s *subsets) tree(set uint32) *Node {
	items := s.itemsOf(set)
	n := end(items)
	if s.pick[set] < 0 {
		return n
	}
	p := &s.splits[s.pick[set]]
	n.Trait, n.Sides = p.trait, make([]uint64, p.leads)
	for k, side := range p.items[:p.leads] {
		for _, it := range s.itemsOf(set & side) {
			n.Sides[k] |= s.single(it.taxon, p.trait)
		}
		n.Children = append(n.Children, s.tree(set&side))
	}
	return n
}
