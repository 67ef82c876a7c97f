package scoring

// accrual is a formula taken apart: each kind found adds its own part to a
// numerator and a denominator, whatever else was found. Chances can be followed
// through such a formula exactly.
type accrual struct {
	part func(kind int, count int64) (num, den int64)
	most int64 // counts above it change nothing; 0 where a part is proportional to the count
	mean bool  // the value is num / den, else num
}

// accruing is a formula that can be taken apart so.
type accruing interface{ accrue(s *Scheme) accrual }

func (a accrual) value(num, den int64) ratio {
	if a.mean {
		return ratio{num, den}
	}
	return ratio{num, 1}
}

// weigh gives the weight of every kind, in steps, by its number.
func (s *Scheme) weigh() func(kind int) int64 {
	weights := make([]int64, len(s.Kinds))
	for i, k := range s.Kinds {
		weights[i] = s.weight[k.Group]
	}
	return func(kind int) int64 { return weights[kind] }
}

func (presence) accrue(s *Scheme) accrual {
	w := s.weigh()
	return accrual{part: func(kind int, _ int64) (int64, int64) { return w(kind), 1 }, most: 1}
}

func (presenceMean) accrue(s *Scheme) accrual {
	a := presence{}.accrue(s)
	a.mean = true
	return a
}

func (presenceCount) accrue(s *Scheme) accrual {
	one := s.one()
	return accrual{part: func(int, int64) (int64, int64) { return one, 1 }, most: 1}
}

func (meanTolerance) accrue(s *Scheme) accrual {
	w := s.weigh()
	return accrual{part: func(kind int, n int64) (int64, int64) { return n * w(kind), n }, mean: true}
}

func (p percent) accrue(s *Scheme) accrual {
	return accrual{part: func(kind int, n int64) (int64, int64) { return n * p.weight(s, kind), n }, mean: true}
}

func (c coded) accrue(s *Scheme) accrual {
	part := func(kind int, n int64) (int64, int64) { return c.weight[s.Kinds[kind].Group][c.of(n).id], 1 }
	return accrual{part: part, most: c.codes[len(c.codes)-1].from}
}
