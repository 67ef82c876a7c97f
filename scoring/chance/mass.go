package chance

import "slices"

// massFunction adds up chances by key, in the order in which keys turn up, so that no
// sum depends on the order of a map.
type massFunction[K comparable] struct {
	at   map[K]int
	keys []K
	p    []float64
}

func newMassFunction[K comparable](first ...K) *massFunction[K] {
	l := &massFunction[K]{at: map[K]int{}}
	for _, k := range first {
		l.add(k, 1)
	}
	return l
}

func (l *massFunction[K]) add(k K, p float64) {
	i, known := l.at[k]
	if !known {
		i = len(l.keys)
		l.at[k] = i
		l.keys, l.p = append(l.keys, k), append(l.p, 0)
	}
	l.p[i] += p
}

// bins add up chances by value.
type bins struct {
	none  float64
	dense []float64 // by steps
	far   *massFunction[int64]
}

// mostBins is up to how many steps chances stand in a plain slice.
const mostBins = 1 << 12

func (b *bins) add(v Ratio, p float64) {
	if v.Defined() {
		b.addSteps(v.Steps(), p)
	} else {
		b.none += p
	}
}

func (b *bins) addSteps(k int64, p float64) {
	if k < 0 || k >= mostBins {
		if b.far == nil {
			b.far = newMassFunction[int64]()
		}
		b.far.add(k, p)
		return
	}
	for int64(len(b.dense)) <= k {
		b.dense = append(b.dense, 0)
	}
	b.dense[k] += p
}

// addAll adds chances times p.
func (b *bins) addAll(c Distribution, p float64) {
	b.none += p * c.None
	for _, pt := range c.Points {
		b.addSteps(pt.Steps, p*pt.P)
	}
}

func (b *bins) distribution() Distribution {
	c := Distribution{None: b.none}
	for k, p := range b.dense {
		if p > 0 {
			c.Points = append(c.Points, Point{int64(k), p})
		}
	}
	if b.far != nil {
		for i, k := range b.far.keys {
			c.Points = append(c.Points, Point{k, b.far.p[i]})
		}
		slices.SortFunc(c.Points, Point.compare)
	}
	return c
}
