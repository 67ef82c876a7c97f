package key

import (
	"fmt"
	"slices"

	"rillkey/key/belief"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// supposed is a taxon that an inquiry is to confirm or refute.
type supposed struct {
	taxon *taxa.Taxon
	ends  []bool // by kind
	keyed int    // how many of the kinds the key leads to
	// strict is the belief for which every single rival is as likely as the taxon
	// before anything is seen.
	strict *belief.Belief
}

// Check begins an inquiry into whether a creature is what it is supposed to be.
// It asks what best separates that taxon from everything else, in no author's
// order. Before anything is seen the guess is as likely right as wrong, and what
// it may be instead is equally likely each, however common: a doubtful animal is
// no common one. It is settled when the taxon is refuted, or confirmed against
// every single rival; see [Checked].
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
	rivals := float64(s.rivals())
	q.suppose, q.belief = s, m.table.NewFrom(m.guess(s, rivals))
	s.strict = m.table.NewFrom(m.guess(s, 1))
	return q, nil
}

func (m *Model) supposed(taxon string) (*supposed, error) {
	if problem, hint := m.key.catalog.Unknown(taxon); problem != "" {
		return nil, fmt.Errorf("%s (%s)", problem, hint)
	}
	s := &supposed{taxon: m.key.catalog.Taxon(taxon), ends: m.isUnder(taxon), keyed: len(m.ends)}
	if !slices.Contains(s.ends[:s.keyed], true) {
		return nil, wording.Errorf("this key does not lead to %s", s.taxon.Name())
	}
	if s.rivals() == 0 {
		return nil, wording.Errorf("this key leads to nothing but %s", s.taxon.Name())
	}
	return s, nil
}

func (s *supposed) rivals() int {
	n := 0
	for _, in := range s.ends[:s.keyed] {
		if !in {
			n++
		}
	}
	return n
}

// notAsked is the weight of what the key does not lead to: whether a creature is
// what it is supposed to be is asked of the key's animals.
const notAsked = 1e-9

// guess is a prior with this weight on what is supposed, and 1 on each rival.
func (m *Model) guess(s *supposed, weight float64) []float64 {
	inside := 0.0
	for i, in := range s.ends {
		if in {
			inside += m.prior[i]
		}
	}
	out := make([]float64, len(m.prior))
	for i, p := range m.prior {
		switch {
		case s.ends[i]:
			out[i] = weight * p / inside
		case i < len(m.ends):
			out[i] = 1
		default:
			out[i] = notAsked
		}
	}
	return out
}

// CheckOutcome is what a check has come to.
type CheckOutcome string

// The outcomes.
const (
	CheckConfirmed CheckOutcome = "confirmed"
	CheckRefuted   CheckOutcome = "refuted"
	CheckOpen      CheckOutcome = "open"
)

// CheckedName is how a supposed taxon stands. It is confirmed when its probability
// reaches that to settle at and it would hold the required one against the
// closest rival alone, with even chances before. It is refuted when the
// probability that it is something else reaches that to settle at.
type CheckedName struct {
	Taxon        string
	Outcome      CheckOutcome
	Probability  float64 // that the animal is of it
	Rival        string  // the end point closest to it
	AgainstRival float64 // the probability of the taxon, were the rival all else
}

// Checked is how the supposed taxon of a check stands; the zero Checked in an
// ordinary inquiry.
func (q *Inquiry) Checked() CheckedName {
	s := q.suppose
	if s == nil {
		return CheckedName{}
	}
	c := CheckedName{Taxon: s.taxon.ID, Outcome: CheckOpen, Probability: massIn(q.belief.P(), s.ends)}
	inside, closest := 0.0, -1.0
	for i, p := range s.strict.P() {
		if s.ends[i] {
			inside += p
		} else if i < s.keyed && p > closest {
			closest, c.Rival = p, q.model.ends[i].ID
		}
	}
	c.AgainstRival = inside / (inside + closest)
	switch {
	case c.Probability >= q.opts.Settle && c.AgainstRival >= q.opts.Required:
		c.Outcome = CheckConfirmed
	case c.Probability <= 1-q.opts.Settle:
		c.Outcome = CheckRefuted
	}
	return c
}
