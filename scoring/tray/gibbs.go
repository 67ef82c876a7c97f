package tray

import (
	"math"
	"math/rand/v2"
)

// gibbs draws names, each by all others.
type gibbs struct {
	*Tray
	random   uniform
	may      [][]possible // by name, what it may still be
	now      []uint8      // by name, which of those it is
	all      []float64    // by kind, names that are of it now
	bySample [][]float64  // by sample and kind, heaps of it now
	kinds    float64      // how many kinds there are now
	unseen   float64      // sum of the prior of all others
	form     int          // of communities, the one taken for true now
	sums     [][]float64  // by name and place among its kinds: chances added up
	wide     []int        // names that may be several kinds before anything is drawn
	open     []int        // those that still may
	judging  *Judged
	odds     *odds
	room     []possible  // that may lies in
	seen     [][]float64 // by name and what it may still be: chances added up since the last temper or draw
	p        []float64   // scratch
}

// possible is a kind that a name may be.
type possible struct {
	place      uint8   // among the name's kinds
	kind       int32   // in the prior
	likelihood float64 // how well what was seen fits, tempered
	fresh      float64 // that times the prior
}

func newGibbs(t *Tray, seed uint64) *gibbs {
	g := &gibbs{Tray: t, random: uniform{rand.NewPCG(seed, 2)}, judging: &Judged{}, odds: newOdds(len(t.Names))}
	g.p = make([]float64, mostKinds)
	kinds, all := 0, 0
	for i, n := range t.Names {
		kinds += len(n.Kinds)
		all += min(len(n.Kinds), mostKinds)
		if len(n.Kinds) > 1 {
			g.wide = append(g.wide, i)
		}
	}
	names, prior := len(t.Names), len(t.Prior)
	g.sums, g.seen = make([][]float64, names), make([][]float64, names)
	room := make([]float64, kinds+all+prior*(1+t.Samples))
	take := func(n int) (part []float64) { part, room = room[:n:n], room[n:]; return part }
	for i, n := range t.Names {
		g.sums[i], g.seen[i] = take(len(n.Kinds)), take(min(len(n.Kinds), mostKinds))
	}
	g.may, g.now, g.open = make([][]possible, names), make([]uint8, names), make([]int, 0, len(g.wide))
	g.room, g.all, g.bySample = make([]possible, all), take(prior), make([][]float64, t.Samples)
	for s := range g.bySample {
		g.bySample[s] = take(prior)
	}
	return g
}

// rounds is how many draws are made in all.
func (g *gibbs) rounds() int {
	return min(mostDraws, max(leastDraws, mostDrawn/max(len(g.wide), 1)))
}

// settle begins anew with likelihoods of another temper, draws until the beginning
// is forgotten, and drops the kinds that hardly ever had a chance.
func (g *gibbs) settle(temper float64) {
	g.begin(temper)
	seen := g.chances()
	for round := range settling {
		if round < settling/3 {
			g.round(round, nil, 0)
		} else {
			g.round(round, seen, 1)
		}
	}
	g.drop(seen)
}

// begin takes every name for the likeliest by itself.
func (g *gibbs) begin(temper float64) {
	g.kinds, g.unseen, g.form, g.open = 0, 1, len(communities)/2, g.open[:0]
	clear(g.all)
	for _, in := range g.bySample {
		clear(in)
	}
	room := g.room
	for i, n := range g.Names {
		may := room[:min(len(n.Kinds), mostKinds)]
		room = room[len(may):]
		best := 0.0
		g.now[i] = 0
		for k := range may {
			like := n.Likelihoods[k]
			if temper != 1 {
				like = math.Pow(like, temper)
			}
			may[k] = possible{uint8(k), int32(n.Kinds[k]), like, like * g.Prior[n.Kinds[k]]}
			if may[k].fresh > best {
				best, g.now[i] = may[k].fresh, uint8(k)
			}
		}
		g.may[i] = may
		g.put(i)
		if len(may) > 1 {
			g.open = append(g.open, i)
		}
	}
}

// chances are zeros for the open names.
func (g *gibbs) chances() [][]float64 {
	for _, i := range g.open {
		g.seen[i] = g.seen[i][:len(g.may[i])]
		clear(g.seen[i])
	}
	return g.seen
}

