package scoring

import (
	"cmp"
	"math"
	"slices"

	"rillkey/scoring/chance"
	"rillkey/taxa/sorting"
)

// Spread is how an index and its rating are spread where something is uncertain.
type Spread struct {
	Method  string         `json:"method"`          // "exact" or "simulated", of samples "bootstrap" or [Clumped]
	Draws   int            `json:"draws,omitempty"` // of a simulation
	Ratings []RatingChance `json:"ratings"`         // likeliest first; none where the scheme has no bands
	Mean    float64        `json:"mean"`            // of the value, where there is one
	Low     float64        `json:"low"`             // the central 95 %
	High    float64        `json:"high"`
	None    float64        `json:"no_value"` // chance that the index has no value
}

// ClumpedMethod is the method of a spread because of a single sample: that animals lie as
// clumped as is usual is taken for granted there, so that it has no ratings.
const ClumpedMethod = "clumped"

// RatingChance is a rating with its chance.
type RatingChance struct {
	Rating string  `json:"rating"`
	Chance float64 `json:"chance"`
	Error  float64 `json:"error,omitempty"` // standard error of a simulated chance
}

// ratings are the chances of the bands, those that cannot be left out.
func (s grader) ratings(c chance.Distribution) []RatingChance {
	out := []RatingChance{}
	if len(s.Bands) == 0 {
		return out
	}
	for _, pt := range c.Points {
		word := s.Band(pt.Steps).Rating
		i := slices.IndexFunc(out, func(r RatingChance) bool { return r.Rating == word })
		if i < 0 {
			i = len(out)
			out = append(out, RatingChance{Rating: word})
		}
		out[i].Chance += pt.P
	}
	for i := range out {
		if c.Draws > 0 {
			out[i].Error = math.Sqrt(max(0, out[i].Chance*(1-out[i].Chance)) / float64(c.Draws))
		}
	}
	sorting.Stable(out, func(a, b RatingChance) int { return cmp.Compare(b.Chance, a.Chance) })
	return out
}

// entropy of the rating in bits, no value counting as a rating of its own.
func (s grader) entropy(c chance.Distribution) (bits float64) {
	add := func(p float64) {
		if p > 0 {
			bits -= p * math.Log2(p)
		}
	}
	for _, r := range s.ratings(c) {
		add(r.Chance)
	}
	add(c.None)
	return bits
}

// spread is what people and scripts see of the chances.
func (s grader) spread(c chance.Distribution) *Spread {
	out := &Spread{Method: "exact", Draws: c.Draws, Ratings: s.ratings(c), None: c.None}
	if c.Draws > 0 {
		out.Method = "simulated"
	}
	out.Mean, _ = c.Moments(s.Number)
	out.Low, out.High = s.Number(c.Quantile(0.025)), s.Number(c.Quantile(0.975))
	return out
}

// bestOf is the distribution of the value that speaks best of the stream, of several
// independent ones.
func (s grader) bestOf(all []chance.Distribution) chance.Distribution {
	if s.LowIsClean() {
		return chance.Lowest(all)
	}
	return chance.Highest(all)
}
