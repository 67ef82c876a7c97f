package draft

import (
	"cmp"
	"container/heap"
	"math"
	"slices"
)

// grow drafts a tree question by question. With try, it drafts what follows each
// of the best few questions of a set that is not much too large to be finished
// exactly; beneath them it does not try so again.
func (b *bench) grow(items []item, try bool) *Node {
	if len(items) <= b.finish {
		if n, ok := b.exact(items, fewSets); ok {
			return n
		}
	}
	of := b.choose(items)
	if len(of) == 0 {
		return end(items)
	}
	if !try || len(items) > b.finish+finalAbove {
		return b.grown(items, of[0], try)
	}
	var best *Node
	least := math.Inf(1)
	for _, q := range of[:min(len(of), finalists)] {
		n := b.grown(items, q, false)
		if cost := b.cost(n, items); cost < least {
			best, least = n, cost
		}
	}
	return best
}

// grown is a tree that asks a question first.
func (b *bench) grown(items []item, q question, try bool) *Node {
	n := end(items)
	n.Trait, n.Sides = q.trait, slices.Clone(q.sides[:q.sides.len()])
	for _, part := range b.part(items, q) {
		n.Children = append(n.Children, b.grow(part, try))
	}
	return n
}

// choose is the questions to ask of these items that help, those first beneath
// which a quick draft costs least.
func (b *bench) choose(items []item) []question {
	best := b.best(items, b.tries(len(items)))
	if len(best) <= 1 {
		return best
	}
	totals := make(map[question]float64, len(best))
	least, bound := math.Inf(1), b.bound(items)
	for _, q := range best {
		total := q.cost
		for _, part := range b.part(items, q) {
			if total < least {
				total += b.rollout(part, lookAgain)
			}
		}
		totals[q] = total
		if least = min(least, total); least <= bound*(1+1e-9) {
			return []question{q}
		}
	}
	slices.SortStableFunc(best, func(x, y question) int { return cmp.Compare(totals[x], totals[y]) })
	return best
}

// tries is how many questions are tried for a set of n taxa: more where each
// costs less to try, none in a table so large that trying takes minutes.
func (b *bench) tries(n int) int {
	switch {
	case len(b.Taxa) > manyTaxa:
		return 1
	case n > lookBelow:
		return 1
	case n > lookMoreBelow:
		return lookTries
	}
	return lookMoreTries
}

// rollout is what a tree costs that is drafted with hardly any looking ahead: in
// small sets a few questions are tried, again so many times on the way down.
func (b *bench) rollout(items []item, again int) float64 {
	if len(items) < 2 {
		return 0
	}
	most := 1
	if again > 0 && len(items) <= lookAgainBelow {
		most = lookAgainTries
		again--
	}
	best := b.best(items, most)
	if len(best) == 0 {
		return b.doubt(items)
	}
	least, bound := math.Inf(1), 0.0
	if len(best) > 1 {
		bound = b.bound(items) * (1 + 1e-9)
	}
	for _, q := range best {
		if least > bound {
			total := q.cost
			for _, part := range b.part(items, q) {
				if total < least {
					total += b.rollout(part, again)
				}
			}
			least = min(least, total)
		}
	}
	return least
}

// best are the questions that cost least for what they tell, at most so many,
// the best first.
func (b *bench) best(items []item, most int) []question {
	if b.alike(items) {
		return nil
	}
	t := b.tally(items)
	defer b.release(t)
	var best []question
	b.questions(t, func(q question) {
		if len(best) == most && !better(q, best[most-1]) {
			return
		}
		i, _ := slices.BinarySearchFunc(best, q, func(have, q question) int {
			if better(q, have) {
				return 1
			}
			return -1
		})
		if len(best) == most {
			best = best[:most-1]
		}
		best = slices.Insert(best, i, q)
	})
	return best
}

// alike reports whether nothing tells any two of a few items apart for certain:
// asking on would only shift doubts. Sets of many items are parted first.
func (b *bench) alike(items []item) bool {
	if b.certain || len(items) > alikeBelow {
		return len(items) < 2
	}
	for i := range items {
		for j := range i {
			if b.apartHere(&items[i], &items[j]) {
				return false
			}
		}
	}
	return true
}

// apartHere is [Table.apart] for items, with what the way has left of them.
func (b *bench) apartHere(x, y *item) bool {
	for j := range b.Traits {
		p, q := b.states(x, j), b.states(y, j)
		if p != 0 && q != 0 && p&q == 0 {
			return true
		}
	}
	return false
}

// states is what an item can still show of a trait; 0 when that is unknown.
func (b *bench) states(it *item, trait int) uint64 {
	if s := b.single(it.taxon, trait); s != 0 {
		return s
	}
	c := b.cellOf(it.taxon, trait)
	if c == nil || c.unknown {
		return 0
	}
	return it.left(c)
}

// better reports whether x costs less than y for each bit. Questions that tell
// nothing of the weights, as where all items vary, come last.
func better(x, y question) bool {
	const nothing = 1e-12
	return x.cost*max(y.gain, nothing) < y.cost*max(x.gain, nothing)
}

// bound is what no tree of these items can cost less than: the least that parting in
// two can cost every animal at every node of the best code of their weights
// (Huffman, A method for the construction of minimum-redundancy codes, 1952). It
// is 0 where not every two taxa are told apart, since a tree may then end early.
func (b *bench) bound(items []item) float64 {
	if !b.certain {
		return 0
	}
	byTaxon := map[int]float64{}
	for _, it := range items {
		byTaxon[it.taxon] += it.weight
	}
	h := make(weights, 0, len(byTaxon))
	for _, it := range items {
		if w, there := byTaxon[it.taxon]; there {
			h = append(h, w)
			delete(byTaxon, it.taxon)
		}
	}
	heap.Init(&h)
	sum := 0.0
	for len(h) > 1 {
		w := heap.Pop(&h).(float64)
		h[0] += w
		sum += h[0]
		heap.Fix(&h, 0)
	}
	return sum * b.cheapest
}

// weights is a heap, the least on top.
type weights []float64

func (h weights) Len() int           { return len(h) }
func (h weights) Less(i, j int) bool { return cmp.Less(h[i], h[j]) }
func (h weights) Swap(i, j int)      { h[i], h[j] = h[j], h[i] }
func (h *weights) Push(x any)        { *h = append(*h, x.(float64)) }
func (h *weights) Pop() any {
	old := *h
	x := old[len(old)-1]
	*h = old[:len(old)-1]
	return x
}
