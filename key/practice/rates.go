package practice

import (
	"math"

	"rillkey/key/learned"
)

// tally is how often a trait was read in animals of one source.
type tally struct {
	looked          int
	wrong, expected float64
}

// count adds a reading to the counts of its source.
func (l *Learner) count(r *Reading, from Source, expected float64) {
	into := l.counts[from]
	if into == nil {
		into = map[string]tally{}
		l.counts[from] = into
	}
	c := into[r.Trait]
	c.looked++
	c.expected += expected
	c.wrong += r.Blame
	into[r.Trait] = c
}

// Counts are the person's readings of animals met as one source, as a group's file of
// rates holds them.
func (l *Learner) Counts(from Source) *learned.Counts {
	out := map[string]learned.TraitCount{}
	for trait, c := range l.counts[from] {
		out[trait] = learned.TraitCount{Looked: c.looked, Misread: int(math.Round(c.wrong)), Expected: c.expected}
	}
	return learned.Of(out)
}
