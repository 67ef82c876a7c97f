package learnertest

import (
	"slices"

	"rillkey/couplets"
	"rillkey/taxa"
)

// Error is the share of animals that the person names wrongly in a tally, as they are
// now; exact, not drawn. Traits are independent given the kind.
func (p *Person) Error(v *taxa.Vocabulary) float64 {
	sum := 0.0
	for i, end := range p.sound.Ends {
		if p.common[i] == 0 {
			continue
		}
		right, wrong := p.kinds[i].sight(p.habit.Eager)
		sum += p.common[i] * (wrong + (1-right-wrong)*(1-p.arrives(end, v)))
	}
	return sum
}

// arrives is the chance that a walk ends in the kind.
func (p *Person) arrives(end *taxa.Taxon, v *taxa.Vocabulary) float64 {
	order := p.sound.TopDown()
	chance := make([]float64, len(p.sound.Couplets))
	chance[order[0]] = 1
	sum := 0.0
	for _, at := range order {
		c := &p.sound.Couplets[at]
		here := chance[at]
		if here < 1e-4 {
			continue
		}
		for n, share := range p.answers(c, end, v) {
			switch l := &c.Leads[n]; {
			case l.Next != "":
				chance[p.sound.Place(l.Next)] += here * share
			case slices.Contains(l.Taxa, end.ID):
				sum += here * share
			}
		}
	}
	return sum
}

// answers are the chances of a couplet's leads for animals of a kind.
func (p *Person) answers(c *couplets.Couplet, end *taxa.Taxon, v *taxa.Vocabulary) []float64 {
	out := make([]float64, len(c.Leads))
	e := p.exam(c, v)
	traits := make([]int, 0, len(e.traits)) // those that the kind is known by
	seen := make([][]float64, 0, len(e.traits))
	for n, t := range e.traits {
		if shown := end.States(t.ID); shown != nil {
			traits = append(traits, n)
			seen = append(seen, p.seen(t, shown))
		}
	}
	fits := make([]float64, len(c.Leads))
	var each func(n int, chance float64)
	each = func(n int, chance float64) {
		if n == len(traits) {
			out[most(fits)] += chance
			return
		}
		for j, share := range seen[n] {
			if share > 1e-6 {
				for l, part := range e.parts[traits[n]][j] {
					fits[l] += part
				}
				each(n+1, chance*share)
				for l, part := range e.parts[traits[n]][j] {
					fits[l] -= part
				}
			}
		}
	}
	each(0, 1)
	return out
}

// most is the first place of the largest.
func most(fits []float64) int {
	at := 0
	for i, f := range fits {
		if f > fits[at]+1e-9 {
			at = i
		}
	}
	return at
}

// exam is what a couplet asks: its traits, and by trait and state what part of each
// lead it fulfils.
type exam struct {
	traits []*taxa.Trait
	parts  [][][]float64
}

func (p *Person) exam(c *couplets.Couplet, v *taxa.Vocabulary) *exam {
	if e := p.exams[c.ID]; e != nil {
		return e
	}
	e := &exam{}
	for i, l := range c.Leads {
		for _, cond := range l.Conditions {
			t := v.Trait(cond.Trait)
			n := slices.Index(e.traits, t)
			if n < 0 {
				n = len(e.traits)
				e.traits = append(e.traits, t)
				parts := make([][]float64, len(t.States))
				for j := range parts {
					parts[j] = make([]float64, len(c.Leads))
				}
				e.parts = append(e.parts, parts)
			}
			for _, s := range cond.States {
				e.parts[n][t.State(s)][i] += 1 / float64(len(l.Conditions))
			}
		}
	}
	p.exams[c.ID] = e
	return e
}

// seen is how often animals that show these states are read as each.
func (p *Person) seen(t *taxa.Trait, shown []taxa.Weight) []float64 {
	out := make([]float64, len(t.States))
	rates := p.rates[t.ID]
	for _, w := range shown {
		i := t.State(w.State)
		h := &rates[i]
		out[i] += w.Share * (1 - h.now)
		for j, share := range h.misread {
			out[j] += w.Share * h.now * share
		}
	}
	return out
}
