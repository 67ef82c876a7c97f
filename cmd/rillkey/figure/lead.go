package figure

import (
	"slices"
	"strings"

	"rillkey/couplets"
	"rillkey/taxa"
)

// The most drawings that one lead is given.
const (
	mostBodies = 4
	mostSigns  = 7
)

// Lead is the figure of lead number i of a couplet. All leads of a couplet are
// drawn on the same typical body, alike but for the states that each stands
// for; where these states make another build of animal, on a typical animal
// beneath the lead. It reports false where nothing the lead stands for can be
// drawn.
func (a *Atlas) Lead(c *couplets.Couplet, i int) (Figure, bool) {
	if i < 0 || i >= len(c.Leads) {
		return Figure{}, false
	}
	beneath := a.beneathCouplet(c)
	q := question{atlas: a, base: a.typical(beneath, beneath)}
	for j := range c.Leads {
		q.answers = append(q.answers, answer{c.Leads[j].Conditions, a.under(&c.Leads[j])})
	}
	f, ok := q.figure(i)
	f.Title = plain(strings.Join(strings.Fields(c.Leads[i].Text), " "))
	f.Alt = "Outline that shows: " + a.labels(c.Leads[i].Conditions) + "."
	return f, ok
}

// State is the figure of one state of a trait, drawn on the body that all
// states of the trait share. It reports false where it cannot be drawn.
func (a *Atlas) State(trait, state string) (Figure, bool) {
	t := a.catalog.Vocabulary().Trait(trait)
	if t == nil || t.State(state) < 0 {
		return Figure{}, false
	}
	q := question{atlas: a}
	var all []*taxa.Taxon
	for _, s := range t.States {
		var shown []*taxa.Taxon
		for _, taxon := range a.catalog.Taxa() {
			if usual(a.traits[taxon.ID], trait, s.ID) && planOf(a.traits[taxon.ID]) != nil {
				shown = append(shown, taxon)
			}
		}
		if s.ID != "none" && s.ID != "no" || len(all) == 0 {
			all = append(all, shown...)
		}
		q.answers = append(q.answers, answer{[]couplets.Condition{{Trait: trait, States: []string{s.ID}}}, shown})
	}
	q.base = a.typical(all, all)
	f, ok := q.figure(t.State(state))
	f.Title = plain(t.States[t.State(state)].Label)
	f.Alt = "Outline that shows: " + f.Title + "."
	return f, ok
}

func usual(t Traits, trait, state string) bool { return t[trait] == state }

func (a *Atlas) beneathCouplet(c *couplets.Couplet) []*taxa.Taxon {
	if i, ok := a.index[c.ID]; ok {
		return a.beneath[i]
	}
	var out []*taxa.Taxon
	for i := range c.Leads {
		out = append(out, a.under(&c.Leads[i])...)
	}
	return out
}

func (a *Atlas) labels(conditions []couplets.Condition) string {
	var all []string
	for _, c := range conditions {
		var some []string
		t := a.catalog.Vocabulary().Trait(c.Trait)
		for _, s := range c.States {
			if t != nil && t.State(s) >= 0 {
				some = append(some, plain(t.States[t.State(s)].Label))
			}
		}
		all = append(all, strings.Join(some, ", or "))
	}
	return strings.Join(all, "; ")
}

// typical is which of the taxa shares most of its states with all the others;
// nil of none.
func (a *Atlas) typical(of, among []*taxa.Taxon) *taxa.Taxon {
	count := map[[2]string]int{}
	for _, t := range among {
		for trait, s := range a.traits[t.ID] {
			count[[2]string{trait, s}]++
		}
	}
	var best *taxa.Taxon
	most := -1
	for _, t := range of {
		sum := 0
		for trait, s := range a.traits[t.ID] {
			sum += count[[2]string{trait, s}]
		}
		if planOf(a.traits[t.ID]) == nil {
			sum = 0
		}
		if sum > most {
			best, most = t, sum
		}
	}
	return best
}

// question is what the figures of one couplet, or of all states of one trait,
// have in common.
type question struct {
	atlas   *Atlas
	base    *taxa.Taxon
	answers []answer
}

