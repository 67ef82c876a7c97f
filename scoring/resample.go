package scoring

import (
	"math/rand/v2"

	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
)

// mostResamples is how many different sets of samples are all looked at; with
// more, sets are drawn.
const mostResamples = 2000

// resampled is the distribution of the value if other samples like those taken
// had been taken: as many of them, drawn from them with replacement (the
// bootstrap, Efron 1979). Names stand as they are. ok is false for fewer than two
// samples, which say nothing of how samples differ.
func (s grader) resampled(how scheme.Combine, from evidence, seed uint64) (c chances, ok bool) {
	n := len(from.samples)
	if n < 2 {
		return c, false
	}
	b := bag{s: s, how: how, counts: make([][]int64, n)}
	for i, taken := range from.samples {
		b.counts[i] = s.counts(account.Sample(from.rows, taken.Label))
		b.single = append(b.single, s.ValueOf(b.counts[i]))
	}
	values := newMassFunction[scheme.Ratio]()
	if waysToDraw(n) <= mostResamples {
		b.everySet(make([]int, 0, n), n, values)
		return chancesOf(values), true
	}
	random := rand.New(rand.NewPCG(seed, 1))
	drawn := make([]int, n)
	for range draws {
		for i := range drawn {
			drawn[i] = random.IntN(n)
		}
		values.add(b.value(drawn), 1.0/draws)
	}
	c = chancesOf(values)
	c.draws = draws
	return c, true
}

// bag holds the samples that sets are drawn from.
type bag struct {
	s      grader
	how    scheme.Combine
	counts [][]int64
	single []scheme.Ratio // the value of each sample by itself
}

func (b bag) value(drawn []int) scheme.Ratio {
	if b.how == scheme.Best {
		var top scheme.Ratio
		for _, i := range drawn {
			if b.s.better(b.single[i], top) {
				top = b.single[i]
			}
		}
		return top
	}
	sum := make([]int64, len(b.s.Kinds))
	for _, i := range drawn {
		for k, n := range b.counts[i] {
			sum[k] += n
		}
	}
	return b.s.ValueOf(sum)
}

// everySet adds the value of every set of n samples, each with the share of the
// draws that give it: n! / (m1! m2! …) / n^n.
func (b bag) everySet(drawn []int, n int, values *massFunction[scheme.Ratio]) {
	if len(drawn) == n {
		values.add(b.value(drawn), shareOf(drawn))
		return
	}
	from := 0
	if len(drawn) > 0 {
		from = drawn[len(drawn)-1]
	}
	for i := from; i < len(b.counts); i++ {
		b.everySet(append(drawn, i), n, values)
	}
}

// shareOf is the chance of drawing these, in whatever order; equal ones stand
// side by side.
func shareOf(drawn []int) float64 {
	p, run := 1.0, 0
	for i, d := range drawn {
		if run++; i == 0 || d != drawn[i-1] {
			run = 1
		}
		p *= float64(i+1) / float64(run) / float64(len(drawn))
	}
	return p
}

// waysToDraw is the number of different sets of n drawn from n with replacement,
// C(2n-1, n), or more than mostResamples.
func waysToDraw(n int) int {
	ways := 1
	for i := 1; i <= n; i++ {
		if ways = ways * (n - 1 + i) / i; ways > mostResamples {
			return ways
		}
	}
	return ways
}
