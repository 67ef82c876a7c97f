package rules

import (
	"fmt"

	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/taxset"
)

// lensPair finds pairs of end points that nothing seen without a lens tells
// apart for certain and that no lens set names.
func lensPair(f *finder) {
	if f.Sound == nil {
		return
	}
	ends := f.Sound.Ends
	places := map[string]int{}
	for i, t := range ends {
		places[t.ID] = i
	}
	fine := toldByEye(f.Catalog, ends)
	for _, set := range f.Sound.LensSets {
		for _, a := range set.Taxa {
			for _, b := range set.Taxa {
				fine[places[a]].Add(places[b])
			}
		}
	}
	firstLead := f.leadsTo()
	for i, a := range ends {
		for j, b := range ends[:i] {
			if f.full() {
				return
			}
			if !fine[i].Has(j) {
				f.warn(firstLead[a.ID], fmt.Sprintf("without a lens nothing tells %s from %s for certain", authored.Quote(a.ID), authored.Quote(b.ID)), fmt.Sprintf("give them a trait that the eye tells apart, or add [lens.%s-%s]", b.ID, a.ID))
			}
		}
	}
}

// needlessLens finds lens sets with taxa that need no lens.
func needlessLens(f *finder) {
	if f.Sound == nil {
		return
	}
	for _, set := range f.Sound.LensSets {
		for i, a := range set.Taxa {
			for _, b := range set.Taxa[:i] {
				apart := f.Catalog.TellApart(f.Catalog.Taxon(a), f.Catalog.Taxon(b))
				if len(apart) > 0 && apart[0].Look != taxa.Lens {
					f.warn(set.TaxaAt[i], fmt.Sprintf("%s and %s can be told apart without a lens", authored.Quote(b), authored.Quote(a)), "take one of them out of the set")
				}
			}
		}
	}
}

// toldByEye is, for each end point, the set of those that some trait seen
// without a lens tells it from for certain: both state it and share no state.
func toldByEye(catalog *taxa.Catalog, ends []*taxa.Taxon) []taxset.Set {
	told := make([]taxset.Set, len(ends))
	for i := range told {
		told[i] = taxset.New(len(ends))
	}
	for _, trait := range catalog.Vocabulary().Traits() {
		if trait.Look != taxa.Lens {
			addTold(told, trait, ends)
		}
	}
	return told
}

func addTold(told []taxset.Set, trait *taxa.Trait, ends []*taxa.Taxon) {
	known := taxset.New(len(ends))
	shows := make([]taxset.Set, len(trait.States))
	for s := range shows {
		shows[s] = taxset.New(len(ends))
	}
	for i, t := range ends {
		for _, w := range t.States(trait.ID) {
			known.Add(i)
			shows[trait.State(w.State)].Add(i)
		}
	}
	apart := map[string]taxset.Set{} // by the states shown, which many end points share
	for i, t := range ends {
		stated := t.States(trait.ID)
		if len(stated) == 0 {
			continue
		}
		var key []byte
		for _, w := range stated {
			key = append(append(key, w.State...), '/')
		}
		set := apart[string(key)]
		if set == nil {
			set = known.Clone()
			for _, w := range stated {
				for k, word := range shows[trait.State(w.State)] {
					set[k] &^= word
				}
			}
			apart[string(key)] = set
		}
		told[i].Or(set)
	}
}

// leadsTo is where the first lead goes to each end point.
func (f *finder) leadsTo() map[string]authored.Pos {
	out := map[string]authored.Pos{}
	for i := range f.Sound.Couplets {
		for _, l := range f.Sound.Couplets[i].Leads {
			if _, known := out[l.Taxon]; !known && l.Taxon != "" {
				out[l.Taxon] = l.TargetAt
			}
		}
	}
	return out
}
