package authored

import "strings"

// peek is the next byte, 0 at the end.
func (s *scanner) peek() byte {
	if s.at < len(s.text) {
		return s.text[s.at]
	}
	return 0
}

// take passes the next byte if it is c.
func (s *scanner) take(c byte) bool {
	if s.at < len(s.text) && s.text[s.at] == c {
		s.at++
		return true
	}
	return false
}

// gap passes blanks within a line.
func (s *scanner) gap() {
	for s.at < len(s.text) && (s.text[s.at] == ' ' || s.text[s.at] == '\t') {
		s.at++
	}
}

// blank passes blanks, line breaks and comments.
func (s *scanner) blank() {
	for s.at < len(s.text) {
		switch s.text[s.at] {
		case ' ', '\t', '\r', '\n':
			s.at++
		case '#':
			s.comment()
		default:
			return
		}
	}
}

// comment passes the rest of the line.
func (s *scanner) comment() {
	if n := strings.IndexByte(s.text[s.at:], '\n'); n >= 0 {
		s.at += n
	} else {
		s.at = len(s.text)
	}
}

// items passes brackets and what is in them, which item passes one by one.
func (s *scanner) items(end byte, item func()) {
	s.at = min(s.at+1, len(s.text))
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
		if s.at >= len(s.text) {
			return
		}
		start := s.at
		item()
		s.at = max(s.at, start+1) // never stand still
	}
}

// passQuoted passes a string of any of the four kinds.
func (s *scanner) passQuoted() {
	q := s.text[s.at : s.at+1]
	if three := s.text[s.at:min(s.at+3, len(s.text))]; three == `"""` || three == "'''" {
		q = three
	}
	s.at += len(q)
	if len(q) == 1 { // most texts, which hold nothing that needs a look at each byte
		if n := strings.IndexByte(s.text[s.at:], q[0]); n >= 0 && (q[0] == '\'' || strings.IndexByte(s.text[s.at:s.at+n], '\\') < 0) {
			s.at += n + 1
			return
		}
	}
	for s.at < len(s.text) && !strings.HasPrefix(s.text[s.at:], q) {
		if q[0] == '"' && s.text[s.at] == '\\' {
			s.at++
		}
		s.at++
	}
	s.at = min(s.at+len(q), len(s.text))
	for len(q) == 3 && s.at < len(s.text) && s.text[s.at] == q[0] {
		s.at++ // one or two quotes may stand before the closing three
	}
}

// passWord passes a value without quotes or brackets.
func (s *scanner) passWord() {
	start := s.at
	for s.at < len(s.text) && strings.IndexByte(",]}\r\n#", s.text[s.at]) < 0 {
		s.at++
	}
	s.at = start + len(strings.TrimRight(s.text[start:s.at], " \t"))
}
