package figure

import (
	"slices"

	"rillkey/couplets"
	"rillkey/taxa"
)

// model is the animal that sits for a drawing: a taxon, and one of its states
// for each trait.
type model struct {
	taxon  *taxa.Taxon
	traits Traits
}

// nearBest is from what share of the best on a taxon that shows all answers is drawn
// for all of them.
const nearBest = 0.3

// models are the animals that an answer is shown by: for each state of the
// condition that accepts most, the commonest taxon beneath that shows it and all
// else that is asked. Where no taxon does, the commonest beneath, as it is.
func (q question) models(an answer) []model {
	widest := couplets.Condition{States: []string{""}}
	for _, c := range an.conditions {
		if len(c.States) > len(widest.States) || widest.Trait == "" {
			widest = c
		}
	}
	order := q.atlas.typical(an.taxa, q.traits())
	var out []model
	for _, s := range widest.States {
		if m, ok := q.model(an, order, widest.Trait, s); ok {
			out = append(out, m)
		}
	}
	if len(out) == 0 && len(an.taxa) > 0 {
		if m, ok := q.model(answer{taxa: an.taxa}, order, "", ""); ok {
			out = append(out, m)
		}
	}
	return out
}

// model is the animal for one state of an answer; of equally common ones the one
// that is highest in order, the most typical.
func (q question) model(an answer, order map[*taxa.Taxon]int, trait, state string) (model, bool) {
	var best *taxa.Taxon
	most := 0.0
	for _, t := range an.taxa {
		_, n := q.atlas.fit(t, an.conditions, trait, state)
		if _, drawn := order[t]; !drawn || n == 0 {
			continue
		}
		if best == nil || n > most+1e-9 || n > most-1e-9 && order[t] > order[best] {
			best, most = t, n
		}
	}
	if best == nil {
		return model{}, false
	}
	if t := q.shared; t != nil {
		if _, n := q.atlas.fit(t, an.conditions, trait, state); n >= most*nearBest {
			best = t
		}
	}
	states, _ := q.atlas.fit(best, an.conditions, trait, state)
	q.onTheWay(best, states)
	return model{best, q.atlas.showing(best, states)}, true
}

// onTheWay adds what a taxon must show for the couplet to be come to, where it
// usually shows something else.
func (q question) onTheWay(t *taxa.Taxon, states Traits) {
	asked := q.traits()
	for _, c := range q.way {
		if _, set := states[c.Trait]; set || slices.Contains(asked, c.Trait) {
			continue
		}
		if s := usual(t, c.Trait, func(s string) bool { return slices.Contains(c.States, s) }); s != "" {
			states[c.Trait] = s
		}
	}
}

// sharedTaxon is the taxon beneath all answers that can best show what each stands
// for; nil if there is none.
func (q question) sharedTaxon() *taxa.Taxon {
	var best *taxa.Taxon
	most := 0.0
	for _, t := range q.answers[0].taxa {
		all := 1.0
		for _, an := range q.answers {
			_, n := q.atlas.fit(t, an.conditions, "", "")
			if !slices.Contains(an.taxa, t) || q.atlas.look(t).plan() == nil {
				n = 0
			}
			all *= n
		}
		if all > most+1e-9 {
			best, most = t, all
		}
	}
	return best
}

// strayed is how much rarer than it is an animal of the land counts, so that one of
// the water stands for what both show.
const strayed = 1e-3

// fit is how a taxon meets conditions, with one trait in one state: its usual
// state of those that each accepts, and how common such animals are; 0 for a
// taxon that does not meet them.
func (a *Atlas) fit(t *taxa.Taxon, conditions []couplets.Condition, trait, state string) (Traits, float64) {
	out, chance := Traits{}, 1.0
	if w, known := a.common[t.ID]; known {
		chance = w
	}
	if a.look(t).traits().is("land", "yes") {
		chance *= strayed
	}
	for _, c := range conditions {
		accepted := c.States
		if c.Trait == trait {
			accepted = []string{state}
		}
		most := 0.0
		for _, w := range t.States(c.Trait) {
			if slices.Contains(accepted, w.State) && w.Share > most+1e-9 {
				out[c.Trait], most = w.State, w.Share
			}
		}
		chance *= most
	}
	return out, chance
}

// showing are a taxon's usual states with some set; what else these need is as
// the taxon has it, never as it has it not.
func (a *Atlas) showing(t *taxa.Taxon, set Traits) Traits {
	out := Traits{}
	for trait, s := range a.look(t).traits() {
		out[trait] = s
	}
	for trait, s := range set {
		out[trait] = s
	}
	for range 3 { // what a part needs may need a part in turn
		for _, n := range needs {
			_, whole := set[n.trait]
			_, own := set[n.part]
			switch {
			case out.has(n.part) && out.lacks(n.trait, n.part, n.state):
				if s := usual(t, n.trait, func(s string) bool {
					return !(Traits{n.trait: s}).lacks(n.trait, n.part,
						n.state)
				}); s != "" && !whole {
					out[n.trait] = s
				} else if !own {
					out.drop(t, n.part)
				}
			case own && n.gone != "" && absence(out[n.part]) && !whole:
				if s := usual(t, n.trait, func(s string) bool { return s == n.gone }); s != "" {
					out[n.trait] = s
				}
			}
		}
	}
	return out
}

// drop takes a part away: as the taxon lacks it, or unsaid.
func (t Traits) drop(from *taxa.Taxon, part string) {
	if s := usual(from, part, absence); s != "" {
		t[part] = s
		return
	}
	delete(t, part)
}

// usual is the commonest of a taxon's states of a trait that meet a condition;
// empty if none does.
func usual(t *taxa.Taxon, trait string, meets func(state string) bool) string {
	out, most := "", 0.0
	for _, w := range t.States(trait) {
		if meets(w.State) && w.Share > most+1e-9 {
			out, most = w.State, w.Share
		}
	}
	return out
}
