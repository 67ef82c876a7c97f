package wording

import (
	"cmp"
	"strings"
	"unicode"
	"unicode/utf8"

	"rillkey/taxa/sorting"
)

// replacer puts words in the place of others where they stand whole, the longest
// phrase first. Verbs of a format and actions of a page's template are left alone.
type replacer map[string][]phrase // by their first word, in lower case

// phrase is words that are said otherwise, and how.
type phrase struct{ words, instead string }

func newReplacer(instead map[string]string) replacer {
	r := replacer{}
	for words, instead := range instead {
		words = strings.ToLower(words)
		first := words[:wordEnd(words)]
		r[first] = append(r[first], phrase{words, instead})
	}
	for _, some := range r {
		sorting.Stable(some, func(a, b phrase) int { return cmp.Or(len(b.words)-len(a.words), cmp.Compare(a.words, b.words)) })
	}
	return r
}

func (r replacer) replace(text string) string {
	var b strings.Builder
	done, at := 0, 0
	for at < len(text) {
		n, instead := r.beginning(text[at:])
		if instead == "" || isTyped(text, at, at+n) {
			at += n
			continue
		}
		if first, _ := utf8.DecodeRuneInString(text[at:]); unicode.IsUpper(first) {
			instead = capital(instead)
		}
		b.WriteString(text[done:at] + instead)
		at += n
		done = at
	}
	if done == 0 {
		return text
	}
	return b.String() + text[done:]
}

// beginning is how much of a text, which does not begin within a word, belongs
// together, and what is said instead of that; empty where it stays.
func (r replacer) beginning(text string) (n int, instead string) {
	if n := valueEnd(text); n > 0 {
		return n + wordEnd(text[n:]), ""
	}
	n = wordEnd(text)
	if n == 0 {
		_, n = utf8.DecodeRuneInString(text)
		return n, ""
	}
	for _, p := range r[strings.ToLower(text[:n])] {
		if end := phraseEnd(text, p.words); end > 0 && wordEnd(text[end:]) == 0 {
			return end, p.instead
		}
	}
	return n, ""
}

// valueEnd is where the action or the verb ends that a text begins with; 0 where none does.
func valueEnd(text string) int {
	if strings.HasPrefix(text, "{{") {
		return max(0, strings.Index(text, "}}")+len("}}"))
	}
	if !strings.HasPrefix(text, "%") {
		return 0
	}
	end := 1
	for end < len(text) && strings.IndexByte("-+# 0123456789.[]*", text[end]) >= 0 {
		end++
	}
	if end == len(text) || !isASCIILetter(text[end]) {
		return 0
	}
	return end + 1
}

func isASCIILetter(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' }

// phraseEnd is where words, in lower case, end that a text begins with in whatever case
// and with whatever blanks between them; 0 where it does not.
func phraseEnd(text, words string) int {
	at := 0
	for _, want := range words {
		if want == ' ' {
			rest := strings.TrimLeft(text[at:], " \t\n\f\r")
			if len(rest) == len(text)-at {
				return 0
			}
			at = len(text) - len(rest)
			continue
		}
		r, n := utf8.DecodeRuneInString(text[at:])
		if n == 0 || unicode.ToLower(r) != want {
			return 0
		}
		at += n
	}
	return at
}

// wordEnd is where the word ends that a text begins with; 0 where none does.
func wordEnd(text string) int {
	for i, r := range text {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			return i
		}
	}
	return len(text)
}

// isTyped reports whether a part of a text is typed as it stands: of a flag, or a name in
// quotation marks.
func isTyped(text string, from, to int) bool {
	return strings.HasSuffix(text[:from], "-") || strings.HasSuffix(text[:from], `"`) && strings.HasPrefix(text[to:], `"`)
}

func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}
