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

// question parts the states of a trait in two.
type question struct {
	trait int
	a, b  uint64
	cost  float64 // at the node it was weighed at
	gain  float64 // in bits times weight
}

// other is the side of a question that a state is not on.
func (q *question) other(state int) uint64 {
	if q.a>>state&1 == 1 {
		return q.b
	}
	return q.a
}

// maxAllWays is the most states of which every way to part them is tried.
const maxAllWays = 6

// ways are the sets that may stand on one side of a question of n states; the
// last state is always on the other side, or the set is that of a single one.
func ways(n int) []uint64 {
	all := ^uint64(0) >> (64 - n)
	var out []uint64
	add := func(a uint64) {
		if a>>(n-1)&1 == 1 {
			a = all &^ a
		}
		if a != 0 && !slices.Contains(out, a) {
			out = append(out, a)
		}
	}
	if n <= maxAllWays {
		for a := uint64(1); a < 1<<(n-1); a++ {
			add(a)
		}
		return out
	}
	for s := range n - 1 {
		add(1 << s)
		add(1<<(s+1) - 1)
	}
	add(1 << (n - 1))
	return out
}

// bench is a table with all that questions of it need.
type bench struct {
	*TraitTable
	mistake  float64
	ways     [][]uint64  // by trait
	cheapest float64     // the least cost of any question for one animal, misreading included
	certain  bool        // every two taxa are told apart for certain by some trait
	flat     bool        // nothing varies
	finish   int         // so few taxa are parted exactly within larger sets
	spare    [][]float64 // accumulators not in use
}

func newBench(t *TraitTable, mistake float64) *bench {
	b := &bench{TraitTable: t, mistake: mistake, cheapest: math.Inf(1), flat: true, finish: exactBelow}
	byLength := map[int][]uint64{}
	for _, trait := range t.Traits {
		n := len(trait.States)
		if byLength[n] == nil {
			byLength[n] = ways(n)
		}
		b.ways = append(b.ways, byLength[n])
	}
	unsure := make([]bool, len(t.Traits))
	for _, v := range t.varied {
		b.flat = b.flat && len(v) == 0
		for _, c := range v {
			unsure[c.trait] = unsure[c.trait] || c.unknown
		}
	}
	for j := range t.Traits {
		least := t.Traits[j].Effort
		if !unsure[j] { // where a cell is unknown, no misreading of it is counted
			least += mistake * t.Traits[j].leastCrossing()
		}
		b.cheapest = min(b.cheapest, least)
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
func (t *Trait) crossing(state int, others uint64) float64 {
	sum := 0.0
	for ; others != 0; others &= others - 1 {
		sum += t.Readings[state][bits.TrailingZeros64(others)]
	}
	return sum
}

// leastCrossing is the least chance that any state is read as any one other.
func (t *Trait) leastCrossing() float64 {
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

func (b *bench) ofTrait(t *tally, j int, varied []variedItem, see func(question)) {
	weights := t.weights[b.first[j] : b.first[j]+len(b.Traits[j].States)]
	present := uint64(0)
	for s, w := range weights {
		if w > 0 {
			present |= 1 << s
		}
	}
	if present&(present-1) == 0 {
		return
	}
	var before [32]uint64
	seen := before[:0]
	for _, way := range b.ways[j] {
		q := question{trait: j, a: way & present, b: present &^ way}
		if q.a == 0 || q.b == 0 || slices.Contains(seen, q.a) || slices.Contains(seen, q.b) {
			continue
		}
		seen = append(seen, q.a)
		if b.weigh(&q, t, weights, varied) {
			see(q)
		}
	}
}

// weigh finds what a question costs and gives at a node, and reports whether it
// takes any item off one side.
func (b *bench) weigh(q *question, t *tally, weights []float64, varied []variedItem) bool {
	sideA, crossed := 0.0, 0.0
	for s := q.a; s != 0; s &= s - 1 {
		sideA += weights[bits.TrailingZeros64(s)]
	}
	for s := q.a | q.b; s != 0; s &= s - 1 {
		k := bits.TrailingZeros64(s)
		crossed += weights[k] * b.Traits[q.trait].crossing(k, q.other(k))
	}
	both, parted := 0.0, 0.0
	for _, v := range varied {
		p := v.onA(q)
		if p > 0 && p < 1 {
			both += v.weight
			parted += v.weight * entropy(p)
		}
		if v.cell.unknown {
			sideA += v.weight * p
		}
	}
	q.cost = b.Traits[q.trait].Effort*t.total + b.mistake*crossed
	q.gain = t.total*entropy(sideA/t.total) - parted
	return both < t.total*(1-1e-12)
}

// onA is the share of a varied item that goes to side a of a question.
func (v variedItem) onA(q *question) float64 { return onA(v.cell, v.states, q) }

func onA(c *cell, states uint64, q *question) float64 {
	if c.unknown {
		return float64(bits.OnesCount64(q.a)) / float64(bits.OnesCount64(q.a|q.b))
	}
	x, y := c.share(states&q.a), c.share(states&q.b)
	return x / (x + y)
}

func entropy(p float64) float64 {
	if p <= 0 || p >= 1 {
		return 0
	}
	return -p*math.Log2(p) - (1-p)*math.Log2(1-p)
}

// part gives the items on each side of a question.
func (b *bench) part(items []item, q question) (as, bs []item) {
	as, bs = make([]item, 0, len(items)/2+1), make([]item, 0, len(items)/2+1)
	for _, it := range items {
		if s := b.single(it.taxon, q.trait); s != 0 {
			if s&q.a != 0 {
				as = append(as, it)
			} else {
				bs = append(bs, it)
			}
			continue
		}
		c := b.cellOf(it.taxon, q.trait)
		p := onA(c, it.left(c), &q)
		if p > 0 {
			as = append(as, it.narrowed(q.trait, q.a, p))
		}
		if p < 1 {
			bs = append(bs, it.narrowed(q.trait, q.b, 1-p))
		}
	}
	return as, bs
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
