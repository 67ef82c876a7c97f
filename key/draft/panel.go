package draft

import (
	"math"
	"math/bits"
	"slices"
)

// panel is a few items with all that questions of them need, and what every set
// of them costs at least.
type panel struct {
	*bench
	items  []item
	traits []column
	apart  []uint32  // by item, those that some trait tells from it for certain
	unsure uint32    // items of which something is not known
	floor  []float64 // by set, what it costs at least if all animals of its items come
	all    []float64 // by item, 1
}

// column is a trait in which the items differ.
type column struct {
	trait  int      // its place in the table
	states []uint64 // by item; all that the others show where nothing is known
	shares [][]float64
	varies uint32 // items that show several states, or of which nothing is known
	unsure uint32 // items of which nothing is known
	by     map[uint64][]*parting
}

// parting is a question with what it does to each item.
type parting struct {
	trait          int // place of the column
	a, b           uint64
	fits           uint32 // items that show any of its states
	onA, onB, both uint32
	shareA, shareB []float64
	cost           []float64 // of asking all animals of an item
}

func newPanel(b *bench, items []item) *panel {
	p := &panel{bench: b, items: items, apart: make([]uint32, len(items))}
	for j := range b.Traits {
		c := column{trait: j, states: make([]uint64, len(items)), shares: make([][]float64, len(items)), by: map[uint64][]*parting{}}
		all := uint64(0)
		for i := range items {
			p.cell(&c, i)
			if c.unsure>>i&1 == 0 {
				all |= c.states[i]
			}
		}
		if all&(all-1) == 0 {
			continue
		}
		p.unsure |= c.unsure
		p.traits = append(p.traits, c)
	}
	for j := range p.traits {
		p.tell(&p.traits[j])
	}
	p.floors()
	return p
}

// cell finds what an item can show of a trait.
func (p *panel) cell(c *column, i int) {
	it := &p.items[i]
	if c.states[i] = p.single(it.taxon, c.trait); c.states[i] != 0 {
		return
	}
	from := p.cellOf(it.taxon, c.trait)
	c.states[i], c.shares[i] = it.left(from), from.shares
	if from.unknown {
		c.unsure |= 1 << i
		c.varies |= 1 << i
	}
	if s := c.states[i]; s&(s-1) != 0 {
		c.varies |= 1 << i
	}
}

// tell notes which items a trait tells apart.
func (p *panel) tell(c *column) {
	for x := range p.items {
		for y := range x {
			if (c.unsure>>x|c.unsure>>y)&1 == 0 && c.states[x]&c.states[y] == 0 {
				p.apart[x] |= 1 << y
				p.apart[y] |= 1 << x
			}
		}
	}
}

// shown is the states of a trait that a set of items is known to show, of those
// that are left.
func (p *panel) shown(j int, set uint32, left uint64) uint64 {
	c, all := &p.traits[j], uint64(0)
	for rest := set &^ c.unsure; rest != 0; rest &= rest - 1 {
		all |= c.states[bits.TrailingZeros32(rest)]
	}
	return all & left
}

// partingsOf is the ways to part some states of a trait.
func (p *panel) partingsOf(j int, present uint64) []*parting {
	if present&(present-1) == 0 {
		return nil
	}
	c := &p.traits[j]
	if all, ok := c.by[present]; ok {
		return all
	}
	var all []*parting
	for _, way := range p.ways[c.trait] {
		a, b := way&present, present&^way
		if a == 0 || b == 0 || slices.ContainsFunc(all, func(q *parting) bool { return q.a == a || q.a == b }) {
			continue
		}
		all = append(all, p.parting(j, a, b))
	}
	c.by[present] = all
	return all
}

func (p *panel) parting(j int, a, b uint64) *parting {
	n := len(p.items)
	q := &parting{trait: j, a: a, b: b, shareA: make([]float64, n), shareB: make([]float64, n), cost: make([]float64, n)}
	c := &p.traits[j]
	t := &p.Traits[c.trait]
	asked := &question{a: a, b: b}
	for i := range n {
		q.cost[i] = t.Effort
		if c.unsure>>i&1 == 1 {
			q.shareA[i] = float64(bits.OnesCount64(a)) / float64(bits.OnesCount64(a|b))
		} else {
			seen := c.states[i] & (a | b)
			if seen == 0 {
				continue
			}
			whole := c.share(i, seen)
			q.shareA[i] = c.share(i, seen&a) / whole
			for s := seen; s != 0; s &= s - 1 {
				k := bits.TrailingZeros64(s)
				q.cost[i] += p.mistake * c.share(i, 1<<k) / whole * t.crossing(k, asked.other(k))
			}
		}
		q.cost[i] *= p.items[i].weight
		q.fits |= 1 << i
		q.shareB[i] = 1 - q.shareA[i]
		if q.shareA[i] > 0 {
			q.onA |= 1 << i
		}
		if q.shareB[i] > 0 {
			q.onB |= 1 << i
		}
	}
	q.both = q.onA & q.onB
	return q
}

// share is the share of an item's animals that show one of some states; those it
// is known to show sum to 1 or less.
func (c *column) share(i int, states uint64) float64 {
	if c.shares[i] == nil {
		return float64(bits.OnesCount64(states & c.states[i]))
	}
	sum := 0.0
	for states &= c.states[i]; states != 0; states &= states - 1 {
		sum += c.shares[i][bits.TrailingZeros64(states)]
	}
	return sum
}

