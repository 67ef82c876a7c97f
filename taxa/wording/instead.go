package wording

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// replacer puts words in the place of others where they stand whole, the longest
// phrase first. Verbs of a format and actions of a page's template are left alone.
type replacer struct {
	find *regexp.Regexp
	by   map[string]string // in lower case
}

func newReplacer(instead map[string]string) *replacer {
	r := &replacer{by: map[string]string{}}
	var phrases []string
	for from, to := range instead {
		phrases = append(phrases, from)
		r.by[strings.ToLower(from)] = to
	}
	slices.SortFunc(phrases, func(a, b string) int { return cmp.Or(len(b)-len(a), cmp.Compare(a, b)) })
	for i, p := range phrases {
		phrases[i] = strings.ReplaceAll(regexp.QuoteMeta(p), " ", `\s+`)
	}
	r.find = regexp.MustCompile(`\{\{.*?\}\}|%[-+# 0-9.\[\]*]*[a-zA-Z]|(?i:` + strings.Join(phrases, "|") + `)`)
	return r
}

func (r *replacer) replace(text string) string {
	var b strings.Builder
	at := 0
	for _, m := range r.find.FindAllStringIndex(text, -1) {
		found := text[m[0]:m[1]]
		by, ok := r.by[strings.ToLower(strings.Join(strings.Fields(found), " "))]
		if !ok || !bounded(text, m[0], m[1]) {
			continue
		}
		if first, _ := utf8.DecodeRuneInString(found); unicode.IsUpper(first) {
			by = capital(by)
		}
		b.WriteString(text[at:m[0]] + by)
		at = m[1]
	}
	return b.String() + text[at:]
}

// bounded reports whether no letter or digit adjoins a part of a text.
func bounded(text string, from, to int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:from])
	after, _ := utf8.DecodeRuneInString(text[to:])
	return !wordly(before) && !wordly(after)
}

func wordly(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}
