package draft

import (
	"encoding/binary"
	"math"
	"math/bits"
)

// exact finds the cheapest tree of these items; it gives up, with false, where
// taxa vary so much that there are too many sets to look at.
func (b *bench) exact(items []item) (*Node, float64, bool) {
	for _, it := range items {
		if len(b.varied[it.taxon]) > 0 {
			s := &search{bench: b, memo: map[string]*found{}, most: mostStates}
			if len(items) < len(b.Taxa) {
				s.most = fewStates
			}
			cost := s.solve(items)
			if s.over {
				return nil, 0, false
			}
			return s.tree(items), cost, true
		}
	}
	s := newSubsets(b, items)
	full := uint32(1)<<len(items) - 1
	cost := s.solve(full)
	return s.tree(full), cost, true
}

// subsets is the dynamic program over the sets of items that do not vary.
type subsets struct {
	*bench
	items  []item
	splits []split
	cost   []float64 // by set; negative where not yet known
	pick   []int32   // the split taken, or -1
}

// split is a question as a set of items.
type split struct {
	question
	a    uint32
	each []float64 // what it costs each item
}

func newSubsets(b *bench, items []item) *subsets {
	s := &subsets{bench: b, items: items, cost: make([]float64, 1<<len(items)), pick: make([]int32, 1<<len(items))}
	for i := range s.cost {
		s.cost[i], s.pick[i] = -1, -1
	}
	byA := map[uint32][]int{}
	t := b.tally(items)
	defer b.release(t)
	for j := range b.Traits {
		for w, way := range b.ways[j] {
			s.addSplit(j, w, way, byA)
		}
	}
	return s
}

// addSplit adds a way to part a trait, unless one that parts the items alike
// costs none of them more.
func (s *subsets) addSplit(j, w int, way uint64, byA map[uint32][]int) {
	one := split{question: question{trait: j, a: way, b: ^way & (^uint64(0) >> (64 - len(s.Traits[j].States)))}, each: make([]float64, len(s.items))}
	for i, it := range s.items {
		state := s.single(it.taxon, j)
		if state&way != 0 {
			one.a |= 1 << i
		}
		one.each[i] = it.weight * (s.Traits[j].Effort + s.mistake*s.crossing[j][w][bits.TrailingZeros64(state)])
	}
	full := uint32(1)<<len(s.items) - 1
	if one.a == 0 || one.a == full {
		return
	}
	key := min(one.a, full&^one.a)
	for _, k := range byA[key] {
		if !dearer(s.splits[k].each, one.each) {
			return
		}
	}
	byA[key] = append(byA[key], len(s.splits))
	s.splits = append(s.splits, one)
}

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
	bound := s.bound(s.in(set))
	for k := range s.splits {
		a := set & s.splits[k].a
		if a == 0 || a == set {
			continue
		}
		cost := s.splits[k].of(set)
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
		best = s.doubt(s.in(set))
	}
	s.cost[set], s.pick[set] = best, pick
	return best
}

func (p *split) of(set uint32) float64 {
	sum := 0.0
	for ; set != 0; set &= set - 1 {
		sum += p.each[bits.TrailingZeros32(set)]
	}
	return sum
}

func (s *subsets) in(set uint32) []item {
	out := make([]item, 0, ExactTaxa)
	for ; set != 0; set &= set - 1 {
		out = append(out, s.items[bits.TrailingZeros32(set)])
	}
	return out
}

func (s *subsets) tree(set uint32) *Node {
	items := s.in(set)
	n := end(items)
	if s.pick[set] < 0 {
		return n
	}
	p := &s.splits[s.pick[set]]
	n.Trait = p.trait
	for _, it := range items {
		state := s.single(it.taxon, p.trait)
		n.A |= state & p.question.a
		n.B |= state & p.question.b
	}
	n.Below = [2]*Node{s.tree(set & p.a), s.tree(set &^ p.a)}
	return n
}

// search is the same program over sets of items that vary: what is possible is
// a set of taxa and, for each cell that varies, what the way there has left.
type search struct {
	*bench
	memo map[string]*found
	most int // sets looked at
	over bool
}

// found is the best that was found for a set, for an animal of each taxon with
// its full weight; weights on different ways to one set are the same.
type found struct {
	cost float64
	q    question
	ends bool
}

func (s *search) key(items []item) string {
	key := make([]byte, 0, 64)
	for i := range items {
		key = append(key, byte(items[i].taxon), byte(items[i].taxon>>8), byte(items[i].taxon>>16))
		for j := range s.varied[items[i].taxon] {
			c := &s.varied[items[i].taxon][j]
			if left := items[i].left(c); left != c.states {
				key = append(key, byte(j))
				key = binary.AppendUvarint(key, left)
			}
			if c.unknown { // parted by what else is possible, so the way there counts
				key = binary.BigEndian.AppendUint32(key, math.Float32bits(float32(items[i].weight)))
			}
		}
		key = append(key, 0xff)
	}
	return string(key)
}

func (s *search) solve(items []item) float64 {
	if len(items) < 2 {
		return 0
	}
	key := s.key(items)
	if f := s.memo[key]; f != nil {
		return f.cost
	}
	if s.over = s.over || len(s.memo) > s.most; s.over {
		return 0
	}
	f := &found{cost: math.Inf(1), ends: true}
	bound := s.bound(items)
	for _, q := range s.best(items, math.MaxInt) {
		if q.cost >= f.cost || f.cost <= bound*(1+1e-12) {
			continue
		}
		as, bs := s.part(items, q)
		cost := q.cost + s.bound(as) + s.bound(bs)
		if cost >= f.cost {
			continue
		}
		if cost = q.cost + s.solve(as); cost < f.cost {
			cost += s.solve(bs)
		}
		if cost < f.cost {
			f.cost, f.q, f.ends = cost, q, false
		}
	}
	if f.ends {
		f.cost = s.doubt(items)
	}
	s.memo[key] = f
	return f.cost
}

func (s *search) tree(items []item) *Node {
	n := end(items)
	if len(items) < 2 {
		return n
	}
	f := s.memo[s.key(items)]
	if f.ends {
		return n
	}
	as, bs := s.part(items, f.q)
	n.Trait, n.A, n.B = f.q.trait, f.q.a, f.q.b
	n.Below = [2]*Node{s.tree(as), s.tree(bs)}
	return n
}
