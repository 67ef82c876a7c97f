package taxa

import (
	"maps"
	"slices"
	"strings"
	"unicode"

	"rillkey/taxa/authored"
)

// readSpelling reads which words are written otherwise in a region, each in lower case.
func readSpelling(top *authored.Table) map[string]string {
	t := top.Sub("spelling")
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

// spelling are the words that a region writes otherwise, each with its own.
type spelling [][2]string

// respelled are the region's, by the alphabet.
func (r *Region) respelled() (out spelling) {
	for _, word := range slices.Sorted(maps.Keys(r.spelling)) {
		out = append(out, [2]string{word, r.spelling[word]}, [2]string{capital(word), capital(r.spelling[word])})
	}
	return out
}

func capital(word string) string { return strings.ToUpper(word[:1]) + word[1:] }

// spell is a text with whole words in the region's spelling.
func (s spelling) spell(text string) string {
	for _, w := range s {
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

// spelled is the vocabulary with its questions and labels in another spelling.
func (v *Vocabulary) spelled(as spelling) *Vocabulary {
	out := &Vocabulary{index: v.index, same: v.same, traits: make([]*Trait, len(v.traits))}
	for i, t := range v.traits {
		own := *t
		own.Question, own.How, own.States = as.spell(t.Question), as.spell(t.How), slices.Clone(t.States)
		for j := range own.States {
			own.States[j].Label = as.spell(own.States[j].Label)
		}
		out.traits[i] = &own
	}
	return out
}

// spell puts what people read of a taxon into another spelling.
func (t *Taxon) spell(as spelling) {
	for _, text := range []*string{&t.Habit, &t.Habitat, &t.Feeding, &t.Handling} {
		*text = as.spell(*text)
	}
	for i := range t.Mistaken {
		t.Mistaken[i].Tell = as.spell(t.Mistaken[i].Tell)
	}
}
