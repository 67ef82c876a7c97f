package wording

import (
	"html"
	"strings"

	"rillkey/taxa/pattern"
)

// piece is a part of a template: a tag with its attributes, an action that decides or
// names, or nothing of these: text with the values in it.
var piece = pattern.New(
	`(?s)<style.*?</style>|<!--.*?-->|<(?:\{\{.*?\}\}|[^>{]|\{[^{])*>` +
		`|\{\{-?\s*(?:if|else|end|range|with|template|define|block|/\*|"").*?\}\}`)

// worded are attributes that people read or hear.
var worded = pattern.New(`((?:aria-label|alt|title)=")([^"]+)(")`)

// letters are what makes a piece of text a sentence.
var letters = pattern.New(`\pL{2}`)

var action = pattern.New(`\{\{.*?\}\}`)

// Markup is the source of an HTML template with the sentences between its tags in
// the language in use. Values within a sentence stay what they are, wherever a
// language puts them; see [Fits].
func Markup(source string) string {
	if inUse.Load() == nil {
		return source
	}
	var b strings.Builder
	eachPart(source, func(text string, sentence bool) {
		switch {
		case sentence:
			text = lookUpWithin(text)
		case strings.HasPrefix(text, "<"):
			text = worded().ReplaceAllStringFunc(text, func(s string) string {
				m := worded().FindStringSubmatch(s)
				return m[1] + escaped(Text(m[2])) + m[3]
			})
		}
		b.WriteString(text)
	})
	return b.String()
}

// TemplateSentences are those of a template that [Markup] looks up.
func TemplateSentences(source string) (out []string) {
	eachPart(source, func(text string, sentence bool) {
		switch {
		case sentence:
			out = append(out, tidy(text))
		case strings.HasPrefix(text, "<"):
			for _, m := range worded().FindAllStringSubmatch(text, -1) {
				if letters().MatchString(action().ReplaceAllString(m[2], "")) {
					out = append(out, m[2])
				}
			}
		}
	})
	return out
}

// eachPart goes through a template, in order; sentence says that a part is one.
func eachPart(source string, do func(text string, sentence bool)) {
	at := 0
	plain := func(text string) {
		if text != "" {
			bare := action().ReplaceAllString(text, "")
			do(text, letters().MatchString(bare) && !strings.Contains(bare, `="`))
		}
	}
	for _, m := range piece().FindAllStringIndex(source, -1) {
		plain(source[at:m[0]])
		do(source[m[0]:m[1]], false)
		at = m[1]
	}
	plain(source[at:])
}

// lookUpWithin looks up the sentence in a text and leaves the blanks around it.
func lookUpWithin(text string) string {
	inner := strings.TrimSpace(text)
	i := strings.Index(text, inner)
	return text[:i] + escaped(Text(tidy(inner))) + text[i+len(inner):]
}

// tidy is a sentence as it is looked up: in one line, without entities.
func tidy(text string) string { return html.UnescapeString(strings.Join(strings.Fields(text), " ")) }

// escaped is text for a page, its actions as they are.
func escaped(text string) string {
	var b strings.Builder
	at := 0
	for _, m := range action().FindAllStringIndex(text, -1) {
		b.WriteString(html.EscapeString(text[at:m[0]]) + text[m[0]:m[1]])
		at = m[1]
	}
	return b.String() + html.EscapeString(text[at:])
}
