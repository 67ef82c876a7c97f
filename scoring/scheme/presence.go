package scheme

import "rillkey/scoring/chance"

// presence adds a weight for every kind found, however many animals: sum(w).
// Source of the form: Virginia Save Our Streams assessment form, Streamkeepers
// Handbook Module 4; with families as kinds it is the BMWP score (Armitage et
// al. 1983).
type presence struct{}

func readPresence(s *Scheme, f schemeFile) formula {
	s.readWeights(f.groups)
	return presence{}
}

func (presence) value(s *Scheme, found []KindCount) (terms []Term, sum chance.Ratio) {
	sum.Den = 1
	terms = make([]Term, 0, len(found))
	for _, f := range found {
		w := s.weight[f.Kind.Group]
		terms = append(terms, s.term(f, "", w, w))
		sum.Num += w
	}
	return terms, sum
}

func (presence) accrue(s *Scheme) chance.Accrual {
	w := s.weights(s.weightOf)
	return chance.Accrual{Part: func(kind int, _ int64) (int64, int64) { return w[kind], 1 }, Most: 1}
}

// bounds of a sum over kinds: at best every animal is another kind that was
// not found before.
func (p presence) bounds(s *Scheme, found []KindCount, open []OpenCount) (low, high chance.Ratio) {
	_, low = p.value(s, found)
	high = low
	for _, w := range each(newKinds(s, found, open, true), s.weightOf) {
		high.Num += w
	}
	return low, high
}

func (presence) worth(s *Scheme, group string) string { return s.Plain(s.weight[group]) }

// presenceMean is the mean weight of the kinds found, however many animals:
// sum(w) / number of kinds. With families as kinds it is the average score
// per taxon (Armitage et al. 1983).
type presenceMean struct{}

func readPresenceMean(s *Scheme, f schemeFile) formula {
	s.readWeights(f.groups)
	return presenceMean{}
}

func (presenceMean) value(s *Scheme, found []KindCount) ([]Term, chance.Ratio) {
	terms, sum := presence{}.value(s, found)
	return terms, chance.Ratio{Num: sum.Num, Den: int64(len(found))}
}

func (presenceMean) accrue(s *Scheme) chance.Accrual {
	a := presence{}.accrue(s)
	a.Mean = true
	return a
}

// bounds of a mean over kinds: new kinds join as long as they move the mean.
func (p presenceMean) bounds(s *Scheme, found []KindCount, open []OpenCount) (low, high chance.Ratio) {
	_, low = p.value(s, found)
	high = low
	for _, w := range each(newKinds(s, found, open, false), s.weightOf) {
		if !low.Defined() || low.Exceeds(w) {
			low = chance.Ratio{Num: low.Num + w, Den: low.Den + 1}
		}
	}
	for _, w := range each(newKinds(s, found, open, true), s.weightOf) {
		if !high.Defined() || high.FallsShort(w) {
			high = chance.Ratio{Num: high.Num + w, Den: high.Den + 1}
		}
	}
	return low, high
}

func (presenceMean) worth(s *Scheme, group string) string { return s.Plain(s.weight[group]) }

// presenceCount is the number of kinds found. Source of the form: the number
// of scoring taxa by which an average score per taxon is divided (Armitage et
// al. 1983).
type presenceCount struct{}

func readPresenceCount(*Scheme, schemeFile) formula { return presenceCount{} }

func (presenceCount) value(s *Scheme, found []KindCount) (terms []Term, sum chance.Ratio) {
	one := s.One()
	sum.Den = 1
	for _, f := range found {
		terms = append(terms, s.term(f, "", one, one))
		sum.Num += one
	}
	return terms, sum
}

func (presenceCount) accrue(s *Scheme) chance.Accrual {
	one := s.One()
	return chance.Accrual{Part: func(int, int64) (int64, int64) { return one, 1 }, Most: 1}
}

// bounds of a count of kinds, likewise.
func (p presenceCount) bounds(s *Scheme, found []KindCount, open []OpenCount) (low, high chance.Ratio) {
	_, low = p.value(s, found)
	return low, chance.Ratio{Num: low.Num + s.One()*int64(len(newKinds(s, found, open, true))), Den: low.Den}
}

func (presenceCount) worth(*Scheme, string) string { return "1" }
