package draft

import (
	"math/bits"
	"slices"
)

// Inseparable is taxa that share an end, because nothing in the table tells them apart
// for certain.
type Inseparable struct {
	Taxa []string `json:"taxa"`
	Help []Help   `json:"help"`
}

// Help is a trait that would tell some of the taxa apart if more were known.
type Help struct {
	Trait string `json:"trait"`
	// Unknown are the taxa that the table says nothing of; without any, all
	// state it and share a state.
	Unknown []string `json:"unknown,omitempty"`
}

// mostHelp is how many traits are proposed.
const mostHelp = 6

// Inseparable are the sets of taxa that share an end, each set once.
func (d *Draft) Inseparable() []Inseparable {
	var out []Inseparable
	d.Each(func(n *Node, _ int) {
		if !n.End() || len(n.Taxa) < 2 {
			return
		}
		s := Inseparable{Help: d.Table.help(n.Taxa)}
		for _, t := range n.Taxa {
			s.Taxa = append(s.Taxa, d.Table.Taxa[t].ID)
		}
		if !slices.ContainsFunc(out, func(o Inseparable) bool { return slices.Equal(o.Taxa, s.Taxa) }) {
			out = append(out, s)
		}
	})
	return out
}

// help is the traits that would help, easiest first, those that are unknown for
// a taxon before those in which all are alike.
func (t *TraitTable) help(places []int) []Help {
	var unknown, alike []Help
	order := make([]int, len(t.Traits))
	for j := range order {
		order[j] = j
	}
	slices.SortStableFunc(order, func(a, b int) int { return int(1000 * (t.Traits[a].Effort - t.Traits[b].Effort)) })
	for _, j := range order {
		h := Help{Trait: t.Traits[j].ID}
		varies := false
		for _, p := range places {
			states := t.stated(p, j)
			if states == 0 {
				h.Unknown = append(h.Unknown, t.Taxa[p].ID)
			}
			varies = varies || bits.OnesCount64(states) > 1
		}
		switch {
		case len(h.Unknown) > 0 && len(h.Unknown) < len(places):
			unknown = append(unknown, h)
		case len(h.Unknown) == 0 && varies:
			alike = append(alike, h)
		}
	}
	all := append(unknown, alike...)
	return all[:min(len(all), mostHelp)]
}
