package key

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"rillkey/key/flow"
	"rillkey/taxa"
	"rillkey/taxa/bitset"
	"rillkey/taxa/sorting"
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
	// Bound is what no key of two leads a couplet that tells as much can go below
	// in its flat mean: log2 of the number of end points, less, where several share
	// an end, log2 of how many. BoundWeighted is the same bound for the weighted
	// mean: the entropy of the commonness in bits, less what is left open in shared
	// ends (Shannon 1948); 0 when the key does not say. Both follow from the
	// inequality of Kraft with each end's share of it parted among its taxa.
	Bound         float64 `json:"entropy_bound"`
	BoundWeighted float64 `json:"entropy_bound_by_commonness"`
	// MeanEffort is the mean effort of a walk, a look with the naked eye being 1,
	// and Lost the share of animals that a misread answer takes off their path,
	// both by commonness where the key says it.
	MeanEffort float64 `json:"mean_effort"`
	Lost       float64 `json:"lost"`
	// PerCouplet is every couplet, and Carriers every trait asked for, the one most often
	// asked first.
	PerCouplet []AtCouplet `json:"at_couplets"`
	Carriers   []Carrier   `json:"traits"`
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
func Looking(v *taxa.Vocabulary) flow.Observer {
	return flow.Observer{Effort: usualEffort.forLook, Option: usualEffort.Option, Readings: FileRates(v).Readings}
}

const sixQuestions = 6

// routes are the ways to one place in the key.
type routes struct {
	number, questions float64 // how many, and their questions in all
	longest           int
	// shared is the sum over the ways of log2 of how many times likelier all that
	// end there are than this one; 0 where it ends alone.
	shared, sharedByCommonness float64
}

func (r *routes) add(from routes) {
	r.number += from.number
	r.questions += from.questions + from.number
	r.longest = max(r.longest, from.longest+1)
}

// share notes ways on which the one of these, among all, is told from no other.
func (r *routes) share(from routes, among bitset.Set, one, all float64) {
	r.shared += from.number * math.Log2(float64(among.Len()))
	if one > 0 {
		r.sharedByCommonness += from.number * math.Log2(all/one)
	}
}

// Stats measures the key.
func (k *Key) Stats() Stats {
	ends := k.routes()
	s := Stats{Couplets: len(k.steps), Ends: len(ends), Bound: math.Log2(float64(len(ends)))}
	weights := k.sound.Weights()
	total, within, lost := 0.0, 0.0, 0.0
	for i, r := range ends {
		mean := r.questions / r.number
		s.MeanFlat += mean / float64(len(ends))
		weight := weights[k.sound.Ends[i].ID]
		total += weight
		s.Bound -= r.shared / r.number / float64(len(ends))
		lost += weight * r.sharedByCommonness / r.number
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
		s.BoundWeighted = entropy(weights) - lost/total
	}
	s.Depths = make([]int, s.Longest+1)
	for _, r := range ends {
		s.Depths[r.longest]++
	}
	k.follow(&s)
	return s
}

// follow fills in what animals meet on their way.
func (k *Key) follow(s *Stats) {
	f := flow.Follow(k.sound, k.catalog, k.sound.Weights(), Looking(k.catalog.Vocabulary()))
	s.MeanEffort, s.Lost = f.Effort, f.Lost
	place := map[string]int{}
	for _, c := range f.Couplets {
		s.PerCouplet = append(s.PerCouplet, AtCouplet{c.ID, c.Asked, c.Lost})
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
	sorting.Stable(s.Carriers, func(a, b Carrier) int { return cmp.Compare(b.Asked, a.Asked) })
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
	at[k.start()] = routes{number: 1}
	weights := k.sound.Weights()
	for _, i := range k.sound.TopDown() {
		for _, b := range k.steps[i].leads {
			if b.next >= 0 {
				at[b.next].add(at[i])
				continue
			}
			all := 0.0
			b.ends.Each(func(end int) { all += weights[k.sound.Ends[end].ID] })
			b.ends.Each(func(end int) {
				ends[end].add(at[i])
				ends[end].share(at[i], b.ends, weights[k.sound.Ends[end].ID], all)
			})
		}
	}
	return ends
}
