package tray

import (
	"math"
	"math/rand/v2"
)

// gibbs draws names, each by all others.
type gibbs struct {
	*Tray
	random  uniform
	may     [][]uint8   // by name, the places among its kinds still possible
	kind    [][]int32   // by name and those places
	like    [][]float64 // by name and those places, tempered
	now     []uint8     // by name, which of those places
	all     []float64   // by kind, names that are of it now
	within  [][]float64 // by sample and kind, likewise
	kinds   float64     // how many kinds there are now
	unseen  float64     // sum of the prior of all others
	form    int         // of communities, the one taken for true now
	sums    [][]float64 // by name and place among its kinds: chances added up
	open    []int       // names with several places
	judging *Judged
	odds    *odds
	p       []float64 // scratch
}

func newGibbs(t *Tray, seed uint64) *gibbs {
	g := &gibbs{Tray: t, random: uniform{rand.NewPCG(seed, 2)}, judging: &Judged{}, odds: newOdds(len(t.Names)),
		p: make([]float64, mostKinds)}
	for _, n := range t.Names {
		g.sums = append(g.sums, make([]float64, len(n.Kinds)))
	}
	return g
}

// rounds is how many draws are made in all.
func (g *gibbs) rounds() int {
	open := 0
	for _, n := range g.Names {
		if len(n.Kinds) > 1 {
			open++
		}
	}
	return min(mostDraws, max(leastDraws, mostDrawn/max(open, 1)))
}

// settle begins anew with likelihoods of another temper, draws until the beginning
// is forgotten, and drops the kinds that hardly ever had a chance.
func (g *gibbs) settle(temper float64) {
	g.kinds, g.unseen, g.form = 0, 1, len(communities)/2
	names := len(g.Names)
	g.may, g.kind, g.like = make([][]uint8, names), make([][]int32, names), make([][]float64, names)
	g.now, g.open = make([]uint8, names), nil
	g.all, g.within = make([]float64, len(g.Prior)), make([][]float64, g.Samples)
	for s := range g.within {
		g.within[s] = make([]float64, len(g.Prior))
	}
	for i, n := range g.Names {
		best := 0.0
		for k := range min(len(n.Kinds), mostKinds) {
			g.may[i], g.kind[i] = append(g.may[i], uint8(k)), append(g.kind[i], int32(n.Kinds[k]))
			g.like[i] = append(g.like[i], math.Pow(n.Like[k], temper))
			if p := g.like[i][k] * g.Prior[n.Kinds[k]]; p > best {
				best, g.now[i] = p, uint8(k)
			}
		}
		g.put(i, 1)
		if len(g.may[i]) > 1 {
			g.open = append(g.open, i)
		}
	}
	seen := make([][]float64, len(g.Names))
	for _, i := range g.open {
		seen[i] = make([]float64, len(g.may[i]))
	}
	for round := range settling {
		if round < settling/3 {
			g.round(round, nil, 0)
		} else {
			g.round(round, seen, 1)
		}
	}
	g.drop(seen)
}

// drop leaves out what had no chance.
func (g *gibbs) drop(seen [][]float64) {
	still := g.open[:0]
	const counted = settling - settling/3
	for _, i := range g.open {
		n := 0
		now := g.may[i][g.now[i]]
		for at, k := range g.may[i] {
			if seen[i][at] < leastKept*counted && k != now {
				continue
			}
			if k == now {
				g.now[i] = uint8(n)
			}
			g.may[i][n], g.kind[i][n], g.like[i][n] = k, g.kind[i][at], g.like[i][at]
			n++
		}
		if g.may[i], g.kind[i], g.like[i] = g.may[i][:n], g.kind[i][:n], g.like[i][:n]; n > 1 {
			still = append(still, i)
		}
	}
	g.open = still
}

// put adds a name to, or takes it from, those of its kind.
func (g *gibbs) put(i int, n float64) {
	k := g.kind[i][g.now[i]]
	had := g.all[k]
	g.all[k] += n
	switch {
	case had == 0:
		g.kinds, g.unseen = g.kinds+1, g.unseen-g.Prior[k]
	case g.all[k] == 0:
		g.kinds, g.unseen = g.kinds-1, g.unseen+g.Prior[k]
	}
	if g.Names[i].Heap {
		g.within[g.Names[i].Sample][k] += n
	}
}

// round draws every open name once. Those who count like animals together would have
// counted a heap with its like: no other heap of its sample speaks for it.
// The chances, times each, are added up in sums, by what is still possible.
func (g *gibbs) round(n int, sums [][]float64, each float64) {
	for _, i := range g.open {
		g.put(i, -1)
		p, sum := g.weigh(i)
		g.now[i] = uint8(pick(p, g.random.next()*sum))
		g.put(i, 1)
		if sums != nil {
			each := each / sum
			for at, w := range p {
				sums[i][at] += each * w
			}
		}
	}
	if n%reformed == 0 {
		g.form = g.odds.draw(g)
	}
}

// weigh gives the weights of what a name may be, by all others.
func (g *gibbs) weigh(i int) (p []float64, sum float64) {
	kinds, like := g.kind[i], g.like[i]
	p = g.p[:len(kinds)]
	form := &communities[g.form]
	fresh := max(form.strength+form.discount*g.kinds, leastFresh) / max(g.unseen, leastFresh)
	var within []float64
	if g.Names[i].Heap {
		within = g.within[g.Names[i].Sample]
	}
	for at, k := range kinds {
		beside := g.all[k]
		if within != nil {
			beside -= within[k]
		}
		if beside > 0 {
			p[at] = like[at] * (beside - form.discount)
		} else {
			p[at] = like[at] * fresh * g.Prior[k]
		}
		sum += p[at]
	}
	return p, sum
}

// leastFresh keeps a new kind possible where a stream seems to be full.
const leastFresh = 0.05

// pick is the place at which the running sum of weights passes u.
func pick(weights []float64, u float64) int {
	for i, w := range weights {
		if u -= w; u < 0 {
			return i
		}
	}
	return len(weights) - 1
}

// run draws, and adds the chances up, which are worth share in all.
func (g *gibbs) run(draws int, share float64) {
	each := share / float64(draws)
	for i := range g.Names {
		if len(g.may[i]) == 1 {
			g.sums[i][g.may[i][0]] += share
		}
	}
	j := g.judging
	sums := make([][]float64, len(g.Names))
	for _, i := range g.open {
		sums[i] = make([]float64, len(g.may[i]))
	}
	for n := range draws {
		g.round(n, sums, each)
		for i := range g.Names {
			j.drawn = append(j.drawn, g.may[i][g.now[i]])
		}
		j.Draws++
	}
	for _, i := range g.open {
		for at, k := range g.may[i] {
			g.sums[i][k] += sums[i][at]
		}
	}
}

// judged is what was drawn, without the names that never differ.
func (g *gibbs) judged() *Judged {
	j, names := g.judging, len(g.Names)
	j.Chances = g.sums
	for i := range names {
		differs := false
		for d := range j.Draws {
			differs = differs || j.drawn[d*names+i] != j.drawn[i]
		}
		if differs {
			j.Open = append(j.Open, i)
		}
	}
	kept := make([]uint8, 0, j.Draws*len(j.Open))
	for d := range j.Draws {
		for _, i := range j.Open {
			kept = append(kept, j.drawn[d*names+i])
		}
	}
	// A name that never differs is what it always was.
	for i := range names {
		if j.Draws > 0 {
			j.fixed = append(j.fixed, j.drawn[i])
		}
	}
	j.drawn = kept
	return j
}
