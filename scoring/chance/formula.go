package chance

import "slices"

// Ratio is an exact value in whole steps, of a scheme's last decimal say; one
// without a denominator is the mean of nothing and no value at all.
type Ratio struct{ Num, Den int64 }

// Defined reports whether there is a value.
func (r Ratio) Defined() bool { return r.Den > 0 }

// Steps rounds half up to whole steps. It does so in whole numbers, so that a
// value halfway between two is never decided by how a machine stores
// fractions: 751 / 200 is 3.755 and becomes 3.76.
func (r Ratio) Steps() int64 { return (2*r.Num + r.Den) / (2 * r.Den) }

// FallsShort reports whether r is less than w steps.
func (r Ratio) FallsShort(w int64) bool { return r.Num < w*r.Den }

// Exceeds reports whether r is more than w steps.
func (r Ratio) Exceeds(w int64) bool { return r.Num > w*r.Den }

// Formula is how counts by kind become a value.
type Formula struct {
	Kinds   int                        // how many kinds there are, numbered from 0
	Value   func(counts []int64) Ratio // of the counts by kind, none below 0
	Accrual *Accrual                   // the same formula taken apart; nil where it cannot be
}

// Accrual is a formula taken apart: each kind found adds its own part to a
// numerator and a denominator, whatever else was found. Chances can be followed
// through such a formula exactly.
type Accrual struct {
	Part func(kind int, count int64) (num, den int64)
	Most int64 // counts above it change nothing; 0 where a part is proportional to the count
	Mean bool  // the value is num / den, else num
}

// Value is that of the sums of the parts.
func (a Accrual) Value(num, den int64) Ratio {
	if a.Mean {
		return Ratio{num, den}
	}
	return Ratio{num, 1}
}

// ValueOf is the value for counts by kind.
func (a Accrual) ValueOf(counts []int64) Ratio {
	var num, den int64
	for kind, n := range counts {
		if n > 0 {
			x, y := a.Part(kind, n)
			num, den = num+x, den+y
		}
	}
	return a.Value(num, den)
}

// None is the kind of what counts for nothing.
const None = -1

// Outcome is a kind with the chance that all animals of a record are of it.
type Outcome struct {
	Kind   int // None or a number below [Formula.Kinds]
	Chance float64
}

// KindDistribution is what a number of animals may be, all of them the same.
type KindDistribution struct {
	Count    int64     // of animals, not below 0
	Outcomes []Outcome // at least one, each kind once; the chances sum to 1
}

// certain reports whether nothing is open.
func (f KindDistribution) certain() bool { return len(f.Outcomes) == 1 }

// Settled is the same count, known to be of this kind.
func (f KindDistribution) Settled(kind int) KindDistribution {
	return KindDistribution{f.Count, []Outcome{{kind, 1}}}
}

func (f KindDistribution) equal(g KindDistribution) bool {
	return f.Count == g.Count && slices.Equal(f.Outcomes, g.Outcomes)
}

func (f *KindDistribution) add(o Outcome) {
	for i := range f.Outcomes {
		if f.Outcomes[i].Kind == o.Kind {
			f.Outcomes[i].Chance += o.Chance
			return
		}
	}
	f.Outcomes = append(f.Outcomes, o)
}
