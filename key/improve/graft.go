package improve

import (
	"slices"

	"rillkey/couplets"
	"rillkey/key/draft"
	"rillkey/key/flow"
	"rillkey/key/trim"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// asGoods are how much more than the draft a couplet of the key may cost, with
// all beneath it, to be left as it is; each is tried.
var asGoods = []float64{1.02, 1.15, 1.4}

var errMade = wording.NewError("couplets that were only just written are not written again")

// graft puts a draft in the place of a branch. Couplets of the branch beneath
// which the draft has the same end points stay if they are nearly as good, and
// those that ask what the draft asks lend it their words.
func (r *round) graft(b *branch, d *draft.Draft, asGood float64) (*candidate, error) {
	s := &draft.Scion{Draft: d, Catalog: r.catalog, Next: r.next(), Goes: map[*draft.Node]string{},
		Number: map[*draft.Node]string{}, Words: map[*draft.Node]*draft.LeadWords{}}
	s.Number[d.Root] = b.ids[0]
	gone := r.keep(b, s, asGood)
	if slices.ContainsFunc(gone, func(id string) bool { return r.made[id] }) {
		return nil, errMade
	}
	r.reuse(gone, s)
	text, err := trim.ReplaceCouplets(r.data, r.sound, gone, s.Text())
	if err != nil {
		return nil, err
	}
	sound, err := couplets.LoadText(text, wording.Text("the improved key"), r.catalog)
	if err != nil {
		return nil, err
	}
	c := &candidate{text, sound, Rewrite{Couplet: b.ids[0], New: []string{}, Moved: []string{}, Gone: []string{}}}
	c.change.list(gone, s, sound)
	r.measure(c)
	return c, nil
}

// keep finds what of a branch stays as it is, and gives the couplets that do not.
func (r *round) keep(b *branch, s *draft.Scion, asGood float64) (gone []string) {
	var stay []string
	s.Each(func(n *draft.Node, _ int) {
		if n.End() || n == s.Root {
			return
		}
		id := r.same(b, n)
		if id == "" || slices.Contains(stay, id) {
			return
		}
		c := r.flow.Couplets[r.sound.Place(id)]
		if r.costOf(r.idsBelow(id))/max(c.Asked, 1e-300) <= asGood*n.Cost/max(n.Weight, 1e-300) {
			s.Goes[n] = id
			stay = append(stay, r.idsBelow(id)...)
		}
	})
	for _, id := range b.ids {
		if !slices.Contains(stay, id) {
			gone = append(gone, id)
		}
	}
	return gone
}

// same is the couplet of a branch beneath which the end points are those of a
// node; "" where there is none.
func (r *round) same(b *branch, n *draft.Node) string {
	for _, id := range b.ids[1:] {
		if set := r.sound.EndsBeneath(r.sound.Place(id)); set.Len() == len(n.Taxa) &&
			!slices.ContainsFunc(n.Taxa, func(t int) bool { return !set.Has(b.ends[t]) }) {
			return id
		}
	}
	return ""
}

// reuse lends the words of couplets that go, with their numbers, to nodes that
// ask the same, each once. The first node has the number of the branch; the
// couplet that had it takes the number of the one whose words are first now.
func (r *round) reuse(gone []string, s *draft.Scion) {
	used := map[string]bool{}
	free := ""
	for _, n := range s.New() {
		for _, id := range gone {
			words := said(r.sound.Couplet(id), s.Table.Traits[n.Trait].Trait, n)
			if words == nil || used[id] {
				continue
			}
			used[id], s.Words[n] = true, words
			switch {
			case n == s.Root && id != gone[0]:
				free = id
			case n != s.Root && id != gone[0]:
				s.Number[n] = id
			case n != s.Root && free != "":
				s.Number[n] = free
			}
			break
		}
	}
}

// said is the words of a couplet, if all its leads speak of one trait alone and part
// its states as a node does.
func said(c *couplets.Couplet, t *taxa.Trait, n *draft.Node) *draft.LeadWords {
	if len(c.Leads) != len(n.Sides) {
		return nil
	}
	w := &draft.LeadWords{Ask: c.Ask, Wait: c.Wait}
	for i := range c.Leads {
		l := &c.Leads[i]
		if len(l.Conditions) != 1 || l.Conditions[0].Trait != t.ID {
			return nil
		}
		states := uint64(0)
		for _, state := range l.Conditions[0].States {
			states |= 1 << t.State(state)
		}
		side := slices.IndexFunc(n.Sides, func(of uint64) bool { return of&^states == 0 })
		if side < 0 || slices.Contains(w.Sides, side) {
			return nil
		}
		w.Text, w.States, w.Sides = append(w.Text, l.Text), append(w.States, states), append(w.Sides, side)
	}
	return w
}

// list says which couplets a change made, moved and did away with.
func (c *Rewrite) list(gone []string, s *draft.Scion, now *couplets.Sound) {
	kept := map[string]bool{}
	for n, words := range s.Words {
		if id := s.Number[n]; words != nil && id != "" {
			kept[id] = true
		}
	}
	for i := range now.Couplets {
		switch id := now.Couplets[i].ID; {
		case kept[id]:
			c.Moved = append(c.Moved, id)
		case slices.Contains(gone, id) || number(id) >= s.Next:
			c.New = append(c.New, id)
		}
	}
	for _, id := range gone {
		if now.Couplet(id) == nil {
			c.Gone = append(c.Gone, id)
		}
	}
}

// measure says what a change saves.
func (r *round) measure(c *candidate) {
	f := flow.Follow(c.sound, r.catalog, c.sound.Weights(), r.looking)
	change := &c.change
	change.Gain = 1 - r.priced(f)/r.priced(r.flow)
	change.Questions, change.Effort, change.Lost = r.flow.Questions-f.Questions, r.flow.Effort-f.Effort, r.flow.Lost-f.Lost
	change.Asked, change.Asks = r.sound.Couplet(change.Couplet).Ask, c.sound.Couplet(change.Couplet).Ask
}
