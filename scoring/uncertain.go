package scoring

import (
	"cmp"
	"fmt"
	"math"

	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
)

// nameChances is the distribution of an index because of doubtful names.
func (s grader) nameChances(how scheme.Combine, from evidence, m *simulation) chances {
	if how != scheme.Best {
		return s.chancesOf(from.distributions(from.rows), m)
	}
	var all []chances
	for i, taken := range from.samples {
		all = append(all, s.chancesOf(from.distributions(account.Sample(from.rows, taken.Label)), seeded(m.seed+uint64(i))))
	}
	return best(s, all)
}

// centred moves the values so that their mean is the value found, none below 0:
// the bootstrap's own estimate of its bias is taken off (Efron and Tibshirani
// 1993, from memory).
func (c chances) centred(s grader, value int64) chances {
	mean, _ := c.moments(s)
	shift := value - int64(math.Round(mean*float64(s.One())))
	out := chances{none: c.none, draws: c.draws}
	for _, pt := range c.points {
		to := max(0, pt.steps+shift)
		if n := len(out.points); n > 0 && out.points[n-1].steps == to {
			out.points[n-1].p += pt.p
		} else {
			out.points = append(out.points, point{to, pt.p})
		}
	}
	return out
}

// provisional is what the samples taken so far would give, nil where even that
// has no value.
func (r *Rules) provisional(s grader, how scheme.Combine, a *account.Account, m *simulation, headline bool) *Provisional {
	from := s.evidence(a)
	all := s.sort(from.rows)
	v := s.valued(how, from, all, m)
	if len(all.found) == 0 || !v.value.Defined() {
		return nil
	}
	i := Index{}
	i.Identification, i.Sampling = v.spreads(s)
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
func trusted(records []account.Record) (remarks []string) {
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
		remarks = append(remarks, fmt.Sprintf("%d of %d %s not say how sure the name is; there it is taken for certain, so the chances given are too sure.", unstated, len(records), agree(unstated, "record does", "records do")))
	}
	if over > 0 {
		remarks = append(remarks, fmt.Sprintf("%d %s chances that sum to more than 1; they were scaled down to 1.", over, agree(over, "record states", "records state")))
	}
	return remarks
}

func agree(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}
