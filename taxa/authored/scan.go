package authored

// scanner walks a text that the decoder accepts, and notes where each key and
// value begins: the decoder keeps no positions.
type scanner struct {
	*tree
	offset  int
	twice   int  // the first key given a value and something else, or -1
	doubled bool // a key is there twice, which may be in order where keys have dots
}

// scan fills the tree.
func (t *tree) scan() *scanner {
	s := &scanner{tree: t, offset: afterMark(t.text), twice: -1}
	s.document()
	return s
}

func (s *scanner) document() {
	table := int32(0)
	for s.blank(); s.offset < len(s.text); s.blank() {
		start := s.offset
		if s.peek() == '[' {
			table = s.header()
		} else {
			s.pair(table)
		}
		s.gap()
		s.offset = max(s.offset, start+1) // never stand still
	}
}

// header reads [a.b] and [[a.b]].
func (s *scanner) header() int32 {
	start := s.offset
	s.offset++
	if s.peek() != '[' {
		n := s.path(0, start, implied, stated)
		s.take(']')
		return n
	}
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
		table = s.step(table, name, at, start, through)
		if s.tree.node(table).kind == rows {
			table = s.tree.node(table).last
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
	there := s.tree.node(n)
	through := k == implied && (there.kind == implied || there.kind == stated)
	s.doubled = s.doubled || !through && (k != stated || there.kind != implied)
	switch {
	case k == implied && there.kind == stated, k == there.kind && (k == implied || k == dotted):
	case k == stated && there.kind == implied:
		there.kind = stated
	case s.twice < 0 && (k == 0 || there.kind >= list):
		s.twice = start
	}
	return n
}

// key reads one part of a key: its name, and where that stands in the text, or
// -1 if the text spells it otherwise.
func (s *scanner) key() (string, int) {
	start := s.offset
	if c := s.peek(); c == '"' || c == '\'' {
		s.passQuoted()
		spelt := s.text[start:s.offset]
		if body, ok := plainText(spelt); ok && len(body) == len(spelt)-2 {
			return body, start + 1
		}
		name, _ := alone(spelt).(string)
		return name, -1
	}
	for s.offset < len(s.text) && isBare(s.text[s.offset]) {
		s.offset++
	}
	return s.text[start:s.offset], start
}

func isBare(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_'
}

// pair reads a key and its value.
func (s *scanner) pair(table int32) {
	start := s.offset
	n := s.path(table, start, dotted, 0)
	s.gap()
	s.take('=')
	s.gap()
	from := s.offset
	k := s.value(n)
	there := s.tree.node(n)
	there.key, there.value, there.end, there.kind = int32(start), int32(from), int32(s.offset), k
}

// value passes a value; the keys of a table in braces go below n. Inside a list
// n is 0.
func (s *scanner) value(n int32) kind {
	switch s.peek() {
	case '"', '\'':
		s.passQuoted()
		return quoted
	case '[':
		s.items(']', func() { s.value(0) })
		return list
	case '{':
		if n == 0 {
			n = s.make(node{})
		}
		s.items('}', func() { s.pair(n) })
		return inline
	}
	s.passWord()
	return word
}
