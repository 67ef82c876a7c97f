package wording

import "strings"

// MarkLong is a text of several paragraphs that [Long] says.
func MarkLong(english string) string { return english }

// Pieces are the sentences of a text of several paragraphs, as files of words have
// them: each paragraph by itself without its line breaks, or with them where one of
// its lines begins with a blank, as in a list or an example.
func Pieces(text string) []string {
	var out []string
	for _, p := range paragraphs(text) {
		out = append(out, sentenceOf(p))
	}
	return out
}

// Long is a text of several paragraphs in the language in use. What is said in other
// words than the English ones is folded with fold, but for what keeps its lines.
func Long(text string, fold func(paragraph string) []string) string {
	all := paragraphs(text)
	for i, p := range all {
		p = strings.Trim(p, "\n")
		key := sentenceOf(p)
		said := Text(key)
		switch {
		case said == key:
			all[i] = p
		case strings.Contains(key, "\n"):
			all[i] = said
		default:
			all[i] = strings.Join(fold(said), "\n")
		}
	}
	return strings.Join(all, "\n\n")
}

func paragraphs(text string) []string { return strings.Split(strings.Trim(text, "\n"), "\n\n") }

func sentenceOf(paragraph string) string {
	paragraph = strings.Trim(paragraph, "\n")
	if strings.HasPrefix(paragraph, " ") || strings.Contains(paragraph, "\n ") {
		return paragraph
	}
	return strings.ReplaceAll(paragraph, "\n", " ")
}
