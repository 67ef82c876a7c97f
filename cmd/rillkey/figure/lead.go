package figure

import (
	"slices"
	"strings"

	"rillkey/cmd/rillkey/figure/draw"
	"rillkey/couplets"
	"rillkey/taxa"
)

// The most drawings that one lead is given.
const (
	mostBodies = 4
	mostSigns  = 7
)

// Lead is the figure of lead number i of a couplet; see [Atlas.Leads]. It
// reports false where there is no such lead, or nothing it stands for can be
// drawn.
func (a *Atlas) Lead(c *couplets.Couplet, i int) (Figure, bool) {
	all := a.Leads(c)
	if i < 0 || i >= len(all) {
		return Figure{}, false
	}
	return all[i], !all[i].Empty()
}

// Leads are the figures of all leads of a couplet. They are drawn on the same
// typical body, alike but for the states that each lead stands for; where these
// states make another build of animal, on a typical animal beneath the lead. A
// state that cannot be drawn is shown as its place among the states, in a row of
// boxes. A figure is empty only for a lead that stands for nothing.
func (a *Atlas) Leads(c *couplets.Couplet) []Figure {
	var q question
	for j := range c.Leads {
		q.answers = append(q.answers, answer{c.Leads[j].Conditions, a.under(&c.Leads[j])})
	}
	q.atlas = a
	q.base = a.typical(a.beneathCouplet(c), q.traits())
	out := q.figures()
	for i, l := range c.Leads {
		out[i].Title = plain(strings.Join(strings.Fields(l.Text), " "))
		out[i].Alt = "Outline that shows: " + a.labels(l.Conditions) + "."
	}
	return out
}

// State is the figure of one state of a trait; see [Atlas.States]. It reports
// false where it cannot be drawn.
func (a *Atlas) State(trait, state string) (Figure, bool) {
	t := a.catalog.Vocabulary().Trait(trait)
	if t == nil || t.State(state) < 0 {
		return Figure{}, false
	}
	f := a.States(t)[t.State(state)]
	return f, !f.Empty()
}

// States are the figures of all states of a trait, drawn as far as may be on
// one body.
func (a *Atlas) States(t *taxa.Trait) []Figure {
	q := question{atlas: a}
	var all []*taxa.Taxon
	for _, s := range t.States {
		var shown []*taxa.Taxon
		for _, taxon := range a.catalog.Taxa() {
			if a.traits[taxon.ID][t.ID] == s.ID && a.shown[taxon.ID] != nil {
				shown = append(shown, taxon)
			}
		}
		if !absence(s.ID) {
			all = append(all, shown...)
		}
		q.answers = append(q.answers, answer{[]couplets.Condition{{Trait: t.ID, States: []string{s.ID}}}, shown})
	}
	q.base = a.typical(all, q.traits())
	out := q.figures()
	for i, s := range t.States {
		out[i].Title = plain(s.Label)
		out[i].Alt = "Outline that shows: " + out[i].Title + "."
	}
	return out
}

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

