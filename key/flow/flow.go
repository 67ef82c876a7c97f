// Package flow follows animals of every kind through a key, all at once: how
// many come to each couplet, what that costs them, and how many are sent the
// wrong way there. It takes no walk of any one animal.
//
// Begin with [Observer], [Flow] and [Traffic].
package flow

import (
	"slices"

	"rillkey/couplets"
	"rillkey/taxa"
)

// Observer is how people look.
type Observer struct {
	Effort func(taxa.Look) float64 // of one look
	Option float64                 // of every lead beyond two that has to be read
	// Readings gives, for every true state of a trait and every state, the chance
	// that the one is read as the other.
	Readings func(*taxa.Trait) [][]float64
}

// Traffic is what happens at one couplet. Shares are of all animals, by the
// weights that the flow was made with.
type Traffic struct {
	ID     string
	Asked  float64 // share of animals that are asked it
	Lost   float64 // share of animals that leave their path here by a misread answer
	Effort float64 // of answering it once
	Traits []string
	Come   []float64 // by end point, the share of all animals that are asked it
}

// Flow is a key with the animals that go through it.
type Flow struct {
	Couplets []Traffic // in the order of the file
	// Questions and Effort are means over animals; Lost is the share of animals
	// that leave their path anywhere, each counted where it first does.
	Questions, Effort, Lost float64
}

// Follow sends animals through a key, weighted by end point: all alike where
// weights has none above 0. At a couplet that takes a kind both ways its animals
// part by the shares of the states they show, equally where these are unknown.
func Follow(s *couplets.Sound, catalog *taxa.Catalog, weights map[string]float64, m Observer) Flow {
	f := &follower{sound: s, catalog: catalog, model: m, readings: map[string][][]float64{}}
	f.here = make([][]float64, len(s.Couplets))
	for i := range f.here {
		f.here[i] = make([]float64, len(s.Ends))
	}
	f.enter(weights)
	out := Flow{Couplets: make([]Traffic, len(s.Couplets))}
	for _, i := range s.TopDown() {
		c := f.traffic(i)
		out.Couplets[i] = c
		out.Questions += c.Asked
		out.Effort += c.Asked * c.Effort
		out.Lost += c.Lost
	}
	return out
}

type follower struct {
	sound    *couplets.Sound
	catalog  *taxa.Catalog
	model    Observer
	readings map[string][][]float64
	here     [][]float64 // animals by couplet and end point, as they should go
	kept     [][]float64 // of one, the share that has never left its path
}

func (f *follower) enter(weights map[string]float64) {
	start := f.here[f.sound.Place(f.sound.Start)]
	total := 0.0
	for i, t := range f.sound.Ends {
		start[i] = weights[t.ID]
		total += start[i]
	}
	f.kept = make([][]float64, len(f.here))
	for i := range f.kept {
		f.kept[i] = make([]float64, len(start))
	}
	for i := range start {
		if total > 0 {
			start[i] /= total
		} else {
			start[i] = 1 / float64(len(start))
		}
		f.kept[f.sound.Place(f.sound.Start)][i] = start[i]
	}
}

// traffic sends the animals of a couplet on.
func (f *follower) traffic(place int) Traffic {
	c := &f.sound.Couplets[place]
	out := Traffic{ID: c.ID, Effort: f.effort(c), Traits: c.Traits(), Come: f.here[place]}
	for end, animals := range f.here[place] {
		if animals == 0 {
			continue
		}
		out.Asked += animals
		shares := f.shares(c, end)
		for j := range c.Leads {
			if shares[j] == 0 {
				continue
			}
			right := f.right(c, j, shares, end)
			out.Lost += f.kept[place][end] * shares[j] * (1 - right)
			if next := f.sound.Place(c.Leads[j].Next); next >= 0 && c.Leads[j].Next != "" {
				f.here[next][end] += animals * shares[j]
				f.kept[next][end] += f.kept[place][end] * shares[j] * right
			}
		}
	}
	return out
}

// shares is how the animals of an end point part among the leads.
func (f *follower) shares(c *couplets.Couplet, end int) []float64 {
	out := make([]float64, len(c.Leads))
	sum := 0.0
	for j := range c.Leads {
		if f.sound.EndsOf(&c.Leads[j]).Has(end) {
			out[j] = 1
			for _, cond := range c.Leads[j].Conditions {
				out[j] *= share(f.sound.Ends[end].States(cond.Trait), cond.States)
			}
			sum += out[j]
		}
	}
	for j := range out {
		out[j] /= max(sum, 1e-300)
	}
	return out
}

// share is the share of the animals that show one of the states; half where
// nothing is known, which is the same for all leads of a couplet.
func share(shown []taxa.Weight, states []string) float64 {
	if len(shown) == 0 {
		return 0.5
	}
	sum := 0.0
	for _, w := range shown {
		if slices.Contains(states, w.State) {
			sum += w.Share
		}
	}
	return sum
}

// right is the chance that an animal that belongs to lead j is read as of a lead
// beneath which its kind is keyed. What no lead fits is looked at again.
func (f *follower) right(c *couplets.Couplet, j int, shares []float64, end int) float64 {
	fits, any := 0.0, 0.0
	for k := range c.Leads {
		p := f.readAs(&c.Leads[j], &c.Leads[k], end)
		any += p
		if k == j || shares[k] > 0 {
			fits += p
		}
	}
	return min(1, fits/max(any, 1e-300))
}

// readAs is the chance that an animal of one lead is read as of another, the
// traits that both speak of taken as independent.
func (f *follower) readAs(from, to *couplets.Lead, end int) float64 {
	p := 1.0
	for _, seen := range to.Conditions {
		for _, truly := range from.Conditions {
			if truly.Trait == seen.Trait {
				p *= f.read(f.catalog.Vocabulary().Trait(seen.Trait), f.sound.Ends[end], truly.States, seen.States)
			}
		}
	}
	return p
}

func (f *follower) read(trait *taxa.Trait, of *taxa.Taxon, truly, seen []string) float64 {
	r := f.readings[trait.ID]
	if r == nil {
		r = f.model.Readings(trait)
		f.readings[trait.ID] = r
	}
	weight, sum := 0.0, 0.0
	for _, s := range truly {
		w := share(of.States(trait.ID), []string{s})
		weight += w
		for _, o := range seen {
			sum += w * r[trait.State(s)][trait.State(o)]
		}
	}
	return sum / max(weight, 1e-300)
}

func (f *follower) effort(c *couplets.Couplet) float64 {
	sum := f.model.Option * float64(len(c.Leads)-2)
	for _, t := range c.Traits() {
		sum += f.model.Effort(f.catalog.Vocabulary().Trait(t).Look)
	}
	return sum
}
