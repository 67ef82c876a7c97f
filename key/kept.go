package key

import (
	"cmp"
	"math"
	"slices"
)

// Kept is a verdict as a record keeps it. With Probability those of Others sum to
// at most 1.
type Kept struct {
	Taxon, Rank string  // of the name; empty where there is none
	Probability float64 // that the animal is of it
	// Possible are the ids of the end points, the likeliest first, that hold the
	// animal with a probability of 0.99 together; empty where it is one alone, or
	// where they are more than 40.
	Possible []string
	// Others are the kinds outside the name, the likeliest first, also those that
	// the key leaves out: at most 40, and none below a probability of 0.005.
	Others []Share
	Path   []string
}

const (
	keptTogether = 0.99  // the probability that those kept as possible hold together
	minKept      = 0.005 // the least probability kept
	maxKept      = 40    // more possibilities say no more than the path does
)

// Kept is what the answers so far come to, to be kept.
func (q *Inquiry) Kept() Kept {
	v, catalog := q.Verdict(), q.model.key.catalog
	k := Kept{Taxon: v.Taxon, Probability: floor4(v.Probability), Path: v.Path}
	if t := catalog.Taxon(v.Taxon); t != nil {
		k.Rank = t.Rank
	}
	if likely := q.Likely(keptTogether); len(likely) > 1 && len(likely) <= maxKept {
		for _, s := range likely {
			k.Possible = append(k.Possible, s.Taxon)
		}
	}
	all := append(q.Probabilities(), q.Strangers()...)
	slices.SortStableFunc(all, func(a, b Share) int { return cmp.Compare(b.Probability, a.Probability) })
	for _, s := range all {
		if s.Probability < minKept || len(k.Others) == maxKept {
			break
		}
		if v.Taxon == "" || !catalog.IsUnder(s.Taxon, v.Taxon) {
			k.Others = append(k.Others, Share{s.Taxon, floor4(s.Probability)})
		}
	}
	return k
}

// floor4 is a probability cut to four decimals, so that no sum grows.
func floor4(p float64) float64 { return math.Floor(p*1e4) / 1e4 }
