package draft

import (
	"fmt"
	"math"
	"math/bits"
	"math/rand/v2"
	"testing"
)

// known is a table of kinds that show one state each of one trait, which are never
// misread, with so many animals of each.
func known(animals ...float64) *TraitTable {
	t, err := NewTable(make([]TableRow, len(animals)), []TableColumn{trait("tails", len(animals), 1, 0)})
	if err != nil {
		panic(err)
	}
	for i, n := range animals {
		t.Taxa[i] = TableRow{ID: fmt.Sprint("kind-", i), Weight: n}
		t.Set(i, 0, []int{i}, []float64{1})
	}
	return t
}

// A look costs one, and every lead beyond two that is read a twentieth. The costs are
// worked out by hand.
func TestALeadMoreIsWrittenWhereItCostsLessThanAsking(t *testing.T) {
	for _, row := range []struct {
		why   string
		table *TraitTable
		leads int // at most
		first int // leads of the first couplet
		cost  float64
	}{
		{"three as common: one couplet", known(1, 1, 1), 4, 3, 1 + 1*.05},
		{"the same in leads of two: two of three are asked again", known(1, 1, 1), 2, 2, 1 + 2./3},
		{"four as common: one couplet", known(1, 1, 1, 1), 4, 4, 1 + 2*.05},
		{"the same in leads of three: two of four are asked again", known(1, 1, 1, 1), 3, 3, 1 + .05 + 2./4},
		{"two so rare that asking them again costs less than a lead for all", known(98, 1, 1), 4, 2, 1 + 2./100},
		{"one rare beside one that is not: still one couplet", known(40, 40, 19, 1), 4, 4, 1 + 2*.05},
		{"two rare together", known(48, 48, 2, 2), 4, 3, 1 + .05 + 4./100},
		{"five: the two rarest are asked again", known(30, 30, 30, 5, 5), 4, 4, 1 + 2*.05 + .1},
	} {
		d, err := New(row.table, Terms{Option: .05, Leads: row.leads})
		if err != nil {
			t.Fatal(err)
		}
		if len(d.Root.Sides) != row.first || math.Abs(d.Cost-row.cost) > 1e-12 || !d.Exact {
			t.Errorf("%s: %d leads first, cost %.4f, want %d and %.4f", row.why, len(d.Root.Sides), d.Cost, row.first, row.cost)
		}
	}
}

// reference is the least cost of any key of a table, by a dynamic program over the sets
// of taxa still possible and what the way there has left of each trait. It shares no
// line with what it checks, and leaves nothing out that might be dear.
type reference struct {
	*TraitTable
	Terms
	memo map[string]float64 // nil where cells are unknown, since the way there counts
}

// optimum is the least cost of all taxa.
func optimum(t *TraitTable, terms Terms) float64 {
	r := &reference{TraitTable: t, Terms: terms, memo: map[string]float64{}}
	total := 0.0
	for i := range t.Taxa {
		total += t.Taxa[i].Weight
		for _, c := range t.varied[i] {
			if c.unknown {
				r.memo = nil
			}
		}
	}
	come := make([]float64, len(t.Taxa))
	for i := range come {
		come[i] = t.Taxa[i].Weight / total
	}
	left := make([]uint64, len(t.Traits))
	for j := range left {
		left[j] = 1<<len(t.Traits[j].States) - 1
	}
	return r.least(come, left)
}

// shows is the states of a taxon that are left of a trait, and whether it is known.
func (r *reference) shows(taxon, trait int, left uint64) (uint64, bool) {
	s := r.stated(taxon, trait)
	return s & left, s != 0
}

// share is the share of a taxon's animals that show one of some states, of those that
// show one of those left.
func (r *reference) shareOf(taxon, trait int, states, left uint64) float64 {
	if shown := r.single(taxon, trait); shown != 0 {
		return float64(bits.OnesCount64(shown & states))
	}
	sum, whole := 0.0, 0.0
	for _, c := range r.varied[taxon] {
		for s, share := range c.shares {
			if c.trait == trait && left>>s&1 == 1 {
				if whole += share; states>>s&1 == 1 {
					sum += share
				}
			}
		}
	}
	return sum / whole
}

func (r *reference) least(come []float64, left []uint64) float64 {
	here, most, sum := 0, 0.0, 0.0
	mark := ""
	for i, w := range come {
		if w > 0 {
			here++
			most, sum = max(most, w), sum+w
			mark += fmt.Sprint(i, " ")
		}
	}
	if here < 2 {
		return 0
	}
	mark += fmt.Sprint(left)
	if cost, ok := r.memo[mark]; ok {
		return cost
	}
	best := r.Mistake * (sum - most)
	if r.anyApart(come, left) {
		best = math.Inf(1)
		for j := range r.Traits {
			possible := uint64(0)
			for i, w := range come {
				if s, known := r.shows(i, j, left[j]); known && w > 0 {
					possible |= s
				}
			}
			inSides(possible, nil, func(parts []uint64) {
				if len(parts) > 1 && len(parts) <= MaxLeads {
					best = min(best, r.asked(j, parts, possible, come, left))
				}
			})
		}
	}
	if r.memo != nil {
		r.memo[mark] = best
	}
	return best
}

