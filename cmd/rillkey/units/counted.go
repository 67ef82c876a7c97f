package units

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"rillkey/taxa/wording"
)

// IsNumber reports whether a word is a whole number.
func IsNumber(s string) bool { _, err := strconv.Atoi(s); return err == nil }

// SaysNone tells what people write for no animals, in English or in the language in
// use.
func SaysNone(text string) bool {
	return slices.ContainsFunc([]string{"none", "no", "nil", "zero", "nothing", "-", "–", "—", wording.Text("none"), wording.Text("no")},
		func(word string) bool { return strings.EqualFold(text, word) })
}

// AnimalsOrNone reads how many animals there are, 0 for none.
func AnimalsOrNone(text string) (int, error) {
	if text == "0" || SaysNone(text) {
		return 0, nil
	}
	return Animals(text)
}

// CountLast puts a number that stands before a name behind it, as where people say "3
// stonefly" and where they say "stonefly 3".
func CountLast(words []string) []string {
	if len(words) < 2 {
		return words
	}
	last := words[len(words)-1]
	if !IsNumber(words[0]) || !strings.ContainsFunc(last, unicode.IsLetter) || SaysNone(last) {
		return words
	}
	return append(slices.Clone(words[1:]), words[0])
}

// NameAndCount parts a name from the number of animals behind it or before it, 1 where it
// is left out. The name may be empty.
func NameAndCount(words []string) (name string, n int, err error) {
	words, n = CountLast(strings.Fields(strings.Join(words, " "))), 1
	if last := len(words) - 1; last > 0 {
		if strings.ContainsAny(words[last], "0123456789") {
			if n, err = Animals(words[last]); err != nil {
				return "", 0, err
			}
			words = words[:last]
		}
	}
	return strings.Join(words, " "), n, nil
}