// drop leaves out what had no chance.
func (g *gibbs) drop(seen [][]float64) {
	still := g.open[:0]
	const counted = settling - settling/3
	for _, i := range g.open {
		n, may, now := 0, g.may[i], g.now[i]
		for at, x := range may {
			if seen[i][at] < leastKept*counted && at != int(now) {
				continue
			}
			if at == int(now) {
				g.now[i] = uint8(n)
			}
			may[n] = x
			n++
		}
		if g.may[i] = may[:n]; n > 1 {
			still = append(still, i)
		}
	}
	g.open = still
}

// put adds a name to those of its kind.
func (g *gibbs) put(i int) {
	k := g.may[i][g.now[i]].kind
	if g.all[k] == 0 {
		g.kinds, g.unseen = g.kinds+1, g.unseen-g.Prior[k]
	}
	g.all[k]++
	if n := &g.Names[i]; n.Heap {
		g.bySample[n.Sample][k]++
	}
}

// take takes a name from those of its kind.
func (g *gibbs) take(i int) {
	k := g.may[i][g.now[i]].kind
	if g.all[k]--; g.all[k] == 0 {
		g.kinds, g.unseen = g.kinds-1, g.unseen+g.Prior[k]
	}
	if n := &g.Names[i]; n.Heap {
		g.bySample[n.Sample][k]--
	}
}

// round draws every open name once. Those who count like animals together would have
// counted a heap with its like: no other heap of its sample speaks for it.
// The chances, times each, are added up in sums, by what is still possible.
func (g *gibbs) round(n int, sums [][]float64, each float64) {
	for _, i := range g.open {
		g.take(i)
		p, sum := g.weigh(i)
		g.now[i] = uint8(pick(p, g.random.next()*sum))
		g.put(i)
		if sums != nil {
			each, to := each/sum, sums[i]
			for at, w := range p {
				to[at] += each * w
			}
		}
	}
	if n%reformed == 0 {
		g.form = g.odds.draw(g)
	}
}

// weigh gives the weights of what a name may be, by all others.
func (g *gibbs) weigh(i int) (p []float64, sum float64) {
	may := g.may[i]
	p = g.p[:len(may)]
	form := &communities[g.form]
	another := max(form.strength+form.discount*g.kinds, leastFresh) / max(g.unseen, leastFresh)
	var within []float64
	if n := &g.Names[i]; n.Heap {
		within = g.bySample[n.Sample]
	}
	for at := range may {
		x := &may[at]
		beside := g.all[x.kind]
		if within != nil {
			beside -= within[x.kind]
		}
		w := x.fresh * another
		if beside > 0 {
			w = x.likelihood * (beside - form.discount)
		}
		p[at] = w
		sum += w
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
	for i, may := range g.may {
		if len(may) == 1 {
			g.sums[i][may[0].place] += share
		}
	}
	j, sums := g.judging, g.chances()
	for n := range draws {
		g.round(n, sums, each)
		for _, i := range g.wide {
			j.drawn = append(j.drawn, g.may[i][g.now[i]].place)
		}
		j.Draws++
	}
	for _, i := range g.open {
		for at, x := range g.may[i] {
			g.sums[i][x.place] += sums[i][at]
		}
	}
}

// judged is what was drawn, without the names that never differ.
func (g *gibbs) judged() *Judged {
	j, wide := g.judging, len(g.wide)
	j.Chances = g.sums
	if j.Draws == 0 {
		return j
	}
	// A name that never differs is what it always was.
	j.fixed = make([]uint8, len(g.Names))
	for at, i := range g.wide {
		j.fixed[i] = j.drawn[at]
	}
	differs := make([]bool, wide)
	for d := range j.Draws {
		for at, place := range j.drawn[d*wide : (d+1)*wide] {
			differs[at] = differs[at] || place != j.drawn[at]
		}
	}
	var places []int // of those that differ
	for at, open := range differs {
		if open {
			j.Open, places = append(j.Open, g.wide[at]), append(places, at)
		}
	}
	kept := j.drawn[:0]
	for d := range j.Draws {
		for _, at := range places {
			kept = append(kept, j.drawn[d*wide+at])
		}
	}
	j.drawn = kept
	return j
}
