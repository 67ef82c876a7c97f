package chance

import "math/rand/v2"

// mostResamples is how many different sets of samples are all looked at; with
// more, sets are drawn.
const mostResamples = 2000

// Bootstrap is the distribution of a value if other samples like the n taken had
// been taken: as many of them, drawn from them with replacement (the bootstrap,
// Efron 1979). The value is that of the samples drawn, numbers below n, in rising
// order where all sets are looked at. ok is false for fewer than two samples, which
// say nothing of how samples differ.
func Bootstrap(n int, value func(drawn []int) Ratio, seed uint64) (c Distribution, ok bool) {
	if n < 2 {
		return c, false
	}
	values := newMassFunction[Ratio]()
	if waysToDraw(n) <= mostResamples {
		everySet(make([]int, 0, n), n, func(drawn []int) { values.add(value(drawn), shareOf(drawn)) })
		return distributionOf(values), true
	}
	random := rand.New(rand.NewPCG(seed, 1))
	drawn := make([]int, n)
	for range draws {
		for i := range drawn {
			drawn[i] = random.IntN(n)
		}
		values.add(value(drawn), 1.0/draws)
	}
	c = distributionOf(values)
	c.Draws = draws
	return c, true
}

// everySet gives every set of n of n samples that can be drawn.
func everySet(drawn []int, n int, give func(drawn []int)) {
	if len(drawn) == n {
		give(drawn)
		return
	}
	from := 0
	if len(drawn) > 0 {
		from = drawn[len(drawn)-1]
	}
	for i := from; i < n; i++ {
		everySet(append(drawn, i), n, give)
	}
}

// shareOf is the share of the draws that give these, in whatever order, n! / (m1! m2!
// …) / n^n; equal ones stand side by side.
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
