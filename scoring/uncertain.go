package scoring

import (
	"cmp"
	"math"

	"rillkey/scoring/account"
	"rillkey/scoring/chance"
	"rillkey/scoring/scheme"
	"rillkey/taxa/wording"
)

// nameChances is the distribution of an index because of doubtful names: by the ways
// in which all records may turn out together where they are judged so, else by each
// of them for itself.
func (s grader) nameChances(how scheme.Combine, from evidence, m *chance.Simulation) chance.Distribution {
	if c, ok := s.together(how, from); ok {
		return c
	}
	if how != scheme.Best {
		return s.Formula().Distribution(from.distributions(from.rows), m)
	}
	var all []chance.Distribution
	for i, taken := range from.samples {
		own := from.distributions(account.FromSample(from.rows, taken.Label))
		all = append(all, s.Formula().Distribution(own, chance.Seeded(m.Seed+uint64(i))))
	}
	return s.bestOf(all)
}

// together is the distribution over the ways in which all records may turn out.
func (s grader) together(how scheme.Combine, from evidence) (c chance.Distribution, ok bool) {
	parts := [][]account.Counted{from.rows}
	if how == scheme.Best {
		parts = nil
		for _, taken := range from.samples {
			parts = append(parts, account.FromSample(from.rows, taken.Label))
		}
	}
	var ways []*account.Ways
	number := 0
	for _, rows := range parts {
		w := from.account.Ways(from.counting, rows)
		if w == nil {
			return c, false
		}
		ways, number = append(ways, w), max(number, w.Number)
	}
	if len(ways) == 0 {
		return c, false
	}
	formula, counts := s.Formula(), make([]int64, len(s.Kinds))
	return chance.EquallyLikely(number, func(way int) (value chance.Ratio) {
		for _, w := range ways {
			w.Counts(way, counts)
			if v := formula.Value(counts); len(ways) == 1 || s.better(v, value) {
				value = v
			}
		}
		return value
	}), true
}

// resampled is the distribution of the value if other samples like those taken had
// been taken. Names stand as they are. ok is false for fewer than two samples.
func (s grader) resampled(how scheme.Combine, from evidence, seed uint64) (c chance.Distribution, ok bool) {
	n := len(from.samples)
	counts, single := make([][]int64, n), make([]chance.Ratio, n)
	value := s.Formula().Value
	for i, taken := range from.samples {
		counts[i] = s.counts(account.FromSample(from.rows, taken.Label))
		single[i] = value(counts[i])
	}
	if how == scheme.Best {
		return chance.Bootstrap(n, func(drawn []int) (top chance.Ratio) {
			for _, i := range drawn {
				if s.better(single[i], top) {
					top = single[i]
				}
			}
			return top
		}, seed)
	}
	return chance.Bootstrap(n, func(drawn []int) chance.Ratio {
		sum := make([]int64, len(s.Kinds))
		for _, i := range drawn {
			for k, n := range counts[i] {
				sum[k] += n
			}
		}
		return value(sum)
	}, seed)
}

// ofOneSample is the spread of a value because of which sample was taken, where it was
// one: a bell as wide as clumped counts make it, without ratings, since how samples
// differ here was not seen. What was multiplied up varies as what was counted. Nil for
// another number of samples and without a value.
func (s grader) ofOneSample(from evidence, of chance.Ratio, seed uint64) *Spread {
	if len(from.samples) != 1 || !of.Defined() {
		return nil
	}
	counted, scaled := s.counts(s.recorded(from.account)), s.counts(from.rows)
	value, counts := s.Formula().Value, make([]int64, len(scaled))
	drawn := chance.Clumped(counted, func(drawn []int64) chance.Ratio {
		for k, n := range drawn {
			if counts[k] = n; counted[k] > 0 && scaled[k] != counted[k] {
				counts[k] = int64(math.Round(float64(n) * float64(scaled[k]) / float64(counted[k])))
			}
		}
		return value(counts)
	}, seed)
	bell, _ := s.otherSamples(scheme.Pooled, drawn, 1, of)
	out := s.spread(bell)
	out.Method, out.Draws, out.Ratings = ClumpedMethod, 0, []RatingChance{}
	return out
}

// otherSamples is the distribution of the mean value that a stream would give at
// this effort, and its standard deviation in steps: a bell about the value found, as
// wide as the bootstrap's values, which are too close together by n/(n-1).
//
// The bell is Student's, since few samples tell little of how samples differ. Only where
// the value of all samples together hangs on which kinds there are, and the samples are
// few, is it the normal curve: samples drawn again lose kinds besides, all of a sample's
// at once, so that their values already lie too far apart, with three samples by 1.5
// times, with five by 1.2, with seven by 1.1 (simulated streams). TestOtherSamples
// measures both.
func (s grader) otherSamples(how scheme.Combine, drawn chance.Distribution, n int, value chance.Ratio) (chance.Distribution, float64) {
	_, variance := drawn.Moments(func(steps int64) float64 { return float64(steps) })
	if n > 1 {
		variance *= float64(n) / float64(n-1)
	}
	deviation := math.Sqrt(variance)
	return chance.Bell(value.Steps(), deviation, s.freedom(how, n), 0, s.Most(), drawn.None), deviation
}

// fewSamples are so few that what is drawn of them again lies too far apart by more than
// Student's t would allow for.
const fewSamples = 4

// freedom is the degrees of freedom of that bell.
func (s grader) freedom(how scheme.Combine, samples int) int {
	if s.ByKinds() && how != scheme.Best && samples <= fewSamples || samples == 1 {
		return chance.Normal
	}
	return samples - 1
}

// provisional is what the samples taken so far would give, nil where even that
// has no value.
func (r *Rules) provisional(s grader, how scheme.Combine, a *account.Account, m *chance.Simulation, headline bool) *Provisional {
	from := s.evidence(a)
	all := s.sort(from.rows)
	v := s.valued(how, from, all, m)
	if len(all.found) == 0 || !v.value.Defined() {
		return nil
	}
	i := Index{}
	i.Identification, i.Sampling = v.spreads(s)
	if i.Sampling == nil {
		i.Sampling = s.ofOneSample(from, v.value, m.Seed)
	}
	i.Probabilities = i.Identification.probabilities()
	if headline {
		i.say(s, r.word(s, how, a, v))
	} else {
		i.wordless()
	}
	return &Provisional{s.Number(v.value.Steps()), cmp.Or(i.Rating, scheme.Unrated), i.Probabilities, i.Identification, i.Sampling}
}

func (s *Spread) probabilities() map[string]float64 {
	if len(s.Ratings) == 0 {
		return nil
	}
	out := map[string]float64{}
	for _, r := range s.Ratings {
		out[r.Rating] = r.Chance
	}
	return out
}

// trusted are the remarks on records whose chances had to be taken on trust.
func trusted(records []account.BoundRecord) (remarks []string) {
	unstated, over := 0, 0
	for i := range records {
		rec := &records[i]
		if rec.Confidence == 0 && len(rec.Also) == 0 && rec.Decided() {
			unstated++
		}
		if rec.Overdrawn() {
			over++
		}
	}
	if unstated > 0 {
		remarks = append(remarks, wording.Sprintf(
			"%d of %d %s not say how sure the name is; there it is taken for certain, so the chances given are too sure.",
			unstated, len(records), wording.Agree(unstated, "records does", "records do")))
	}
	if over > 0 {
		remarks = append(remarks, wording.Sprintf("%d %s chances that sum to more than 1; they were scaled down to 1.", over,
			wording.Agree(over, "record states", "records state")))
	}
	return remarks
}
