package scheme

// Term is one kind's part of an index.
type Term struct {
	Kind       string  `json:"kind"`
	Label      string  `json:"label"`
	Group      string  `json:"group"`
	GroupLabel string  `json:"group_label"`
	Count      int64   `json:"count"`          // animals
	Code       string  `json:"code,omitempty"` // letter for the count, where the form has letters
	Weight     float64 `json:"weight"`         // weight, score or tolerance value of the kind
	Part       float64 `json:"part"`           // what it adds to the sum: the weight, or count x weight
	Status     string  `json:"status"`         // how far the kind's place was confirmed
	Note       string  `json:"note,omitempty"`
}

// KindCount is a kind with the number of its animals, at least one.
type KindCount struct {
	Index int // in Scheme.Kinds
	Kind  Kind
	Count int64
}

// Ratio is an exact value in steps of the scheme's last decimal; one without
// a denominator is the mean of nothing and no value at all.
type Ratio struct{ Num, Den int64 }

// Defined reports whether there is a value.
func (r Ratio) Defined() bool { return r.Den > 0 }

// Steps rounds half up to whole steps. It does so in whole numbers, so that a
// value halfway between two is never decided by how a machine stores
// fractions: 751 / 200 is 3.755 and becomes 3.76.
func (r Ratio) Steps() int64 { return (2*r.Num + r.Den) / (2 * r.Den) }

// below reports whether r is less than w steps.
func (r Ratio) below(w int64) bool { return r.Num < w*r.Den }

// above reports whether r is more than w steps.
func (r Ratio) above(w int64) bool { return r.Num > w*r.Den }

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

// Value works the index out from the kinds found: what was added up, and what it
// comes to.
func (s *Scheme) Value(found []KindCount) ([]Term, Ratio) { return s.formula.value(s, found) }

// ValueOf is the value for a number of animals by kind.
func (s *Scheme) ValueOf(counts []int64) Ratio {
	if a, ok := s.Accrual(); ok {
		var num, den int64
		for kind, n := range counts {
			if n > 0 {
				x, y := a.Part(kind, n)
				num, den = num+x, den+y
			}
		}
		return a.Value(num, den)
	}
	if f, can := s.formula.(counting); can {
		present := make([]int64, 0, len(counts))
		for _, n := range counts {
			if n > 0 {
				present = append(present, n)
			}
		}
		return f.ofCounts(s, present)
	}
	var found []KindCount
	for kind, n := range counts {
		if n > 0 {
			found = append(found, KindCount{kind, s.Kinds[kind], n})
		}
	}
	_, v := s.formula.value(s, found)
	return v
}

// Bounds are how far the value could move if animals named too broadly were named
// closer; ok is false where the form cannot tell.
func (s *Scheme) Bounds(found []KindCount, open []OpenCount) (low, high Ratio, ok bool) {
	f, ok := s.formula.(bounded)
	if !ok {
		return Ratio{}, Ratio{}, false
	}
	low, high = f.bounds(s, found, open)
	return low, high, true
}

// WhyNone says why animals that were counted may give no value; empty where the
// form always gives one.
func (s *Scheme) WhyNone() string {
	if f, can := s.formula.(lacking); can {
		return f.lacks()
	}
	return ""
}

// Accrual is the formula taken apart; ok is false where it cannot be.
func (s *Scheme) Accrual() (a Accrual, ok bool) {
	f, ok := s.formula.(accruing)
	if !ok {
		return Accrual{}, false
	}
	return f.accrue(s), true
}

// LosesKinds tells that the value hangs on how many kinds there are. Samples
// drawn again from those taken hold fewer kinds than all of them, never more, so
// the values drawn lie too low by about as much as the value itself lies below
// that of a stream without end.
func (s *Scheme) LosesKinds() bool {
	if a, ok := s.Accrual(); ok {
		return !a.Mean
	}
	_, diverse := s.formula.(diverse)
	return diverse
}

// Weight is what one kind of a group is worth in a scheme; false where that
// depends on how many animals there are.
func (s *Scheme) Weight(group string) (float64, bool) {
	w, ok := s.weight[group]
	return s.Number(w), ok
}
