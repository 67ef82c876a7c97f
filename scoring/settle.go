package scoring

import (
	"encoding/binary"
	"math"
	"slices"

	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
)

// settler finds what the chances of a value would be if one of the records were
// settled, for record after record. What the others may give is worked out once for
// all of them, and records that are alike to the formula are settled once.
type settler struct {
	s      grader
	open   []kindDistribution // one of each sort of uncertain record that is to be settled
	many   []int              // how many records there are of each sort
	others []kindDistribution // all that is not to be settled
	class  []int              // of each record that is to be settled: its sort, -1 where settling it changes nothing
	work   float64            // steps made
}

// settled is what a record may turn out to be, with what the value would be then.
type settled struct {
	chance float64
	then   chances
}

// newSettler parts the distributions at which it may be asked from all others.
func (s grader) newSettler(distributions []kindDistribution, at []int) *settler {
	t := &settler{s: s, class: make([]int, len(at))}
	alike := s.coarse(distributions)
	asked := make([]bool, len(distributions))
	known := map[string]int{}
	for n, i := range at {
		f := alike[i]
		if asked[i] = true; f.certain() {
			t.others, t.class[n] = append(t.others, f), -1
			continue
		}
		k, old := known[f.key()]
		if !old {
			k = len(t.open)
			known[f.key()] = k
			t.open, t.many = append(t.open, f), append(t.many, 0)
		}
		t.class[n] = k
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
	t.others = s.together(t.others)
	return t
}

// coarse makes one outcome of all that are the same to the formula: those of equal
// parts, or those of kinds of which there are enough for certain.
func (s grader) coarse(distributions []kindDistribution) []kindDistribution {
	a, ok := s.Accrual()
	if !ok {
		return distributions
	}
	same := s.sameTo(a, distributions)
	out := make([]kindDistribution, len(distributions))
	for i, f := range distributions {
		if f.certain() {
			out[i] = f // it is what makes enough of its kind
			continue
		}
		if out[i].count = f.count; a.Most > 0 {
			out[i].count = min(f.count, a.Most)
		}
		for _, o := range f.outcomes {
			out[i].add(account.Outcome{Kind: same(o.Kind), Chance: o.Chance})
		}
	}
	return out
}

// sameTo gives for a kind the one that stands for all that are the same to a formula.
func (s grader) sameTo(a scheme.Accrual, distributions []kindDistribution) func(kind int) int {
	stands := make([]int, len(s.Kinds)+1)
	first := map[parts]int{}
	enough := make([]int64, len(s.Kinds))
	for _, f := range s.together(distributions) {
		if f.certain() {
			enough[f.outcomes[0].Kind] = f.count
		}
	}
	first[parts{}] = scheme.None
	for k := range s.Kinds {
		p := partOf(a, k, 1)
		switch at, known := first[p]; {
		case a.Most > 0 && enough[k] >= a.Most:
			stands[k] = scheme.None
		case a.Most > 0:
			stands[k] = k
		case known:
			stands[k] = at
		default:
			first[p], stands[k] = k, k
		}
	}
	stands[len(s.Kinds)] = scheme.None
	return func(kind int) int {
		if kind == scheme.None {
			return scheme.None
		}
		return stands[kind]
	}
}

func (f *kindDistribution) add(o account.Outcome) {
	for i := range f.outcomes {
		if f.outcomes[i].Kind == o.Kind {
			f.outcomes[i].Chance += o.Chance
			return
		}
	}
	f.outcomes = append(f.outcomes, o)
}

// key is the same for distributions that are the same.
func (f kindDistribution) key() string {
	b := binary.BigEndian.AppendUint64(nil, uint64(f.count))
	for _, o := range f.outcomes {
		b = binary.BigEndian.AppendUint64(b, uint64(o.Kind))
		b = binary.BigEndian.AppendUint64(b, math.Float64bits(o.Chance))
	}
	return string(b)
}

// each gives, sort after sort, what the records of it may turn out to be.
func (t *settler) each(m *simulation, give func(class int, may []settled)) {
	if len(t.open) == 0 {
		return
	}
	all := slices.Concat(t.open, t.others)
	if a, ok := t.s.Accrual(); ok {
		if _, ok := t.s.exact(a, all); ok {
			t.exact(a, give)
			return
		}
	}
	ways := 1
	for _, f := range all {
		if ways *= len(f.outcomes); ways > mostWays {
			t.simulate(m, give)
			return
		}
	}
	for k, f := range t.open {
		may := make([]settled, len(f.outcomes))
		for i, o := range f.outcomes {
			all[k] = kindDistribution{f.count, []account.Outcome{{Kind: o.Kind, Chance: 1}}}
			may[i] = settled{o.Chance, t.s.chancesOf(all, m)}
			t.work += float64(ways)
		}
		all[k] = f
		give(k, may)
	}
}

// without gives, for each of n members, what all others make of a beginning. It
// halves them again and again, so that each is put in log n times instead of n.
func without[T any](n int, begin T, put func(T, int) T, give func(i int, rest T)) {
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

// bins add up chances by value.
type bins struct {
	none  float64
	dense []float64 // by steps
	far   *massFunction[int64]
}

// mostBins is up to how many steps chances stand in a plain slice.
const mostBins = 1 << 12

func (b *bins) add(v scheme.Ratio, p float64) {
	if v.Defined() {
		b.addSteps(v.Steps(), p)
	} else {
		b.none += p
	}
}

func (b *bins) addSteps(k int64, p float64) {
	if k < 0 || k >= mostBins {
		if b.far == nil {
			b.far = newMassFunction[int64]()
		}
		b.far.add(k, p)
		return
	}
	for int64(len(b.dense)) <= k {
		b.dense = append(b.dense, 0)
	}
	b.dense[k] += p
}

// addAll adds chances times p.
func (b *bins) addAll(c chances, p float64) {
	b.none += p * c.none
	for _, pt := range c.points {
		b.addSteps(pt.steps, p*pt.p)
	}
}

func (b *bins) chances() chances {
	c := chances{none: b.none}
	for k, p := range b.dense {
		if p > 0 {
			c.points = append(c.points, point{int64(k), p})
		}
	}
	if b.far != nil {
		for i, k := range b.far.keys {
			c.points = append(c.points, point{k, b.far.p[i]})
		}
		slices.SortFunc(c.points, point.compare)
	}
	return c
}
