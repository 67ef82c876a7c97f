package scoring

// presence adds a weight for every kind found, however many animals: sum(w).
// Source of the form: Virginia Save Our Streams assessment form, Streamkeepers
// Handbook Module 4; with families as kinds it is the BMWP score (Armitage et
// al. 1983).
type presence struct{}

func readPresence(s *Scheme, f schemeFile) formula {
	s.readWeights(f.groups)
	return presence{}
}

func (presence) value(s *Scheme, found []kindCount) (terms []Term, sum ratio) {
	sum.den = 1
	for _, f := range found {
		w := s.weight[f.kind.Group]
		terms = append(terms, s.term(f, "", w, w))
		sum.num += w
	}
	return terms, sum
}

func (presence) worth(s *Scheme, group string) string { return s.plain(s.weight[group]) }

// presenceMean is the mean weight of the kinds found, however many animals:
// sum(w) / number of kinds. With families as kinds it is the average score
// per taxon (Armitage et al. 1983).
type presenceMean struct{}

func readPresenceMean(s *Scheme, f schemeFile) formula {
	s.readWeights(f.groups)
	return presenceMean{}
}

func (presenceMean) value(s *Scheme, found []kindCount) ([]Term, ratio) {
	terms, sum := presence{}.value(s, found)
	return terms, ratio{sum.num, int64(len(found))}
}

func (presenceMean) worth(s *Scheme, group string) string { return s.plain(s.weight[group]) }

// presenceCount is the number of kinds found. Source of the form: the number
// of scoring taxa by which an average score per taxon is divided (Armitage et
// al. 1983).
type presenceCount struct{}

func readPresenceCount(*Scheme, schemeFile) formula { return presenceCount{} }

func (presenceCount) value(s *Scheme, found []kindCount) (terms []Term, sum ratio) {
	one := s.one()
	sum.den = 1
	for _, f := range found {
		terms = append(terms, s.term(f, "", one, one))
		sum.num += one
	}
	return terms, sum
}

func (presenceCount) worth(*Scheme, string) string { return "1" }
