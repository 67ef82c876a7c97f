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

// ownWords are the words that a region says otherwise, each with its own, the longest
// first.
type ownWords [][2]string

func (r *Region) ownWords() (out ownWords) {
	byLength := func(a, b string) int { return cmp.Or(len(b)-len(a), cmp.Compare(a, b)) }
	for _, word := range slices.SortedFunc(maps.Keys(r.instead), byLength) {
		out = append(out, [2]string{word, r.instead[word]}, [2]string{capital(word), capital(r.instead[word])})
	}
	return out
}

func capital(word string) string { return strings.ToUpper(word[:1]) + word[1:] }

// say is a text with the region's own words in the place of others, where those stand
// whole.
func (own ownWords) say(text string) string {
	for _, w := range own {
		for from := 0; ; {
			i := strings.Index(text[from:], w[0])
			if i < 0 {
				break
			}
			from += i + len(w[0])
			if start := from - len(w[0]); wordEnds(text, start-1) && wordEnds(text, from) {
				text = text[:start] + w[1] + text[from:]
				from = start + len(w[1])
			}
		}
	}
	return text
}

// wordEnds reports whether no letter stands at a place of a text.
func wordEnds(text string, at int) bool {
	return at < 0 || at >= len(text) || !unicode.IsLetter(rune(text[at]))
}

// said is the vocabulary with its questions and labels in a region's words.
func (v *Vocabulary) said(own ownWords) *Vocabulary {
	out := &Vocabulary{index: v.index, same: v.same, traits: make([]*Trait, len(v.traits))}
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
