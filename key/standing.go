package key

import (
	"cmp"
	"slices"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/sorting"
)

// forgiven is how many of the things said a kind need not show before all of that
// counts as a misfit: an answer in ten is misread, and of simulated people's names
// those with one are right as often as those with none (0.96), those with two less
// often (0.94), those with more still less (0.85 to 0.90).
const forgiven = 1

// lackingOf is the least number of the things said that an end point cannot show. A
// length, and what the animal is likened to, exclude nothing.
func lackingOf(q *Inquiry) int {
	least := len(q.given)
	for _, end := range q.model.ends {
		n := 0
		for i := 0; i < len(q.given) && n < least; i++ {
			if slices.ContainsFunc(q.given[i].says, func(said couplets.Condition) bool {
				return !canShow(end, said) && !q.model.traits[q.model.index[said.Trait]].Likeness
			}) {
				n++
			}
		}
		least = min(least, n)
	}
	return least
}

// canShow reports whether a taxon shows what was said, or is not known not to.
func canShow(t *taxa.Taxon, said couplets.Condition) bool {
	shown := t.States(said.Trait)
	return shown == nil || slices.ContainsFunc(shown, func(w taxa.Weight) bool { return slices.Contains(said.States, w.State) })
}

// leastPossible is the probability that the end points called possible hold
// together at least.
const leastPossible = 0.95

// Possible are the end points to be called still possible, the likeliest first: the
// fewest that together hold 0.95. One is left alone only where nothing more is asked, or
// where what is asked serves what the key does not lead to, which is likelier then than
// every other end point.
func (q *Inquiry) Possible() []Candidate {
	if all := q.Likely(leastPossible); len(all) > 1 {
		return all
	}
	all := q.Likely(max(leastPossible, q.opts.Settle))
	if len(all) == 1 && q.suppose == nil && q.Question() != nil {
		all = all[:min(2, cap(all))]
		if len(all) == 2 && all[1].Probability < q.strangerProbability() {
			all = all[:1]
		}
	}
	return all
}

// Likely are the fewest end points that together hold the probability, or where
// all of them hold less, this share of what they hold; the likeliest first.
func (q *Inquiry) Likely(probability float64) []Candidate {
	all := q.Probabilities()
	sorting.Stable(all, func(a, b Candidate) int { return cmp.Compare(b.Probability, a.Probability) })
	sum := 0.0
	if all := 1 - q.strangerProbability(); probability > all {
		probability *= all
	}
	for i, s := range all {
		if sum += s.Probability; sum >= probability {
			return all[:i+1]
		}
	}
	return all
}
