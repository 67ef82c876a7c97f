package key

import (
	"math"
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
	// has a smaller flat mean.
	Bound float64 `json:"entropy_bound"`
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
	return s
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
