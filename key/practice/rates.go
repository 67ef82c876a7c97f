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
func (l *Learner) count(r *Reading, from SpecimenSource, expected float64) {
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
// rates holds them; what they read in animals of another source has no part in it. Each
// rate is the person's as they now read, where an old misread weighs little.
func (r *PersonRecord) Counts(c *Course, from SpecimenSource) *learned.Counts {
	l := c.NewLearner()
	for i := range r.Meetings {
		if r.Meetings[i].Source == from {
			l.Take(r.Meetings[i])
		}
	}
	out := map[string]learned.TraitCount{}
	for trait, n := range l.counts[from] {
		out[trait] = learned.TraitCount{Looked: n.looked, Misread: int(math.Round(n.wrong)), Expected: n.expected, Rate: l.rate(trait)}
	}
	return learned.FromCounts(out)
}

// rate is the chance that the person misreads a trait, 0 to 1, in states as they came to
// read them; 0 for a trait that was not read.
func (l *Learner) rate(trait string) float64 {
	n, ok := l.course.place[trait]
	if !ok {
		return 0
	}
	sum, total, times := 0.0, 0.0, l.times(n)
	chances := make([]float64, len(l.rows[n]))
	for state := range l.rows[n] {
		weight := 0.0
		for _, w := range l.rows[n][state].read {
			weight += w
		}
		if weight > 0 {
			l.reading(n, state, times, chances)
			sum += weight * (1 - chances[state])
			total += weight
		}
	}
	if total == 0 {
		return 0
	}
	return sum / total
}
