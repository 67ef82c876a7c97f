package couplets

import (
	"slices"

	"rillkey/taxa"
	"rillkey/taxa/bitset"
)

// Sound is a key without errors: every lead goes somewhere, every end point can
// be reached, and no lead contradicts the traits of a taxon beneath it.
type Sound struct {
	*File
	// Ends are the taxa the key can end in, alone or with others that it cannot
	// tell from them, in the order of the file.
	Ends []*taxa.Taxon

	index   map[string]int // couplet id to its place
	ends    map[string]int // end point's id to its place
	reach   []bitset.Set
	topdown []int
	open    []bitset.Set
	table   *table
	weights map[string]float64 // by end point; nil where the file has none
}

// Couplet is the couplet with the id, or nil.
func (s *Sound) Couplet(id string) *Couplet {
	if i := s.Place(id); i >= 0 {
		return &s.Couplets[i]
	}
	return nil
}

// Place is the place of the couplet with the id among Couplets, or -1.
func (s *Sound) Place(id string) int {
	if i, ok := s.index[id]; ok {
		return i
	}
	return -1
}

// TopDown are the places of the couplets, each after all that lead to it. The
// caller must not change it.
func (s *Sound) TopDown() []int { return s.topdown }

// EndsBeneath are the end points, by their place in Ends, beneath the couplet at a
// place. The caller must not change it.
func (s *Sound) EndsBeneath(place int) bitset.Set { return s.reach[place] }

// EndsOf are the end points that a lead leads to.
func (s *Sound) EndsOf(l *Lead) bitset.Set {
	if l.Next != "" {
		return s.reach[s.index[l.Next]].Clone()
	}
	set := bitset.New(len(s.Ends))
	for _, id := range l.Taxa {
		set.Add(s.ends[id])
	}
	return set
}

// Shared are the sets of taxa that a lead ends in because the key cannot tell
// them apart, each once, in the order of the file.
func (s *Sound) Shared() []bitset.Set {
	var out []bitset.Set
	for _, l := range s.Leads() {
		if len(l.Taxa) < 2 {
			continue
		}
		set := s.EndsOf(l)
		if !slices.ContainsFunc(out, func(o bitset.Set) bool { return slices.Equal(o, set) }) {
			out = append(out, set)
		}
	}
	return out
}

// Shown are the end points that state anything of a trait, and those that can
// show each of its states, by their places in Ends. The caller must not change
// them.
func (s *Sound) Shown(trait *taxa.Trait) (known bitset.Set, shows []bitset.Set) {
	if c, ok := s.table.columns[trait.ID]; ok {
		return c.known, s.table.shows[c.first : c.first+len(trait.States)]
	}
	return shown(trait, s.Ends)
}

// Open reports whether an animal that arrives at the couplet at a place can have
// the state, going by the leads on any way there.
func (s *Sound) Open(place int, trait, state string) bool {
	c, ok := s.table.columns[trait]
	if !ok {
		return true
	}
	i := c.trait.State(state)
	return i >= 0 && s.open[place].Has(c.first+i)
}

// LeadsTo gives, by the id of a couplet, the leads that go to it, such as "4a", in
// the order of the file.
func (s *Sound) LeadsTo() map[string][]string {
	from := map[string][]string{}
	for c, l := range s.Leads() {
		if l.Next != "" {
			from[l.Next] = append(from[l.Next], c.ID+l.Letter)
		}
	}
	return from
}
