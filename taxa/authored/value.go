package authored

import (
	"strconv"
	"strings"

	"github.com/BurntSushi/toml"
)

// plainText is what stands between the quotes of a string, and whether that is
// what it means: it holds no escapes.
func plainText(spelt string) (body string, ok bool) {
	q := 1
	if strings.HasPrefix(spelt, `"""`) || strings.HasPrefix(spelt, "'''") {
		q = 3
	}
	body = spelt[q : len(spelt)-q]
	if q == 3 {
		body = strings.TrimPrefix(strings.TrimPrefix(body, "\r"), "\n")
	}
	return body, spelt[0] == '\'' || strings.IndexByte(body, '\\') < 0
}

// alone is what the decoder makes of one value.
func alone(spelt string) any {
	var all map[string]any
	if toml.Unmarshal([]byte("v = "+spelt+"\n"), &all) != nil {
		return nil // which the whole file would not have been read with
	}
	return all["v"]
}

// textOf is the text of a string. A line break in it, which the author set to
// keep lines short, is a blank.
func textOf(spelt string) string { return oneLine(linesOf(spelt)) }

// linesOf is a text with its line breaks.
func linesOf(spelt string) string {
	body, ok := plainText(spelt)
	if !ok && !strings.HasPrefix(spelt, `"""`) {
		body, ok = unescaped(body)
	}
	if ok {
		return body
	}
	s, _ := alone(spelt).(string)
	return strings.ReplaceAll(s, "\r\n", "\n")
}

// escapes are those of one letter that stand for one character.
var escapes = strings.NewReplacer(`\\`, `\`, `\"`, `"`, `\n`, "\n", `\t`, "\t")

// unescaped is what a text in one line means, if it has no escapes but the usual ones:
// the decoder, which knows all, takes a hundred times as long.
func unescaped(body string) (string, bool) {
	for i := 0; i < len(body); i++ {
		if body[i] != '\\' {
			continue
		}
		if i++; i == len(body) || strings.IndexByte(`\"nt`, body[i]) < 0 {
			return "", false
		}
	}
	return escapes.Replace(body), true
}

func oneLine(s string) string {
	return strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", " "), "\n", " ")
}

// wordOf is the value of what stands there without quotes or brackets.
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
	return alone(spelt)
}

// places are where the elements of a list begin.
func (t *tree) places(n int32) []int32 {
	if t.list == n {
		return t.elements
	}
	t.list, t.elements = n, nil
	s := &scanner{tree: t, offset: int(t.node(n).value)}
	s.items(']', func() {
		t.elements = append(t.elements, int32(s.offset))
		s.value(0)
	})
	return t.elements
}

// values are the elements of a list; those that are neither text nor number may
// be anything.
func (t *tree) values(n int32) []any {
	out := make([]any, 0, len(t.places(n)))
	for _, at := range t.places(n) {
		s := &scanner{tree: t, offset: int(at)}
		k := s.value(0)
		switch spelt := t.text[at:s.offset]; k {
		case quoted:
			out = append(out, textOf(spelt))
		case word:
			out = append(out, wordOf(spelt))
		default:
			out = append(out, nil)
		}
	}
	return out
}
