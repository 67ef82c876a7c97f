package scheme

import (
	"math"

	"rillkey/scoring/chance"
)

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

// Value works the index out from the kinds found: what was added up, and what it
// comes to.
func (s *Scheme) Value(found []KindCount) ([]Term, chance.Ratio) { return s.formula.value(s, found) }

// ValueOf is the value for a number of animals by kind.
func (s *Scheme) ValueOf(counts []int64) chance.Ratio {
	if a, ok := s.Accrual(); ok {
		return a.ValueOf(counts)
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
func (s *Scheme) Bounds(found []KindCount, open []OpenCount) (low, high chance.Ratio, ok bool) {
	f, ok := s.formula.(bounded)
	if !ok {
		return chance.Ratio{}, chance.Ratio{}, false
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
func (s *Scheme) Accrual() (a chance.Accrual, ok bool) { return s.accrual() }

// takenApart is the formula taken apart. The weights by kind are looked up for it,
// so it is made once for each scheme.
func (s *Scheme) takenApart() (a chance.Accrual, ok bool) {
	f, ok := s.formula.(accruing)
	if !ok {
		return chance.Accrual{}, false
	}
	return f.accrue(s), true
}

// Formula is how the scheme makes a value of the animals by kind.
func (s *Scheme) Formula() chance.Formula {
	if a, ok := s.Accrual(); ok {
		return chance.Formula{Kinds: len(s.Kinds), Value: a.ValueOf, Accrual: &a}
	}
	return chance.Formula{Kinds: len(s.Kinds), Value: s.ValueOf}
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

// ByKinds tells that the value hangs on which kinds there are and not on how their
// animals are shared out: it loses kinds, or is a mean over kinds.
func (s *Scheme) ByKinds() bool { return s.LosesKinds() || s.Form == "presence-mean" }

// Most is the highest value that there can be, in steps, as far as the form has
// one.
func (s *Scheme) Most() int64 {
	switch s.Form {
	case "percent", "dominant":
		return hundred * s.One()
	case "simpson", "pielou":
		return s.One()
	}
	a, ok := s.Accrual()
	if !ok || !a.Mean {
		return math.MaxInt32
	}
	most := int64(0)
	for k := range s.Kinds {
		if num, den := a.Part(k, 1); den > 0 {
			most = max(most, num/den)
		}
	}
	return most
}

// Weight is what one kind of a group is worth in a scheme; false where that
// depends on how many animals there are.
func (s *Scheme) Weight(group string) (float64, bool) {
	w, ok := s.weight[group]
	return s.Number(w), ok
}
