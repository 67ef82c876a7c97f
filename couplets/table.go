package couplets

import (
	"slices"

	"rillkey/taxa"
	"rillkey/taxa/bitset"
)

// table is what the end points show of the traits that a key asks for, as sets:
// checking asks again and again for all end points of a branch at once.
type table struct {
	columns map[string]column
	shows   []bitset.Set // end points that state they can show a state, by its bit
}

// column is one trait of a table.
type column struct {
	trait *taxa.Trait
	first int        // bit of its first state
	known bitset.Set // end points that state anything of it
}

// newTable is the table of these end points and the traits that the key uses. A
// trait that the vocabulary lacks has no column.
func newTable(f *File, catalog *taxa.Catalog, ends []*taxa.Taxon) *table {
	t := &table{columns: map[string]column{}}
	for _, lead := range f.Leads() {
		for _, cond := range lead.Conditions {
			if _, there := t.columns[cond.Trait]; !there {
				if trait := catalog.Vocabulary().Trait(cond.Trait); trait != nil {
					t.add(trait, len(ends))
				}
			}
		}
	}
	for i, end := range ends { // all of one at once: to look up each trait in each takes longer
		for trait, states := range end.AllStates() {
			column, asked := t.columns[trait]
			if !asked {
				continue
			}
			for _, w := range states {
				column.known.Add(i)
				t.shows[column.first+column.trait.State(w.State)].Add(i)
			}
		}
	}
	return t
}

// add adds an empty column for so many end points.
func (t *table) add(trait *taxa.Trait, ends int) {
	t.columns[trait.ID] = column{trait: trait, first: len(t.shows), known: bitset.New(ends)}
	for range trait.States {
		t.shows = append(t.shows, bitset.New(ends))
	}
}

// shown are the end points that state anything of a trait, and those that can
// show each of its states.
func shown(trait *taxa.Trait, ends []*taxa.Taxon) (known bitset.Set, shows []bitset.Set) {
	known, shows = bitset.New(len(ends)), make([]bitset.Set, len(trait.States))
	for i := range shows {
		shows[i] = bitset.New(len(ends))
	}
	for i, end := range ends {
		for _, w := range end.States(trait.ID) {
			known.Add(i)
			shows[trait.State(w.State)].Add(i)
		}
	}
	return known, shows
}

// bits are the states as bits of an open set; unknown ones have none.
func (c column) bits(states []string) []int {
	out := make([]int, 0, len(states))
	for _, s := range states {
		if i := c.trait.State(s); i >= 0 {
			out = append(out, c.first+i)
		}
	}
	return out
}

// passing narrows open, the states that an animal can still have, to those that
// a lead accepts.
func (t *table) passing(open bitset.Set, l *Lead) bitset.Set {
	out := open.Clone()
	for _, cond := range l.Conditions {
		c, ok := t.columns[cond.Trait]
		if !ok {
			continue
		}
		closed := bitset.New(len(t.shows))
		for i, s := range c.trait.States {
			if !slices.Contains(cond.States, s.ID) {
				closed.Add(c.first + i)
			}
		}
		out.AndNot(closed)
	}
	return out
}
