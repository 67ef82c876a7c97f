package draft

import (
	"slices"

	"rillkey/taxa/wording"
)

// The sizes that decide how a set of taxa is parted.
const (
	// exactTaxa is the most taxa for which the optimum is sought.
	exactTaxa = 14

	exactBelow     = 8   // taxa, within larger sets
	exactBelowFew  = 11  // the same within tables so small that they are looked ahead in
	exactBelowMany = 5   // the same within tables of many taxa that vary
	manyTaxa       = 500 // taxa
	alikeBelow     = 7   // taxa
	lookBelow      = 400 // taxa
	lookTries      = 6   // questions
	lookMoreBelow  = 20  // taxa
	lookMoreTries  = 60  // questions
	lookAgainBelow = 10  // taxa
	lookAgainTries = 5   // questions
	lookAgain      = 2   // levels
	finalAbove     = 4   // taxa more than are finished exactly
	finalists      = 8   // questions

	// The most sets that a search for the optimum looks at where taxa vary; it
	// gives up above.
	mostSets   = 400000
	sketchSets = 5000 // of a sketch
	fewSets    = 2000 // within larger sets
)

// Node is a couplet of a drafted key, or an end of it.
type Node struct {
	Trait    int      // the trait parted, by its place in the table
	Sides    []uint64 // the states on each side, as bits: two sides, three or four
	Children []*Node  // by side
	// Taxa are the taxa that come here, by their places in the table: at an end,
	// one, or those that nothing tells apart.
	Taxa []int

	Weight float64 // of the animals that come here, all together being 1
	Cost   float64 // of what is asked of them from here on, and of what they are misnamed
}

// End reports whether the key ends here.
func (n *Node) End() bool { return len(n.Children) == 0 }

// Terms are what a draft is measured by, beside the effort of looking.
type Terms struct {
	Mistake float64 // what a wrong name costs, in the unit of the traits' effort
	Option  float64 // the effort of reading each lead of a couplet beyond two
	Leads   int     // the most leads of a couplet, from 2 to MaxLeads; 0 means MaxLeads
}

// UsualMistake is what a wrong name costs where nobody says, in looks with the naked eye:
// ten further questions would be asked to avoid it (memory). MaxMistake is the most.
const (
	UsualMistake = 10
	MaxMistake   = 1e6
)

// leads are the most leads of a couplet.
func (t Terms) leads() int {
	if t.Leads == 0 {
		return MaxLeads
	}
	return max(2, min(t.Leads, MaxLeads))
}

// Draft is a drafted key.
type Draft struct {
	Table *TraitTable
	Root  *Node
	Cost  float64 // see the package comment; for one animal
	Exact bool    // nothing cheaper exists
}

// New drafts a key of all taxa of a table. It refuses a table of fewer than two
// taxa, or one in which nothing differs.
func New(t *TraitTable, terms Terms) (*Draft, error) { return newDraft(t, terms, mostSets, true) }

// NewQuick is [New] in a hurry: it gives up the search for the optimum sooner, where
// many taxa vary, and tries less.
func NewQuick(t *TraitTable, terms Terms) (*Draft, error) {
	return newDraft(t, terms, sketchSets, false)
}

func newDraft(t *TraitTable, terms Terms, sets int, try bool) (*Draft, error) {
	if len(t.Taxa) < 2 {
		return nil, wording.Errorf("a key needs at least two taxa; there are %d", len(t.Taxa))
	}
	b := newBench(t, terms)
	items := b.items()
	d := &Draft{Table: t}
	if len(items) <= exactTaxa {
		d.Root, d.Exact = b.exact(items, sets)
	}
	if d.Root == nil {
		d.Root = b.grow(items, try)
	}
	d.Cost = b.cost(d.Root, items)
	if d.Root.End() {
		return nil, wording.Errorf("nothing in the table tells any two of its %d taxa apart", len(t.Taxa))
	}
	return d, nil
}

// items are all taxa, with weights that sum to 1.
func (b *bench) items() []item {
	total := 0.0
	for _, t := range b.Taxa {
		total += t.Weight
	}
	items := make([]item, len(b.Taxa))
	for i, t := range b.Taxa {
		items[i] = item{taxon: i, weight: t.Weight / total}
	}
	return items
}

func end(items []item) *Node {
	n := &Node{Taxa: make([]int, len(items))}
	for i, it := range items {
		n.Taxa[i] = it.taxon
	}
	return n
}

// cost is what a tree costs the animals that come to it. It notes weights and
// costs at the nodes.
func (b *bench) cost(n *Node, items []item) float64 {
	n.Weight, n.Cost = 0, 0
	for _, it := range items {
		n.Weight += it.weight
	}
	if n.End() {
		n.Cost = b.doubt(items)
		return n.Cost
	}
	q := question{trait: n.Trait}
	copy(q.sides[:], n.Sides)
	t := b.tally(items)
	b.weigh(&q, t, b.weightsOf(t, n.Trait), slices.DeleteFunc(t.varied, func(v variedItem) bool { return v.cell.trait != n.Trait }))
	b.release(t)
	n.Cost = q.cost
	for k, part := range b.part(items, q) {
		n.Cost += b.cost(n.Children[k], part)
	}
	return n.Cost
}

// doubt is what an end costs that several taxa share: whoever takes its animals
// for the most common of them is wrong about all the others.
func (b *bench) doubt(items []item) float64 {
	sum, most := 0.0, 0.0
	for _, it := range items {
		sum += it.weight
		most = max(most, it.weight)
	}
	return b.Mistake * (sum - most)
}

// Each calls see with every node, from the top down, with the number of
// questions on the way there.
func (d *Draft) Each(see func(n *Node, depth int)) { d.walk(nil, see) }

// walk is Each without the nodes that are in without, and what is beneath them.
func (d *Draft) walk(without map[*Node]string, see func(n *Node, depth int)) {
	type place struct {
		n     *Node
		depth int
	}
	for stack := []place{{d.Root, 0}}; len(stack) > 0; {
		at := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if without[at.n] != "" {
			continue
		}
		see(at.n, at.depth)
		if !at.n.End() {
			for _, n := range slices.Backward(at.n.Children) {
				stack = append(stack, place{n, at.depth + 1})
			}
		}
	}
}

// MeanPath is the mean number of questions to an end, ends counted once.
func (d *Draft) MeanPath() float64 {
	ends, sum := 0, 0
	d.Each(func(n *Node, depth int) {
		if n.End() {
			ends++
			sum += depth
		}
	})
	return float64(sum) / float64(ends)
}
