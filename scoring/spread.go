package scoring

import (
	"cmp"
	"math"
	"slices"

	"rillkey/scoring/scheme"
)

// Spread is how an index and its rating are spread where something is uncertain.
type Spread struct {
	Method  string         `json:"method"`          // "exact" or "simulated"
	Draws   int            `json:"draws,omitempty"` // of a simulation
	Ratings []RatingChance `json:"ratings"`         // likeliest first; none where the scheme has no bands
	Mean    float64        `json:"mean"`            // of the value, where there is one
	Low     float64        `json:"low"`             // the central 95 %
	High    float64        `json:"high"`
	None    float64        `json:"no_value"`          // chance that the index has no value
	Centred bool           `json:"centred,omitempty"` // moved so that the mean is the value found, since samples drawn again only lose kinds
}

// RatingChance is a rating with its chance.
type RatingChance struct {
	Rating string  `json:"rating"`
	Chance float64 `json:"chance"`
	Error  float64 `json:"error,omitempty"` // standard error of a simulated chance
}

// chances is the distribution of a value in steps; what they sum to below 1 has
// no value.
type chances struct {
	points []point // by rising steps, each once
	none   float64
	draws  int // of a simulation; 0 where exact
}

type point struct {
	steps int64
	p     float64
}

func (p point) compare(q point) int { return cmp.Compare(p.steps, q.steps) }

// massFunction adds up chances by key, in the order in which keys turn up, so that no
// sum depends on the order of a map.
type massFunction[K comparable] struct {
	at   map[K]int
	keys []K
	p    []float64
}

func newMassFunction[K comparable](first ...K) *massFunction[K] {
	l := &massFunction[K]{at: map[K]int{}}
	for _, k := range first {
		l.add(k, 1)
	}
	return l
}

func (l *massFunction[K]) add(k K, p float64) {
	i, known := l.at[k]
	if !known {
		i = len(l.keys)
		l.at[k] = i
		l.keys, l.p = append(l.keys, k), append(l.p, 0)
	}
	l.p[i] += p
}

// chancesOf sorts a mass function of values.
func chancesOf(values *massFunction[scheme.Ratio]) chances {
	steps := newMassFunction[int64]()
	var c chances
	for i, v := range values.keys {
		if v.Defined() {
			steps.add(v.Steps(), values.p[i])
		} else {
			c.none += values.p[i]
		}
	}
	for i, k := range steps.keys {
		c.points = append(c.points, point{k, steps.p[i]})
	}
	slices.SortFunc(c.points, point.compare)
	return c
}

// ratings are the chances of the bands, those that cannot be left out.
func (c chances) ratings(s grader) []RatingChance {
	out := []RatingChance{}
	if len(s.Bands) == 0 {
		return out
	}
	for _, pt := range c.points {
		word := s.Band(pt.steps).Rating
		i := slices.IndexFunc(out, func(r RatingChance) bool { return r.Rating == word })
		if i < 0 {
			i = len(out)
			out = append(out, RatingChance{Rating: word})
		}
		out[i].Chance += pt.p
	}
	for i := range out {
		if c.draws > 0 {
			out[i].Error = math.Sqrt(out[i].Chance * (1 - out[i].Chance) / float64(c.draws))
		}
	}
	slices.SortStableFunc(out, func(a, b RatingChance) int { return cmp.Compare(b.Chance, a.Chance) })
	return out
}

// entropy of the rating in bits, no value counting as a rating of its own.
func (c chances) entropy(s grader) (bits float64) {
	add := func(p float64) {
		if p > 0 {
			bits -= p * math.Log2(p)
		}
	}
	for _, r := range c.ratings(s) {
		add(r.Chance)
	}
	add(c.none)
	return bits
}

// moments are the mean and the variance of the value, where there is one.
func (c chances) moments(s grader) (mean, variance float64) {
	sum, square := 0.0, 0.0
	for _, pt := range c.points {
		sum += pt.p
		mean += pt.p * s.Number(pt.steps)
	}
	if sum == 0 {
		return 0, 0
	}
	mean /= sum
	for _, pt := range c.points {
		d := s.Number(pt.steps) - mean
		square += pt.p * d * d
	}
	return mean, square / sum
}

// quantile is the smallest value that is not exceeded with this chance.
func (c chances) quantile(s grader, q float64) float64 {
	total := 0.0
	for _, pt := range c.points {
		total += pt.p
	}
	sum := 0.0
	for _, pt := range c.points {
		if sum += pt.p; sum >= q*total-1e-12 {
			return s.Number(pt.steps)
		}
	}
	return 0
}

// spread is what people and scripts see of the chances.
func (c chances) spread(s grader) *Spread {
	out := &Spread{Method: "exact", Draws: c.draws, Ratings: c.ratings(s), None: c.none}
	if c.draws > 0 {
		out.Method = "simulated"
	}
	out.Mean, _ = c.moments(s)
	out.Low, out.High = c.quantile(s, 0.025), c.quantile(s, 0.975)
	return out
}

// best are the chances of the value that speaks best, of several independent
// ones: the highest, or where low is clean the lowest. Source of the form: the
// distribution function of a maximum is the product of those of its members.
func best(s grader, all []chances) chances {
	if s.LowIsClean() {
		all = reversed(all)
	}
	var steps []int64
	for _, c := range all {
		for _, pt := range c.points {
			steps = append(steps, pt.steps)
		}
	}
	slices.Sort(steps)
	steps = slices.Compact(steps)
	if s.LowIsClean() {
		slices.Reverse(steps)
	}
	out := chances{none: 1}
	upTo, next := make([]float64, len(all)), make([]int, len(all)) // chance that each speaks no better
	for i, c := range all {
		out.none *= c.none
		out.draws = max(out.draws, c.draws)
		upTo[i] = c.none
	}
	before := out.none
	for _, k := range steps {
		product := 1.0
		for i, c := range all {
			if next[i] < len(c.points) && c.points[next[i]].steps == k {
				upTo[i] += c.points[next[i]].p
				next[i]++
			}
			product *= upTo[i]
		}
		if product > before {
			out.points = append(out.points, point{k, product - before})
		}
		before = product
	}
	if s.LowIsClean() {
		slices.Reverse(out.points)
	}
	return out
}

// reversed are the same chances with the points by falling steps.
func reversed(all []chances) []chances {
	out := slices.Clone(all)
	for i := range out {
		out[i].points = slices.Clone(out[i].points)
		slices.Reverse(out[i].points)
	}
	return out
}
