package draft

import (
	"fmt"
	"math/bits"
	"slices"
	"strings"
	"unicode/utf8"

	"rillkey/couplets/rules"
	"rillkey/taxa"
	"rillkey/taxa/plain"
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

// generated are words made of the labels of states, to be edited.
func generated(t *taxa.Trait, n *Node) *LeadWords {
	w := &LeadWords{Ask: plain.Capital(rules.PlainWords(strings.ReplaceAll(t.ID, "-", " "))), States: [2]uint64{n.A, n.B}}
	if t.Look == taxa.Patience {
		w.Wait = t.How
	}
	for i := range w.Text {
		w.Text[i] = lead(t, w.States[i], w.States[1-i])
	}
	return w
}

// longest is the most characters of a lead's text: two lines of 60 columns, less
// what the break between words may cost.
const longest = 100

// lead is what a lead says: the labels of its states, or, where they are too
// many to read, what it is not.
func lead(t *taxa.Trait, states, others uint64) string {
	own, other := labels(t, states), labels(t, others)
	text := joined(own)
	if utf8.RuneCountInString(text) <= longest {
		return plain.Capital(text) + "."
	}
	if text = "other than these: " + joined(other); utf8.RuneCountInString(text) <= longest {
		return plain.Capital(text) + "."
	}
	for n := len(own) - 1; n > 0; n-- {
		text = fmt.Sprintf("%s; or one of %d more", strings.Join(own[:n], "; "), len(own)-n)
		if utf8.RuneCountInString(text) <= longest {
			return plain.Capital(text) + "."
		}
	}
	return plain.Capital(string([]rune(own[0])[:min(longest, utf8.RuneCountInString(own[0]))])) + "…"
}

func labels(t *taxa.Trait, states uint64) []string {
	var out []string
	for ; states != 0; states &= states - 1 {
		out = append(out, t.States[bits.TrailingZeros64(states)].Label)
	}
	return out
}

// joined is labels as one phrase. Those of a spreadsheet all begin with the name
// of their column, which is said once.
func joined(words []string) string {
	words = slices.Clone(words)
	column, _, named := strings.Cut(words[0], ": ")
	if named = named && !slices.ContainsFunc(words, func(w string) bool { return !strings.HasPrefix(w, column+": ") }); named {
		for i := range words[1:] {
			words[i+1] = strings.TrimPrefix(words[i+1], column+": ")
		}
	}
	last := len(words) - 1
	switch {
	case last == 0:
		return words[0]
	case !named || strings.ContainsAny(strings.Join(words, ""), ",;"):
		return strings.Join(words[:last], "; ") + "; or " + words[last]
	}
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
