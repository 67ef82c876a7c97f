package scheme

import (
	"slices"

	"rillkey/scoring/chance"
	"rillkey/taxa"
)

// Why says for what cause animals are of no kind.
type Why string

// The causes.
const (
	WhySetAside     Why = "set aside"     // undecided
	WhyAmbiguous    Why = "open"          // its kind cannot be told from its name
	WhyNotScored    Why = "not scored"    // no macroinvertebrate, or never scored
	WhyNotListed    Why = "not listed"    // the scheme has no such kind
	WhyUnknownTaxon Why = "unknown taxon" // the catalog does not know the id
)

// Doubtful reports whether a better name could bring the animals in.
func (w Why) Doubtful() bool { return w == WhySetAside || w == WhyAmbiguous || w == WhyUnknownTaxon }

// None is the kind of what a scheme does not count.
const None = chance.None

// Placement is what a scheme makes of a name.
type Placement struct {
	Kind int   // in KindSet.Kinds, or None
	Why  Why   // why there is none; empty where there is one
	Open []int // kinds it may be, where Why is Open; not to be changed
	Sole bool  // with Open: all that the catalog has beneath the name is of one of these
}

// Place is the place of a taxon: the kind of the nearest listed taxon at or above
// it. Where taxa below it are listed for other kinds, its kind is open.
func (s *KindSet) Place(taxon string) Placement {
	if known, ok := s.placed.Load(taxon); ok {
		return known.(Placement)
	}
	p := s.find(taxon)
	if p.Why != WhyUnknownTaxon { // there is no end of names that nobody knows
		s.placed.Store(taxon, p)
	}
	return p
}

// PlaceNamed is the place of animals that have a name and a list of what they
// may be. A name that leaves their kind open is no hindrance where all that
// they may be beneath it is of one kind.
func (s *KindSet) PlaceNamed(taxon string, possible []string) Placement {
	named := s.Place(taxon)
	if named.Why != WhyAmbiguous {
		return named
	}
	one := None
	for _, id := range possible {
		if !s.catalog.IsUnder(id, taxon) {
			continue
		}
		p := s.Place(id)
		if p.Why != "" || one != None && p.Kind != one {
			return named
		}
		one = p.Kind
	}
	if one == None {
		return named
	}
	return Placement{Kind: one}
}

func (s *KindSet) find(taxon string) Placement {
	t := s.catalog.Taxon(taxon)
	if t == nil {
		return Placement{Kind: None, Why: WhyUnknownTaxon}
	}
	kind, open := s.open(taxon)
	switch {
	case len(open) > 0:
		return Placement{Kind: None, Why: WhyAmbiguous, Open: open, Sole: kind != None || s.holdsAll(taxon)}
	case kind != None:
		return Placement{Kind: kind}
	case t.Class == taxa.NotScored:
		return Placement{Kind: None, Why: WhyNotScored}
	}
	return Placement{Kind: None, Why: WhyNotListed}
}

// open is the kind of the nearest listed taxon, and all kinds that a taxon may be
// where that one is not the only one.
func (s *KindSet) open(taxon string) (kind int, open []int) {
	kind = s.Nearest(taxon)
	if k, listed := s.listed[taxon]; listed && s.Kinds[k].Whole {
		return k, nil
	}
	add := func(k int) {
		if k != kind && !slices.Contains(open, k) {
			open = append(open, k)
		}
	}
	for listed, k := range s.listed {
		if s.catalog.IsUnder(listed, taxon) {
			add(k)
		}
	}
	for holder, kinds := range s.holders {
		if s.catalog.IsUnder(holder, taxon) {
			for _, k := range kinds {
				add(k)
			}
		}
	}
	if len(open) > 0 && kind != None {
		open = append(open, kind)
	}
	slices.Sort(open)
	return kind, open
}

// holdsAll tells that every taxon of the catalog beneath one that holds none itself is of
// some kind.
func (s *KindSet) holdsAll(taxon string) bool {
	holder := map[string]bool{}
	for _, t := range s.catalog.Taxa() {
		holder[t.Parent] = true
	}
	for _, t := range s.catalog.Taxa() {
		if !holder[t.ID] && s.catalog.IsUnder(t.ID, taxon) && s.Nearest(t.ID) == None {
			return false
		}
	}
	return true
}

// Nearest is the kind of the nearest listed taxon at or above a taxon, or None.
func (s *KindSet) Nearest(taxon string) int {
	if k, ok := s.listed[taxon]; ok {
		return k
	}
	for _, up := range s.catalog.Ancestors(taxon) {
		if k, ok := s.listed[up.ID]; ok {
			return k
		}
	}
	return None
}
