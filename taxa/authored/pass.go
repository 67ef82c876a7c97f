package authored

import "strings"

// peek is the next byte, 0 at the end.
func (s *scanner) peek() byte {
	if s.offset < len(s.text) {
		return s.text[s.offset]
	}
	return 0
}

// take passes the next byte if it is c.
func (s *scanner) take(c byte) bool {
	if s.offset < len(s.text) && s.text[s.offset] == c {
		s.offset++
		return true
	}
	return false
}

// gap passes blanks within a line.
func (s *scanner) gap() {
	for s.offset < len(s.text) && (s.text[s.offset] == ' ' || s.text[s.offset] == '\t') {
		s.offset++
	}
}

// blank passes blanks, line breaks and comments.
func (s *scanner) blank() {
	for s.offset < len(s.text) {
		switch s.text[s.offset] {
		case ' ', '\t', '\r', '\n':
			s.offset++
		case '#':
			s.comment()
		default:
			return
		}
	}
}

// comment passes the rest of the line.
func (s *scanner) comment() {
	if n := strings.IndexByte(s.text[s.offset:], '\n'); n >= 0 {
		s.offset += n
	} else {
		s.offset = len(s.text)
	}
}

// items passes brackets and what is in them, which item passes one by one.
func (s *scanner) items(end byte, item func()) {
	s.offset = min(s.offset+1, len(s.text))
	for i := 0; ; i++ {
		s.blank()
		if s.take(end) {
			return
		}
		if i > 0 {
			s.take(',')
			s.blank()
			if s.take(end) {
				return
			}
		}
		if s.offset >= len(s.text) {
			return
		}
		start := s.offset
		item()
		s.offset = max(s.offset, start+1) // never stand still
	}
}

// passQuoted passes a string of any of the four kinds.
func (s *scanner) passQuoted() {
	q := s.text[s.offset : s.offset+1]
	if three := s.text[s.offset:min(s.offset+3, len(s.text))]; three == `"""` || three == "'''" {
		q = three
	}
	s.offset += len(q)
	if len(q) == 1 { // most texts, which hold nothing that needs a look at each byte
		if n := strings.IndexByte(s.text[s.offset:], q[0]); n >= 0 && (q[0] == '\'' ||
			strings.IndexByte(s.text[s.offset:s.offset+n], '\\') < 0) {
			s.offset += n + 1
			return
		}
	}
	for s.offset < len(s.text) && !strings.HasPrefix(s.text[s.offset:], q) {
		if q[0] == '"' && s.text[s.offset] == '\\' {
			s.offset++
		}
		s.offset++
	}
	s.offset = min(s.offset+len(q), len(s.text))
	for len(q) == 3 && s.offset < len(s.text) && s.text[s.offset] == q[0] {
		s.offset++ // one or two quotes may stand before the closing three
	}
}

// passWord passes a value without quotes or brackets.
func (s *scanner) passWord() {
	start := s.offset
	for s.offset < len(s.text) && strings.IndexByte(",]}\r\n#", s.text[s.offset]) < 0 {
		s.offset++
	}
	s.offset = start + len(strings.TrimRight(s.text[start:s.offset], " \t"))
}
