package rules

import (
	"encoding/binary"
	"sync"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/bitset"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// lensPair finds pairs of end points that nothing seen without a lens tells
// apart for certain and that no lens set names.
func lensPair(f *finder) {
	if f.Sound == nil {
		return
	}
	ends := f.Sound.Ends
	fine := f.lensMates()
	eye := newEye(f.Sound, f.Catalog.Vocabulary().Asked())
	firstLead := sync.OnceValue(f.leadsTo)
	same := bitset.New(len(ends))
	for i, a := range ends {
		if f.full() {
			return
		}
		eye.alike(i, same)
		for _, set := range fine[a.ID] {
			same.AndNot(set)
		}
		same.Each(func(j int) {
			b := ends[j]
			f.warn(firstLead()[a.ID], wording.Sprintf("without a lens nothing tells %s from %s for certain", plain.Quote(a.ID),
				plain.Quote(b.ID)), wording.Sprintf("give them a trait that the eye tells apart, or add [lens.%s-%s]", b.ID, a.ID))
		})
	}
}

// lensMates are the lens sets, as end points, that each taxon is in, and the sets
// that share an end with it: those have their own warning.
func (f *finder) lensMates() map[string][]bitset.Set {
	places := make(map[string]int, len(f.Sound.Ends))
	for i, t := range f.Sound.Ends {
		places[t.ID] = i
	}
	in := map[string][]bitset.Set{}
	note := func(set bitset.Set) {
		set.Each(func(end int) { in[f.Sound.Ends[end].ID] = append(in[f.Sound.Ends[end].ID], set) })
	}
	for _, lens := range f.Sound.LensSets {
		set := bitset.New(len(f.Sound.Ends))
		for _, id := range lens.Taxa {
			set.Add(places[id])
		}
		note(set)
	}
	for _, set := range f.Sound.Shared() {
		note(set)
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
					f.warn(set.TaxaPos[i],
						wording.Sprintf("%s and %s can be told apart without a lens", plain.Quote(b), plain.Quote(a)),
						wording.Text("take one of them out of the set"))
				}
			}
		}
	}
}

// eye is what tells end points apart without a lens.
type eye []feature

// feature is one trait that is seen without a lens.
type feature struct {
	apart []bitset.Set // by what is shown: the end points that show none of it
	shows []int32      // what each end point shows, a place in apart; -1 is unknown
}

func newEye(sound *couplets.Sound, traits []*taxa.Trait) eye {
	var out eye
	for _, trait := range traits {
		if trait.Look != taxa.Lens {
			known, shows := sound.Shown(trait)
			out = append(out, newFeature(len(sound.Ends), known, shows))
		}
	}
	return out
}

// newFeature is a trait of so many end points: those that state anything of it,
// and those that show each of its states.
func newFeature(ends int, known bitset.Set, shows []bitset.Set) feature {
	f := feature{shows: make([]int32, ends)}
	places := map[string]int32{} // by the states shown, which many end points share
	var key []byte
	for i := range ends {
		f.shows[i] = -1
		if !known.Has(i) {
			continue
		}
		key = key[:0]
		for s, set := range shows {
			if set.Has(i) {
				key = binary.AppendUvarint(key, uint64(s))
			}
		}
		place, there := places[string(key)]
		if !there {
			place = int32(len(f.apart))
			places[string(key)] = place
			f.apart = append(f.apart, withoutEnd(known, shows, i))
		}
		f.shows[i] = place
	}
	return f
}

// withoutEnd is known less all that share a state with an end point.
func withoutEnd(known bitset.Set, shows []bitset.Set, end int) bitset.Set {
	set := known.Clone()
	for _, with := range shows {
		if with.Has(end) {
			set.AndNot(with)
		}
	}
	return set
}

// alike makes set the end points before the one at a place that no feature tells
// from it for certain: one of both is unknown, or they share a state.
func (e eye) alike(place int, set bitset.Set) {
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
		words.AndNot(f.apart[f.shows[place]])
	}
}

// leadsTo is where the first lead goes to each end point.
func (f *finder) leadsTo() map[string]authored.Pos {
	out := map[string]authored.Pos{}
	for _, l := range f.Sound.Leads() {
		for k, id := range l.Taxa {
			if _, known := out[id]; !known {
				out[id] = l.TaxaPos[k]
			}
		}
	}
	return out
}