// answer is one lead: what it stands for, and the taxa it leads to.
type answer struct {
	conditions []couplets.Condition
	taxa       []*taxa.Taxon
}

// figure draws one answer in a frame that all answers share.
func (q question) figure(i int) (Figure, bool) {
	panels := q.panels(q.answers[i])
	for j := range q.answers {
		if j == i {
			continue
		}
		for _, other := range q.panels(q.answers[j]) {
			for k := range panels {
				if panels[k].build == other.build && !panels[k].inset && !other.inset {
					panels[k].frame = panels[k].frame.Union(other.frame)
					panels[k].near = panels[k].near.Union(other.near)
				}
			}
		}
	}
	return Figure{panels: panels}, len(panels) > 0
}

// panels draws one answer: a body for each state that bodies show, and a sign
// for each that they do not.
func (q question) panels(an answer) []panel {
	var shown, signed []couplets.Condition
	for _, c := range an.conditions {
		if _, ok := signs[c.Trait]; ok && q.bySign(c.Trait) {
			signed = append(signed, c)
		} else {
			shown = append(shown, c)
		}
	}
	out := q.bodies(an, shown, len(signed) > 0)
	for _, c := range signed {
		for _, s := range c.States[:min(len(c.States), mostSigns)] {
			out = append(out, detail(c.Trait, s, true))
		}
	}
	return out
}

// onBody are traits with a sign that a body shows as well, if it has the part.
var onBody = []string{"humps", "hair", "pattern", "backbone"}

// bySign reports whether a trait is shown by its sign: always if no body shows
// it, else where the base does not.
func (q question) bySign(trait string) bool {
	if !slices.Contains(onBody, trait) {
		return true
	}
	if q.base == nil {
		return true
	}
	if trait == "backbone" {
		return false
	}
	t := q.atlas.traits[q.base.ID]
	p := planOf(t)
	if p == nil {
		return true
	}
	k := newSketch(t)
	p.draw(k)
	return len(k.places[trait]) == 0
}

// bodies draws an animal for each combination of states that an answer accepts.
func (q question) bodies(an answer, conditions []couplets.Condition, beside bool) []panel {
	var features []string
	n := 1
	for _, c := range conditions {
		features = append(features, c.Trait)
		n = max(n, len(c.States))
	}
	n = min(n, mostBodies)
	var out []panel
	var seen []string
	for i := range n {
		states := Traits{}
		for _, c := range conditions {
			if len(c.States) > 0 {
				states[c.Trait] = c.States[min(i, len(c.States)-1)]
			}
		}
		t, p := q.animal(an, states)
		if p == nil {
			continue
		}
		drawn := body(t, p, features)
		if len(conditions) > 0 && len(drawn.aims) == 0 && !beside {
			continue
		}
		if key := drawn.canvas.Key(); !slices.Contains(seen, key) {
			seen = append(seen, key)
			out = append(out, drawn)
		}
	}
	return out
}

// animal is the base with the states set; where that makes another build, or
// the base is of a build that none of the answer's taxa has, a typical one of
// the answer's taxa.
func (q question) animal(an answer, states Traits) (Traits, *plan) {
	var fitting []*taxa.Taxon
	var plans []*plan
	for _, t := range an.taxa {
		own := q.atlas.traits[t.ID]
		fits := true
		for trait, s := range states {
			fits = fits && (own[trait] == s || slices.ContainsFunc(t.States(trait), func(w taxa.Weight) bool { return w.State == s }))
		}
		if fits {
			fitting = append(fitting, t)
			plans = append(plans, planOf(own.with(states)))
		}
	}
	if q.base != nil {
		base := q.atlas.traits[q.base.ID]
		with := base.with(states)
		p := planOf(with)
		if p != nil && (p == planOf(base) && (len(plans) == 0 || slices.Contains(plans, p))) {
			return with, p
		}
	}
	if len(fitting) == 0 {
		fitting = an.taxa
	}
	t := q.atlas.typical(fitting, fitting)
	if t == nil {
		t = q.base
	}
	if t == nil {
		return states, planOf(states)
	}
	with := q.atlas.traits[t.ID].with(states)
	return with, planOf(with)
}