// inSides calls see with every way to put states into sides.
func inSides(states uint64, parts []uint64, see func([]uint64)) {
	if states == 0 {
		see(parts)
		return
	}
	one := states & -states
	for k := range parts {
		parts[k] |= one
		inSides(states&^one, parts, see)
		parts[k] &^= one
	}
	inSides(states&^one, append(parts, one), see)
}

func (r *reference) anyApart(come []float64, left []uint64) bool {
	for x := range come {
		for y := range x {
			for j := range left {
				a, known := r.shows(x, j, left[j])
				b, too := r.shows(y, j, left[j])
				if come[x] > 0 && come[y] > 0 && known && too && a&b == 0 {
					return true
				}
			}
		}
	}
	return false
}

// asked is what it costs to ask a trait first, its states put into sides.
func (r *reference) asked(j int, parts []uint64, possible uint64, come []float64, left []uint64) float64 {
	cost, parted := 0.0, false
	below := make([][]float64, len(parts))
	for k := range below {
		below[k] = make([]float64, len(come))
	}
	for i, w := range come {
		if w == 0 {
			continue
		}
		cost += w * (r.Traits[j].Effort + r.Option*float64(len(parts)-2))
		states, known := r.shows(i, j, left[j])
		if !known {
			for k, part := range parts {
				below[k][i] = w * float64(bits.OnesCount64(part)) / float64(bits.OnesCount64(possible))
			}
			continue
		}
		for k, part := range parts {
			below[k][i] = w * r.shareOf(i, j, part, left[j])
			parted = parted || below[k][i] == 0
			for s := range r.Traits[j].States {
				for o := range r.Traits[j].States {
					if (states&part)>>s&1 == 1 && (possible&^part)>>o&1 == 1 {
						cost += r.Mistake * w * r.shareOf(i, j, 1<<s, left[j]) * r.Traits[j].Readings[s][o]
					}
				}
			}
		}
	}
	if !parted {
		return math.Inf(1)
	}
	for k, part := range parts {
		after := append([]uint64(nil), left...)
		after[j] &= part
		cost += r.least(below[k], after)
	}
	return cost
}

// Of a hundred and twenty small tables, a third plain, a third with kinds that show
// several states, a third with unknown cells too, each draft is the cheapest key there is.
func TestSmallDraftsAreTheOptimum(t *testing.T) {
	each := 40
	if testing.Short() {
		each = 8
	}
	two, more := 0, 0
	for kind, rows := range []int{5, 3, 2} {
		for seed := range each {
			r := rand.New(rand.NewPCG(uint64(seed), uint64(20+kind)))
			table := random(r, 3+r.IntN(rows), 2+r.IntN(3), []float64{0, 0.2, 0.5}[kind])
			if kind == 1 {
				table = withoutUnknown(table)
			}
			terms := Terms{Mistake: []float64{0, 3, 10}[seed%3], Option: []float64{.05, .2, .5}[seed/3%3]}
			d, err := New(table, terms)
			if err != nil {
				continue // nothing in it differs
			}
			if best := optimum(table, terms); math.Abs(d.Cost-best) > 1e-9*best || !d.Exact {
				t.Errorf("kind %d, seed %d: the draft costs %v, the optimum %v", kind, seed, d.Cost, best)
			}
			d.Each(func(n *Node, _ int) {
				if !n.End() && len(n.Sides) > 2 {
					more++
				} else if !n.End() {
					two++
				}
			})
		}
	}
	if two < each || more < each {
		t.Errorf("%d couplets of two leads and %d of more show little", two, more)
	}
}

// withoutUnknown is a table with the first state in the place of what is unknown.
func withoutUnknown(from *TraitTable) *TraitTable {
	t, err := NewTable(from.Taxa, from.Traits)
	if err != nil {
		panic(err)
	}
	for i := range t.Taxa {
		for j := range t.Traits {
			var states []int
			var shares []float64
			stated := max(1, from.stated(i, j))
			for s := range t.Traits[j].States {
				if stated>>s&1 == 1 {
					states, shares = append(states, s), append(shares, 1/float64(bits.OnesCount64(stated)))
				}
			}
			t.Set(i, j, states, shares)
		}
	}
	return t
}
