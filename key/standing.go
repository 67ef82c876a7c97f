package key

import (
	"cmp"
	"slices"

	"rillkey/taxa"
)

// Standing are the end points that can show all that was said, in the order of
// the key. None means that an answer was misread, or that the key does not hold
// the animal: the answers fit nothing together. A length excludes nothing.
func (q *Inquiry) Standing() []*taxa.Taxon {
	var out []*taxa.Taxon
	for _, end := range q.model.ends {
		if q.fits(end) {
			out = append(out, end)
		}
	}
	return out
}

func (q *Inquiry) fits(end *taxa.Taxon) bool {
	for i := range q.given {
		for _, said := range q.given[i].says {
			shown := end.States(said.Trait)
			if shown != nil && !slices.ContainsFunc(shown, func(w taxa.Weight) bool { return slices.Contains(said.States, w.State) }) {
				return false
			}
		}
	}
	return true
}

// leastPossible is the probability that the end points called possible hold
// together at least.
const leastPossible = 0.95

// Possible are the end points to be called still possible, the likeliest first:
// the fewest that together hold 0.95. Where that is one, it is left alone only
// if its probability is that at which questions stop.
func (q *Inquiry) Possible() []Share {
	if all := q.Likely(leastPossible); len(all) > 1 {
		return all
	}
	return q.Likely(max(leastPossible, q.opts.Settle))
}

// Likely are the fewest end points that together hold the probability, or where
// all of them hold less, this share of what they hold; the likeliest first.
func (q *Inquiry) Likely(probability float64) []Share {
	all := q.Probabilities()
	slices.SortStableFunc(all, func(a, b Share) int { return cmp.Compare(b.Probability, a.Probability) })
	sum := 0.0
	if all := 1 - q.beyond(); probability > all {
		probability *= all
	}
	for i, s := range all {
		if sum += s.Probability; sum >= probability {
			return all[:i+1]
		}
	}
	return all
}
