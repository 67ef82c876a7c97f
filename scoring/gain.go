package scoring

import (
	"math"
	"slices"

	"rillkey/scoring/chance"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
)

// gain is what settling a record would bring.
type gain struct {
	bits     float64 // expected drop of the rating's entropy
	variance float64 // expected drop of the value's variance
}

// gains are those of settling the records at some places, one at a time: what is
// known of the value by all that a record may be, mixed by their chances, less what
// would be known of it, on average, if it were settled. So chance in a simulation
// makes no gain below 0. The work is the number of steps made.
func (s grader) gains(
	how scheme.Combine, from evidence, distributions []chance.KindDistribution, at []int, seed uint64,
) (out []gain, work float64) {
	out = make([]gain, len(at))
	if how != scheme.Best {
		t := s.Formula().Settler(distributions, at)
		fillGains(s, t, out, nil, chance.Seeded(seed), func(c chance.Distribution) chance.Distribution { return c })
		return out, t.Work
	}
	all := make([]chance.Distribution, len(from.samples))
	own, asked, where := make([][]chance.KindDistribution, len(all)), make([][]int, len(all)), make([][]int, len(all))
	for i, row := range from.rows {
		k := slices.IndexFunc(from.samples, func(taken visit.Taken) bool { return taken.Label == row.Sample })
		if k < 0 {
			continue
		}
		if n, ok := slices.BinarySearch(at, i); ok {
			asked[k], where[k] = append(asked[k], len(own[k])), append(where[k], n)
		}
		own[k] = append(own[k], distributions[i])
	}
	for k := range all {
		all[k] = s.Formula().Distribution(own[k], chance.Seeded(seed+uint64(k)))
	}
	for k := range all {
		t := s.Formula().Settler(own[k], asked[k])
		fillGains(s, t, out, where[k], chance.Seeded(seed+uint64(k)), func(c chance.Distribution) chance.Distribution {
			with := slices.Clone(all)
			with[k] = c
			return s.bestOf(with)
		})
		work += t.Work
	}
	return out, work
}

// fillGains enters the gains of a settler's records, the first of them at the place
// where[0], or in order. whole makes the chances of the visit's value of those of
// the settler's.
func fillGains(s grader,
	t *chance.Settler, out []gain, where []int, m *chance.Simulation, whole func(chance.Distribution) chance.Distribution,
) {
	gains := map[int]gain{}
	t.Each(m, func(sort int, may []chance.Settled) { gains[sort] = s.gainOf(may, whole) })
	for n, sort := range t.Sort {
		if where != nil {
			n = where[n]
		}
		out[n] = gains[sort] // none where settling it changes nothing
	}
}

// gainOf is the gain of a record by what it may turn out to be.
func (s grader) gainOf(may []chance.Settled, whole func(chance.Distribution) chance.Distribution) gain {
	each := make([]digest, len(may))
	var g gain
	for i, o := range may {
		each[i] = s.digest(whole(o.Then))
		g.bits -= o.Chance * each[i].entropy()
		g.variance -= o.Chance * each[i].variance
	}
	now := mixed(may, each)
	return gain{max(g.bits+now.entropy(), 0), max(g.variance+now.variance, 0)}
}

// digest is what a gain depends on of the chances of a value.
type digest struct {
	words             []float64 // chances of the ratings by their bands, where there are bands, and last of no value
	p, mean, variance float64   // chance that there is a value, and its moments then
}

func (s grader) digest(c chance.Distribution) digest {
	d := digest{words: make([]float64, len(s.Bands)+1)}
	band, last := 0, len(s.Bands)-1
	for _, pt := range c.Points {
		for band < last && s.Bands[band].Highest < pt.Steps {
			band++
		}
		if last >= 0 {
			d.words[band] += pt.P
		}
		d.p += pt.P
	}
	d.words[last+1] = c.None
	d.mean, d.variance = c.Moments(s.Number)
	return d
}

// mixed is the digest of what the outcomes of a record give together.
func mixed(may []chance.Settled, each []digest) (out digest) {
	out.words = make([]float64, len(each[0].words))
	for i, d := range each {
		for k, p := range d.words {
			out.words[k] += may[i].Chance * p
		}
		out.p += may[i].Chance * d.p
		out.mean += may[i].Chance * d.p * d.mean
	}
	if out.p == 0 {
		return out
	}
	out.mean /= out.p
	for i, d := range each {
		off := d.mean - out.mean
		out.variance += may[i].Chance * d.p / out.p * (d.variance + off*off)
	}
	return out
}

func (d digest) entropy() (bits float64) {
	for _, p := range d.words {
		if p > 0 {
			bits -= p * math.Log2(p)
		}
	}
	return bits
}
