package authored

import "unicode/utf8"

// scanner walks the text of a file once and notes where each key and value
// begins: the decoder keeps no positions, and what it makes of a file takes
// thirty times the file's size.
//
// What the decoder accepts is what this program accepts. The scanner is sure of
// the plain constructs that authors use; the first that it is not sure of, or
// that may be wrong, is left to the decoder, with the whole file. Where the
// decoder has accepted the file, the scanner trusts it and doubts nothing.
type scanner struct {
	*tree
	at    int
	trust bool // the decoder has accepted the text
	sure  bool // the decoder would accept the text up to here
	odd   int  // values that were left to the decoder
	begun int  // where the header or pair begins that is looked at
	keys  bool // the first doubt is about keys, which others may have taken
	twice int  // the first key given a value and something else, or -1
}

// mostOdd is how many single values are left to the decoder before the whole
// file is: each takes some microseconds.
const mostOdd = 1 << 14

// scan fills the tree. The decoder is sure to accept the text if the scanner is.
func (t *tree) scan(trust bool) *scanner {
	s := &scanner{tree: t, at: afterMark(t.text), trust: trust, sure: true, twice: -1}
	if trust || clean(t.text) {
		s.document()
	} else {
		s.sure = false
	}
	return s
}

// clean reports whether the text is UTF-8 without control characters.
func clean(text string) bool {
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case c >= ' ' && c != 0x7f || c == '\n' || c == '\t':
		case c == '\r' && i+1 < len(text) && text[i+1] == '\n':
		default:
			return false
		}
	}
	return utf8.ValidString(text)
}

// doubtKey leaves the text to the decoder because of a key in it.
func (s *scanner) doubtKey() {
	s.keys = s.keys || s.sure
	s.doubt()
}

// doubt leaves the text to the decoder.
func (s *scanner) doubt() {
	s.sure = false
	if !s.trust {
		s.at = len(s.text)
	}
}

func (s *scanner) document() {
	table := int32(0)
	for s.blank(); s.at < len(s.text); s.blank() {
		start := s.at
		s.begun = start
		if s.peek() == '[' {
			table = s.header()
		} else {
			s.pair(table, dotted)
		}
		s.gap()
		if c := s.peek(); c != 0 && c != '#' && c != '\r' && c != '\n' {
			s.doubt()
		}
		s.at = max(s.at, start+1) // never stand still
	}
}

// header reads [a.b], and [[a.b]] where the decoder has accepted it.
func (s *scanner) header() int32 {
	start := s.at
	s.at++
	if s.peek() != '[' {
		n := s.path(0, start, implied, stated)
		if !s.take(']') {
			s.doubt()
		}
		return n
	}
	s.doubtKey()
	s.take('[')
	n := s.path(0, start, implied, rows)
	s.take(']')
	s.take(']')
	return s.add(n, "", -1, node{key: int32(start), value: int32(start), kind: stated})
}

// path reads a dotted key below table. Tables on the way become through, the
// last part becomes last; 0 stands for a value.
func (s *scanner) path(table int32, start int, through, last kind) int32 {
	for {
		s.gap()
		name, at := s.key()
		s.gap()
		if !s.take('.') {
			return s.step(table, name, at, start, last)
		}
		if through == 0 {
			s.doubtKey()
		}
		table = s.step(table, name, at, start, max(through, implied))
		if s.tree.at(table).kind == rows {
			table = s.tree.at(table).last
		}
	}
}

// step is the key below table, made as a new one if it is not there. A key may
// be there already if a header goes through its table or states a table that was
// implied, or if a dotted key goes through what a dotted key made.
func (s *scanner) step(table int32, name string, at, start int, k kind) int32 {
	n := s.find(table, name)
	if n == 0 {
		return s.add(table, name, at, node{key: int32(start), value: int32(start), kind: k})
	}
	there := s.tree.at(n)
	switch {
	case k == implied && there.kind == stated, k == there.kind && (k == implied || k == dotted):
	case k == stated && there.kind == implied:
		there.kind = stated
	default:
		s.doubtKey()
		if s.twice < 0 && (k == 0 || there.kind >= list) {
			s.twice = start
		}
	}
	return n
}

// key reads one part of a key: its name, and where that stands in the text, or
// -1 if the text spells it otherwise.
func (s *scanner) key() (string, int) {
	start := s.at
	if c := s.peek(); c == '"' || c == '\'' {
		s.passQuoted()
		spelt := s.text[start:s.at]
		if body, escapes, ok := plainText(spelt); ok && !escapes && body != "" && len(body) == len(spelt)-2 {
			return body, start + 1
		}
		s.doubtKey()
		name, _ := alone(spelt)
		body, _ := name.(string)
		return body, -1
	}
	for s.at < len(s.text) && isBare(s.text[s.at]) {
		s.at++
	}
	name := s.text[start:s.at]
	if name == "" {
		s.doubt()
	}
	return name, start
}

func isBare(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_'
}

// pair reads a key and its value. Tables that a dotted key makes become through;
// 0 leaves dotted keys to the decoder.
func (s *scanner) pair(table int32, through kind) {
	start := s.at
	n := s.path(table, start, through, 0)
	s.gap()
	if !s.take('=') {
		s.doubt()
	}
	s.gap()
	from := s.at
	k := s.value(n)
	there := s.tree.at(n)
	there.key, there.value, there.end, there.kind = int32(start), int32(from), int32(s.at), k
}

// value passes a value; the keys of a table in braces go below n. Inside a list
// n is 0.
func (s *scanner) value(n int32) kind {
	start := s.at
	switch s.peek() {
	case '"', '\'':
		s.passQuoted()
		if !isPlainText(s.text[start:s.at]) {
			s.leave(start)
		}
		return quoted
	case '[':
		s.items(']', func() { s.value(0) })
		return list
	case '{':
		if n == 0 {
			s.doubtKey()
			n = s.make(node{})
		}
		s.items('}', func() { s.pair(n, 0) })
		return inline
	}
	s.passWord()
	if !isPlainWord(s.text[start:s.at]) {
		s.leave(start)
	}
	return word
}

// leave leaves the value from start to here to the decoder.
func (s *scanner) leave(start int) {
	if s.trust {
		return
	}
	s.odd++
	if s.odd > mostOdd {
		s.doubt()
	} else if _, ok := alone(s.text[start:s.at]); !ok {
		s.doubt()
	}
}
