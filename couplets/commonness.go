package couplets

import (
	"maps"
	"slices"
)

// Weights is how common each end point is beside the others, in any unit: what
// the file says, and for an end point that it leaves out the median of those that
// it names. It is nil where the file says nothing. The caller must not change it.
func (s *Sound) Weights() map[string]float64 { return s.weights }

// fillWeights gives each end point its weight.
func (s *Sound) fillWeights() {
	if len(s.Commonness) == 0 {
		return
	}
	s.weights = make(map[string]float64, len(s.Ends))
	usual := median(slices.Collect(maps.Values(s.Commonness)))
	for _, t := range s.Ends {
		s.weights[t.ID] = usual
		if w, said := s.Commonness[t.ID]; said {
			s.weights[t.ID] = w
		}
	}
}

// median is the middle of some numbers, of which there is at least one; of an
// even count the mean of the two in the middle.
func median(of []float64) float64 {
	slices.Sort(of)
	return (of[(len(of)-1)/2] + of[len(of)/2]) / 2
}
