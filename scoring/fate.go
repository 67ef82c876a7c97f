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
		out[i] = r.fate(s, rec)
	}
	return out
}

func (r *Rules) fate(s *Scheme, rec visit.Record) fate {
	f := fate{count: int64(rec.Count)}
	for _, c := range r.belief(rec) {
		kind, why, _ := r.placeChance(s, rec, c.Taxon)
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
