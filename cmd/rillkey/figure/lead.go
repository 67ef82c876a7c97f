package figure

import (
	"slices"
	"strings"

	"rillkey/cmd/rillkey/figure/draw"
	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// The most drawings that one lead is given.
const (
	mostBodies = 4
	mostSigns  = 7
)

// Leads are the figures of all leads of a couplet. Each is the commonest taxon
// beneath the lead that shows what the lead stands for, and nothing that this
// taxon does not show; a taxon that can show what all leads stand for is drawn
// for all. A figure is empty for a lead that stands for nothing or for what no
// stroke shows: its words must do.
func (a *Atlas) Leads(c *couplets.Couplet) []Figure {
	if len(c.Leads) == 0 {
		return nil
	}
	var q question
	for j := range c.Leads {
		q.answers = append(q.answers, answer{c.Leads[j].Conditions, a.taxaUnder(&c.Leads[j])})
	}
	q.atlas, q.way = a, a.way[c.ID]
	out := a.drawn.once(&c.Leads[0], q.figures)
	for i, l := range c.Leads {
		out[i].Title = plain(strings.Join(strings.Fields(l.Text), " "))
		out[i].Alt = wording.Sprintf("Outline that shows: %s.", a.labels(l.Conditions))
		if l.Drawing != nil {
			out[i] = Figure{Title: out[i].Title}.own(l.Drawing)
		}
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
	if len(t.States) == 0 {
		return nil
	}
	out := a.drawn.once(t, func() []Figure { return a.askedOf(t).figures() })
	for i, s := range t.States {
		out[i].Title = plain(s.Label)
		out[i].Alt = wording.Sprintf("Outline that shows: %s.", out[i].Title)
		if s.Drawing != nil {
			out[i] = Figure{Title: out[i].Title}.own(s.Drawing)
		}
	}
	return out
}

// askedOf is a trait as a question of its own: each state is shown by the taxa that
// usually have it, or else by those that can.
func (a *Atlas) askedOf(t *taxa.Trait) question {
	q := question{atlas: a}
	for _, s := range t.States {
		var shown, able []*taxa.Taxon
		for _, taxon := range a.catalog.Taxa() {
			switch {
			case a.look(taxon).plan() == nil:
			case a.look(taxon).traits()[t.ID] == s.ID:
				shown = append(shown, taxon)
			case slices.ContainsFunc(taxon.States(t.ID), func(w taxa.Weight) bool { return w.State == s.ID }):
				able = append(able, taxon)
			}
		}
		if len(shown) == 0 {
			shown = able
		}
		q.answers = append(q.answers, answer{[]couplets.Condition{{Trait: t.ID, States: []string{s.ID}}}, shown})
	}
	return q
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
		all = append(all, strings.Join(some, wording.Text(", or ")))
	}
	return strings.Join(all, "; ")
}

// alike is how many states each of the taxa shares with the others; the outline,
// which is seen first, counts most.
func (a *Atlas) alike(of []*taxa.Taxon) map[*taxa.Taxon]int {
	var count []int
	for _, t := range of {
		for _, m := range a.look(t).marks() {
			if m.number >= len(count) {
				count = append(count, make([]int, m.number+1-len(count))...)
			}
			count[m.number] += m.counts
		}
	}
	out := make(map[*taxa.Taxon]int, len(of))
	for _, t := range of {
		n := 0
		for _, m := range a.look(t).marks() {
			n += count[m.number]
		}
		out[t] = n
	}
	return out
}

// typical is how alike those taxa are to the others that have an outline; those
// whose outline shows the traits are far ahead.
func (a *Atlas) typical(of []*taxa.Taxon, traits []string) map[*taxa.Taxon]int {
	out := a.alike(of)
	for t := range out {
		if a.look(t).plan() == nil {
			delete(out, t)
			continue
		}
		for _, trait := range traits {
			if len(a.look(t).places()[trait]) > 0 {
				out[t] += 1e6
			}
		}
	}
	return out
}

// question is what the figures of one couplet, or of all states of one trait,
// have in common.
type question struct {
	atlas   *Atlas
	answers []answer
	way     []couplets.Condition // what was answered before
	shared  *taxa.Taxon          // what best shows all answers; nil if nothing does
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

// figures draws all answers; bodies of one taxon share a frame.
func (q question) figures() []Figure {
	q.shared = q.sharedTaxon()
	out := make([]Figure, len(q.answers))
	frames, near := map[*taxa.Taxon]draw.Box{}, map[*taxa.Taxon]draw.Box{}
	for i, an := range q.answers {
		out[i].panels = q.panels(an)
		for _, p := range out[i].panels {
			if t := p.model.taxon; t != nil {
				frames[t] = frames[t].Union(p.frame)
				near[t] = near[t].Union(p.features)
			}
		}
	}
	for i := range out {
		for j := range out[i].panels {
			if p := &out[i].panels[j]; p.model.taxon != nil {
				p.frame, p.features = frames[p.model.taxon], near[p.model.taxon]
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
		if signs()[c.Trait] != nil && !slices.Contains(onBody, c.Trait) {
			signed = append(signed, c)
		} else {
			shown = append(shown, c)
		}
	}
	out := q.bodies(an, shown, len(signed) > 0)
	for _, c := range shown {
		shows := func(p panel) bool { return len(p.shows) > 0 }
		if signs()[c.Trait] != nil && !slices.ContainsFunc(out, shows) {
			signed = append(signed, c)
		}
	}
	for _, c := range signed {
		for _, s := range c.States[:min(len(c.States), mostSigns)] {
			out = append(out, acted(c.Trait, s, true, actor(c.Trait, out)))
		}
	}
	return out
}

// actor is the animal that a sign moves: the one that stands beside it. An animal seen
// from above cannot show what side of it is up.
func actor(trait string, beside []panel) *panel {
	if len(beside) == 0 || beside[0].build == nil {
		return nil
	}
	switch trait {
	case "move", "dart", "stroke":
		return &beside[0]
	case "upside", "surface", "breath", "living":
		if beside[0].build.view == "the side" {
			return &beside[0]
		}
	}
	return nil
}

// onBody are traits that a body shows if it has the part, and a sign if not.
var onBody = []string{"humps", "hair", "pattern", "case", "living"}

// bodies draws an animal for each state that an answer accepts and that some
// animal beneath it shows.
func (q question) bodies(an answer, conditions []couplets.Condition, beside bool) []panel {
	var features []string
	for _, c := range conditions {
		features = append(features, c.Trait)
	}
	var out []panel
	var seen []string
	for _, m := range q.models(an) {
		p := planOf(m.traits, m.taxon.Build)
		if p == nil || len(out) == mostBodies {
			continue
		}
		drawn := body(m.traits, p, features)
		drawn.model = m
		if len(conditions) > 0 && len(drawn.shows)+len(drawn.aims) == 0 && !beside && signs()[features[0]] == nil {
			continue // nothing of what is asked could be shown
		}
		if key := drawn.canvas.Key(); !slices.Contains(seen, key) {
			seen = append(seen, key)
			out = append(out, drawn)
			if slices.Contains(features, "mouth") && m.traits.is("mouth", "beak") && p == planBug {
				out = append(out, underside(beak))
			}
		}
	}
	return out
}
