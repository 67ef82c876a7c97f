package draft

import (
	"cmp"
	"encoding/binary"
	"math"
	"math/bits"
	"slices"
)

// search finds the cheapest tree of items that vary, by branch and bound. What
// is possible at a node is a set of items and, for each trait that varies, the
// states that the way there has left: all items of a node came the same way.
type search struct {
	*panel
	memo     map[string]*found
	most     int  // sets looked at
	exceeded bool // there were more; what was found by then is no longer the least
}

// place is what is possible at a node.
type place struct {
	set  uint32
	left []uint64  // by trait, the states not ruled out
	come []float64 // by item, the share of its animals that come here
}

// found is what is known of a place: what it costs, or, until that is known, at
// least costs.
type found struct {
	cost    float64
	known   bool
	parting *parting // nil where it ends
}

// candidate is a question with what it costs at least, all that follows included.
type candidate struct {
	*parting
	cost, least float64
}

// exactVaried is [bench.exact] for items that vary.
func (b *bench) exactVaried(items []item, sets int) (*Node, bool) {
	s := &search{panel: newPanel(b, items), memo: map[string]*found{}, most: sets}
	// What has to be bettered is a tree drafted with little looking ahead, or, of
	// a long search, one drafted with more.
	upper := b.rollout(items, lookAgain)
	var grown *Node
	if len(items) > b.finish {
		grown = b.grow(items, false)
		upper = min(upper, b.cost(grown, items))
	}
	s.solve(s.root(), upper*(1+1e-9)+1e-12)
	if s.exceeded && s.memo[s.key(s.root())].parting == nil {
		return grown, false
	}
	return s.tree(s.root()), !s.exceeded
}

func (s *search) root() place {
	p := place{set: 1<<len(s.items) - 1, left: make([]uint64, len(s.traits)), come: make([]float64, len(s.items))}
	for j := range p.left {
		p.left[j] = ^uint64(0)
	}
	for i := range s.items {
		p.come[i] = 1
	}
	return p
}

// key names a place: the set, and what is left of cells that vary within it.
// Cells of which nothing is known are parted by what else is possible, so that
// the way to a place counts.
func (s *search) key(p place) string {
	key := binary.AppendUvarint(make([]byte, 0, 48), uint64(p.set))
	for j := range s.traits {
		t := &s.traits[j]
		if p.set&t.varies == 0 {
			continue
		}
		within := uint64(0)
		for rest := p.set & t.varies; rest != 0; rest &= rest - 1 {
			within |= t.states[bits.TrailingZeros32(rest)]
		}
		if left := p.left[j] & within; left != within {
			key = append(key, byte(j))
			key = binary.AppendUvarint(key, left)
		}
	}
	for rest := p.set & s.unsure; rest != 0; rest &= rest - 1 {
		key = binary.BigEndian.AppendUint32(key, math.Float32bits(float32(p.come[bits.TrailingZeros32(rest)])))
	}
	return string(key)
}

// solve is what a place costs, if that is less than limit; else what it costs at
// least.
func (s *search) solve(p place, limit float64) float64 {
	if p.set&(p.set-1) == 0 {
		return 0
	}
	key := s.key(p)
	f := s.memo[key]
	switch {
	case f == nil:
		if s.exceeded = s.exceeded || len(s.memo) >= s.most; s.exceeded {
			return math.Inf(1)
		}
		f = &found{cost: s.least(p.set, p.come)}
		s.memo[key] = f
	case f.known:
		return f.cost
	}
	if f.cost >= limit {
		return f.cost
	}
	if s.alike(p) {
		f.cost, f.known = s.doubt(p.set, p.come), true
		return f.cost
	}
	if s.branch(p, f, limit); s.exceeded && !f.known {
		return math.Inf(1)
	}
	return f.cost
}