// price is what asking costs a set of items of which such shares come.
func (q *parting) price(set uint32, come []float64) float64 {
	sum := 0.0
	for ; set != 0; set &= set - 1 {
		i := bits.TrailingZeros32(set)
		sum += come[i] * q.cost[i]
	}
	return sum
}

func (p *panel) doubt(set uint32, come []float64) float64 {
	sum, most := 0.0, 0.0
	for ; set != 0; set &= set - 1 {
		i := bits.TrailingZeros32(set)
		w := come[i] * p.items[i].weight
		sum += w
		most = max(most, w)
	}
	return p.mistake * (sum - most)
}

// mostOptional is the most states of a trait that the way to a set may have left
// or not, of which all possibilities are looked at for a floor.
const mostOptional = 6

// floors finds what every set of items costs at least, smaller sets first. The
// floor of a set supposes that what the way there has left is whatever suits
// each question best. See
// [panel.least] for sets of whose items fewer animals come.
func (p *panel) floors() {
	p.floor = make([]float64, 1<<len(p.items))
	p.all = slices.Repeat([]float64{1}, len(p.items))
	for set := uint32(1); set < uint32(len(p.floor)); set++ {
		if set&(set-1) == 0 {
			continue
		}
		least := math.Inf(1)
		if !p.anyApart(set) {
			least = p.doubt(set, p.all)
		}
		for j := range p.traits {
			least = min(least, p.floorOf(j, set, least))
		}
		p.floor[set] = least
	}
}

func (p *panel) anyApart(set uint32) bool {
	for rest := set; rest != 0; rest &= rest - 1 {
		if p.apart[bits.TrailingZeros32(rest)]&set != 0 {
			return true
		}
	}
	return false
}

// floorOf is the floor of a set whose next question is of one trait.
func (p *panel) floorOf(j int, set uint32, least float64) float64 {
	c := &p.traits[j]
	pure := p.shown(j, set&^c.varies, ^uint64(0))
	maybe := p.shown(j, set&c.varies, ^uint64(0)) &^ pure
	if bits.OnesCount64(maybe) > mostOptional {
		return p.costWithout(set)
	}
	for some := maybe; ; some = (some - 1) & maybe {
		for _, q := range p.partingsOf(j, pure|some) {
			if set&^q.fits != 0 {
				break
			}
			if cost := q.price(set, p.all); cost < least {
				least = min(least, p.again(q, set, cost))
			}
		}
		if some == 0 {
			return least
		}
	}
}

// costWithout is a floor from the floors of one item fewer.
func (p *panel) costWithout(set uint32) float64 {
	most := 0.0
	for rest := set; rest != 0; rest &= rest - 1 {
		most = max(most, p.floor[set&^(rest&-rest)])
	}
	return most
}

// again is the floor of a set with one question next. Where all items may go
// both ways, the set itself is part of what follows.
func (p *panel) again(q *parting, set uint32, cost float64) float64 {
	p.floor[set] = 0
	rest := p.costAfter(q, set, p.all)
	if set&^q.both != 0 && set&^q.onA != 0 && set&^q.onB != 0 {
		return cost + rest
	}
	a, b := math.Inf(1), math.Inf(1)
	for s := set; s != 0; s &= s - 1 {
		i := bits.TrailingZeros32(s)
		a, b = min(a, q.shareA[i]), min(b, q.shareB[i])
	}
	if a+b >= 1-1e-12 {
		return math.Inf(1)
	}
	return (cost + rest) / (1 - a - b)
}

// costAfter is what the two sets that a question leads to cost at least.
func (p *panel) costAfter(q *parting, set uint32, come []float64) float64 {
	if set&q.both == 0 {
		return p.least(set&q.onA, come) + p.least(set&q.onB, come)
	}
	return p.leastOf(set&q.onA, come, q.shareA) + p.leastOf(set&q.onB, come, q.shareB)
}

// least is what a set costs at least of whose items such shares come. The
// cheapest tree costs the least of some sums over items, so its cost is concave
// in their weights, and more items cost no less; hence the weights may be taken
// apart into layers, each of those items of which at least so many come.
func (p *panel) least(set uint32, come []float64) float64 { return p.leastOf(set, come, p.all) }

// leastOf is least where of those that come such shares go on.
func (p *panel) leastOf(set uint32, come, share []float64) float64 {
	if set&(set-1) == 0 {
		return 0
	}
	var of [ExactTaxa]float64
	var order [ExactTaxa]int8
	n := 0
	for rest := set; rest != 0; rest &= rest - 1 {
		i := bits.TrailingZeros32(rest)
		of[i] = come[i] * share[i]
		k := n
		for ; k > 0 && of[order[k-1]] > of[i]; k-- {
			order[k] = order[k-1]
		}
		order[k] = int8(i)
		n++
	}
	sum, below := 0.0, 0.0
	for _, i := range order[:n-1] {
		if of[i] > below {
			sum += (of[i] - below) * p.floor[set]
			below = of[i]
		}
		set &^= 1 << i
	}
	return sum
}
