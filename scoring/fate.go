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

// fates are those of the records, in their order.
func (r *Rules) fates(s *Scheme, records []visit.Record) []fate {
	out := make([]fate, len(records))
	for i, rec := range records {
		out[i] = r.fate(s, rec)
	}
	return out
}

// fate of a record; animals named too broadly for the scheme may be any of the
// kinds that the name leaves open, in equal parts. The value leaves them out all
// the same, since nobody knows which they are.
func (r *Rules) fate(s *Scheme, rec visit.Record) fate {
	f := fate{count: int64(rec.Count)}
	for _, c := range r.belief(rec) {
		kind, why, open := r.placeChance(s, rec, c.Taxon)
		switch {
		case why == Open:
			for _, k := range open {
				f.add(k, c.Probability/float64(len(open)))
			}
		case why != "":
			f.add(leftOut, c.Probability)
		default:
			f.add(kind, c.Probability)
		}
	}
	if len(f.outcomes) == 0 {
		f.add(leftOut, 1)
	}
	return f
}

// placeChance is the place of one taxon that a record believes in: what its own
// name may be, it says itself.
func (r *Rules) placeChance(s *Scheme, rec visit.Record, taxon string) (kind int, why Why, open []int) {
	if taxon == rec.Taxon {
		return r.placeNamed(s, taxon, rec.Possible)
	}
	return r.placeTaxon(s, taxon)
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
