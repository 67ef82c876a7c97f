package plain

import (
	"fmt"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// spelt are letters that no mark taken away makes one of a to z; Cyrillic as ISO 9
// transliterates it and Greek as ISO 843 does, each with the marks of those left out.
var spelt = sync.OnceValue(func() map[rune]string {
	return map[rune]string{
		'ß': "ss", 'æ': "ae", 'œ': "oe", 'ø': "o", 'đ': "d", 'ð': "d", 'þ': "th", 'ł': "l", 'ı': "i", 'ŋ': "ng",
		'а': "a", 'б': "b", 'в': "v", 'г': "g", 'д': "d", 'е': "e", 'ж': "z", 'з': "z", 'и': "i", 'к': "k", 'л': "l", 'м': "m", 'н': "n",
		'о': "o", 'п': "p", 'р': "r", 'с': "s", 'т': "t", 'у': "u", 'ф': "f", 'х': "h", 'ц': "c", 'ч': "c", 'ш': "s", 'щ': "s", 'ъ': "",
		'ы': "y", 'ь': "", 'э': "e", 'ю': "u", 'я': "a", 'і': "i", 'є': "e", 'ґ': "g", 'ђ': "d", 'ј': "j", 'љ': "l", 'њ': "n",
		'ћ': "c", 'џ': "d",
		'α': "a", 'β': "v", 'γ': "g", 'δ': "d", 'ε': "e", 'ζ': "z", 'η': "i", 'θ': "th", 'ι': "i", 'κ': "k", 'λ': "l", 'μ': "m", 'ν': "n",
		'ξ': "x", 'ο': "o", 'π': "p", 'ρ': "r", 'σ': "s", 'ς': "s", 'τ': "t", 'υ': "y", 'φ': "f", 'χ': "ch", 'ψ': "ps", 'ω': "o",
	}
})

// maxID is the most characters of an id that is made.
const maxID = 60

// ID is a name as an id: letters in lower case without their marks, digits, and
// single hyphens for what is between them. Cyrillic and Greek letters are
// transliterated, and a letter of another script becomes its number in Unicode, so
// that any name has an id. It is empty for a name without letters and digits.
func ID(name string) string {
	var b strings.Builder
	for _, c := range norm.NFKD.String(strings.ToLower(name)) {
		letters, known := spelt()[c]
		switch {
		case c >= 'a' && c <= 'z', c >= '0' && c <= '9':
			b.WriteRune(c)
		case known:
			b.WriteString(letters)
		case unicode.Is(unicode.Mn, c):
		case unicode.IsLetter(c), unicode.IsDigit(c):
			fmt.Fprintf(&b, "u%x", c)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() > maxID {
			break
		}
	}
	s := b.String()
	return strings.Trim(s[:min(len(s), maxID)], "-")
}
