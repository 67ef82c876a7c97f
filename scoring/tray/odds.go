package tray

import "math"

// odds are what a partition of some names into kinds says of the form of the
// community: logarithms of its probability (Pitman 1995), taken apart.
type odds struct {
	before []float64             // by form: how likely it is beforehand, and what the number of names adds
	kinds  [][]float64           // by form and number of kinds
	names  map[float64][]float64 // by discount and number of names of a kind
	each   []float64             // by form, scratch
}

func newOdds(names int) *odds {
	o := &odds{names: map[float64][]float64{}, each: make([]float64, len(communities))}
	for _, c := range communities {
		o.before = append(o.before, math.Log(c.chance)+lgamma(c.strength+1)-lgamma(c.strength+float64(names)))
		kinds, sum := []float64{0, 0}, 0.0
		for k := 1; k < names; k++ {
			sum += math.Log(max(c.strength+c.discount*float64(k), 1e-3))
			kinds = append(kinds, sum)
		}
		o.kinds = append(o.kinds, kinds)
		if o.names[c.discount] == nil {
			o.names[c.discount] = rising(c.discount, names)
		}
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
	parts := map[float64]float64{}
	top := math.Inf(-1)
	for i, c := range communities {
		part, known := parts[c.discount]
		if !known {
			names := o.names[c.discount]
			for _, m := range g.all {
				part += names[int(m)]
			}
			parts[c.discount] = part
		}
		o.each[i] = o.before[i] + o.kinds[i][int(g.kinds)] + part
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
