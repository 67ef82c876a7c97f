package draft

import (
	"encoding/binary"
	"math"
	"math/bits"
	"slices"
)

// item is a taxon still possible at a node, with the weight of its animals that
// come there and what the way there has narrowed of its varied cells.
type item struct {
	taxon  int
	weight float64
	narrow *narrow
}

type narrow struct {
	trait  int
	states uint64
	next   *narrow
}

// left is the states of c that the way to the item leaves.
func (it item) left(c *cell) uint64 {
	states := c.states
	for n := it.narrow; n != nil; n = n.next {
		if n.trait == c.trait {
			states &= n.states
		}
	}
	return states
}

// question parts the states of a trait.
type question struct {
	trait int
	sides sides
	cost  float64 // at the node it was weighed at
	gain  float64 // in bits times weight
}

// bench is a table with all that questions of it need.
type bench struct {
	*TraitTable
	Terms
	ways     ways
	cheapest float64     // the least cost for one animal of parting any in two, misreading included
	certain  bool        // every two taxa are told apart for certain by some trait
	flat     bool        // nothing varies
	finish   int         // so few taxa are parted exactly within larger sets
	spare    [][]float64 // accumulators not in use
}

func newBench(t *TraitTable, terms Terms) *bench {
	terms.Leads = terms.leads()
	b := &bench{TraitTable: t, Terms: terms, cheapest: math.Inf(1), flat: true, finish: exactBelow}
	b.ways.leads = terms.Leads
	unsure := make([]bool, len(t.Traits))
	for _, v := range t.varied {
		b.flat = b.flat && len(v) == 0
		for _, c := range v {
			unsure[c.trait] = unsure[c.trait] || c.unknown
		}
	}
	for j := range t.Traits {
		crossing := 0.0
		if !unsure[j] { // where a cell is unknown, no misreading of it is counted
			crossing = terms.Mistake * t.Traits[j].leastCrossing()
		}
		b.cheapest = min(b.cheapest, b.leastInTwo(&t.Traits[j], crossing))
	}
	switch {
	case len(t.Taxa) <= lookBelow:
		b.finish = exactBelowFew
	case len(t.Taxa) > manyTaxa && !b.flat:
		b.finish = exactBelowMany
	}
	b.certain = b.allApart()
	return b
}

// leastInTwo is the least that a question of a trait costs an animal for each of the
// questions in two that it stands for: to part it in three takes two of them, the
// second asked of the two smaller sides, so of two thirds at most; in four, three,
// asked of all animals twice at most.
func (b *bench) leastInTwo(t *TableColumn, crossing float64) float64 {
	least := t.Effort + crossing
	if n := min(len(t.States), b.Leads); n > 2 {
		least = min(least, 3./5*(t.Effort+b.Option+2*crossing))
		if n > 3 {
			least = min(least, 1./2*(t.Effort+2*b.Option+3*crossing))
		}
	}
	return least
}

// mostPairs is how many pairs of taxa are compared in a table that varies.
const mostPairs = 1000000

// allApart reports whether some trait tells every two taxa apart for certain;
// false where that would take too long to find out.
func (b *bench) allApart() bool {
	if b.flat {
		rows := map[string]bool{}
		for i := range b.Taxa {
			row := make([]byte, 0, 8*b.stride)
			for _, word := range b.pure[i*b.stride : (i+1)*b.stride] {
				row = binary.LittleEndian.AppendUint64(row, word)
			}
			rows[string(row)] = true
		}
		return len(rows) == len(b.Taxa)
	}
	if len(b.Taxa)*len(b.Taxa) > mostPairs {
		return false
	}
	for i := range b.Taxa {
		for j := range i {
			if !b.apart(i, j) {
				return false
			}
		}
	}
	return true
}

// crossing is the chance that a true state is read as one of others.
func (t *TableColumn) crossing(state int, others uint64) float64 {
	sum := 0.0
	for ; others != 0; others &= others - 1 {
		sum += t.Readings[state][bits.TrailingZeros64(others)]
	}
	return sum
}

