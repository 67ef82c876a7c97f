package taxa

import (
	"strings"

	"rillkey/taxa/plain"
)

// misspelt tells whether typed is name with a slip or two of spelling, and how
// many. It is strict: a word that is a slip away from an animal's is most often
// another animal's ("darter" and "darner", "land snail" and "pond snail"), and
// whoever meant it is better asked (common practice of spelling aids: one slip
// in about four letters; here far fewer).
func misspelt(typed, name reading) (slips int, ok bool) {
	if len(typed.words) != len(name.words) {
		slips = plain.Distance(typed.solid, name.solid)
		return slips, slips == 1 && !otherWord(typed.solid, name.solid)
	}
	for i, w := range name.words {
		n, ok := misspeltWord(typed.words[i], w, name.latin)
		if !ok {
			return 0, false
		}
		slips += n
	}
	return slips, slips <= 2
}

// misspeltWord judges one word. Long words bear two slips, except Latin ones,
// which are often two letters apart; short ones bear none.
func misspeltWord(typed, word string, latin bool) (slips int, ok bool) {
	const short, sure, long = 4, 7, 9
	n := len(word)
	apart := n - len(typed)
	switch {
	case typed == word:
		return 0, true
	case n < short, apart > 2, apart < -2, n < sure && typed[:1] != word[:1]:
		return 0, false
	}
	slips = plain.Distance(typed, word)
	if n >= long && !latin {
		return slips, slips <= 2
	}
	return slips, slips == 1 && (n >= long || !otherWord(typed, word))
}

// soundAlike are letters that are written for each other by ear.
var soundAlike = []string{"aeiouy", "ck", "sz", "cs"}

// otherWord tells whether two words of one length that are a slip apart differ
// in a letter that changes the sound.
func otherWord(a, b string) bool {
	x, y := []rune(a), []rune(b)
	if len(x) != len(y) {
		return false
	}
	for i := range x {
		if x[i] == y[i] {
			continue
		}
		swapped := i+1 < len(x) && x[i] == y[i+1] && x[i+1] == y[i]
		return !swapped && !alikeLetters(x[i], y[i])
	}
	return false
}

func alikeLetters(a, b rune) bool {
	for _, letters := range soundAlike {
		if strings.ContainsRune(letters, a) && strings.ContainsRune(letters, b) {
			return true
		}
	}
	return false
}
