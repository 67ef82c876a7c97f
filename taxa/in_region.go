package taxa

import (
	"slices"
	"sync"
)

// Regions are the regions of the catalog, in the order of their ids.
func (c *Catalog) Regions() []*Region { return c.regions }

// RegionNamed is the catalog's region with the id, or nil.
func (c *Catalog) RegionNamed(id string) *Region {
	for _, r := range c.regions {
		if r.ID == id {
			return r
		}
	}
	return nil
}

// OnlyRegion is the one region that follows a protocol; nil where several do, or
// none.
func OnlyRegion(all []*Region, protocol string) *Region {
	return only(all, func(r *Region) bool { return slices.Contains(r.Protocols, protocol) })
}

// OnlyRegionOfKey is the one region whose key has the id; nil where several share it, or none
// has it.
func OnlyRegionOfKey(all []*Region, key string) *Region {
	return only(all, func(r *Region) bool { return r.Key == key })
}

func only(all []*Region, is func(*Region) bool) (only *Region) {
	for _, r := range all {
		switch {
		case !is(r):
		case only != nil:
			return nil
		default:
			only = r
		}
	}
	return only
}

// UsualProtocol is the id of the protocol that is followed in the region where nobody names
// one, its first; empty where it names none. The region may be nil.
func (r *Region) UsualProtocol() string {
	if r == nil || len(r.Protocols) == 0 {
		return ""
	}
	return r.Protocols[0]
}

// Region is the region that the catalog is seen from, nil for none.
func (c *Catalog) Region() *Region { return c.region }

// Base is the catalog as it was read, whatever region it is seen from.
func (c *Catalog) Base() *Catalog {
	if c.base != nil {
		return c.base
	}
	return c
}

// InRegion is the catalog as a region has it: its names first, its words, its tolerance classes,
// look-alikes among its own animals only, and what is foreign or protected there.
// Without a region it is the catalog as it was read.
func (c *Catalog) InRegion(r *Region) *Catalog {
	c = c.Base()
	if r == nil {
		return c
	}
	held, own := r.held(c), r.ownWords()
	v := c.copied(func(t *Taxon) {
		t.Mistaken = slices.DeleteFunc(slices.Clone(t.Mistaken), func(m Mistaken) bool { return !held[m.Taxon] })
		t.Invader, t.Protected = c.concern(r.invaders, t.ID), c.concern(r.protected, t.ID)
		if len(own) > 0 {
			t.say(own)
		}
	})
	if len(own) > 0 {
		v.vocabulary = c.vocabulary.said(own)
		v.cards = sync.OnceValue(func() (said []*Card) {
			for _, card := range c.cards() {
				said = append(said, card.said(own))
			}
			return said
		})
	}
	v.region = r
	for _, x := range r.called {
		t := v.index[x.taxon]
		others := slices.DeleteFunc(slices.Clone(t.Common), func(name string) bool { return slices.Contains(x.names, name) })
		t.Common = append(slices.Clone(x.names), others...)
	}
	if len(r.classes) > 0 {
		v.classify(r)
	}
	return v
}

// Classed is the catalog with other tolerance classes: those that class gives, and
// where they come from. Where it gives none the class stays.
func (c *Catalog) Classed(source string, class func(taxon string) (Class, bool)) *Catalog {
	v := c.copied(func(t *Taxon) {
		if to, ok := class(t.ID); ok {
			t.Class, t.ClassSource = to, source
		}
	})
	v.region = c.region
	return v
}

// copied is a catalog whose taxa are changed copies.
func (c *Catalog) copied(change func(*Taxon)) *Catalog {
	v := &Catalog{vocabulary: c.vocabulary, index: make(map[string]*Taxon, len(c.taxa)), former: c.former, regions: c.regions,
		cards: c.cards, base: c.Base()}
	v.taxa = make([]*Taxon, len(c.taxa))
	for i, t := range c.taxa {
		own := *t
		change(&own)
		v.taxa[i], v.index[t.ID] = &own, &own
	}
	v.raise()
	v.names = sync.OnceValue(v.namings)
	return v
}

// concern is the one stated for the nearest taxon at or above id.
func (c *Catalog) concern(stated map[string]*Concern, id string) *Concern {
	if x := stated[id]; x != nil {
		return x
	}
	for _, up := range c.Ancestors(id) {
		if x := stated[up.ID]; x != nil {
			return x
		}
	}
	return nil
}

// classify gives the animals the classes of the region: the nearest that it states
// at or above, else the one that all its animals beneath share, else none. What
// counts nowhere counts not here either.
func (c *Catalog) classify(r *Region) {
	own := make(map[string]Class, len(c.taxa))
	for _, t := range c.taxa {
		own[t.ID] = c.statedClass(r, t)
	}
	for _, t := range c.taxa {
		class := own[t.ID]
		if class == "" {
			class = c.sharedClass(r, t.ID, own)
		}
		t.Class, t.ClassSource = class, r.classSource
	}
}

func (c *Catalog) statedClass(r *Region, t *Taxon) Class {
	if class, ok := r.classes[t.ID]; ok {
		return class
	}
	for _, up := range c.Ancestors(t.ID) {
		if class, ok := r.classes[up.ID]; ok {
			return class
		}
	}
	if t.Class == NotScored {
		return NotScored
	}
	return ""
}

// sharedClass is the class that all animals of a region beneath a taxon share.
func (c *Catalog) sharedClass(r *Region, taxon string, own map[string]Class) (shared Class) {
	for i, x := range slices.DeleteFunc(slices.Clone(r.Taxa), func(x Resident) bool { return !c.IsUnder(x.Taxon, taxon) }) {
		if i > 0 && own[x.Taxon] != shared {
			return ""
		}
		shared = own[x.Taxon]
	}
	return shared
}