// leastCrossing is the least chance that any state is read as any one other.
func (t *TableColumn) leastCrossing() float64 {
	least := math.Inf(1)
	for state := range t.States {
		for read := range t.States {
			if read != state {
				least = min(least, t.Readings[state][read])
			}
		}
	}
	return least
}

// tally is the weights of one node's items by state.
type tally struct {
	weights []float64 // by bit of the rows, varied cells by their shares
	total   float64
	varied  []variedItem
}

type variedItem struct {
	item   int
	cell   *cell
	states uint64
	weight float64
}

func (b *bench) tally(items []item) *tally {
	t := &tally{weights: b.accumulator()}
	for i := range items {
		it := &items[i]
		t.total += it.weight
		row := b.pure[it.taxon*b.stride : (it.taxon+1)*b.stride]
		for k, word := range row {
			for ; word != 0; word &= word - 1 {
				t.weights[k*64+bits.TrailingZeros64(word)] += it.weight
			}
		}
		for j := range b.varied[it.taxon] {
			c := &b.varied[it.taxon][j]
			t.varied = append(t.varied, variedItem{i, c, it.left(c), it.weight})
		}
	}
	for _, v := range t.varied {
		if !v.cell.unknown {
			whole := v.cell.share(v.states)
			for s := v.states; s != 0; s &= s - 1 {
				k := bits.TrailingZeros64(s)
				t.weights[b.first[v.cell.trait]+k] += v.weight * v.cell.shares[k] / whole
			}
		}
	}
	slices.SortStableFunc(t.varied, func(x, y variedItem) int { return x.cell.trait - y.cell.trait })
	return t
}

func (c *cell) share(states uint64) float64 {
	sum := 0.0
	for states &= c.states; states != 0; states &= states - 1 {
		sum += c.shares[bits.TrailingZeros64(states)]
	}
	return sum
}

func (b *bench) accumulator() []float64 {
	if n := len(b.spare); n > 0 {
		a := b.spare[n-1]
		b.spare = b.spare[:n-1]
		clear(a)
		return a
	}
	return make([]float64, b.stride*64)
}

func (b *bench) release(t *tally) { b.spare = append(b.spare, t.weights) }

// questions calls see with every question that would take at least one of the
// items off one side.
func (b *bench) questions(t *tally, see func(question)) {
	varied := t.varied
	for j := range b.Traits {
		n := 0
		for n < len(varied) && varied[n].cell.trait == j {
			n++
		}
		b.ofTrait(t, j, varied[:n], see)
		varied = varied[n:]
	}
}

// weightsOf are the weights of a trait's states.
func (b *bench) weightsOf(t *tally, trait int) []float64 {
	return t.weights[b.first[trait] : b.first[trait]+len(b.Traits[trait].States)]
}

func (b *bench) ofTrait(t *tally, j int, varied []variedItem, see func(question)) {
	weights := b.weightsOf(t, j)
	possible := uint64(0)
	for s, w := range weights {
		if w > 0 {
			possible |= 1 << s
		}
	}
	if bits.OnesCount64(possible) == 2 {
		q := question{trait: j, sides: sides{possible & -possible, possible & (possible - 1)}}
		if b.weigh(&q, t, weights, varied) {
			see(q)
		}
		return
	}
	for _, way := range b.ways.partings(len(b.Traits[j].States), possible) {
		q := question{trait: j, sides: way}
		if b.weigh(&q, t, weights, varied) {
			see(q)
		}
	}
}

