package chance

import "slices"

// Bounds on how many ways are drawn to settle records in. Each record is settled
// in every one of them, so there are fewer where there are many records.
const (
	mostSettled = 1 << 24 // records settled, times their outcomes, times the ways
	leastDraws  = 1000
)

// simulate settles records in ways drawn for all of them: whatever the record was
// drawn as is taken out and each of its outcomes put in its place. So the same
// chance befalls all others, whatever the record is, and makes no gains.
func (t *Settler) simulate(m *Simulation, give func(sort int, may []Settled)) {
	d := t.draw(m)
	for k, f := range t.open {
		all := make([]bins, len(f.Outcomes))
		for way := range d.ways {
			d.settle(way, k, f, all)
		}
		may := make([]Settled, len(f.Outcomes))
		for i, o := range f.Outcomes {
			may[i] = Settled{o.Chance, all[i].distribution()}
		}
		t.Work += float64(d.ways * len(f.Outcomes) * d.cost)
		give(k, may)
	}
}

// drawn are ways in which all records may turn out.
type drawn struct {
	formula Formula
	accrues bool
	a       Accrual
	ways    int
	cost    int     // of settling once
	counts  []int64 // animals by kind, way after way
	total   []parts // of each way, where the formula can be taken apart
	open    int     // sorts of records to settle
	turned  []int32 // the kind each sort was drawn as, way after way
}

func (t *Settler) draw(m *Simulation) *drawn {
	d := &drawn{formula: t.formula, cost: t.formula.Kinds, open: len(t.open)}
	if d.accrues = t.formula.Accrual != nil; d.accrues {
		d.a, d.cost = *t.formula.Accrual, 1
	}
	each := 0
	for _, f := range t.open {
		each += len(f.Outcomes) * d.cost
	}
	d.ways = min(draws, max(leastDraws, mostSettled/each))
	kinds := t.formula.Kinds
	d.counts, d.turned = make([]int64, d.ways*kinds), make([]int32, d.ways*d.open)
	all := slices.Concat(t.open, t.others)
	random := newUniform(m.Seed)
	for way := range d.ways {
		counts := d.countsOf(way)
		for i := range all {
			kind := all[i].draw(random.next())
			if kind != None {
				counts[kind] += all[i].Count
			}
			if i < d.open {
				d.turned[way*d.open+i] = int32(kind)
			}
		}
		if d.accrues {
			d.total = append(d.total, sumOf(d.a, counts))
		}
	}
	t.Work += float64(d.ways * (len(all) + kinds))
	return d
}

func (d *drawn) countsOf(way int) []int64 {
	kinds := d.formula.Kinds
	return d.counts[way*kinds : (way+1)*kinds]
}

// settle adds the value of each outcome of an open record in one way.
func (d *drawn) settle(way, open int, f KindDistribution, all []bins) {
	counts, p := d.countsOf(way), 1/float64(d.ways)
	was := int(d.turned[way*d.open+open])
	if was != None {
		counts[was] -= f.Count
		defer func() { counts[was] += f.Count }()
	}
	rest := parts{}
	if d.accrues {
		rest = d.total[way]
		if was != None {
			rest = rest.plus(partOf(d.a, was, counts[was]), 1).plus(partOf(d.a, was, counts[was]+f.Count), -1)
		}
	}
	for i, o := range f.Outcomes {
		switch {
		case o.Kind == None && d.accrues:
			all[i].add(d.a.Value(rest.num, rest.den), p)
		case o.Kind == None:
			all[i].add(d.formula.Value(counts), p)
		case d.accrues:
			had := counts[o.Kind]
			v := rest.plus(partOf(d.a, o.Kind, had+f.Count), 1).plus(partOf(d.a, o.Kind, had), -1)
			all[i].add(d.a.Value(v.num, v.den), p)
		default:
			counts[o.Kind] += f.Count
			all[i].add(d.formula.Value(counts), p)
			counts[o.Kind] -= f.Count
		}
	}
}

func (p parts) plus(q parts, times int64) parts {
	return parts{p.num + times*q.num, p.den + times*q.den}
}

// sumOf is what animals by kind add up to.
func sumOf(a Accrual, counts []int64) (sum parts) {
	for kind, n := range counts {
		sum = sum.plus(partOf(a, kind, n), 1)
	}
	return sum
}
