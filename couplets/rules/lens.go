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
	fine := f.lensMates()
	eye := newEye(f.Catalog, ends)
	firstLead := f.leadsTo()
	same := taxset.New(len(ends))
	for i, a := range ends {
		if f.full() {
			return
		}
		eye.alike(i, same)
		for _, set := range fine[a.ID] {
			for k, word := range set {
				same[k] &^= word
			}
		}
		same.Each(func(j int) {
			b := ends[j]
			f.warn(firstLead[a.ID], fmt.Sprintf("without a lens nothing tells %s from %s for certain", authored.Quote(a.ID), authored.Quote(b.ID)), fmt.Sprintf("give them a trait that the eye tells apart, or add [lens.%s-%s]", b.ID, a.ID))
		})
	}
}

// lensMates are the lens sets, as end points, that each taxon is in.
func (f *finder) lensMates() map[string][]taxset.Set {
	places := make(map[string]int, len(f.Sound.Ends))
	for i, t := range f.Sound.Ends {
		places[t.ID] = i
	}
	in := map[string][]taxset.Set{}
	for _, lens := range f.Sound.LensSets {
		set := taxset.New(len(f.Sound.Ends))
		for _, id := range lens.Taxa {
			if !set.Has(places[id]) {
				set.Add(places[id])
			}
		}
		set.Each(func(end int) {
			id := f.Sound.Ends[end].ID
			in[id] = append(in[id], set)
		})
	}
	return in
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

// eye is what tells end points apart without a lens.
type eye []feature

// feature is one trait that is seen without a lens.
type feature struct {
	apart []taxset.Set // by what is shown: the end points that show none of it
	shows []int32      // what each end point shows, a place in apart; -1 is unknown
}

func newEye(catalog *taxa.Catalog, ends []*taxa.Taxon) eye {
	var out eye
	for _, trait := range catalog.Vocabulary().Traits() {
		if trait.Look != taxa.Lens {
			out = append(out, newFeature(trait, ends))
		}
	}
	return out
}

func newFeature(trait *taxa.Trait, ends []*taxa.Taxon) feature {
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
	f := feature{shows: make([]int32, len(ends))}
	places := map[string]int32{} // by the states shown, which many end points share
	var key []byte
	for i, t := range ends {
		key = key[:0]
		for _, w := range t.States(trait.ID) {
			key = append(append(key, w.State...), '/')
		}
		place, there := places[string(key)]
		switch {
		case len(key) == 0:
			place = -1
		case !there:
			place = int32(len(f.apart))
			places[string(key)] = place
			f.apart = append(f.apart, without(known, shows, trait, t))
		}
		f.shows[i] = place
	}
	return f
}

// without is known less all that share a state of the trait with t.
func without(known taxset.Set, shows []taxset.Set, trait *taxa.Trait, t *taxa.Taxon) taxset.Set {
	set := known.Clone()
	for _, w := range t.States(trait.ID) {
		for k, word := range shows[trait.State(w.State)] {
			set[k] &^= word
		}
	}
	return set
}

// alike makes set the end points before the one at a place that no feature tells
// from it for certain: one of both is unknown, or they share a state.
func (e eye) alike(place int, set taxset.Set) {
	clear(set)
	words := set[:(place+63)/64]
	for k := range words {
		words[k] = ^uint64(0)
	}
	if rest := place % 64; rest > 0 {
		words[len(words)-1] = 1<<rest - 1
	}
	for _, f := range e {
		if f.shows[place] < 0 {
			continue
		}
		apart := f.apart[f.shows[place]]
		for k := range words {
			words[k] &^= apart[k]
		}
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
