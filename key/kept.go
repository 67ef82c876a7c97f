package key

import (
	"cmp"
	"math"

	"rillkey/taxa/sorting"
)

// RecordedVerdict is a verdict as a record keeps it. With Probability those of Others outside
// the name sum to at most 1.
type RecordedVerdict struct {
	Taxon, Rank string  // of the name; empty where there is none
	Probability float64 // that the animal is of it; at most 0.89 where no kind shows all that was said
	// Possible are the ids of the end points, the likeliest first, that hold the
	// animal with a probability of 0.99 together; empty where it is one alone, or
	// where they are more than 40.
	Possible []string
	// Others are all kinds but the name itself, also those that it holds and those
	// that the key leaves out, the likeliest first: at most 40, and none below a
	// probability of 0.0001. What is unlikely for one animal may be likely beside
	// others.
	Others []Candidate
	// FitsHalf and FitsTwice say how many times as likely the answers are from
	// people who misread half, and twice, as often as the model has it; above 0.
	FitsHalf, FitsTwice float64
	Path                []string
}

const (
	keptTogether = 0.99   // the probability that those kept as possible hold together
	minKept      = 0.0001 // the least probability kept
	maxKept      = 40     // more possibilities say no more than the path does
)

// Kept is what the answers so far come to, to be kept.
func (q *Inquiry) Kept() RecordedVerdict {
	v, catalog := q.Verdict(), q.model.key.catalog
	k := RecordedVerdict{Taxon: v.Taxon, Probability: floored(v.Told(v.Probability)), Path: v.Path}
	if q.opts.InTraits {
		k.Path = q.inTraits()
	}
	k.FitsHalf, k.FitsTwice = q.careless(0.5), q.careless(2)
	if t := catalog.Taxon(v.Taxon); t != nil {
		k.Rank = t.Rank
	}
	if likely := q.Likely(keptTogether); len(likely) > 1 && len(likely) <= maxKept {
		for _, s := range likely {
			k.Possible = append(k.Possible, s.Taxon)
		}
	}
	all := append(q.Probabilities(), q.Strangers()...)
	sorting.Stable(all, func(a, b Candidate) int { return cmp.Compare(b.Probability, a.Probability) })
	for _, s := range all {
		if s.Probability < minKept || len(k.Others) == maxKept {
			break
		}
		if s.Taxon != v.Taxon {
			k.Others = append(k.Others, Candidate{s.Taxon, floored(s.Probability)})
		}
	}
	return k
}

// floored is a probability cut to four decimals, or where it is small to two
// figures, so that no sum grows.
func floored(p float64) float64 {
	figures := 1e4
	if p > 0 && p < 0.01 {
		figures = math.Pow10(1 - int(math.Floor(math.Log10(p))))
	}
	return math.Floor(p*figures) / figures
}
