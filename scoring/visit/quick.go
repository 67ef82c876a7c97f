package visit

import (
	"strconv"
	"strings"
	"sync"
	"time"
	"unicode/utf8"
)

// values16 are maps that blocks were read into and that nobody needs any more.
var values16 = sync.Pool{New: func() any { return make(map[string]any, 16) }}

// quick reads a block that is written exactly as this package writes it, some
// twenty times as fast as the TOML decoder does. For anything else ok is false,
// and the decoder decides what it is worth. That both read the same is tested.
func quick(text []byte, head string) (values map[string]any, ok bool) {
	lines := string(text)
	if !utf8.ValidString(lines) {
		return nil, false
	}
	first, lines, _ := strings.Cut(lines, "\n")
	if first != head {
		return nil, false
	}
	values = values16.Get().(map[string]any)
	for lines != "" {
		var line string
		if line, lines, ok = strings.Cut(lines, "\n"); !ok && lines != "" {
			return nil, false
		}
		key, val, cut := strings.Cut(line, " = ")
		if !cut || !plainKey(key) || values[key] != nil {
			return nil, false
		}
		if values[key], ok = quickValue(val); !ok {
			return nil, false
		}
	}
	return values, true
}

func plainKey(s string) bool {
	for i := range len(s) {
		if c := s[i]; (c < 'a' || c > 'z') && c != '_' && !isDigit(c) {
			return false
		}
	}
	return s != ""
}

func quickValue(s string) (any, bool) {
	switch {
	case s == "":
		return nil, false
	case s == "true":
		return true, true
	case s == "false":
		return false, true
	case s[0] == '"':
		text, rest, ok := quickText(s)
		return text, ok && rest == ""
	case s[0] == '[':
		return quickList(s[1:])
	case s[0] == '{':
		return quickTable(s)
	case len(s) > 10 && s[10] == 'T':
		t, err := time.Parse(time.RFC3339Nano, s)
		return t, err == nil && t.Format(time.RFC3339Nano) == s
	}
	return quickNumber(s)
}

func quickNumber(s string) (any, bool) {
	if n, err := strconv.ParseInt(s, 10, 64); err == nil {
		return n, strconv.FormatInt(n, 10) == s
	}
	if len(s) > 30 {
		return nil, false
	}
	f, err := strconv.ParseFloat(s, 64)
	return f, err == nil && isDigit(s[len(s)-1]) && float(f) == s
}

// quickText reads a text in quotes and gives what follows it.
func quickText(s string) (text, rest string, ok bool) {
	if s == "" || s[0] != '"' {
		return "", "", false
	}
	escaped := false
	for i := 1; i < len(s); i++ {
		switch c := s[i]; {
		case c < ' ' || c == 0x7f:
			return "", "", false
		case c == '\\':
			if i++; i == len(s) || s[i] != '\\' && s[i] != '"' {
				return "", "", false
			}
			escaped = true
		case c == '"':
			text = s[1:i]
			if escaped {
				text = unescape.Replace(text)
			}
			return text, s[i+1:], true
		}
	}
	return "", "", false
}

var unescape = strings.NewReplacer(`\\`, `\`, `\"`, `"`)

func quickList(s string) (any, bool) {
	list := []any{}
	for {
		text, rest, ok := quickText(s)
		if !ok {
			return nil, false
		}
		list = append(list, text)
		if rest == "]" {
			return list, true
		}
		if s, ok = strings.CutPrefix(rest, ", "); !ok {
			return nil, false
		}
	}
}

func quickTable(s string) (any, bool) {
	table := map[string]any{}
	s, ok := strings.CutPrefix(s, "{ ")
	for ok {
		key, rest, good := quickText(s)
		if rest, ok = strings.CutPrefix(rest, " = "); !good || !ok || table[key] != nil {
			return nil, false
		}
		end := strings.IndexAny(rest, ", ")
		if end < 0 {
			return nil, false
		}
		if table[key], ok = quickNumber(rest[:end]); !ok {
			return nil, false
		}
		if rest[end:] == " }" {
			return table, true
		}
		s, ok = strings.CutPrefix(rest[end:], ", ")
	}
	return nil, false
}
