package key

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"rillkey/key/flow"
	"rillkey/taxa"
)

// Stats says how long the walks through a key are when every answer is right
// and nothing is skipped. A route is one way from the first couplet to an end
// point; an end point keyed out several times has several.
type Stats struct {
	Couplets int `json:"couplets"`
	Ends     int `json:"end_points"`
	// MeanFlat is the mean number of questions with every end point counted
	// once, by the mean of its routes.
	MeanFlat float64 `json:"mean_questions"`
	// MeanWeighted is the same with end points weighted by how common they are;
	// 0 when the key does not say.
	MeanWeighted float64 `json:"mean_questions_by_commonness"`
	// CommonWithin is the share of animals, by commonness, whose longest route is
	// at most six questions; 0 when the key does not say.
	CommonWithin float64  `json:"share_within_six"`
	Longest      int      `json:"longest"`
	LongestEnds  []string `json:"longest_end_points"`
	// Depths counts end points by the questions of their longest route, from 0.
	Depths []int `json:"depths"`
	// Bound is log2 of the number of end points: no key of two leads a couplet
	// has a smaller flat mean. BoundWeighted is the entropy of the commonness in
	// bits, the same bound for the weighted mean (Shannon 1948); 0 when the key
	// does not say.
	Bound         float64 `json:"entropy_bound"`
	BoundWeighted float64 `json:"entropy_bound_by_commonness"`
	// MeanEffort is the mean effort of a walk, a look with the naked eye being 1,
	// and Lost the share of animals that a misread answer takes off their path,
	// both by commonness where the key says it.
	MeanEffort float64 `json:"mean_effort"`
	Lost       float64 `json:"lost"`
	// At is every couplet, and Carriers every trait asked for, the one most often
	// asked first.
	At       []AtCouplet `json:"at_couplets"`
	Carriers []Carrier   `json:"traits"`
}

// AtCouplet is what happens at one couplet; shares are of all animals.
type AtCouplet struct {
	Couplet string  `json:"couplet"`
	Asked   float64 `json:"asked"` // share of animals that come here
	Lost    float64 `json:"lost"`  // share of animals that a misread answer takes off their path here
}

// Carrier is a trait that a key asks for.
type Carrier struct {
	Trait    string  `json:"trait"`
	Couplets int     `json:"couplets"`
	Asked    float64 `json:"asked"` // how often an animal is asked for it, on average
}

// Looking is how people look, at the usual effort and the rates of the
// vocabulary.
func Looking(v *taxa.Vocabulary) flow.Model {
	return flow.Model{Effort: UsualEffort.of, Option: UsualEffort.Option, Readings: FileRates(v).Readings}
}

const sixQuestions = 6

// routes are the ways to one place in the key.
type routes struct {
	number, questions float64 // how many, and their questions in all
	longest           int
}

func (r *routes) add(from routes) {
	r.number += from.number
	r.questions += from.questions + from.number
	r.longest = max(r.longest, from.longest+1)
}

// Stats measures the key.
func (k *Key) Stats() Stats {
	ends := k.routes()
	s := Stats{Couplets: len(k.steps), Ends: len(ends), Bound: math.Log2(float64(len(ends)))}
	total, within := 0.0, 0.0
	for i, r := range ends {
		mean := r.questions / r.number
		s.MeanFlat += mean / float64(len(ends))
		weight := k.sound.Commonness[k.sound.Ends[i].ID]
		total += weight
		s.MeanWeighted += weight * mean
		if r.longest <= sixQuestions {
			within += weight
		}
		if r.longest > s.Longest {
			s.Longest, s.LongestEnds = r.longest, nil
		}
		if r.longest == s.Longest {
			s.LongestEnds = append(s.LongestEnds, k.sound.Ends[i].ID)
		}
	}
	if total > 0 {
		s.MeanWeighted /= total
		s.CommonWithin = within / total
	}
	s.Depths = make([]int, s.Longest+1)
	for _, r := range ends {
		s.Depths[r.longest]++
	}
	s.BoundWeighted = entropy(k.sound.Commonness)
	k.follow(&s)
	return s
}

// follow fills in what animals meet on their way.
func (k *Key) follow(s *Stats) {
	f := flow.Through(k.sound, k.catalog, k.sound.Commonness, Looking(k.catalog.Vocabulary()))
	s.MeanEffort, s.Lost = f.Effort, f.Lost
	place := map[string]int{}
	for _, c := range f.Couplets {
		s.At = append(s.At, AtCouplet{c.ID, c.Asked, c.Lost})
		for _, t := range c.Traits {
			i, known := place[t]
			if !known {
				i = len(s.Carriers)
				place[t] = i
				s.Carriers = append(s.Carriers, Carrier{Trait: t})
			}
			s.Carriers[i].Couplets++
			s.Carriers[i].Asked += c.Asked
		}
	}
	slices.SortStableFunc(s.Carriers, func(a, b Carrier) int { return cmp.Compare(b.Asked, a.Asked) })
}

// entropy is that of the weights in bits.
func entropy(weights map[string]float64) float64 {
	ids := slices.Sorted(maps.Keys(weights))
	total, h := 0.0, 0.0
	for _, id := range ids {
		total += weights[id]
	}
	for _, id := range ids {
		if p := weights[id] / total; p > 0 {
			h -= p * math.Log2(p)
		}
	}
	return h
}

// routes counts the ways to every end point, couplets before those they lead to.
func (k *Key) routes() []routes {
	at := make([]routes, len(k.steps))
	ends := make([]routes, len(k.sound.Ends))
	at[k.start] = routes{number: 1}
	for _, i := range k.topdown() {
		for _, b := range k.steps[i].leads {
			if b.next >= 0 {
				at[b.next].add(at[i])
			} else {
				ends[b.end].add(at[i])
			}
		}
	}
	return ends
}

// topdown are the steps, each after all that lead to it.
func (k *Key) topdown() []int {
	before := make([]int, len(k.steps)) // leads not yet followed
	for _, s := range k.steps {
		for _, b := range s.leads {
			if b.next >= 0 {
				before[b.next]++
			}
		}
	}
	order := []int{k.start}
	for at := 0; at < len(order); at++ {
		for _, b := range k.steps[order[at]].leads {
			if b.next >= 0 {
				if before[b.next]--; before[b.next] == 0 {
					order = append(order, b.next)
				}
			}
		}
	}
	return order
}
