package chance

import (
	"math/rand/v2"
	"slices"
)

const (
	// draws of a simulation: the standard error of a chance is 0.005 at most.
	draws = 10_000
	// mostDrawn is how many records are drawn in all of them; with more records
	// there are fewer draws, but never fewer than fewestDraws, with which the
	// standard error is 0.01 at most.
	mostDrawn   = 10_000_000
	fewestDraws = 2500
	// mostWays is how many ways all records together may turn out for every one
	// of them to be looked at.
	mostWays = 4096
)

// Distribution is the distribution of the value for records of these distributions: exact
// where the formula can be taken apart or all ways can be looked at, else
// simulated.
func (formula Formula) Distribution(distributions []KindDistribution, m *Simulation) Distribution {
	distributions = formula.together(distributions)
	if formula.Accrual != nil {
		if c, ok := formula.exact(distributions, (*kindSet).sums); ok {
			return c
		}
	}
	ways := 1
	for _, f := range distributions {
		if ways *= len(f.Outcomes); ways > mostWays {
			return formula.simulate(distributions, m)
		}
	}
	values := newMassFunction[Ratio]()
	formula.everyWay(distributions, make([]int64, formula.Kinds), 1, values)
	return distributionOf(values)
}

// together makes one of all records that are certainly of one kind, and drops
// those that are certainly left out: they change no chance.
func (formula Formula) together(distributions []KindDistribution) []KindDistribution {
	sure := make([]int64, formula.Kinds)
	var out []KindDistribution
	for _, f := range distributions {
		switch k := f.Outcomes[0].Kind; {
		case !f.certain():
			out = append(out, f)
		case k != None:
			sure[k] += f.Count
		}
	}
	for k, n := range sure {
		if n > 0 {
			out = append(out, KindDistribution{n, []Outcome{{Kind: k, Chance: 1}}})
		}
	}
	return out
}

// everyWay adds the value of every way in which the records may turn out.
func (formula Formula) everyWay(distributions []KindDistribution, counts []int64, p float64, values *massFunction[Ratio]) {
	if len(distributions) == 0 {
		values.add(formula.Value(counts), p)
		return
	}
	f := distributions[0]
	for _, o := range f.Outcomes {
		if o.Kind != None {
			counts[o.Kind] += f.Count
		}
		formula.everyWay(distributions[1:], counts, p*o.Chance, values)
		if o.Kind != None {
			counts[o.Kind] -= f.Count
		}
	}
}

func (formula Formula) simulate(distributions []KindDistribution, m *Simulation) Distribution {
	values, ways := newMassFunction[Ratio](), m.ways(distributions, formula.Kinds)
	n := len(ways) / formula.Kinds
	for counts := range slices.Chunk(ways, formula.Kinds) {
		values.add(formula.Value(counts), 1/float64(n))
	}
	c := distributionOf(values)
	c.Draws = n
	return c
}

// EquallyLikely is the distribution of a value over some ways that are equally likely; values
// that never differ are exact.
func EquallyLikely(ways int, value func(way int) Ratio) Distribution {
	values := newMassFunction[Ratio]()
	for way := range ways {
		values.add(value(way), 1/float64(ways))
	}
	c := distributionOf(values)
	if ways > 1 {
		c.Draws = ways
	}
	return c
}

// drawsFor is how many ways are drawn for so many records.
func drawsFor(records int) int { return min(draws, max(fewestDraws, mostDrawn/max(records, 1))) }

// Simulation draws in which ways records turn out. It keeps those drawn last,
// since indices that stand side by side often count the same kinds. It is for one
// goroutine at a time.
type Simulation struct {
	Seed          uint64
	distributions []KindDistribution
	last          []int64
}

// Seeded is a simulation that draws the same for the same seed.
func Seeded(seed uint64) *Simulation { return &Simulation{Seed: seed} }

// ways are the animals by kind in one drawn way after another. The slice is good
// until the next call.
func (m *Simulation) ways(distributions []KindDistribution, kinds int) []int64 {
	n := drawsFor(len(distributions))
	if len(m.last) == n*kinds && slices.EqualFunc(m.distributions, distributions, KindDistribution.equal) {
		return m.last
	}
	m.distributions, m.last = distributions, slices.Grow(m.last[:0], n*kinds)[:n*kinds]
	clear(m.last)
	random, all := newUniform(m.Seed), newRolls(distributions)
	for counts := range slices.Chunk(m.last, kinds) {
		all.add(counts, random)
	}
	return m.last
}

// rolls are distributions laid out for drawing from them again and again.
type rolls struct {
	each []roll
	more []face // of all records, all but their first outcomes
}

type roll struct {
	first      face
	count      int64
	start, end int32 // in more
}

// face is an outcome with the chance of it or one before it.
type face struct {
	upTo float64
	kind int
}

func newRolls(distributions []KindDistribution) (out rolls) {
	for _, f := range distributions {
		r := roll{count: f.Count}
		upTo := 0.0
		for i, o := range f.Outcomes {
			upTo += o.Chance
			if i == 0 {
				r.first, r.start = face{upTo, o.Kind}, int32(len(out.more))
			} else {
				out.more = append(out.more, face{upTo, o.Kind})
			}
		}
		r.end = int32(len(out.more))
		out.each = append(out.each, r)
	}
	return out
}

// add draws every record once and adds its animals to their kind.
func (all rolls) add(counts []int64, random uniform) {
	for i := range all.each {
		r := &all.each[i]
		u, kind := random.next(), r.first.kind
		if u >= r.first.upTo {
			kind = r.later(all.more, u)
		}
		if kind != None {
			counts[kind] += r.count
		}
	}
}

// later is the kind of the outcome that u falls to, if not to the first; the last
// where rounding leaves a little over.
func (r *roll) later(more []face, u float64) int {
	if r.start == r.end {
		return r.first.kind
	}
	for _, f := range more[r.start : r.end-1] {
		if u < f.upTo {
			return f.kind
		}
	}
	return more[r.end-1].kind
}

// uniform gives what a rand.Rand over the same source gives as Float64, in a third
// of the time: large visits are drawn from tens of millions of times.
type uniform struct{ source *rand.PCG }

func newUniform(seed uint64) uniform { return uniform{rand.NewPCG(seed, 0)} }

func (u uniform) next() float64 { return float64(u.source.Uint64()<<11>>11) / (1 << 53) }

func (f KindDistribution) draw(u float64) int {
	for i := range f.Outcomes {
		if u -= f.Outcomes[i].Chance; u < 0 {
			return f.Outcomes[i].Kind
		}
	}
	return f.Outcomes[len(f.Outcomes)-1].Kind
}
