package rules

import (
	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/bitset"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// secondEnd finds animals that are keyed out in two places only because the
// catalog does not say what they show of the trait that parts the ways there. An
// animal that is said to vary belongs in both.
func secondEnd(f *finder) {
	if f.Sound == nil {
		return
	}
	twice := f.endedTwice()
	said := bitset.New(len(f.Sound.Ends))
	for i := range f.Sound.Couplets {
		c := &f.Sound.Couplets[i]
		both := f.Sound.EndsBeneath(i).Clone()
		both.And(twice)
		both.AndNot(said)
		both.Each(func(end int) {
			if l := f.parted(c, end); l != nil {
				said.Add(end)
				f.warnSecond(c, l, f.Sound.Ends[end])
			}
		})
	}
}

// endedTwice are the end points that several leads end in.
func (f *finder) endedTwice() bitset.Set {
	places := make(map[string]int, len(f.Sound.Ends))
	for i, t := range f.Sound.Ends {
		places[t.ID] = i
	}
	once, twice := bitset.New(len(places)), bitset.New(len(places))
	for _, l := range f.File.Leads() {
		for _, id := range l.Taxa {
			if once.Has(places[id]) {
				twice.Add(places[id])
			}
			once.Add(places[id])
		}
	}
	return twice
}

// parted is the second lead of a couplet that leads to an end point of which
// nothing is stated that the couplet asks for, or nil.
func (f *finder) parted(c *couplets.Couplet, end int) *couplets.Lead {
	var first *couplets.Lead
	for j := range c.Leads {
		l := &c.Leads[j]
		if !f.Sound.EndsOf(l).Has(end) {
			continue
		}
		for _, cond := range l.Conditions {
			if f.Sound.Ends[end].States(cond.Trait) != nil {
				return nil
			}
		}
		if first != nil && goal(first) != goal(l) { // else see sameGoal
			return l
		}
		if first == nil {
			first = l
		}
	}
	return nil
}

func (f *finder) warnSecond(c *couplets.Couplet, l *couplets.Lead, t *taxa.Taxon) {
	if len(l.Conditions) == 0 {
		return
	}
	trait := plain.Quote(l.Conditions[0].Trait)
	f.warn(l.Pos, wording.Sprintf("%s is beneath two leads of couplet %s, since the catalog does not say which %s it shows",
		plain.Quote(t.ID), c.ID, trait),
		wording.Sprintf("state its %s in the catalog; until somebody knows it, this is right", trait))
}
