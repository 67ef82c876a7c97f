package scoring

import (
	"encoding/binary"
	"slices"
)

// mostStates is how many states an exact computation follows before it is left
// to simulation.
const mostStates = 1 << 15

// parts is a numerator and a denominator in the making.
type parts struct{ num, den int64 }

// exact follows the records one by one through a formula that can be taken
// apart. Where parts are proportional to counts, each record adds its own. Else
// the kinds that share uncertain records stand and fall together: for each such
// set of kinds all counts that can arise are followed, up to the count beyond
// which nothing changes, and the sets, which are independent of each other, are
// added up. ok is false where that would be too much.
func (s *Scheme) exact(a accrual, fates []fate) (c chances, ok bool) {
	total := newLedger(parts{})
	if a.most == 0 {
		for _, f := range fates {
			own := newLedger[parts]()
			for _, o := range f.outcomes {
				own.add(a.of(o.kind, f.count), o.p)
			}
			if total, ok = plus(total, own); !ok {
				return c, false
			}
		}
		return a.chances(total), true
	}
	for _, set := range s.sets(a, fates) {
		own, ok := set.follow(a)
		if !ok {
			return c, false
		}
		if total, ok = plus(total, own); !ok {
			return c, false
		}
	}
	return a.chances(total), true
}

func (a accrual) of(kind int, count int64) parts {
	if kind == leftOut || count == 0 {
		return parts{}
	}
	num, den := a.part(kind, count)
	return parts{num, den}
}

func (a accrual) chances(total *ledger[parts]) chances {
	values := newLedger[ratio]()
	for i, k := range total.keys {
		values.add(a.value(k.num, k.den), total.p[i])
	}
	return chancesOf(values)
}

// plus adds two independent sums.
func plus(a, b *ledger[parts]) (*ledger[parts], bool) {
	out := newLedger[parts]()
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

// kindSet is a set of kinds that share uncertain records.
type kindSet struct {
	kinds []int
	sure  []int64 // animals that are certainly of each kind
	fates []fate
}

// sets parts the kinds that may have animals into sets without a shared record.
func (s *Scheme) sets(a accrual, fates []fate) []*kindSet {
	sure, linked := make([]int64, len(s.Kinds)), make([]int, len(s.Kinds))
	for k := range linked {
		linked[k] = k
	}
	for _, f := range fates {
		if k := f.outcomes[0].kind; f.certain() && k != leftOut {
			sure[k] = min(sure[k]+f.count, a.most)
		}
	}
	root := func(k int) int {
		for linked[k] != k {
			k = linked[k]
		}
		return k
	}
	var open []fate
	for _, f := range fates {
		first := leftOut
		for _, o := range f.outcomes {
			if o.kind == leftOut || sure[o.kind] == a.most {
				continue // changes nothing
			}
			if first == leftOut {
				first = root(o.kind)
			}
			linked[root(o.kind)] = first
		}
		if !f.certain() && first != leftOut {
			open = append(open, f)
		}
	}
	sets := make([]*kindSet, len(s.Kinds))
	for k := range linked {
		i := root(k)
		if sets[i] == nil {
			sets[i] = &kindSet{}
		}
		sets[i].kinds, sets[i].sure = append(sets[i].kinds, k), append(sets[i].sure, sure[k])
	}
	for _, f := range open {
		for _, o := range f.outcomes {
			if o.kind != leftOut && sure[o.kind] < a.most {
				set := sets[root(o.kind)]
				set.fates = append(set.fates, f)
				break
			}
		}
	}
	return slices.DeleteFunc(sets, func(set *kindSet) bool {
		return set == nil || len(set.fates) == 0 && !slices.ContainsFunc(set.sure, func(n int64) bool { return n > 0 })
	})
}

// follow gives the chances of what the set adds.
func (set *kindSet) follow(a accrual) (*ledger[parts], bool) {
	states := newLedger(encode(set.sure))
	for _, f := range set.fates {
		next := newLedger[string]()
		for i, state := range states.keys {
			for _, o := range f.outcomes {
				next.add(set.moved(state, o.kind, f.count, a.most), states.p[i]*o.p)
			}
		}
		if states = next; len(states.keys) > mostStates {
			return nil, false
		}
	}
	out := newLedger[parts]()
	for i, state := range states.keys {
		var sum parts
		for j, kind := range set.kinds {
			own := a.of(kind, countAt(state, j))
			sum.num, sum.den = sum.num+own.num, sum.den+own.den
		}
		out.add(sum, states.p[i])
	}
	return out, true
}

func encode(counts []int64) string {
	b := make([]byte, 0, 8*len(counts))
	for _, n := range counts {
		b = binary.BigEndian.AppendUint64(b, uint64(n))
	}
	return string(b)
}

func countAt(state string, i int) int64 {
	return int64(binary.BigEndian.Uint64([]byte(state[8*i : 8*i+8])))
}

// moved is the state with count animals of a kind more.
func (set *kindSet) moved(state string, kind int, count, most int64) string {
	i := slices.Index(set.kinds, kind)
	if i < 0 {
		return state
	}
	had := countAt(state, i)
	if had >= most {
		return state
	}
	b := []byte(state)
	binary.BigEndian.PutUint64(b[8*i:], uint64(min(had+count, most)))
	return string(b)
}
