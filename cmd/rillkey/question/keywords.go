package question

import (
	"slices"
	"strings"

	"rillkey/key"
	"rillkey/taxa/wording"
)

// keyWords are what people type in the place of a key, who do not know or find it.
var keyWords = []struct {
	key   string
	words []string
}{
	{howTo, []string{"help", wording.Mark("help")}},
	{leave, []string{"quit", "exit", "bye", wording.Mark("leave")}},
	{back, []string{"undo", "go back", wording.Mark("back")}},
	{again, []string{wording.Mark("look again")}},
	{stop, []string{wording.Mark("set aside")}},
	{key.Unsure, []string{"cant tell", "cannot tell", "can not tell", "don't know", "dont know", "i don't know", "i dont know", "no idea",
		"not sure", "unsure", "idk", "skip", wording.Mark("can't tell")}},
}

// keyMeant is the key that a line means by a word alone; else the line as it is.
func keyMeant(line string) string {
	said := strings.ToLower(strings.TrimSpace(strings.ReplaceAll(line, "’", "'")))
	for _, k := range keyWords {
		if slices.ContainsFunc(k.words, func(w string) bool { return said == w || said == strings.ToLower(wording.Text(w)) }) {
			return k.key
		}
	}
	return line
}

// yesOrNo is the letter of the only choice that begins with the yes or no that was
// typed, and whether one was.
func yesOrNo(choices []choice, line string) (letter string, said bool) {
	word := ""
	for _, w := range []string{"yes", "no"} {
		if line == w || line == wording.Text(w) {
			word = wording.Text(w)
		}
	}
	if word == "" {
		return "", false
	}
	for _, c := range choices {
		text := strings.ToLower(c.text)
		rest, begins := strings.CutPrefix(text, word)
		if begins && (rest == "" || strings.ContainsAny(rest[:1], " ,:.;")) {
			if letter != "" {
				return "", true
			}
			letter = c.letter
		}
	}
	return letter, true
}
