package chance

import (
	"math"
	"math/rand/v2"
)

// clumps is the shape of the gamma distribution that a kind's animals in one sample
// lie in: the smaller, the more they clump (memory: 1 to 3 is usual of the animals of
// stream beds). It is the lower end of that, since one sample does not tell.
const clumps = 1

const (
	clumpedDraws = 500 // of which a standard deviation is known to a thirtieth
	manyAnimals  = 200 // of which the Poisson part of the chance no longer matters
)

// Clumped is the distribution of a value if another sample like the only one had been
// taken: each count is drawn anew from a negative binomial distribution about it
// (Bliss and Fisher 1953, from memory), since one sample says nothing of how samples
// differ. Kinds that it missed may be in another: as many as the kinds of one and of two
// animals tell (Chao 1984, bias-corrected, from memory), of an animal each, which of them
// is drawn. The value is that of counts, which it must not keep.
func Clumped(counts []int64, value func([]int64) Ratio, seed uint64) Distribution {
	values := newMassFunction[Ratio]()
	random := rand.New(rand.NewPCG(seed, 4))
	drawn, unseen := make([]int64, len(counts)), unseenShare(counts)
	for range clumpedDraws {
		for k, n := range counts {
			mean := float64(n)
			if n == 0 && unseen > 0 && random.Float64() < unseen {
				mean = 1
			}
			drawn[k] = clumpedCount(random, mean)
		}
		values.add(value(drawn), 1.0/clumpedDraws)
	}
	c := distributionOf(values)
	c.Draws = clumpedDraws
	return c
}

// unseenShare is the share of the kinds without animals that a sample missed.
func unseenShare(counts []int64) float64 {
	var of [3]float64 // kinds by animals
	for _, n := range counts {
		if n < int64(len(of)) {
			of[n]++
		}
	}
	return min(1, of[1]*(of[1]-1)/(2*(of[2]+1))/max(1, of[0]))
}

func clumpedCount(random *rand.Rand, mean float64) (n int64) {
	if mean == 0 {
		return 0
	}
	if mean *= gamma(random, clumps) / clumps; mean > manyAnimals {
		return int64(math.Round(mean))
	}
	for t := random.ExpFloat64(); t < mean; t += random.ExpFloat64() {
		n++
	}
	return n
}

// gamma is a gamma variate of scale 1 and a shape of 1 or more (Marsaglia and Tsang 2000,
// ACM Transactions on Mathematical Software 26:363, from memory).
func gamma(random *rand.Rand, shape float64) float64 {
	d := shape - 1.0/3
	for {
		x := random.NormFloat64()
		v := math.Pow(1+x/math.Sqrt(9*d), 3)
		if v > 0 && math.Log(random.Float64()) < x*x/2+d-d*v+d*math.Log(v) {
			return d * v
		}
	}
}
