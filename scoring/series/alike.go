package series

import (
	"strings"
	"unicode"
)

// Fold makes two ways to write a name equal that nobody need be asked about:
// case, blanks, punctuation and the accents of Latin letters.
func Fold(name string) string {
	return strings.Map(func(r rune) rune {
		r = unicode.ToLower(r)
		if plain, ok := accents[r]; ok {
			return plain
		}
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return r
		}
		return -1
	}, name)
}

var accents = func() map[rune]rune {
	m := map[rune]rune{}
	for plain, letters := range map[rune]string{'a': "àáâãäåā", 'c': "çćč", 'e': "èéêëēě", 'i': "ìíîïī", 'n': "ñńň", 'o': "òóôõöøō", 's': "śš", 'u': "ùúûüū", 'y': "ýÿ", 'z': "źžż"} {
		for _, l := range letters {
			m[l] = plain
		}
	}
	return m
}()

// Alike tells whether two names may well mean the same: equal once folded, one
// the beginning of the other, or few letters apart for their length (common
// practice of spelling aids: one in four, three at most).
func Alike(a, b string) bool {
	a, b = Fold(a), Fold(b)
	if a == "" || b == "" || a == b {
		return a == b
	}
	if digits(a) != digits(b) {
		return false // site 1 and site 2 are two sites
	}
	short, long := a, b
	if len(short) > len(long) {
		short, long = long, short
	}
	if len(short) >= 3 && strings.HasPrefix(long, short) {
		return true
	}
	n := len([]rune(short))
	return apart([]rune(a), []rune(b)) <= min(3, n/4)
}

func digits(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsDigit(r) {
			return r
		}
		return -1
	}, s)
}

// apart counts the letters put in, left out or changed between two words.
func apart(a, b []rune) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range a {
		corner := row[0]
		row[0] = i + 1
		for j := range b {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			corner, row[j+1] = row[j+1], min(row[j+1]+1, row[j]+1, corner+cost)
		}
	}
	return row[len(b)]
}
