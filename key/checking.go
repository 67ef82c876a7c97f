package key

import (
	"fmt"
	"slices"

	"rillkey/taxa"
)

// supposed is a taxon that an inquiry is to confirm or refute.
type supposed struct {
	taxon *taxa.Taxon
	ends  []bool
}

// Check begins an inquiry into whether a creature is what it is supposed to be.
// It asks what best separates that taxon from everything else, in no author's
// order, until the question is settled either way. Before anything is seen the
// guess is as likely right as wrong. Of the other half, half again is for what
// the catalog says the taxon is mistaken for, if anything, and the rest for all
// other end points, as the prior has them.
func (m *Model) Check(taxon string, o Options) (*Inquiry, error) {
	s, err := m.supposed(taxon)
	if err != nil {
		return nil, err
	}
	o.Order = Shortest
	q, err := m.Inquire(o)
	if err != nil {
		return nil, err
	}
	q.suppose, q.belief = s, m.table.NewFrom(m.guess(s))
	return q, nil
}

func (m *Model) supposed(taxon string) (*supposed, error) {
	if problem, hint := m.key.catalog.Unknown(taxon); problem != "" {
		return nil, fmt.Errorf("%s (%s)", problem, hint)
	}
	s := &supposed{m.key.catalog.Taxon(taxon), m.under(taxon)}
	if !slices.Contains(s.ends, true) {
		return nil, fmt.Errorf("this key does not lead to %s", s.taxon.Name())
	}
	if !slices.Contains(s.ends, false) {
		return nil, fmt.Errorf("this key leads to nothing but %s", s.taxon.Name())
	}
	return s, nil
}

// guess is the prior of a check.
func (m *Model) guess(s *supposed) []float64 {
	near := m.mistaken(s.taxon)
	var sums [3]float64 // supposed, mistaken for it, others
	place := func(i int) int {
		switch {
		case s.ends[i]:
			return 0
		case near[i]:
			return 1
		}
		return 2
	}
	for i, p := range m.prior {
		sums[place(i)] += p
	}
	shares := [3]float64{0.5, 0.25, 0.25}
	if sums[1] == 0 || sums[2] == 0 {
		shares = [3]float64{0.5, 0.5, 0.5}
	}
	out := make([]float64, len(m.prior))
	for i, p := range m.prior {
		out[i] = p / sums[place(i)] * shares[place(i)]
	}
	return out
}

// mistaken are the end points that the catalog names as mistaken for a taxon, or
// the taxon for them, by number; what is said of a taxon holds for all under it.
func (m *Model) mistaken(t *taxa.Taxon) []bool {
	out := make([]bool, len(m.ends))
	c := m.key.catalog
	for _, one := range append([]*taxa.Taxon{t}, c.Ancestors(t.ID)...) {
		for _, other := range one.Mistaken {
			for i, end := range m.ends {
				out[i] = out[i] || c.IsUnder(end.ID, other.Taxon)
			}
		}
	}
	for i, end := range m.ends {
		for _, one := range append([]*taxa.Taxon{end}, c.Ancestors(end.ID)...) {
			out[i] = out[i] || slices.ContainsFunc(one.Mistaken, func(o taxa.Mistaken) bool { return c.IsUnder(t.ID, o.Taxon) })
		}
	}
	return out
}

// Supposed is the taxon that is checked, nil in an ordinary inquiry, and the
// probability that the animal is of it.
func (q *Inquiry) Supposed() (*taxa.Taxon, float64) {
	if q.suppose == nil {
		return nil, 0
	}
	return q.suppose.taxon, q.mass(q.suppose.ends)
}
