package practice

import (
	"cmp"

	"rillkey/taxa"
	"rillkey/taxa/sorting"
)

// Reader is somebody who practised, by name.
type Reader struct {
	Name    string
	Learner *Learner
}

// RightReading is how likely somebody is to read a trait rightly, 0 to 1.
type RightReading struct {
	Name   string
	Chance float64
}

// ByReading are readers by how likely they are to read a trait of animals of these kinds
// rightly, best first; those who read it equally well in the order given.
func ByReading(readers []Reader, trait *taxa.Trait, kinds ...*taxa.Taxon) []RightReading {
	out := make([]RightReading, len(readers))
	for i, r := range readers {
		out[i] = RightReading{r.Name, r.Learner.rightly(trait, kinds...)}
	}
	sorting.Stable(out, func(x, y RightReading) int { return cmp.Compare(y.Chance, x.Chance) })
	return out
}
