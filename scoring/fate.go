package scoring

import "rillkey/scoring/visit"

// leftOut is the kind of what an index does not count.
const leftOut = -1

// fate is what the animals of a record may be to a scheme; the chances sum to 1.
type fate struct {
	count    int64
	outcomes []outcome
}

type outcome struct {
	kind int // in Scheme.Kinds, or leftOut
	p    float64
}

func (f fate) certain() bool { return len(f.outcomes) == 1 }

// fates are those of the records, in their order. A taxon named too broadly for
// the scheme is left out, as it is from the value.
func (r *Rules) fates(s *Scheme, records []visit.Record) []fate {
	out := make([]fate, len(records))
	for i, rec := range records {
		out[i] = r.fate(s, rec.Count, r.belief(rec))
	}
	return out
}

func (r *Rules) fate(s *Scheme, count int, belief []visit.Chance) fate {
	f := fate{count: int64(count)}
	for _, c := range belief {
		kind, why, _ := r.placeTaxon(s, c.Taxon)
		if why != "" {
			kind = leftOut
		}
		f.add(kind, c.Probability)
	}
	if len(f.outcomes) == 0 {
		f.add(leftOut, 1)
	}
	return f
}

func (f *fate) add(kind int, p float64) {
	for i := range f.outcomes {
		if f.outcomes[i].kind == kind {
			f.outcomes[i].p += p
			return
		}
	}
	f.outcomes = append(f.outcomes, outcome{kind, p})
}
