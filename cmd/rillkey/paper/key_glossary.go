package paper

import (
	_ "embed"
	"html/template"
	"slices"
	"strings"
	"sync"
	"unicode"

	"github.com/BurntSushi/toml"

	"rillkey/cmd/rillkey/figure"
	"rillkey/couplets/rules"
	"rillkey/taxa/wording"
)

//go:embed glossary.toml
var glossaryTOML string

// term is a word with what it means; its figure, if any, is that of a state of
// a trait.
type term struct {
	Words  []string
	Means  string
	Figure []string
}

var plainTerms = sync.OnceValue(func() map[string]term {
	terms := map[string]term{}
	if _, err := toml.Decode(glossaryTOML, &terms); err != nil {
		panic(err) // the file is part of the program
	}
	return terms
})

// wordFigure is the size of a drawing in the glossary, in mm.
var wordFigure = figure.Size{Width: 20, Height: 14}

// glossary explains the words that the page has used: as the key does, else as
// the trade's plain words go, else as this program explains plain ones.
func (k *keyPage) glossary() {
	terms := k.terms()
	if len(terms) == 0 {
		return
	}
	k.Section(wording.Text("What the words mean"))
	var words []word
	for _, t := range terms {
		w := word{Word: t.Words[0], Means: oneLine(t.Means)}
		if len(t.Figure) == 2 {
			if f, ok := k.atlas.State(t.Figure[0], t.Figure[1]); ok {
				w.Drawing = template.HTML(f.SVG(wordFigure))
			}
		}
		words = append(words, w)
	}
	k.put("glossary", words)
	k.End()
}

// word is a term as it is printed.
type word struct {
	Word, Means string
	Drawing     template.HTML
}

// terms are the words used that there is an explanation for, by the alphabet; the
// first word of each is one that is used.
func (k *keyPage) terms() []term {
	text := spaced(k.said.String())
	var out []term
	known := map[string]bool{}
	add := func(t term) {
		used := slices.IndexFunc(t.Words, func(w string) bool { return strings.Contains(text, spaced(w)) })
		if used < 0 || slices.ContainsFunc(t.Words, func(w string) bool { return known[w] }) {
			return
		}
		for _, w := range t.Words {
			known[w] = true
		}
		t.Words = t.Words[used:]
		out = append(out, t)
	}
	for word, means := range k.sound.Glossary {
		add(term{Words: []string{word}, Means: means})
	}
	for _, t := range plainTerms() {
		add(t)
	}
	for _, word := range strings.Fields(text) {
		if means := rules.PlainWords(word); means != word {
			add(term{Words: []string{word}, Means: means})
		}
	}
	slices.SortFunc(out, func(a, b term) int { return strings.Compare(a.Words[0], b.Words[0]) })
	return out
}

// spaced is a text in lower case, its words parted by single blanks and blanks
// around it, so that whole words are found in it.
func spaced(text string) string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	return " " + strings.Join(words, " ") + " "
}
