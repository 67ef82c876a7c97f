package plain

import (
	"iter"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"rillkey/taxa/wording"
)

// IsID reports whether s may serve as an id: 1 to 64 lower-case letters,
// digits and hyphens, not starting or ending with a hyphen.
func IsID(s string) bool {
	if s == "" || len(s) > 64 || s[0] == '-' || s[len(s)-1] == '-' {
		return false
	}
	for _, r := range s {
		if (r < 'a' || r > 'z') && (r < '0' || r > '9') && r != '-' {
			return false
		}
	}
	return true
}

// IsControl reports whether r could change how a terminal or a page shows the
// text around it, or show nothing itself and so make two texts look the same: C0
// and C1 controls, DEL, line and paragraph separators, the marks that turn the
// direction of writing, blanks of no width, tags and notes between lines. Whether
// a joiner (U+200C, U+200D) belongs where it stands its neighbours tell, see
// [HasControl].
func IsControl(r rune) bool {
	switch {
	case unicode.IsControl(r), r == '\u2028', r == '\u2029', r == '\u200e', r == '\u200f', r == '\u061c', r == '\ufeff':
		return true
	case r >= '\u202a' && r <= '\u202e', r >= '\u2060' && r <= '\u206f':
		return true
	case r == '\u200b', r == '\u180e', r >= '\ufff9' && r <= '\ufffb', r >= 0xe0000 && r <= 0xe007f:
		return true
	}
	return false
}

// HasControl reports whether s holds a character that [IsControl] names, or a
// joiner that does not stand between letters of a script that needs joiners.
func HasControl(s string) bool {
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case c >= utf8.RuneSelf:
			for range controls(s) {
				return true
			}
			return false
		case c < ' ' || c == 0x7f:
			return true
		}
	}
	return false
}

// controls are the places of what [HasControl] looks for.
func controls(s string) iter.Seq2[int, rune] {
	return func(yield func(int, rune) bool) {
		for i, r := range s {
			stray := IsControl(r)
			if r == '\u200c' || r == '\u200d' {
				before, _ := utf8.DecodeLastRuneInString(s[:i])
				after, _ := utf8.DecodeRuneInString(s[i+utf8.RuneLen(r):])
				stray = !unicode.In(before, joining()...) || !unicode.In(after, joining()...)
			}
			if stray && !yield(i, r) {
				return
			}
		}
	}
}

// joining are the scripts in which a joiner between two letters makes another word
// or another shape of it (Unicode Standard, chapters 9, 12, 13 and 16, from memory).
// Marks above and below letters of several scripts belong to none.
func joining() []*unicode.RangeTable {
	return []*unicode.RangeTable{
		unicode.Arabic, unicode.Syriac, unicode.Nko, unicode.Mandaic, unicode.Mongolian, unicode.Phags_Pa,
		unicode.Devanagari, unicode.Bengali, unicode.Gurmukhi, unicode.Gujarati, unicode.Oriya, unicode.Tamil, unicode.Telugu,
		unicode.Kannada, unicode.Malayalam, unicode.Sinhala, unicode.Tibetan, unicode.Myanmar, unicode.Khmer,
	}
}

// WithoutControls is s with a text in the place of each character for which
// [HasControl] would be true.
func WithoutControls(s string, instead func(rune) string) string {
	var out strings.Builder
	end := 0
	for i, r := range controls(s) {
		out.WriteString(s[end:i] + instead(r))
		end = i + utf8.RuneLen(r)
	}
	return out.String() + s[end:]
}

// Printable is s with every control character and every byte that is not
// UTF-8 replaced by U+FFFD, fit to be shown anywhere.
func Printable(s string) string {
	return WithoutControls(strings.ToValidUTF8(s, "\ufffd"), func(rune) string { return "\ufffd" })
}

// Quote gives s in double quotes for a message: escaped, and cut after 60
// characters so that a message stays a line.
func Quote(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "…"
	}
	return strconv.Quote(s)
}

// List gives the quoted words joined for a message: `"a", "b"`; more than
// twelve are cut and the rest counted.
func List(words []string) string {
	const most = 12
	shown := words
	if len(words) > most {
		shown = words[:most]
	}
	quoted := make([]string, len(shown))
	for i, w := range shown {
		quoted[i] = Quote(w)
	}
	s := strings.Join(quoted, ", ")
	if n := len(words) - len(shown); n > 0 {
		s += wording.Sprintf(" and %d more", n)
	}
	return s
}

// OneLine is s on one line, fit for a terminal: runs of white space become one
// blank, and control characters are replaced.
func OneLine(s string) string { return Printable(strings.Join(strings.Fields(s), " ")) }

// WithCause is an error whose words already tell its cause, which stays to be asked
// for with [errors.Is].
func WithCause(words string, cause error) error { return withCause{words, cause} }

type withCause struct {
	words string
	cause error
}

func (e withCause) Error() string { return e.words }

func (e withCause) Unwrap() error { return e.cause }
