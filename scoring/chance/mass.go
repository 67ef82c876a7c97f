package chance

import (
	"math/bits"

	"rillkey/taxa/sorting"
)

// massFunction adds up chances by key, in the order in which keys turn up, so that no
// sum depends on how they are found again: by a table of places, of which at most
// half are taken, each the number of a key and 0 for none.
type massFunction[K hashed] struct {
	places []int32
	keys   []K
	p      []float64
}

// hashed is what can be found again by a number made of it.
type hashed interface {
	comparable
	hash() uint64
}

// number is a key that is a number already.
type number uint64

func (n number) hash() uint64 { return scattered(uint64(n)) }
func (k parts) hash() uint64  { return scattered(scattered(uint64(k.num)) + uint64(k.den)) }
func (r Ratio) hash() uint64  { return parts{r.Num, r.Den}.hash() }

// scattered multiplies by the golden ratio and folds the product, as Fibonacci
// hashing does (Knuth, The Art of Computer Programming, volume 3, 6.4).
func scattered(n uint64) uint64 {
	high, low := bits.Mul64(n, 0x9E3779B97F4A7C15)
	return high ^ low
}

func newMassFunction[K hashed](first ...K) *massFunction[K] {
	l := roomFor[K](len(first))
	for _, k := range first {
		l.add(k, 1)
	}
	return l
}

// roomFor is a mass function for about so many keys.
func roomFor[K hashed](n int) *massFunction[K] {
	return &massFunction[K]{places: make([]int32, 1<<bits.Len(uint(2*n|7))), keys: make([]K, 0, n), p: make([]float64, 0, n)}
}

func (l *massFunction[K]) add(k K, p float64) {
	mask := uint64(len(l.places) - 1)
	for at := k.hash() & mask; ; at = (at + 1) & mask {
		switch i := l.places[at]; {
		case i == 0:
			l.keys, l.p = append(l.keys, k), append(l.p, p)
			if l.places[at] = int32(len(l.keys)); 2*len(l.keys) > len(l.places) {
				l.grow()
			}
			return
		case l.keys[i-1] == k:
			l.p[i-1] += p
			return
		}
	}
}

// grow doubles the table.
func (l *massFunction[K]) grow() {
	l.places = make([]int32, 2*len(l.places))
	mask := uint64(len(l.places) - 1)
	for i, k := range l.keys {
		at := k.hash() & mask
		for l.places[at] != 0 {
			at = (at + 1) & mask
		}
		l.places[at] = int32(i + 1)
	}
}

// bins add up chances by value.
type bins struct {
	none  float64
	dense []float64 // by steps
	far   *massFunction[number]
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
			b.far = newMassFunction[number]()
		}
		b.far.add(number(k), p)
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
			c.Points = append(c.Points, MassPoint{int64(k), p})
		}
	}
	if b.far != nil {
		for i, k := range b.far.keys {
			c.Points = append(c.Points, MassPoint{int64(k), b.far.p[i]})
		}
		sorting.Stable(c.Points, MassPoint.compare)
	}
	return c
}
