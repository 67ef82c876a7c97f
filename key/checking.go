package key

import (
	"fmt"

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
// guess is as likely right as wrong; the other half is shared among all other
// end points as the prior has it.
func (m *Model) Check(taxon string, o Options) (*Inquiry, error) {
	if problem, hint := m.key.catalog.Unknown(taxon); problem != "" {
		return nil, fmt.Errorf("%s (%s)", problem, hint)
	}
	t := m.key.catalog.Taxon(taxon)
	s := &supposed{t, m.under(taxon)}
	inside := 0.0
	for i, in := range s.ends {
		if in {
			inside += m.prior[i]
		}
	}
	switch {
	case inside == 0:
		return nil, fmt.Errorf("this key does not lead to %s", t.Name())
	case inside > 1-1e-9:
		return nil, fmt.Errorf("this key leads to nothing but %s", t.Name())
	}
	o.Order = Shortest
	q, err := m.Inquire(o)
	if err != nil {
		return nil, err
	}
	q.suppose = s
	q.belief = m.table.NewFrom(m.guess(s, inside))
	return q, nil
}

// guess is the prior with one half on what is supposed.
func (m *Model) guess(s *supposed, inside float64) []float64 {
	out := make([]float64, len(m.prior))
	for i, p := range m.prior {
		if s.ends[i] {
			out[i] = p / inside / 2
		} else {
			out[i] = p / (1 - inside) / 2
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
