package question

import (
	"fmt"
	"slices"
	"strings"

	"rillkey/cmd/rillkey/ask/terminal"
	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
)

// few is how many kinds are still named one by one.
const few = 6

// kind says what a block of text is, for its place and its ink.
type kind int

const (
	title kind = iota
	advice
	lead  // a letter to answer with, and its text
	entry // a key, and what it does
	remark
)

// block is one paragraph, fit for a terminal. The mark stands before it.
type block struct {
	kind       kind
	mark, text string
}

// ask is the question that the walk stands at, in words. The walk must not have
// ended.
func ask(w *key.Walk) []block {
	c := w.Couplet()
	blocks := []block{{title, "", where(w) + ": " + terminal.Safe(c.Ask)}}
	if c.Wait != "" {
		blocks = append(blocks, block{advice, "Wait:", terminal.Safe(c.Wait)})
	}
	if n := needs(traits(w), c.Wait != ""); n != "" {
		blocks = append(blocks, block{advice, "Use:", n})
	}
	for _, l := range c.Leads {
		blocks = append(blocks, block{lead, l.Letter + ":", terminal.Safe(l.Text)})
	}
	blocks = append(blocks, block{remark, "", possible(w)})
	if w.Narrower() != nil {
		blocks = append(blocks, block{remark, "", "If you stop here (s): " + stopWords(w)})
	}
	return blocks
}

// where says which question this is.
func where(w *key.Walk) string {
	return fmt.Sprintf("Question %d (couplet %s)", w.Questions()+1, terminal.Safe(w.Couplet().ID))
}

// possible says how many kinds are left, and which when they are few.
func possible(w *key.Walk) string {
	left := w.Possible()
	count := fmt.Sprintf("%d kinds", len(left))
	if len(left) == 1 {
		count = "1 kind"
	}
	if len(left) == 0 || len(left) > few {
		return "Still possible: " + count + "."
	}
	names := make([]string, len(left))
	for i, t := range left {
		names[i] = terminal.Safe(t.Name())
	}
	return "Still possible, " + count + ": " + strings.Join(names, ", ") + "."
}

// stopWords says what stopping at this question would come to.
func stopWords(w *key.Walk) string {
	t := w.Narrower()
	if t == nil {
		return "it gets no name yet and is set aside for a second look."
	}
	return "it is named " + named(t) + "."
}

func named(t *taxa.Taxon) string {
	if t.Name() == t.Scientific {
		return terminal.Safe(t.Scientific)
	}
	name, scientific := terminal.Safe(t.Name()), terminal.Safe(t.Scientific)
	if strings.Contains(scientific, "(") {
		return name + ", " + scientific
	}
	return name + " (" + scientific + ")"
}

// traits are the traits that the leads speak of, in their order.
func traits(w *key.Walk) []*taxa.Trait {
	var out []*taxa.Trait
	for _, l := range w.Couplet().Leads {
		for _, c := range l.Conditions {
			t := w.Key().Catalog().Vocabulary().Trait(c.Trait)
			if t != nil && !slices.Contains(out, t) {
				out = append(out, t)
			}
		}
	}
	return out
}

// needs says what it takes beyond the naked eye, if anything; patience is left
// out where the advice to wait was given already.
func needs(ts []*taxa.Trait, advised bool) string {
	var lens, patience bool
	for _, t := range ts {
		lens = lens || t.Look == taxa.Lens
		patience = patience || t.Look == taxa.Patience && !advised
	}
	switch {
	case lens && patience:
		return "a hand lens, and patience until it moves."
	case lens:
		return "a hand lens."
	case patience:
		return "patience, until it moves."
	}
	return ""
}

// help says how to look, and what each key does. extra tells of keys that only
// a screen has.
func help(w *key.Walk, extra bool) []block {
	blocks := []block{{title, "", "How to look"}}
	for _, t := range traits(w) {
		text := terminal.Safe(t.Question + " " + t.How)
		if n := needs([]*taxa.Trait{t}, false); n != "" {
			text += " Use " + n
		} else {
			text += " Your eyes are enough."
		}
		blocks = append(blocks, block{remark, "", text})
	}
	blocks = append(blocks, block{title, "", "What you can answer"})
	for _, k := range keys(w) {
		text := k.long
		if extra {
			text += k.extra
		}
		blocks = append(blocks, block{entry, k.mark + ":", text})
	}
	if extra {
		blocks = append(blocks, block{entry, "arrows:", "move the page up and down. Page Up, Page Down, Home, End and the space bar work too."})
	}
	if path := w.Path(); len(path) > 0 {
		blocks = append(blocks, block{remark, "", "Your answers so far, with what follows from them: " + terminal.Safe(strings.Join(path, ", ")) + "."})
	}
	return blocks
}

// answerKey is a key, what it does in a word or two, and in a sentence.
type answerKey struct{ mark, short, long, extra string }

// keys are the keys that this question takes.
func keys(w *key.Walk) []answerKey {
	out := []answerKey{
		{listed(w.Couplet()), "choose", "the words that fit your animal. Read them all before you choose.", ""},
		{"?", "can't tell", "can't tell. That is a good answer: it rules nothing out, and the questions go on both ways.", ""},
	}
	if w.Questions() > 0 {
		out = append(out, answerKey{"<", "back", "back to the question before; your answer to it is taken away.", " Backspace and the left arrow do the same."})
	}
	stopShort := "stop here"
	if w.Narrower() == nil {
		stopShort = "set aside"
	}
	return append(out,
		answerKey{"h", "how to look", "how to look, and what you can answer.", ""},
		answerKey{"s", stopShort, "stop here: " + stopWords(w), ""},
		answerKey{"q", "leave", "leave without a name. Nothing of this animal is kept; what was saved stays saved.", " Ctrl-C does the same at once."})
}

// listed is the leads of a couplet in a sentence: "a or b".
func listed(c *couplets.Couplet) string {
	letters := make([]string, len(c.Leads))
	for i, l := range c.Leads {
		letters[i] = l.Letter
	}
	last := len(letters) - 1
	return strings.Join(letters[:last], ", ") + " or " + letters[last]
}
