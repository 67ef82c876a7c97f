package draft

import (
	"math"
	"math/bits"
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
	splits []split
	cost   []float64 // by set; negative where not yet known
	pick   []int32   // the split taken, or -1
}

// split is a question as a set of items.
type split struct {
	question
	side uint32
	// What it costs each item at least and at most, by which other states are
	// still present.
	least, most []float64
}

func newSubsets(b *bench, items []item) *subsets {
	s := &subsets{bench: b, items: items, cost: make([]float64, 1<<len(items)), pick: make([]int32, 1<<len(items))}
	for i := range s.cost {
		s.cost[i], s.pick[i] = -1, -1
	}
	s.states = make([]uint64, len(b.Traits)*len(items))
	for j := range b.Traits {
		present := uint64(0)
		for i, it := range items {
			state := b.single(it.taxon, j)
			s.states[j*len(items)+i] = state
			present |= state
		}
		for _, way := range b.ways[j] {
			s.addSplit(question{trait: j, a: way & present, b: present &^ way})
		}
	}
	return s
}

// addSplit adds a question, unless another parts the items alike and can cost
// none of them more.
func (s *subsets) addSplit(q question) {
	if q.a == 0 || q.b == 0 {
		return
	}
	one := split{question: q, least: make([]float64, len(s.items)), most: make([]float64, len(s.items))}
	for i, it := range s.items {
		state := s.state(q.trait, i)
		if state&q.a != 0 {
			one.side |= 1 << i
		}
		k := bits.TrailingZeros64(state)
		t := &s.Traits[q.trait]
		least := math.Inf(1)
		for r := q.other(k); r != 0; r &= r - 1 {
			least = min(least, t.Readings[k][bits.TrailingZeros64(r)])
		}
		one.least[i] = it.weight * (t.Effort + s.mistake*least)
		one.most[i] = it.weight * (t.Effort + s.mistake*t.crossing(k, q.other(k)))
	}
	full := uint32(1)<<len(s.items) - 1
	for k := range s.splits {
		if p := &s.splits[k]; (p.side == one.side || p.side == full&^one.side) && !dearer(p.most, one.least) {
			return
		}
	}
	s.splits = append(s.splits, one)
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
		a := set & s.splits[k].side
		if a == 0 || a == set {
			continue
		}
		cost := s.price(&s.splits[k], set)
		if cost >= best {
			continue
		}
		if cost += s.solve(a); cost < best {
			cost += s.solve(set &^ a)
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

// price is what a split costs the items of a set.
func (s *subsets) price(p *split, set uint32) float64 {
	present := uint64(0)
	for rest := set; rest != 0; rest &= rest - 1 {
		present |= s.state(p.trait, bits.TrailingZeros32(rest))
	}
	if present == p.a|p.b {
		return sumOf(p.most, set)
	}
	t, sum := &s.Traits[p.trait], 0.0
	for ; set != 0; set &= set - 1 {
		i := bits.TrailingZeros32(set)
		k := bits.TrailingZeros64(s.state(p.trait, i))
		sum += s.items[i].weight * (t.Effort + s.mistake*t.crossing(k, p.other(k)&present))
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
	out := make([]item, 0, ExactTaxa)
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
	n.Trait = p.trait
	for _, it := range items {
		state := s.single(it.taxon, p.trait)
		n.A |= state & p.a
		n.B |= state & p.b
	}
	n.Below = [2]*Node{s.tree(set & p.side), s.tree(set &^ p.side)}
	return n
}
