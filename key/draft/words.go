package draft

import (
	"rillkey/couplets/rules"
	"rillkey/taxa"
)

// LeadWords are what a couplet says.
type LeadWords struct {
	Ask, Wait string
	Text      []string // of leads a, b and so on
	States    []uint64 // of the trait, as bits
	Sides     []int    // the side of the node that each lead stands for
}

// generated are words made of the labels of states, and of what the table says.
func (w *writer) generated(t *taxa.Trait, n *Node) *LeadWords {
	out := generated(t, n, w.order[n])
	if ask := w.head.Asks[t.ID]; ask != "" {
		out.Ask = ask
	}
	for i := range out.Text {
		if end := n.Children[out.Sides[i]]; end.End() && len(end.Taxa) == 1 {
			if text := w.head.Ends[w.Table.Taxa[end.Taxa[0]].ID]; text != "" {
				out.Text[i] = text
			}
		}
	}
	return out
}

// generated are words made of the labels of states, to be edited; the sides of the
// node in an order, or as they are.
func generated(t *taxa.Trait, n *Node, order []int) *LeadWords {
	w := &LeadWords{Ask: rules.DraftedAsk(t), Sides: order}
	if t.Look == taxa.Patience {
		w.Wait = t.How
	}
	for side := range n.Sides {
		if order == nil {
			w.Sides = append(w.Sides, side)
		}
		w.States = append(w.States, n.Sides[w.Sides[side]])
	}
	for i, states := range w.States {
		w.Text = append(w.Text, rules.DraftedLead(t, stateIDs(t, states), stateIDs(t, others(w.States, i))))
	}
	return w
}

// others are the states of all leads but one.
func others(of []uint64, lead int) uint64 {
	all := uint64(0)
	for i, states := range of {
		if i != lead {
			all |= states
		}
	}
	return all
}
