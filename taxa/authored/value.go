package authored

import (
	"errors"
	"strconv"
	"strings"

	"github.com/BurntSushi/toml"
)

// plainText is what stands between the quotes of a string, whether that holds
// escapes that [unescape] knows, and whether the string is one that the decoder
// is sure to accept and to read so. The text must be [clean].
func plainText(spelt string) (body string, escapes, ok bool) {
	q := spelt[:1]
	if strings.HasPrefix(spelt, `"""`) || strings.HasPrefix(spelt, "'''") {
		if len(spelt) < 6 || !strings.HasSuffix(spelt, spelt[:3]) {
			return "", false, false
		}
		body = spelt[3 : len(spelt)-3]
		ok = !strings.HasSuffix(body, q) && (q == "'" || strings.IndexByte(body, '\\') < 0)
		return strings.TrimPrefix(strings.TrimPrefix(body, "\r"), "\n"), false, ok
	}
	if len(spelt) < 2 || spelt[len(spelt)-1] != q[0] {
		return "", false, false
	}
	body = spelt[1 : len(spelt)-1]
	if strings.IndexByte(body, '\n') >= 0 {
		return "", false, false
	}
	if q == "'" || strings.IndexByte(body, '\\') < 0 {
		return body, false, true
	}
	return body, true, plainEscapes(body)
}

func isPlainText(spelt string) bool { _, _, ok := plainText(spelt); return ok }

const (
	escaped = `btnfr"\`
	meant   = "\b\t\n\f\r\"\\"
	blanked = "\b\t \f\r\"\\" // with blanks for line breaks
)

// plainEscapes reports whether each backslash begins an escape of one letter.
func plainEscapes(body string) bool {
	for i := 0; i < len(body); i++ {
		if body[i] != '\\' {
			continue
		}
		if i++; i == len(body) || strings.IndexByte(escaped, body[i]) < 0 {
			return false
		}
	}
	return true
}

// unescape gives a text with its line breaks as blanks. The body must have
// [plainEscapes].
func unescape(body string) string {
	if strings.Contains(body, `\r`) {
		return oneLine(replaceEscapes(body, meant))
	}
	return replaceEscapes(body, blanked)
}

func replaceEscapes(body, meant string) string {
	var b strings.Builder
	b.Grow(len(body))
	for {
		i := strings.IndexByte(body, '\\')
		if i < 0 {
			b.WriteString(body)
			return b.String()
		}
		b.WriteString(body[:i])
		b.WriteByte(meant[strings.IndexByte(escaped, body[i+1])])
		body = body[i+2:]
	}
}

// isPlainWord reports whether the decoder is sure to accept the word, and to
// read it as [wordOf] does.
func isPlainWord(w string) bool {
	if w == "true" || w == "false" {
		return true
	}
	whole, part, fraction := strings.Cut(strings.TrimPrefix(w, "-"), ".")
	if len(w) > 18 || !isDigits(whole) || whole[0] == '0' && len(whole) > 1 {
		return false
	}
	return !fraction || isDigits(part)
}

func isDigits(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return s != ""
}

// alone is what the decoder makes of one value, and whether it accepts it.
func alone(spelt string) (any, bool) {
	var all map[string]any
	if toml.Unmarshal([]byte("v = "+spelt+"\n"), &all) != nil || len(all) != 1 {
		return nil, false
	}
	v, ok := all["v"]
	return v, ok
}

// wrongHere is the decoder's error if that lies in the line that the scanner
// doubted. What stands before is sound, and unless the doubt is about keys does
// not matter: the decoder sees empty lines there, which take it no memory.
func (s *scanner) wrongHere() error {
	if s.keys || s.begun == 0 {
		return nil
	}
	line := s.pos(int32(s.begun)).Line
	before := ""
	if line > 1 { // its columns go by the length of the line before, too
		before = strings.Repeat("\n", line-2) + strings.Repeat(" ", int(s.lines[line-1]-s.lines[line-2]-1)) + "\n"
	}
	var values map[string]any
	_, err := toml.Decode(before+s.text[s.lines[line-1]:], &values)
	var pe toml.ParseError
	if errors.As(err, &pe) && pe.Position.Line == line {
		return err
	}
	return nil
}

// textOf is the text of a string. A line break in it, which the author set to
// keep lines short, is a blank.
func textOf(spelt string) string {
	body, escapes, ok := plainText(spelt)
	switch {
	case ok && !escapes:
		return oneLine(body)
	case ok:
		return unescape(body)
	}
	v, _ := alone(spelt)
	s, _ := v.(string)
	return oneLine(s)
}

func oneLine(s string) string {
	return strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", " "), "\n", " ")
}

// wordOf is the value of what stands there without quotes or brackets, once the
// decoder has accepted it.
func wordOf(spelt string) any {
	if spelt == "true" || spelt == "false" {
		return spelt == "true"
	}
	if n, err := strconv.ParseInt(spelt, 0, 64); err == nil {
		return n
	}
	if f, err := strconv.ParseFloat(strings.ReplaceAll(spelt, "_", ""), 64); err == nil {
		return f
	}
	v, _ := alone(spelt)
	return v
}

// places are where the elements of a list begin.
func (t *tree) places(n int32) []int32 {
	if t.list == n {
		return t.elements
	}
	t.list, t.elements = n, nil
	s := &scanner{tree: t, at: int(t.at(n).value), trust: true}
	s.items(']', func() {
		t.elements = append(t.elements, int32(s.at))
		s.value(0)
	})
	return t.elements
}

// values are the elements of a list; those that are neither text nor number may
// be anything.
func (t *tree) values(n int32) []any {
	out := make([]any, 0, len(t.places(n)))
	for _, at := range t.places(n) {
		s := &scanner{tree: t, at: int(at), trust: true}
		k := s.value(0)
		switch spelt := t.text[at:s.at]; {
		case k == quoted && isPlainText(spelt):
			out = append(out, textOf(spelt))
		case k == word && isPlainWord(spelt):
			out = append(out, wordOf(spelt))
		case k == list || k == inline:
			out = append(out, nil)
		default:
			all, _ := alone(t.spelt(n))
			odd, _ := all.([]any)
			return odd
		}
	}
	return out
}
