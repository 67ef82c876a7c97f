package authored

import (
	"strings"
	"unicode/utf8"
)

// usual reports whether a text is TOML for certain as far as one look at each byte
// tells: it is written in nothing but the forms that keys, catalogs and regions are
// written in. Only whether a key stands there twice is left to be seen by the scanner.
// Of all other texts the decoder decides, which takes many times as long.
func usual(text string) bool {
	if !utf8.ValidString(text) {
		return false
	}
	u := usualReader{scanner{tree: &tree{text: text}}}
	for u.at < len(text) {
		u.gap()
		if c := u.peek(); c == '[' && !u.header() || c != '[' && !u.ends() && !u.pair(0) {
			return false
		}
		u.gap()
		if !u.lineEnd() {
			return false
		}
	}
	return true
}

// usualReader passes what is usual; its methods report whether it was.
type usualReader struct{ scanner }

// ends reports whether nothing more stands on the line.
func (u *usualReader) ends() bool {
	c := u.peek()
	return u.at == len(u.text) || c == '\n' || c == '\r' || c == '#'
}

// lineEnd passes a comment and the end of the line, or that of the text.
func (u *usualReader) lineEnd() bool {
	if u.take('#') {
		for u.at < len(u.text) && u.text[u.at] != '\n' && u.text[u.at] != '\r' {
			if !shows(u.text[u.at]) {
				return false
			}
			u.at++
		}
	}
	if u.at == len(u.text) {
		return true
	}
	u.take('\r')
	return u.take('\n')
}

// shows reports whether a byte may stand in a text or a comment.
func shows(c byte) bool { return c >= ' ' && c != 0x7f || c == '\t' }

// header passes [a.b].
func (u *usualReader) header() bool {
	u.at++
	for depth := 0; depth < deepest; depth++ {
		u.gap()
		if !u.usualKey() {
			return false
		}
		u.gap()
		if u.take(']') {
			return true
		}
		if !u.take('.') {
			return false
		}
	}
	return false
}

// usualKey passes one key, with quotes or without.
func (u *usualReader) usualKey() bool {
	if u.peek() == '"' {
		start := u.at
		return u.quoted() && strings.IndexByte(u.text[start:u.at], '\\') < 0
	}
	start := u.at
	for u.at < len(u.text) && isBare(u.text[u.at]) {
		u.at++
	}
	return u.at > start
}

// pair passes a key and its value, so deep within others.
func (u *usualReader) pair(depth int) bool {
	if !u.usualKey() {
		return false
	}
	u.gap()
	if !u.take('=') {
		return false
	}
	u.gap()
	return u.usualValue(depth)
}

func (u *usualReader) usualValue(depth int) bool {
	switch c := u.peek(); {
	case depth == deepest:
		return false
	case c == '"' || c == '\'':
		return u.quoted()
	case c == '[':
		return u.several(']', u.blankLines, func() bool { return u.usualValue(depth + 1) })
	case c == '{':
		return u.several('}', func() bool { u.gap(); return true }, func() bool { return u.pair(depth + 1) })
	}
	start := u.at
	u.passWord()
	return usualWord(u.text[start:u.at])
}

// several passes what stands in brackets with commas between, and what may part it.
func (u *usualReader) several(end byte, between, one func() bool) bool {
	u.at++
	for first := true; ; first = false {
		if !between() {
			return false
		}
		if u.take(end) {
			return first || end == ']' // where a comma may stand before
		}
		if !one() || !between() {
			return false
		}
		if u.take(end) {
			return true
		}
		if !u.take(',') {
			return false
		}
	}
}

// blankLines passes blanks, ends of lines and comments.
func (u *usualReader) blankLines() bool {
	for u.gap(); u.at < len(u.text) && u.ends(); u.gap() {
		if !u.lineEnd() {
			return false
		}
	}
	return true
}

// quoted passes a text on one line.
func (u *usualReader) quoted() bool {
	mark := u.text[u.at]
	u.at++
	for start := u.at; u.at < len(u.text); u.at++ {
		switch c := u.text[u.at]; {
		case c == mark:
			u.at++
			return u.at-1 > start || u.peek() != mark // else three of them
		case c == '\\' && mark == '"':
			if u.at++; strings.IndexByte(`"\nt`, u.peek()) < 0 {
				return false
			}
		case !shows(c):
			return false
		}
	}
	return false
}

// usualWord reports whether a word is true, false or a plain number.
func usualWord(word string) bool {
	if word == "true" || word == "false" {
		return true
	}
	whole, after, point := strings.Cut(strings.TrimPrefix(word, "-"), ".")
	const digits = 15 // that every number holds
	if len(whole) > digits || len(after) > digits || len(whole) > 1 && whole[0] == '0' || point && after == "" {
		return false
	}
	return whole != "" && strings.Trim(whole+after, "0123456789") == ""
}
