package chance

import (
	"encoding/binary"
	"math"
	"slices"
)

// Settler finds what the chances of a value would be if one of the records were
// settled, for record after record. What the others may give is worked out once for
// all of them, and records that are alike to the formula are settled once.
type Settler struct {
	formula Formula
	open    []KindDistribution // one of each sort of uncertain record that is to be settled
	many    []int              // how many records there are of each sort
	others  []KindDistribution // all that is not to be settled
	Sort    []int              // of each record that is to be settled: its sort, -1 where settling it changes nothing
	Work    float64            // steps made
}

// Settled is what a record may turn out to be, with what the value would be then.
type Settled struct {
	Chance float64
	Then   Distribution
}

// Settler parts the distributions at which it may be asked from all others.
func (formula Formula) Settler(distributions []KindDistribution, at []int) *Settler {
	t := &Settler{formula: formula, Sort: make([]int, len(at))}
	alike := formula.coarse(distributions)
	asked := make([]bool, len(distributions))
	known := map[string]int{}
	for n, i := range at {
		f := alike[i]
		if asked[i] = true; f.certain() {
			t.others, t.Sort[n] = append(t.others, f), -1
			continue
		}
		k, old := known[f.key()]
		if !old {
			k = len(t.open)
			known[f.key()] = k
			t.open, t.many = append(t.open, f), append(t.many, 0)
		}
		t.Sort[n] = k
		t.many[k]++
	}
	for i, f := range alike {
		if !asked[i] {
			t.others = append(t.others, f)
		}
	}
	for k, n := range t.many {
		for range n - 1 {
			t.others = append(t.others, t.open[k])
		}
	}
	t.others = formula.together(t.others)
	return t
}

// coarse makes one outcome of all that are the same to the formula: those of equal
// parts, or those of kinds of which there are enough for certain.
func (formula Formula) coarse(distributions []KindDistribution) []KindDistribution {
	a := formula.Accrual
	if a == nil {
		return distributions
	}
	same := formula.sameTo(*a, distributions)
	out := make([]KindDistribution, len(distributions))
	for i, f := range distributions {
		if f.certain() {
			out[i] = f // it is what makes enough of its kind
			continue
		}
		if out[i].Count = f.Count; a.Most > 0 {
			out[i].Count = min(f.Count, a.Most)
		}
		for _, o := range f.Outcomes {
			out[i].add(Outcome{Kind: same(o.Kind), Chance: o.Chance})
		}
	}
	return out
}

// sameTo gives for a kind the one that stands for all that are the same to a formula.
func (formula Formula) sameTo(a Accrual, distributions []KindDistribution) func(kind int) int {
	stands := make([]int, formula.Kinds+1)
	first := map[parts]int{}
	enough := make([]int64, formula.Kinds)
	for _, f := range formula.together(distributions) {
		if f.certain() {
			enough[f.Outcomes[0].Kind] = f.Count
		}
	}
	first[parts{}] = None
	for k := range formula.Kinds {
		p := partOf(a, k, 1)
		switch at, known := first[p]; {
		case a.Most > 0 && enough[k] >= a.Most:
			stands[k] = None
		case a.Most > 0:
			stands[k] = k
		case known:
			stands[k] = at
		default:
			first[p], stands[k] = k, k
		}
	}
	stands[formula.Kinds] = None
	return func(kind int) int {
		if kind == None {
			return None
		}
		return stands[kind]
	}
}

// key is the same for distributions that are the same.
func (f KindDistribution) key() string {
	b := binary.BigEndian.AppendUint64(nil, uint64(f.Count))
	for _, o := range f.Outcomes {
		b = binary.BigEndian.AppendUint64(b, uint64(o.Kind))
		b = binary.BigEndian.AppendUint64(b, math.Float64bits(o.Chance))
	}
	return string(b)
}

// Each gives, sort after sort, what the records of it may turn out to be.
func (t *Settler) Each(m *Simulation, give func(sort int, may []Settled)) {
	if len(t.open) == 0 {
		return
	}
	all := slices.Concat(t.open, t.others)
	if t.formula.Accrual != nil {
		if _, ok := t.formula.exact(all, (*kindSet).follow); ok {
			t.exact(*t.formula.Accrual, give)
			return
		}
	}
	ways := 1
	for _, f := range all {
		if ways *= len(f.Outcomes); ways > mostWays {
			t.simulate(m, give)
			return
		}
	}
	for k, f := range t.open {
		may := make([]Settled, len(f.Outcomes))
		for i, o := range f.Outcomes {
			all[k] = f.Settled(o.Kind)
			may[i] = Settled{o.Chance, t.formula.Distribution(all, m)}
			t.Work += float64(ways)
		}
		all[k] = f
		give(k, may)
	}
}

// leavingOut gives, for each of n members, what all others make of a beginning. It
// halves them again and again, so that each is put in log n times instead of n.
func leavingOut[T any](n int, begin T, put func(T, int) T, give func(i int, rest T)) {
	var part func(from, to int, rest T)
	part = func(from, to int, rest T) {
		if to-from == 1 {
			give(from, rest)
			return
		}
		mid := (from + to) / 2
		left, right := rest, rest
		for i := from; i < mid; i++ {
			right = put(right, i)
		}
		for i := mid; i < to; i++ {
			left = put(left, i)
		}
		part(from, mid, left)
		part(mid, to, right)
	}
	if n > 0 {
		part(0, n, begin)
	}
}
