package rules

import (
	"slices"

	"rillkey/taxa/bitset"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// askedAgain finds couplets whose trait an earlier answer has already settled:
// only one lead is left open. Narrowing many states step by step is no such case.
func askedAgain(f *finder) {
	if f.Sound == nil {
		return
	}
	for c, l := range f.Sound.Leads() {
		here := f.Sound.Place(c.ID)
		for _, cond := range l.Conditions {
			if !slices.ContainsFunc(cond.States, func(s string) bool { return f.Sound.Open(here, cond.Trait, s) }) {
				f.warn(cond.Pos, wording.Sprintf(
					"%s was asked before: people who answered it correctly can never take lead %s%s",
					plain.Quote(cond.Trait), c.ID, l.Letter),
					wording.Text("ask for another trait here, or leave the couplet out"))
			}
		}
	}
}

// A couplet near the start is lopsided when one lead takes more than this share
// of at least so many end points: most people answer it for nothing.
const (
	lopsidedShare = 11.0 / 12
	lopsidedEnds  = 12
	nearStart     = 3 // questions
)

// lopsided finds very uneven couplets among the first questions. Where the key
// says how common its animals are, a lead that takes few kinds may still take
// many animals, so both shares must be uneven.
func lopsided(f *finder) {
	if f.Sound == nil {
		return
	}
	for _, i := range f.early() {
		c := &f.Sound.Couplets[i]
		all := f.Sound.EndsBeneath(i)
		if all.Len() < lopsidedEnds {
			continue
		}
		for j := range c.Leads {
			under := f.Sound.EndsOf(&c.Leads[j])
			share := min(f.share(under, all, false), f.share(under, all, true))
			if share > lopsidedShare {
				f.warn(c.Leads[j].Pos, wording.Sprintf("lead %s%s takes %d of the %d end points here, so early in the key", c.ID,
					c.Leads[j].Letter, under.Len(), all.Len()), wording.Text("ask first what divides the animals more evenly"))
			}
		}
	}
}

// early are the places of the couplets that can be among the first questions.
func (f *finder) early() []int {
	var out []int
	level := []int{f.Sound.Place(f.Sound.Start)}
	for range nearStart {
		var next []int
		for _, i := range level {
			if slices.Contains(out, i) {
				continue
			}
			out = append(out, i)
			for _, l := range f.Sound.Couplets[i].Leads {
				if l.Next != "" {
					next = append(next, f.Sound.Place(l.Next))
				}
			}
		}
		level = next
	}
	return out
}

func (f *finder) share(some, all bitset.Set, weighted bool) float64 {
	if !weighted || f.Sound.Weights() == nil {
		return float64(some.Len()) / float64(all.Len())
	}
	weigh := func(set bitset.Set) float64 {
		sum := 0.0
		set.Each(func(end int) { sum += f.Sound.Weights()[f.Sound.Ends[end].ID] })
		return sum
	}
	return weigh(some) / max(weigh(all), 1e-12)
}

// neverReached finds taxa of the region that no path ends in, above or below.
func neverReached(f *finder) {
	if f.Sound == nil {
		return
	}
	ends, above := map[string]bool{}, map[string]bool{}
	for _, end := range f.Sound.Ends {
		ends[end.ID] = true
		for t := end; t != nil && !above[t.ID]; t = f.Catalog.Taxon(t.Parent) {
			above[t.ID] = true
		}
	}
	reached := func(id string) bool {
		for t := f.Catalog.Taxon(id); t != nil; t = f.Catalog.Taxon(t.Parent) {
			if ends[t.ID] {
				return true
			}
		}
		return above[id]
	}
	for _, r := range f.Region {
		if !reached(r.Taxon) {
			f.warn(r.Pos, wording.Sprintf("no path of the key ends in %s, in what holds it or in what it holds",
				plain.Quote(r.Taxon)), wording.Text("add a lead for it, or take it out of the region"))
		}
	}
}