// typical is which of the taxa shares most of its states with all the others,
// of those whose outline shows the traits if there are any; nil of none.
func (a *Atlas) typical(of []*taxa.Taxon, traits []string) *taxa.Taxon {
	count := map[[2]string]int{}
	for _, t := range of {
		for trait, s := range a.traits[t.ID] {
			count[[2]string{trait, s}]++
			if trait == "outline" { // what is seen first
				count[[2]string{trait, s}] += 5
			}
		}
	}
	var best *taxa.Taxon
	most := -1
	for _, t := range of {
		sum := 0
		for trait, s := range a.traits[t.ID] {
			sum += count[[2]string{trait, s}]
		}
		for _, trait := range traits {
			if len(a.shown[t.ID][trait]) > 0 {
				sum += 1e6
			}
		}
		if a.shown[t.ID] == nil {
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

// traits are what the answers speak of.
func (q question) traits() []string {
	var out []string
	for _, an := range q.answers {
		for _, c := range an.conditions {
			if !slices.Contains(out, c.Trait) {
				out = append(out, c.Trait)
			}
		}
	}
	return out
}

// figures draws all answers; bodies of one build share a frame.
func (q question) figures() []Figure {
	out := make([]Figure, len(q.answers))
	frames, near := map[*plan]draw.Box{}, map[*plan]draw.Box{}
	for i, an := range q.answers {
		out[i].panels = q.panels(an)
		for _, p := range out[i].panels {
			if p.build != nil {
				frames[p.build] = frames[p.build].Union(p.frame)
				near[p.build] = near[p.build].Union(p.near)
			}
		}
	}
	for i := range out {
		for j := range out[i].panels {
			if p := &out[i].panels[j]; p.build != nil {
				p.frame, p.near = frames[p.build], near[p.build]
			}
		}
	}
	return out
}

// panels draws one answer: a body for each state that bodies show, and a sign
// for each that they do not.
func (q question) panels(an answer) []panel {
	var shown, signed []couplets.Condition
	for _, c := range an.conditions {
		if signs[c.Trait] != nil && !slices.Contains(onBody, c.Trait) {
			signed = append(signed, c)
		} else {
			shown = append(shown, c)
		}
	}
	out := q.bodies(an, shown, len(signed) > 0)
	for _, c := range shown {
		shows := func(p panel) bool { return len(p.shows) > 0 }
		if signs[c.Trait] != nil && !slices.ContainsFunc(out, shows) {
			signed = append(signed, c)
		}
	}
	for _, c := range signed {
		for _, s := range c.States[:min(len(c.States), mostSigns)] {
			out = append(out, detail(c.Trait, s, true))
		}
	}
	if len(out) == 0 {
		for _, c := range an.conditions {
			out = append(out, q.atlas.choice(c))
		}
	}
	return out
}

// choice stands for states that cannot be drawn: a box for each state of the
// trait, those ticked that are meant.
func (a *Atlas) choice(c couplets.Condition) panel {
	k := newSketch(nil)
	var states []string
	if t := a.catalog.Vocabulary().Trait(c.Trait); t != nil {
		states = t.StateIDs()
	}
	for i, s := range states {
		x := 0.3 * float64(i)
		k.Poly(path(x, 0, x+0.2, 0, x+0.2, 0.2, x, 0.2)...)
		if slices.Contains(c.States, s) {
			k.Part("choice")
			k.Line(path(x+0.03, 0.1, x+0.08, 0.17, x+0.18, 0.0)...)
			k.Part()
		}
	}
	k.SetOff("choice")
	return panel{canvas: &k.Canvas, frame: k.Box()}
}

// onBody are traits that a body shows if it has the part, and a sign if not.
var onBody = []string{"humps", "hair", "pattern", "case"}

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
		if len(conditions) > 0 && len(drawn.shows)+len(drawn.aims) == 0 && !beside && signs[features[0]] == nil {
			continue // nothing of what is asked could be shown
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
		with := base.with(companions(base, states, fitting))
		p := planOf(with)
		if p != nil && (p == planOf(base) && (len(plans) == 0 || slices.Contains(plans, p))) {
			return with, p
		}
	}
	if len(fitting) == 0 {
		fitting = an.taxa
	}
	t := q.atlas.typical(fitting, q.traits())
	if t == nil {
		t = q.base
	}
	if t == nil {
		return states, planOf(states)
	}
	with := q.atlas.traits[t.ID].with(companions(q.atlas.traits[t.ID], states, fitting))
	return with, planOf(with)
}

// companions are the states with what they need and the base lacks, as the
// first of the fitting taxa has it that has it at all: tufts under the chest
// where these animals carry their tufts there.
func companions(base, states Traits, fitting []*taxa.Taxon) Traits {
	out := Traits{}
	for trait, s := range states {
		out[trait] = s
	}
	for _, n := range needs {
		if _, own := states[n.trait]; own || !states.has(n.part) || base.has(n.trait) {
			continue
		}
		for _, t := range fitting {
			w := t.States(n.trait)
			i := slices.IndexFunc(w, func(w taxa.Weight) bool { return w.State != "none" && w.State != "no" })
			if i >= 0 {
				out[n.trait] = w[i].State
				break
			}
		}
	}
	return out
}
