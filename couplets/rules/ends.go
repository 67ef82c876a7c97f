package rules

import (
	"iter"
	"slices"
	"strings"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// sharedEnd finds leads that end in several taxa although the naked eye tells two
// of them apart for certain: a couplet could ask for that. It finds those too that
// nothing tells apart, not even a lens, and that no broader name holds, so that such an
// animal has no name at all.
func sharedEnd(f *finder) {
	for c, l := range f.File.Leads() {
		if trait := f.partedBySight(l.Taxa); trait != nil {
			f.warn(l.TargetPos, wording.Sprintf("lead %s%s ends in %s together, though %s tells some of them apart", c.ID,
				l.Letter, plain.List(l.Taxa), plain.Quote(trait.ID)),
				wording.Text("add a couplet that asks for it"))
		} else if a, b := f.neverParted(l.Taxa); a != "" {
			f.warn(l.TargetPos, wording.Sprintf("lead %s%s ends in %s together, and nothing tells %s from %s, nor has the catalog "+
				"a name for both", c.ID, l.Letter, plain.List(l.Taxa), plain.Quote(a), plain.Quote(b)),
				wording.Text("add a trait in which they differ, or a taxon that is the parent of both"))
		}
	}
}

// neverParted are two of some taxa without a broader name for both that no trait tells
// apart for certain, not even with a lens; empty where there are none.
func (f *finder) neverParted(ids []string) (a, b string) {
	for one, other := range f.pairs(ids) {
		if f.Catalog.Cover([]string{one.ID, other.ID}) == nil && len(f.Catalog.TellApart(one, other)) == 0 {
			return other.ID, one.ID
		}
	}
	return "", ""
}

// pairs are any two of some taxa that the catalog knows.
func (f *finder) pairs(ids []string) iter.Seq2[*taxa.Taxon, *taxa.Taxon] {
	return func(yield func(one, other *taxa.Taxon) bool) {
		for i, a := range ids {
			for _, b := range ids[:i] {
				one, other := f.Catalog.Taxon(a), f.Catalog.Taxon(b)
				if one != nil && other != nil && !yield(one, other) {
					return
				}
			}
		}
	}
}

// partedBySight is a trait, seen without a lens, that tells two of some taxa
// apart for certain; nil where there is none.
func (f *finder) partedBySight(ids []string) *taxa.Trait {
	for one, other := range f.pairs(ids) {
		if apart := f.Catalog.TellApart(one, other); len(apart) > 0 && apart[0].Look != taxa.Lens {
			return apart[0]
		}
	}
	return nil
}

// sameGoal finds couplets all of whose leads go to one place.
func sameGoal(f *finder) {
	for i := range f.File.Couplets {
		c := &f.File.Couplets[i]
		if len(c.Leads) < 2 || goal(&c.Leads[0]) == "" {
			continue
		}
		if slices.ContainsFunc(c.Leads[1:], func(l couplets.Lead) bool { return goal(&l) != goal(&c.Leads[0]) }) {
			continue
		}
		f.warn(c.Leads[1].TargetPos, wording.Sprintf(
			"all leads of couplet %s go to the same place, %s: the answer changes nothing", c.ID, plain.Quote(goal(&c.Leads[0]))),
			wording.Text("send one of the leads elsewhere, or leave the couplet out"))
	}
}

// goal is where a lead goes, in words: a couplet, or taxa in alphabetical order.
func goal(l *couplets.Lead) string {
	if l.Next != "" {
		return "couplet " + l.Next
	}
	return strings.Join(slices.Sorted(slices.Values(l.Taxa)), ", ")
}

// sameWords finds leads of one couplet that say the same.
func sameWords(f *finder) {
	for i := range f.File.Couplets {
		c := &f.File.Couplets[i]
		for j := range c.Leads {
			for k := range j {
				if text := strings.TrimSpace(c.Leads[j].Text); text != "" && strings.EqualFold(text, strings.TrimSpace(c.Leads[k].Text)) {
					f.warn(c.Leads[j].TextPos,
						wording.Sprintf("leads %s%s and %s%s say the same words", c.ID, c.Leads[k].Letter, c.ID,
							c.Leads[j].Letter), wording.Text("say in each what only its animals show"))
				}
			}
		}
	}
}

// noCommonness finds end points that the key gives no weight although it gives
// others one, each where a lead first ends in it.
func noCommonness(f *finder) {
	if f.Sound == nil || f.Sound.Weights() == nil {
		return
	}
	at := f.leadsTo()
	for _, t := range f.Sound.Ends {
		if _, said := f.Sound.Commonness[t.ID]; !said {
			f.warn(at[t.ID], wording.Sprintf(
				"the key says how common its animals are, but not %s; it is taken to be as common as the middle one of them, "+
					"with a weight of %g", plain.Quote(t.ID), f.Sound.Weights()[t.ID]),
				wording.Sprintf("add a line %s = … under [commonness.weight]", t.ID))
		}
	}
}
