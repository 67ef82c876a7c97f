package draft

import (
	"rillkey/couplets/rules"
	"rillkey/taxa"
)

// LeadWords are what a couplet says.
type LeadWords struct {
	Ask, Wait string
	Text      [2]string // of leads a and b
	States    [2]uint64 // of the trait, as bits
	Swapped   bool      // lead a is side B of the node
}

// Side is the side of the node that a lead stands for.
func (w *LeadWords) Side(lead int) int {
	if w.Swapped {
		return 1 - lead
	}
	return lead
}

// generated are words made of the labels of states, and of what the table says.
func (w *writer) generated(t *taxa.Trait, n *Node) *LeadWords {
	out := generated(t, n, w.swapped[n])
	if ask := w.head.said[t.ID]; ask != "" {
		out.Ask = ask
	}
	if ask := w.head.Asks[t.ID]; ask != "" {
		out.Ask = ask
	}
	for i := range out.Text {
		if text := w.head.said[leadMark(t.ID, stateIDs(t, out.States[i]), stateIDs(t, out.States[1-i]))]; text != "" {
			out.Text[i] = text
		}
		if end := n.Below[out.Side(i)]; end.End() && len(end.Taxa) == 1 {
			if text := w.head.Ends[w.Table.Taxa[end.Taxa[0]].ID]; text != "" {
				out.Text[i] = text
			}
		}
	}
	return out
}

// generated are words made of the labels of states, to be edited.
func generated(t *taxa.Trait, n *Node, swapped bool) *LeadWords {
	w := &LeadWords{Ask: rules.DraftedAsk(t), States: [2]uint64{n.A, n.B}, Swapped: swapped}
	if swapped {
		w.States = [2]uint64{n.B, n.A}
	}
	if t.Look == taxa.Patience {
		w.Wait = t.How
	}
	for i := range w.Text {
		w.Text[i] = rules.DraftedLead(t, stateIDs(t, w.States[i]), stateIDs(t, w.States[1-i]))
	}
	return w
}