// weigh finds what a question costs and gives at a node, and reports whether it is
// to be asked: it takes some item off one side, and is worth its leads.
func (b *bench) weigh(q *question, t *tally, weights []float64, varied []variedItem) bool {
	var comes [MaxLeads]float64
	all, crossed := q.sides.all(), 0.0
	leads := q.sides.len()
	for k := range leads {
		others := all &^ q.sides[k]
		for s := q.sides[k]; s != 0; s &= s - 1 {
			state := bits.TrailingZeros64(s)
			comes[k] += weights[state]
			crossed += weights[state] * b.Traits[q.trait].crossing(state, others)
		}
	}
	everywhere, parted := 0.0, 0.0
	for i := range varied {
		v := &varied[i]
		p := v.cell.onSides(v.states, &q.sides)
		if on := sidesOf(&p); on > 1 {
			if on == leads {
				everywhere += v.weight
			}
			parted += v.weight * entropyOf(p[:leads], 1)
		}
		if v.cell.unknown {
			for k := range leads {
				comes[k] += v.weight * p[k]
			}
		}
	}
	q.cost = b.effort(q.trait, leads)*t.total + b.Mistake*crossed
	if leads > 2 && parted == 0 && !b.saves(q.trait, comes[:leads], t.total) {
		return false
	}
	q.gain = t.total*entropyOf(comes[:leads], t.total) - parted
	return everywhere < t.total*(1-1e-12)
}

// effort is what asking costs one animal, misreading not counted.
func (b *bench) effort(trait, leads int) float64 {
	return b.Traits[trait].Effort + b.Option*float64(leads-2)
}

// saves reports whether a question of three leads or more, which sends no item to two
// sides, is worth its leads: where the animals of its two smallest sides are few, one
// lead for both, and a question of those alone, cost no more, and are misread as rarely.
func (b *bench) saves(trait int, comes []float64, total float64) bool {
	least, next := math.Inf(1), math.Inf(1)
	for _, w := range comes {
		switch {
		case w < least:
			least, next = w, least
		case w < next:
			next = w
		}
	}
	return b.Traits[trait].Effort*(least+next) > b.Option*total
}

// onSides are the shares of a cell's animals that go to each side of a question.
func (c *cell) onSides(states uint64, of *sides) (p [MaxLeads]float64) {
	if c.unknown {
		whole := float64(bits.OnesCount64(of.all()))
		for k, side := range of {
			p[k] = float64(bits.OnesCount64(side)) / whole
		}
		return p
	}
	sum := 0.0
	for k, side := range of {
		if side != 0 {
			p[k] = c.share(states & side)
			sum += p[k]
		}
	}
	for k := range p {
		p[k] /= sum
	}
	return p
}

// sidesOf is how many sides have a share.
func sidesOf(p *[MaxLeads]float64) (n int) {
	for _, share := range p {
		if share > 0 {
			n++
		}
	}
	return n
}

// entropyOf is the information of shares that are given as parts of a total, in bits.
func entropyOf(parts []float64, total float64) float64 {
	if len(parts) == 2 {
		return entropy(parts[0] / total)
	}
	sum := 0.0
	for _, p := range parts {
		if p > 0 {
			sum -= p / total * math.Log2(p/total)
		}
	}
	return sum
}

func entropy(p float64) float64 {
	if p <= 0 || p >= 1 {
		return 0
	}
	return -p*math.Log2(p) - (1-p)*math.Log2(1-p)
}

// part gives the items on each side of a question.
func (b *bench) part(items []item, q question) [][]item {
	out := make([][]item, q.sides.len())
	for k := range out {
		out[k] = make([]item, 0, len(items)/len(out)+1)
	}
	for _, it := range items {
		if s := b.single(it.taxon, q.trait); s != 0 {
			for k := range out {
				if s&q.sides[k] != 0 {
					out[k] = append(out[k], it)
				}
			}
			continue
		}
		c := b.cellOf(it.taxon, q.trait)
		for k, p := range c.onSides(it.left(c), &q.sides) {
			if p > 0 {
				out[k] = append(out[k], it.narrowed(q.trait, q.sides[k], p))
			}
		}
	}
	return out
}

func (it item) narrowed(trait int, states uint64, share float64) item {
	return item{it.taxon, it.weight * share, &narrow{trait, states, it.narrow}}
}

func (t *TraitTable) cellOf(taxon, trait int) *cell {
	for i := range t.varied[taxon] {
		if t.varied[taxon][i].trait == trait {
			return &t.varied[taxon][i]
		}
	}
	return nil
}
