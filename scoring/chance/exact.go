package chance

// mostStates is how many states an exact computation follows before it is left
// to simulation.
const mostStates = 1 << 15

// mostWork is how much work an exact computation may be: a step from one state to
// another is 1, or sparse where states have to be looked up. It is a few hundredths
// of a second, about what a simulation takes.
const (
	mostWork = 1 << 23
	sparse   = 16
)

// parts is a numerator and a denominator in the making.
type parts struct{ num, den int64 }

// following gives the chances of what a set of kinds adds; ok is false where that is
// more than the work left.
type following func(set *kindSet, a Accrual, left *int) (sums *massFunction[parts], ok bool)

// exact follows the records one by one through a formula that can be taken
// apart. Where parts are proportional to counts, each record adds its own. Else
// the kinds that share uncertain records stand and fall together: for each such
// set of kinds all counts that can arise are followed, up to the count beyond
// which nothing changes, and the sets, which are independent of each other, are
// added up, follow being how one of them is. ok is false where that would be too much.
func (formula Formula) exact(distributions []KindDistribution, follow following) (c Distribution, ok bool) {
	a := *formula.Accrual
	total := newMassFunction(parts{})
	left := mostWork
	if a.Most == 0 {
		each := make([]*massFunction[parts], len(distributions))
		for i, f := range distributions {
			each[i] = partsOf(a, f)
		}
		if leastWork(each) > mostWork {
			return c, false
		}
		for _, own := range each {
			if total, ok = plus(total, own, &left); !ok {
				return c, false
			}
		}
		return valuesOf(a, total), true
	}
	for _, set := range formula.sets(a, distributions) {
		own, ok := follow(set, a, &left)
		if !ok {
			return c, false
		}
		if total, ok = plus(total, own, &left); !ok {
			return c, false
		}
	}
	return valuesOf(a, total), true
}

// partsOf are the parts that a record may add.
func partsOf(a Accrual, f KindDistribution) *massFunction[parts] {
	own := newMassFunction[parts]()
	for _, o := range f.Outcomes {
		own.add(partOf(a, o.Kind, f.Count), o.Chance)
	}
	return own
}

// leastWork is what adding up independent sums takes at least: n sums and m sums
// make n + m - 1 different ones at least, since they have an order that adding keeps.
func leastWork(each []*massFunction[parts]) (work int) {
	sums := 1
	for _, own := range each {
		work += sums * len(own.keys) * sparse
		sums += len(own.keys) - 1
	}
	return work
}

// partOf is what animals of a kind add to a formula: no denominator where its value
// is none of a fraction, so that sums that come to one value are one.
func partOf(a Accrual, kind int, count int64) parts {
	if kind == None || count == 0 {
		return parts{}
	}
	num, den := a.Part(kind, count)
	if !a.Mean {
		den = 0
	}
	return parts{num, den}
}

// valuesOf are the chances of the values that the sums come to.
func valuesOf(a Accrual, total *massFunction[parts]) Distribution {
	values := newMassFunction[Ratio]()
	for i, k := range total.keys {
		values.add(a.Value(k.num, k.den), total.p[i])
	}
	return distributionOf(values)
}

// plus adds two independent sums, unless that is more than the work left.
func plus(a, b *massFunction[parts], left *int) (*massFunction[parts], bool) {
	if *left -= len(a.keys) * len(b.keys) * sparse; *left < 0 {
		return nil, false
	}
	out := newMassFunction[parts]()
	for i, x := range a.keys {
		for j, y := range b.keys {
			out.add(parts{x.num + y.num, x.den + y.den}, a.p[i]*b.p[j])
		}
		if len(out.keys) > mostStates {
			return nil, false
		}
	}
	return out, true
}