// branch tries the questions of a place, those first that may cost least.
func (s *search) branch(p place, f *found, limit float64) {
	best, above := limit, math.Inf(1) // above is the least of what was not tried to the end
	var by *parting
	all, dear := s.candidates(p, limit)
	above = min(above, dear)
	for _, c := range all {
		if c.least >= best || s.exceeded {
			above = min(above, c.least)
			break
		}
		cost := s.follow(p, c, best)
		if cost < best {
			best, by = cost, c.parting
		} else {
			above = min(above, cost)
		}
	}
	if by != nil {
		f.cost, f.known, f.parting = best, true, by
	} else {
		f.cost = max(f.cost, above)
	}
}

// follow is what a place costs with one question next, if that is less than limit;
// else what it costs at least.
func (s *search) follow(p place, c candidate, limit float64) float64 {
	places := s.part(p, c.parting)
	var rest [MaxLeads + 1]float64 // what the places from one on cost at least
	for k, n := range slices.Backward(places) {
		rest[k] = rest[k+1] + s.least(n.set, n.come)
	}
	cost := c.cost
	for k, n := range places {
		if cost+rest[k] >= limit {
			return cost + rest[k]
		}
		cost += s.solve(n, limit-cost-rest[k+1])
	}
	return cost
}

// candidates are the questions of a place that take an item off one side, those
// that may cost least first, and what the rest, which each cost limit or more,
// cost at least.
func (s *search) candidates(p place, limit float64) ([]candidate, float64) {
	out, dear := make([]candidate, 0, 32), math.Inf(1)
	for j := range s.traits {
		for _, q := range s.partingsOf(j, s.shown(j, p.set, p.left[j])) {
			if p.set&^q.everywhere == 0 || !s.worth(q, p.set, p.come) {
				continue
			}
			c := candidate{parting: q, cost: q.price(p.set, p.come)}
			if c.least = c.cost; c.cost < limit {
				c.least += s.costAfter(q, p.set, p.come)
			}
			if c.least < limit {
				out = append(out, c)
			} else {
				dear = min(dear, c.least)
			}
		}
	}
	slices.SortStableFunc(out, func(x, y candidate) int { return cmp.Compare(x.least, y.least) })
	return out, dear
}

func (s *search) part(p place, q *parting) []place {
	out := make([]place, q.leads)
	for k := range out {
		n := place{set: p.set & q.items[k], left: slices.Clone(p.left), come: make([]float64, len(p.come))}
		n.left[q.trait] &= q.sides[k]
		for rest := n.set; rest != 0; rest &= rest - 1 {
			i := bits.TrailingZeros32(rest)
			n.come[i] = p.come[i] * q.share[k][i]
		}
		out[k] = n
	}
	return out
}

// alike is [bench.alike] for a place.
func (s *search) alike(p place) bool {
	for rest := p.set; rest != 0; rest &= rest - 1 {
		if s.apart[bits.TrailingZeros32(rest)]&p.set != 0 {
			return false
		}
	}
	for j := range s.traits {
		t := &s.traits[j]
		if p.set&t.varies != 0 && s.parted(t, p.set&^t.unsure, p.left[j]) {
			return false
		}
	}
	return true
}

// parted reports whether two of a set share none of the states left of a trait.
func (s *search) parted(t *column, set uint32, left uint64) bool {
	for x := set; x != 0; x &= x - 1 {
		for y := x & (x - 1); y != 0; y &= y - 1 {
			if t.states[bits.TrailingZeros32(x)]&t.states[bits.TrailingZeros32(y)]&left == 0 {
				return true
			}
		}
	}
	return false
}

func (s *search) tree(p place) *Node {
	n := &Node{}
	for rest := p.set; rest != 0; rest &= rest - 1 {
		n.Taxa = append(n.Taxa, s.items[bits.TrailingZeros32(rest)].taxon)
	}
	if p.set&(p.set-1) == 0 {
		return n
	}
	f := s.memo[s.key(p)]
	if f.parting == nil {
		return n
	}
	n.Trait, n.Sides = s.traits[f.parting.trait].trait, slices.Clone(f.parting.sides[:f.parting.leads])
	for _, part := range s.part(p, f.parting) {
		n.Children = append(n.Children, s.tree(part))
	}
	return n
}
