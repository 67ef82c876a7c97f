// Package tray judges the names of one visit together. What an animal may be
// depends on what it showed, on how common each kind is in the region, and on what
// else lies in the tray: where thirty animals are one kind, a single one of its
// look-alike is more likely the thirty-first, misread.
//
// Begin with [Tray], [Name] and [Judged].
//
// The model: a stream holds some kinds of the region, the common ones more readily,
// in shares of an unknown form; each animal is drawn by these shares and shows what
// its record says. The form, and how often these people misread, are found with all
// else. The chances are those of a collapsed Gibbs sampler (Liu 1994, J. Am. Stat.
// Assoc. 89:958, from memory): each record is judged by all others, so that none
// confirms itself.
//
// The package knows numbers only: kinds are places in a prior.
package tray

import (
	"math"
	"math/rand/v2"
)

// Name is what the animals of one record may be.
type Name struct {
	Kinds       []int     // places in the prior, each once
	Likelihoods []float64 // how well what was seen fits each of them, up to a factor
	Sample      int       // that it came from
	Heap        bool      // it was told from all other heaps of its sample, in which like animals are
}

// Tray is all names of a visit.
type Tray struct {
	Prior   []float64 // by kind, how common it is; above 0, the sum is 1
	Names   []Name
	Samples int
	// Half and Twice are logarithms: how much better all that was seen fits people
	// who misread half, or twice, as often as was taken for granted. Both are 0
	// where nobody knows.
	Half, Twice float64
}

// Judged is what the names of a tray are, taken together.
type Judged struct {
	Chances [][]float64 // by name, that it is each of its kinds; each sums to 1
	Draws   int         // ways in which all names may turn out together
	Open    []int       // names that differ among them, rising
	fixed   []uint8     // place of every name in the first draw
	drawn   []uint8     // place among the kinds of an open name, draw after draw
}

// Drawn is the place, among its kinds, of the i-th open name in a draw.
func (j *Judged) Drawn(draw, i int) int { return int(j.drawn[draw*len(j.Open)+i]) }

const (
	mostKinds  = 250     // of one name, the likeliest
	mostDraws  = 400     // the standard error of a chance is 0.03 at most
	leastDraws = 200     // where there are many open names
	mostDrawn  = 400_000 // open names times draws, else fewer are drawn
	settling   = 18      // rounds before the first draw counts
	leastKept  = 1e-4    // the mean chance of a kind below which it is dropped after those
	leastShare = 0.06    // of a misread rate that is looked at
	reformed   = 8       // rounds after which the form of the community is drawn anew
)

// communities are the forms that a stream's shares may have, with how likely each is
// beforehand (memory). Of kinds and animals of them, the next animal is of one of m
// animals with a weight of m - discount, and of a new kind with one of strength +
// discount x kinds (Pitman 1995, from memory). A discount of 0 is the log-series
// (Fisher, Corbet and Williams 1943), in which there is no end of rare kinds; one of
// -1 the broken stick (MacArthur 1957) of as many kinds as the strength says.
var communities = []struct{ discount, strength, chance float64 }{
	{0, 2, 0.05}, {0, 4, 0.1}, {0, 8, 0.1}, {0, 16, 0.05}, {0, 32, 0.03},
	{-0.5, 4, 0.05}, {-0.5, 6, 0.08}, {-0.5, 9, 0.08}, {-0.5, 14, 0.08}, {-0.5, 25, 0.05},
	{-1, 8, 0.05}, {-1, 12, 0.08}, {-1, 18, 0.08}, {-1, 27, 0.08}, {-1, 50, 0.04},
}

// rates are by how much these people may misread more often than was taken for
// granted, in powers of two, with how likely that is beforehand (memory), and what
// becomes of every likelihood: a rate of 0.08 stands for all, and a logarithm of a
// likelihood shrinks as that of the odds of a misread does. Nobody is taken to be more
// careful than that: what records tell of it is a little too kind, since a misread that
// fits another kind of the region does not look like one.
var rates = []struct{ power, chance, temper float64 }{
	{0, 0.45, 1}, {0.5, 0.3, 0.84}, {1, 0.18, 0.68}, {1.5, 0.07, 0.50},
}

// Judge finds what the names are. The same seed gives the same chances.
func (t *Tray) Judge(seed uint64) *Judged {
	g := newGibbs(t, seed)
	shares := t.rates()
	g.judging.drawn = make([]uint8, 0, (g.rounds()+len(shares))*len(g.wide))
	for i, share := range shares {
		if share == 0 {
			continue
		}
		g.settle(rates[i].temper)
		g.run(max(1, int(math.Round(share*float64(g.rounds())))), share)
	}
	return g.judged()
}

// rates are the shares of the misread rates; those hardly likely are left out.
func (t *Tray) rates() []float64 {
	slope, bend := (t.Twice-t.Half)/2, (t.Twice+t.Half)/2
	logs, top := make([]float64, len(rates)), math.Inf(-1)
	for i, r := range rates {
		logs[i] = math.Log(r.chance) + slope*r.power + bend*r.power*r.power
		top = max(top, logs[i])
	}
	return normal(func(i int) float64 {
		if p := math.Exp(logs[i] - top); p >= leastShare {
			return p
		}
		return 0
	}, len(rates))
}

func normal(of func(int) float64, n int) []float64 {
	out, sum := make([]float64, n), 0.0
	for i := range out {
		out[i] = of(i)
		sum += out[i]
	}
	for i := range out {
		out[i] /= sum
	}
	return out
}

// uniform is fast: large trays are drawn from millions of times.
type uniform struct{ *rand.PCG }

func (u uniform) next() float64 { return float64(u.Uint64()>>11) / (1 << 53) }

// First is the place, among its kinds, of a name in the first draw: in all, where
// it is not open.
func (j *Judged) First(name int) int { return int(j.fixed[name]) }
