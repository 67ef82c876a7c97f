package chance

import (
	"math"
	"math/bits"
	"slices"
)

// exact settles records under a formula that can be taken apart, as [Formula.exact]
// follows them.
func (t *Settler) exact(a Accrual, give func(sort int, may []Settled)) {
	if a.Most == 0 {
		t.exactSums(a, give)
		return
	}
	sets := t.formula.sets(a, slices.Concat(t.open, t.others))
	added := make([]*massFunction[parts], len(sets))
	for i, set := range sets {
		added[i], _ = set.follow(a, unlimited())
	}
	leavingOut(len(sets), newMassFunction(parts{}), func(rest *massFunction[parts], i int) *massFunction[parts] {
		return t.plus(rest, added[i])
	}, func(i int, rest *massFunction[parts]) { t.exactSet(a, sets[i], rest, give) })
}

// unlimited is for what was found not to be too much work.
func unlimited() *int {
	left := math.MaxInt
	return &left
}

func (t *Settler) plus(a, b *massFunction[parts]) *massFunction[parts] {
	t.Work += float64(len(a.keys) * len(b.keys) * sparse)
	sum, _ := plus(a, b, unlimited())
	return sum
}

// exactSums is for parts that are proportional to counts.
func (t *Settler) exactSums(a Accrual, give func(sort int, may []Settled)) {
	begin := newMassFunction(parts{})
	for _, f := range t.others {
		begin = t.plus(begin, partsOf(a, f))
	}
	leavingOut(len(t.open), begin, func(rest *massFunction[parts], i int) *massFunction[parts] {
		return t.plus(rest, partsOf(a, t.open[i]))
	}, func(i int, rest *massFunction[parts]) {
		f := t.open[i]
		may := make([]Settled, len(f.Outcomes))
		for j, o := range f.Outcomes {
			var b bins
			own := partOf(a, o.Kind, f.Count)
			for n, k := range rest.keys {
				b.add(a.Value(k.num+own.num, k.den+own.den), rest.p[n])
			}
			may[j] = Settled{o.Chance, b.distribution()}
			t.Work += float64(len(rest.keys))
		}
		give(i, may)
	})
}

// exactSet settles the records of one set of kinds, rest being what all other sets
// add.
func (t *Settler) exactSet(a Accrual, set *kindSet, rest *massFunction[parts], give func(sort int, may []Settled)) {
	width := bits.Len64(uint64(a.Most))
	put := func(from states, f KindDistribution) states {
		t.Work += float64(from.size() * len(f.Outcomes) * from.cost())
		return set.step(a, from, f, width)
	}
	var asked []int
	start := set.start(width)
	for i, f := range set.distributions {
		if set.indices[i] < len(t.open) {
			asked = append(asked, i)
		} else {
			start = put(start, f)
		}
	}
	values := &setValues{a: a, set: set, width: width, rest: rest, index: map[parts]int{}, seen: map[uint64]int{}}
	leavingOut(len(asked), start, func(from states, i int) states {
		return put(from, set.distributions[asked[i]])
	}, func(i int, from states) {
		f := set.distributions[asked[i]]
		places := set.places(f)
		may := make([]Settled, len(f.Outcomes))
		for j, o := range f.Outcomes {
			may[j] = Settled{o.Chance, values.withMore(from, places[j]*width, f.Count)}
			t.Work += float64(from.size() * from.cost())
		}
		give(set.indices[asked[i]], may)
	})
}

// setValues are the chances of the value by what one set of kinds adds.
type setValues struct {
	a     Accrual
	set   *kindSet
	width int
	rest  *massFunction[parts] // what all other sets add
	seen  map[uint64]int       // state to its parts
	index map[parts]int
	then  []Distribution // by number of the parts
}

// withMore gives the chances of the value when count animals more are found of the
// kind whose bits begin at.
func (v *setValues) withMore(from states, at int, count int64) Distribution {
	p := make([]float64, len(v.then))
	from.each(func(state uint64, q float64) {
		i := v.number(moved(state, at, v.width, count, v.a.Most))
		if i == len(p) {
			p = append(p, 0)
		}
		p[i] += q
	})
	var b bins
	for i, q := range p {
		if q > 0 {
			b.addAll(v.then[i], q)
		}
	}
	return b.distribution()
}

func (v *setValues) number(state uint64) int {
	if i, known := v.seen[state]; known {
		return i
	}
	own := v.set.adds(v.a, state, v.width)
	i, known := v.index[own]
	if !known {
		var b bins
		for n, k := range v.rest.keys {
			b.add(v.a.Value(k.num+own.num, k.den+own.den), v.rest.p[n])
		}
		i = len(v.then)
		v.index[own], v.then = i, append(v.then, b.distribution())
	}
	v.seen[state] = i
	return i
}
