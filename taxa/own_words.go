package taxa

import (
	"cmp"
	"maps"
	"slices"
	"strings"
	"unicode"

	"rillkey/taxa/authored"
)

// readInstead reads which words are said otherwise in a region, each in lower case.
func readInstead(top *authored.Table) map[string]string {
	t := top.Sub("instead")
	if t == nil {
		return nil
	}
	out := map[string]string{}
	for _, word := range t.Keys() {
		out[word] = t.NeedStr(word)
	}
	t.Done()
	return out
}

// ownWords are the words and phrases that a region says otherwise, each with its own,
// by their first word, the longest first.
type ownWords map[string][][2]string

func (r *Region) ownWords() ownWords {
	out := ownWords{}
	byLength := func(a, b string) int { return cmp.Or(len(b)-len(a), cmp.Compare(a, b)) }
	for _, words := range slices.SortedFunc(maps.Keys(r.instead), byLength) {
		first := words[:wordEnd(words, 0)]
		out[first] = append(out[first], [2]string{words, r.instead[words]})
	}
	return out
}

// say is a text with the region's own words in the place of others, where those stand
// whole.
func (own ownWords) say(text string) string {
	var said strings.Builder
	done := 0
	for at := 0; at < len(text); {
		end := wordEnd(text, at)
		if end == at {
			at++
			continue
		}
		if words, instead := own.beginning(text[at:], text[at:end]); words != "" {
			said.WriteString(text[done:at] + instead)
			end = at + len(words)
			done = end
		}
		at = end
	}
	if done == 0 {
		return text
	}
	return said.String() + text[done:]
}

// beginning is what a text begins with that is said otherwise, and how; word is its
// first word. It is empty where there is nothing.
func (own ownWords) beginning(text, word string) (words, instead string) {
	for _, w := range own[strings.ToLower(word)] {
		n := len(w[0])
		if n > len(text) || !strings.EqualFold(text[:n], w[0]) || n < len(text) && letter(text[n]) {
			continue
		}
		if unicode.IsUpper(rune(text[0])) {
			return text[:n], strings.ToUpper(w[1][:1]) + w[1][1:]
		}
		return text[:n], w[1]
	}
	return "", ""
}

// wordEnd is where the word ends that begins at a place of a text; that place where
// none does.
func wordEnd(text string, at int) int {
	for at < len(text) && letter(text[at]) {
		at++
	}
	return at
}

// letter reports whether a byte is of a letter; all beyond ASCII are taken for such.
func letter(b byte) bool { return b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' || b >= 0x80 }

// said is the vocabulary with its questions and labels in a region's words.
func (v *Vocabulary) said(own ownWords) *Vocabulary {
	out := &Vocabulary{index: v.index, same: v.same, similes: v.similes, comparisons: v.comparisons, traits: make([]*Trait, len(v.traits))}
	for i, t := range v.traits {
		said := *t
		said.Question, said.How, said.States = own.say(t.Question), own.say(t.How), slices.Clone(t.States)
		for j := range said.States {
			said.States[j].Label = own.say(said.States[j].Label)
		}
		out.traits[i] = &said
	}
	return out
}

// say puts what people read of a taxon into a region's words.
func (t *Taxon) say(own ownWords) {
	for _, text := range []*string{&t.Habit, &t.Habitat, &t.Feeding, &t.Handling} {
		*text = own.say(*text)
	}
	for i := range t.Mistaken {
		t.Mistaken[i].Tell = own.say(t.Mistaken[i].Tell)
	}
}

// said is the card in a region's words.
func (c *Card) said(own ownWords) *Card {
	said := *c
	for _, text := range []*string{&said.Marks[0].Words, &said.Marks[1].Words, &said.Life, &said.Food, &said.Tells, &said.Silent,
		&said.Months, &said.Try} {
		*text = own.say(*text)
	}
	return &said
}
