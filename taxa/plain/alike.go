package plain

import (
	"math/bits"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"rillkey/taxa/wording"
)

// Fold makes two ways to write a name equal that nobody need be asked about:
// case, blanks, punctuation and the accents of Latin letters.
func Fold(name string) string {
	accents := accents()
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

var accents = sync.OnceValue(func() map[rune]rune {
	m := map[rune]rune{}
	for plain, letters := range map[rune]string{
		'a': "àáâãäåā", 'c': "çćč", 'e': "èéêëēě", 'i': "ìíîïī", 'n': "ñńň", 'o': "òóôõöøō", 's': "śš", 'u': "ùúûüū", 'y': "ýÿ", 'z': "źžż",
	} {
		for _, l := range letters {
			m[l] = plain
		}
	}
	return m
})

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
	return Distance(a, b) <= min(3, n/4)
}

func digits(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsDigit(r) {
			return r
		}
		return -1
	}, s)
}

// Distance counts the edits between two words: letters put in, left out,
// changed, or two neighbours swapped (optimal string alignment). Of words that are
// more than three apart it may say that they are further apart than they are.
func Distance(a, b string) int {
	if d := len(a) - len(b); d > 12 || d < -12 || lackingLetters(a, b) > 3 { // more letters than bytes of one
		return max(len(a), len(b))
	}
	x, y := []rune(a), []rune(b)
	if d := len(x) - len(y); d > 3 || d < -3 {
		return max(len(x), len(y))
	}
	var rows [3][32]int // enough for a word, and no memory is asked for
	before, last, row := rows[0][:], rows[1][:], rows[2][:]
	if n := len(y) + 1; n > len(last) {
		before, last, row = make([]int, n), make([]int, n), make([]int, n)
	}
	for j := range y {
		last[j+1] = j + 1
	}
	for i := 1; i <= len(x); i++ {
		row[0] = i
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(y)]
}

// lackingLetters is how many letters one of two words has that the other lacks, or
// fewer: each takes an edit.
func lackingLetters(a, b string) int {
	x, y := lettersOf(a), lettersOf(b)
	return max(bits.OnesCount64(x&^y), bits.OnesCount64(y&^x))
}

// lettersOf are the letters of a word as bits, which rare ones share.
func lettersOf(s string) (set uint64) {
	for _, r := range s {
		set |= 1 << (uint32(r) % 64)
	}
	return set
}

// Similar are those of the ids that look like the one typed, in their order.
func Similar(typed string, ids []string) (near []string) {
	for _, id := range ids {
		if Distance(typed, id) <= min(3, utf8.RuneCountInString(id)/4) {
			near = append(near, id)
		}
	}
	return near
}

// Nearest proposes of all ids those that look most like the one typed, as what to do:
// "did you mean …?", or which there are.
func Nearest(typed string, ids []string) string {
	near := Similar(typed, ids)
	if len(near) == 0 {
		return wording.Sprintf("there are %s", List(ids))
	}
	return wording.Sprintf("did you mean %s?", List(near))
}
