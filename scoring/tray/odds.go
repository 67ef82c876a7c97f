package tray

import (
	"math"
	"slices"
	"sync"
)

// odds are what a partition of some names into kinds says of the form of the
// community: logarithms of its probability (Pitman 1995), taken apart.
type odds struct {
	prior []float64   // by form: how likely it is beforehand, and what the number of names adds
	kinds [][]float64 // by form and number of kinds
	names [][]float64 // by discount and number of names of a kind
	each  []float64   // by form, scratch
	parts []float64   // by discount, scratch
}

// discounts are those of the communities, and which of them each has.
var discounts = sync.OnceValues(func() (all []float64, of []int) {
	for _, c := range communities {
		i := slices.Index(all, c.discount)
		if i < 0 {
			i, all = len(all), append(all, c.discount)
		}
		of = append(of, i)
	}
	return all, of
})

// usualOdds serve trays of up to usualNames names.
var usualOdds = sync.OnceValue(func() *odds { return oddsOf(usualNames) })

const usualNames = 256

func newOdds(names int) *odds {
	o := odds{}
	if names <= usualNames {
		o = *usualOdds()
	} else {
		o = *oddsOf(names)
	}
	o.prior = slices.Clone(o.prior)
	for i, c := range communities {
		o.prior[i] -= lgamma(c.strength + float64(names))
	}
	o.each, o.parts = make([]float64, len(communities)), make([]float64, len(o.names))
	return &o
}

// oddsOf are the odds for up to so many names, without what the number itself adds.
func oddsOf(names int) *odds {
	o := &odds{}
	for _, c := range communities {
		o.prior = append(o.prior, math.Log(c.chance)+lgamma(c.strength+1))
		kinds, sum := []float64{0, 0}, 0.0
		for k := 1; k < names; k++ {
			sum += math.Log(max(c.strength+c.discount*float64(k), 1e-3))
			kinds = append(kinds, sum)
		}
		o.kinds = append(o.kinds, kinds)
	}
	all, _ := discounts()
	for _, d := range all {
		o.names = append(o.names, rising(d, names))
	}
	return o
}

// rising are the logarithms of (1 - discount)(2 - discount)…, by how many factors
// and one.
func rising(discount float64, names int) []float64 {
	out := []float64{0, 0}
	for m := 1; m < names; m++ {
		out = append(out, out[m]+math.Log(float64(m)-discount))
	}
	return out
}

// draw draws the form of the community by how many names are of each kind now.
func (o *odds) draw(g *gibbs) int {
	clear(o.parts)
	for _, m := range g.all {
		if m > 1 { // else it adds nothing
			for d := range o.parts {
				o.parts[d] += o.names[d][int(m)]
			}
		}
	}
	_, discountOf := discounts()
	top := math.Inf(-1)
	for i := range communities {
		o.each[i] = o.prior[i] + o.kinds[i][int(g.kinds)] + o.parts[discountOf[i]]
		top = max(top, o.each[i])
	}
	sum := 0.0
	for i, l := range o.each {
		o.each[i] = math.Exp(l - top)
		sum += o.each[i]
	}
	return pick(o.each, g.random.next()*sum)
}

func lgamma(x float64) float64 {
	v, _ := math.Lgamma(x)
	return v
}
