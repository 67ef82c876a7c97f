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
	trait    int      // its place in the table
	states   []uint64 // by item; all that the others show where nothing is known
	shares   [][]float64
	varies   uint32 // items that show several states, or of which nothing is known
	unsure   uint32 // items of which nothing is known
	partings map[uint64][]*parting
}

// parting is a question with what it does to each item.
type parting struct {
	trait      int // place of the column
	sides      sides
	leads      int
	fits       uint32           // items that show any of its states
	items      [MaxLeads]uint32 // items of which some animals go to each side
	several    uint32           // items that go to several sides
	everywhere uint32           // items that go to all sides
	share      [MaxLeads][]float64
	cost       []float64 // of asking all animals of an item
}

func newPanel(b *bench, items []item) *panel {
	p := &panel{bench: b, items: items, apart: make([]uint32, len(items))}
	for j := range b.Traits {
		c := column{trait: j, states: make([]uint64, len(items)), shares: make([][]float64, len(items)), partings: map[uint64][]*parting{}}
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
	if all, ok := c.partings[present]; ok {
		return all
	}
	var all []*parting
	for _, way := range p.ways.partings(len(p.Traits[c.trait].States), present) {
		all = append(all, p.parting(j, way))
	}
	c.partings[present] = all
	return all
}

func (p *panel) parting(j int, way sides) *parting {
	n := len(p.items)
	q := &parting{trait: j, sides: way, leads: way.len(), cost: make([]float64, n)}
	shares := make([]float64, n*q.leads)
	for k := range q.leads {
		q.share[k] = shares[k*n : (k+1)*n]
	}
	c := &p.traits[j]
	t := &p.Traits[c.trait]
	for i := range n {
		q.cost[i] = p.effort(c.trait, q.leads)
		if c.unsure>>i&1 == 0 {
			seen := c.states[i] & way.all()
			if seen == 0 {
				continue
			}
			whole := c.share(i, seen)
			for s := seen; s != 0; s &= s - 1 {
				k := bits.TrailingZeros64(s)
				q.cost[i] += p.Mistake * c.share(i, 1<<k) / whole * t.crossing(k, way.others(k))
			}
		}
		q.cost[i] *= p.items[i].weight
		q.send(c, i)
	}
	return q
}

// send notes where an item's animals go.
func (q *parting) send(c *column, i int) {
	q.fits |= 1 << i
	q.everywhere |= 1 << i
	var p [MaxLeads]float64
	sum := 0.0
	for k := range q.leads {
		if p[k] = c.share(i, c.states[i]&q.sides[k]); c.unsure>>i&1 == 1 {
			p[k] = float64(bits.OnesCount64(q.sides[k]))
		}
		sum += p[k]
	}
	before := uint32(0)
	for k := range q.leads {
		if q.share[k][i] = p[k] / sum; p[k] == 0 {
			q.everywhere &^= 1 << i
			continue
		}
		q.items[k] |= 1 << i
		q.several |= before & (1 << i)
		before |= 1 << i
	}
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
	return p.Mistake * (sum - most)
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
			if cost := q.price(set, p.all); cost < least && p.worth(q, set, p.all) {
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

// again is the floor of a set with one question next. Where all items may go to one
// side, the set itself is part of what follows.
func (p *panel) again(q *parting, set uint32, cost float64) float64 {
	p.floor[set] = 0
	rest := p.costAfter(q, set, p.all)
	itself := 0.0 // the share of the set's own cost that follows
	for k := range q.leads {
		if set&^q.items[k] != 0 {
			continue
		}
		least := math.Inf(1)
		for s := set; s != 0; s &= s - 1 {
			least = min(least, q.share[k][bits.TrailingZeros32(s)])
		}
		itself += least
	}
	if itself >= 1-1e-12 {
		return math.Inf(1)
	}
	return (cost + rest) / (1 - itself)
}

// costAfter is what the sets that a question leads to cost at least.
func (p *panel) costAfter(q *parting, set uint32, come []float64) float64 {
	sum := 0.0
	for k := range q.leads {
		if set&q.several == 0 {
			sum += p.least(set&q.items[k], come)
		} else {
			sum += p.leastOf(set&q.items[k], come, q.share[k])
		}
	}
	return sum
}

// worth reports whether a question is worth its leads to a set of which such shares
// come; see [bench.saves].
func (p *panel) worth(q *parting, set uint32, come []float64) bool {
	if q.leads == 2 || set&q.several != 0 {
		return true
	}
	var comes [MaxLeads]float64
	total := 0.0
	for k := range q.leads {
		for s := set & q.items[k]; s != 0; s &= s - 1 {
			i := bits.TrailingZeros32(s)
			comes[k] += come[i] * p.items[i].weight
		}
		total += comes[k]
	}
	return p.saves(p.traits[q.trait].trait, comes[:q.leads], total)
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
	var of [exactTaxa]float64
	var order [exactTaxa]int8
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
