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
	p       []float64 // scratch
}

func newGibbs(t *Tray, seed uint64) *gibbs {
	g := &gibbs{Tray: t, random: uniform{rand.NewPCG(seed, 2)}, judging: &Judged{}, p: make([]float64, mostKinds)}
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
	g.may, g.like, g.now, g.open = make([][]uint8, len(g.Names)), make([][]float64, len(g.Names)), make([]uint8, len(g.Names)), nil
	g.all, g.within = make([]float64, len(g.Prior)), make([][]float64, g.Samples)
	for s := range g.within {
		g.within[s] = make([]float64, len(g.Prior))
	}
	for i, n := range g.Names {
		best := 0.0
		for k := range min(len(n.Kinds), mostKinds) {
			g.may[i] = append(g.may[i], uint8(k))
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
		g.round(round, func(i, at int, p float64) {
			if round >= settling/3 {
				seen[i][at] += p
			}
		})
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
			g.may[i][n], g.like[i][n] = k, g.like[i][at]
			n++
		}
		if g.may[i], g.like[i] = g.may[i][:n], g.like[i][:n]; n > 1 {
			still = append(still, i)
		}
	}
	g.open = still
}

// kind is that of a name at one of its places.
func (g *gibbs) kind(i int, at uint8) int { return g.Names[i].Kinds[g.may[i][at]] }

// put adds a name to, or takes it from, those of its kind.
func (g *gibbs) put(i int, n float64) {
	k := g.kind(i, g.now[i])
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
func (g *gibbs) round(n int, chance func(i, at int, p float64)) {
	for _, i := range g.open {
		g.put(i, -1)
		sample, form := g.Names[i].Sample, communities[g.form]
		fresh := max(form.strength+form.discount*g.kinds, leastFresh) / max(g.unseen, leastFresh)
		p, sum := g.p[:len(g.may[i])], 0.0
		for at := range p {
			k := g.kind(i, uint8(at))
			like := g.all[k]
			if g.Names[i].Heap {
				like -= g.within[sample][k]
			}
			if like > 0 {
				p[at] = g.like[i][at] * (like - form.discount)
			} else {
				p[at] = g.like[i][at] * fresh * g.Prior[k]
			}
			sum += p[at]
		}
		u, now := g.random.next()*sum, -1
		for at := range p {
			chance(i, at, p[at]/sum)
			if u -= p[at]; u < 0 && now < 0 {
				now = at
			}
		}
		g.now[i] = uint8(max(now, 0))
		g.put(i, 1)
	}
	if n%reformed == 0 {
		g.reform()
	}
}

// leastFresh keeps a new kind possible where a stream seems to be full.
const leastFresh = 0.05

// reform draws the form of the community, by how many names are of each kind: the
// probability of such a partition (Pitman 1995).
func (g *gibbs) reform() {
	n := float64(len(g.Names))
	logs, top := make([]float64, len(communities)), math.Inf(-1)
	for i, c := range communities {
		logs[i] = math.Log(c.chance) + lgamma(c.strength+1) - lgamma(c.strength+n)
		for k := 1.0; k < g.kinds; k++ {
			logs[i] += math.Log(max(c.strength+c.discount*k, 1e-3))
		}
		for _, m := range g.all {
			if m > 0 {
				logs[i] += lgamma(m-c.discount) - lgamma(1-c.discount)
			}
		}
		top = max(top, logs[i])
	}
	shares := normal(func(i int) float64 { return math.Exp(logs[i] - top) }, len(communities))
	u := g.random.next()
	for i, p := range shares {
		if g.form = i; u < p {
			return
		}
		u -= p
	}
}

func lgamma(x float64) float64 {
	v, _ := math.Lgamma(x)
	return v
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
	for n := range draws {
		g.round(n, func(i, at int, p float64) { g.sums[i][g.may[i][at]] += each * p })
		for i := range g.Names {
			j.drawn = append(j.drawn, g.may[i][g.now[i]])
		}
		j.Draws++
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
