package paper

import (
	"cmp"
	"html/template"
	"slices"
	"strings"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// animalFigure is the size of an animal's drawing, with its length, in mm.
var animalFigure = figure.Size{Width: 24, Height: 17}

// animals are the entries of all end points, by order.
func (k *keyPage) animals() {
	k.Section(wording.Text("The animals"))
	k.Text("note", wording.Text("All that stands after \"Check\" must hold; of what is parted by \"or\", one. Lengths are those of "+
		"grown animals, without tails and feelers: the bar beneath a drawing is life size when printed at 100 %."))
	for _, group := range k.groups() {
		k.Heading(group.name)
		k.Begin("div", "animals")
		for _, t := range group.taxa {
			k.put("animal", k.animal(t))
		}
		k.End()
	}
	k.End()
}

// groups are the end points by order, those of no order last.
func (k *keyPage) groups() []group {
	all := byOrder(k.catalog, k.sound.Ends)
	none, out := all[0], all[1:]
	none.name = wording.Text("Other animals")
	if len(none.taxa) > 0 {
		out = append(out, none)
	}
	return out
}

// animal is the entry of an end point.
type animal struct {
	Taxon              *taxa.Taxon
	Drawing            template.HTML
	Facts              string
	Incoming           []string // the leads that end in it
	Care, Lives, Check string
	Mistaken           []mistaken
	Inseparable        string // what the key cannot tell it from
}

type mistaken struct{ Name, Tell string }

func (k *keyPage) animal(t *taxa.Taxon) animal {
	a := animal{Taxon: t, Drawing: template.HTML(k.atlas.Telling(t).SVG(animalFigure)), Facts: rankWord(t), Incoming: k.ends[t.ID]}
	if t.Length.Known() {
		a.Facts += ", " + show.LengthRange(t.Length)
	}
	a.Care, a.Lives = k.say(t.Handling), k.say(t.Habitat)
	a.Inseparable = show.Either(k.catalog, k.shares(t))
	a.Check = k.say(plain.Capital(strings.Join(k.features(t), ". ")))
	for _, m := range k.mistaken(t) {
		if !k.holds(m.Taxon) {
			continue
		}
		a.Mistaken = append(a.Mistaken, mistaken{k.catalog.Taxon(m.Taxon).Name(), k.say(m.Tell)})
	}
	return a
}

// shares are the taxa that share an end with a taxon, in the order of the key.
func (k *keyPage) shares(t *taxa.Taxon) []string {
	var out []string
	for _, l := range k.sound.Leads() {
		for _, id := range l.Taxa {
			if id != t.ID && slices.Contains(l.Taxa, t.ID) && !slices.Contains(out, id) {
				out = append(out, id)
			}
		}
	}
	return out
}

// rankWord is a rank for people; a group that is no formal rank has none.
func rankWord(t *taxa.Taxon) string {
	if t.Rank == "group" {
		return ""
	}
	return ", " + t.Rank
}

// mistaken are what a taxon is taken for; where it says nothing, what the
// nearest taxon above it says.
func (k *keyPage) mistaken(t *taxa.Taxon) []taxa.Mistaken {
	for _, up := range append([]*taxa.Taxon{t}, k.catalog.Ancestors(t.ID)...) {
		if len(up.Mistaken) > 0 {
			return up.Mistaken
		}
	}
	return nil
}

// holds reports whether the key ends in a taxon, in one above it or in one below:
// what lives elsewhere is not warned of.
func (k *keyPage) holds(id string) bool {
	return slices.ContainsFunc(k.sound.Ends, func(end *taxa.Taxon) bool {
		return k.catalog.IsUnder(end.ID, id) || k.catalog.IsUnder(id, end.ID)
	})
}

// features are what must hold of an animal of the taxon: for each couplet on its
// way through the key the trait and the states that the taxon can show, the
// most usual first. A trait is told once; where a couplet asks for several, those
// that are merely absent are left out, or all but one.
func (k *keyPage) features(t *taxa.Taxon) []string {
	var out, told []string
	for _, label := range k.paths[t.ID] {
		var there, absent []string
		for _, c := range k.conditions(label) {
			if slices.Contains(told, c.Trait) {
				continue
			}
			told = append(told, c.Trait)
			states := statesOf(t, c)
			words := show.TraitStates(k.catalog.Vocabulary().Trait(c.Trait), states)
			if slices.ContainsFunc(states, present) {
				there = append(there, words)
			} else {
				absent = append(absent, words)
			}
		}
		if len(there) == 0 {
			there = absent[:min(1, len(absent))]
		}
		if len(there) > 0 {
			out = append(out, strings.Join(there, "; "))
		}
	}
	return out
}

// present reports whether a state says that a part is there.
func present(state string) bool { return state != "none" && state != "no" && state != "0" }

// statesOf are the states of the condition's trait that a taxon can show, the
// most usual first; where it states none, those of the condition.
func statesOf(t *taxa.Taxon, c couplets.Condition) []string {
	shown := slices.Clone(t.States(c.Trait))
	if shown == nil {
		return c.States
	}
	slices.SortStableFunc(shown, func(a, b taxa.Weight) int { return cmp.Compare(b.Share, a.Share) })
	out := make([]string, len(shown))
	for i, w := range shown {
		out[i] = w.State
	}
	return out
}

// conditions are what a lead, such as "4a", stands for.
func (k *keyPage) conditions(label string) []couplets.Condition {
	c := k.sound.Couplet(label[:len(label)-1])
	for i := range c.Leads {
		if c.Leads[i].Letter == label[len(label)-1:] {
			return c.Leads[i].Conditions
		}
	}
	return nil
}
