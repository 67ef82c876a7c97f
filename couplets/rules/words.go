package rules

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
	"unicode"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

//go:embed words.toml
var wordsTOML []byte

// words are the word lists of words.toml.
type words struct {
	empty map[string]bool
	hard  map[string]string // to what to say instead
}

var wordLists = sync.OnceValue(func() words {
	var report authored.Report
	w := words{map[string]bool{}, map[string]string{}}
	top := authored.Parse("words.toml", wordsTOML, &report)
	if top == nil {
		panic(report.Findings()) // the file is part of the program
	}
	for _, e := range top.Strs("empty") {
		w.empty[e] = true
	}
	hard := top.Sub("hard")
	for _, h := range hard.Keys() {
		w.hard[h] = hard.NeedStr(h)
	}
	return w
})

// eachWord calls see with the words of a text in lower case, until it returns
// false.
func eachWord(text string, see func(word string) bool) {
	start := -1
	for i, r := range text {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || r == '\'' || r == '’' {
			if start < 0 {
				start = i
			}
			continue
		}
		if start >= 0 && !see(strings.ToLower(text[start:i])) {
			return
		}
		start = -1
	}
	if start >= 0 {
		see(strings.ToLower(text[start:]))
	}
}

// onlyNegates finds leads whose text names no feature: "not as above".
func onlyNegates(f *finder) {
	empty := wordLists().empty
	for c, l := range f.File.Leads() {
		names := l.Text == ""
		eachWord(l.Text, func(w string) bool {
			names = names || !empty[w]
			return !names
		})
		if !names {
			f.warn(l.TextPos, wording.Sprintf("lead %s%s only says what it is not: %s", c.ID, l.Letter, plain.Quote(l.Text)),
				wording.Text("say what is seen instead, so that the lead can be read alone"))
		}
	}
}

// hardWord finds words that a beginner cannot know and the key does not explain.
func hardWord(f *finder) {
	hard := wordLists().hard
	f.texts(func(text string, at authored.Pos) {
		var told []string
		eachWord(text, func(w string) bool {
			say, is := hard[w]
			if _, explained := f.File.Glossary[w]; is && !explained && !slices.Contains(told, w) {
				told = append(told, w)
				f.warn(at, wording.Sprintf("a beginner does not know the word %s", plain.Quote(w)),
					wording.Sprintf("say %s, or explain it under [glossary]", plain.Quote(say)))
			}
			return true
		})
	})
}

// PlainWords is a text with plainer words for those that a beginner cannot know.
func PlainWords(text string) string {
	parts := strings.Fields(text)
	for i, w := range parts {
		if say, is := wordLists().hard[strings.ToLower(w)]; is {
			parts[i] = say
		}
	}
	return strings.Join(parts, " ")
}
