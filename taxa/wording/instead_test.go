package wording_test

import (
	"regexp"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"rillkey/taxa/language"
	"rillkey/taxa/wording"
)

var american = map[string]string{"colour": "color", "coloured": "colored", "grey": "gray", "metre": "meter",
	"practise": "practice", "autumn": "fall", "stream": "brook", "stream bed": "bottom of the brook", "net": "sieve",
	"d": "a letter", "per cent of": "out of 100 in", "Bäche": "Gräben"}

func TestWordsAreSaidInstead(t *testing.T) {
	t.Parallel()
	c := &wording.Translation{Instead: american}
	for text, want := range map[string]string{
		"Grey, or of no colour.":               "Gray, or of no color.",
		"colourless greyish":                   "colourless greyish",
		"the stream bed; the stream":           "the bottom of the brook; the brook",
		"Stream\n beds, stream  bed":           "Brook\n beds, bottom of the brook",
		"net-spinners and nets":                "sieve-spinners and nets",
		"%d of %s, %5.1f metre, 5 % d":         "%d of %s, %5.1f meter, 5 % d",
		"%dgrey %[2]d":                         "%dgrey %[2]d",
		"{{.stream}} {{stream}} stream {{grey": "{{.stream}} {{stream}} brook {{gray",
		"100%":                                 "100%",
		"BÄCHE, Bäche":                         "Gräben, Gräben",
		"3 per\tcent of them":                  "3 out of 100 in them",
		"":                                     "",
	} {
		if got := c.Text(text); got != want {
			t.Errorf("%q is said as %q, want %q", text, got, want)
		}
	}
}

// What is said instead in the program's own sentences is what a regular expression finds.
func TestWordsSaidInsteadAreThoseThatARegularExpressionFinds(t *testing.T) {
	t.Parallel()
	c := &wording.Translation{Instead: american}
	find := regexp.MustCompile(`\{\{.*?\}\}|%[-+# 0-9.\[\]*]*[a-zA-Z]|(?i:stream\s+bed|per\s+cent\s+of|practise|coloured|` +
		`autumn|colour|stream|metre|grey|Bäche|net|d)`)
	wordly := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
	changed := 0
	for _, text := range language.Sentences() {
		want, at := "", 0
		for _, m := range find.FindAllStringIndex(text, -1) {
			by := american[strings.ToLower(strings.Join(strings.Fields(text[m[0]:m[1]]), " "))]
			before, _ := utf8.DecodeLastRuneInString(text[:m[0]])
			after, _ := utf8.DecodeRuneInString(text[m[1]:])
			if by == "" || wordly(before) || wordly(after) {
				continue
			}
			if unicode.IsUpper(rune(text[m[0]])) {
				by = strings.ToUpper(by[:1]) + by[1:]
			}
			want, at = want+text[at:m[0]]+by, m[1]
		}
		if want += text[at:]; c.Text(text) != want {
			t.Errorf("%q is said as %q, want %q", text, c.Text(text), want)
		} else if want != text {
			changed++
		}
	}
	if changed < 20 {
		t.Errorf("%d sentences have any of the words", changed)
	}
}
