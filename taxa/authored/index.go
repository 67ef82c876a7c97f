package authored

import (
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// The decoder keeps no positions, so index walks the text once more, after the
// decoder has accepted its syntax, and notes where each key and value begins.

// node is one key of the file: where the key and its value begin, and what
// stands below it.
type node struct {
	key, value int // byte offsets
	below      map[string]*node
	order      []string // the keys below, as they come in the file
	rows       int      // of an array of tables
}

// child is the node of a key below n, made at offset if it is new.
func (n *node) child(key string, offset int) *node {
	if c, known := n.below[key]; known {
		return c
	}
	if n.below == nil {
		n.below = map[string]*node{}
	}
	c := &node{key: offset, value: offset}
	n.below[key] = c
	n.order = append(n.order, key)
	return c
}

// lastRow is the row of an array of tables that a path through it means, or n.
func (n *node) lastRow() *node {
	if n.rows == 0 {
		return n
	}
	return n.below[strconv.Itoa(n.rows-1)]
}

type index struct {
	file  string
	text  string
	lines []int // byte offset of each line's start
	root  node
	at    int
}

func newIndex(file, text string) *index {
	x := &index{file: file, text: text, lines: []int{0}}
	for i := 0; i < len(text); i++ {
		if text[i] == '\n' {
			x.lines = append(x.lines, i+1)
		}
	}
	x.document()
	return x
}

// pos turns a byte offset into a place that people can go to.
func (x *index) pos(offset int) Pos {
	line := sort.SearchInts(x.lines, offset+1)
	start := x.lines[line-1]
	return Pos{File: x.file, Line: line, Col: utf8.RuneCountInString(x.text[start:offset]) + 1}
}

func (x *index) document() {
	table := &x.root
	for x.skip(" \t\r\n"); x.at < len(x.text); x.skip(" \t\r\n") {
		if x.text[x.at] == '[' {
			table = x.header()
		} else {
			x.pair(table)
		}
	}
}

// skip passes the characters of set, and comments.
func (x *index) skip(set string) {
	for x.at < len(x.text) {
		switch c := x.text[x.at]; {
		case c == '#':
			for x.at < len(x.text) && x.text[x.at] != '\n' {
				x.at++
			}
		case strings.IndexByte(set, c) >= 0:
			x.at++
		default:
			return
		}
	}
}

func (x *index) header() *node {
	start := x.at
	array := strings.HasPrefix(x.text[x.at:], "[[")
	for x.at < len(x.text) && x.text[x.at] == '[' {
		x.at++
	}
	n := x.keyPath(&x.root, start)
	for x.at < len(x.text) && x.text[x.at] == ']' {
		x.at++
	}
	if array {
		n.rows++
		return n.child(strconv.Itoa(n.rows-1), start)
	}
	return n
}

// keyPath reads a dotted key below table and makes every table on the way.
func (x *index) keyPath(table *node, start int) *node {
	for {
		x.skip(" \t")
		table = table.child(x.key(), start)
		x.skip(" \t")
		if x.at >= len(x.text) || x.text[x.at] != '.' {
			return table
		}
		x.at++
		table = table.lastRow()
	}
}

func (x *index) key() string {
	start := x.at
	if x.at < len(x.text) && (x.text[x.at] == '"' || x.text[x.at] == '\'') {
		x.quoted()
		var decoded struct{ Key string }
		if toml.Unmarshal([]byte("Key = "+x.text[start:x.at]), &decoded) == nil {
			return decoded.Key
		}
		return x.text[start:x.at]
	}
	for x.at < len(x.text) && strings.IndexByte(" \t\r\n.=]#", x.text[x.at]) < 0 {
		x.at++
	}
	return x.text[start:x.at]
}

func (x *index) pair(table *node) {
	start := x.at
	n := x.keyPath(table, start)
	x.skip(" \t")
	if x.at < len(x.text) && x.text[x.at] == '=' {
		x.at++
	}
	x.skip(" \t")
	n.key, n.value = start, x.at
	x.contents(n)
	if x.at == start {
		x.at++ // never stand still
	}
}

func (x *index) contents(n *node) {
	if x.at >= len(x.text) {
		return
	}
	switch x.text[x.at] {
	case '"', '\'':
		x.quoted()
	case '[':
		x.at++
		for i := 0; x.more(']'); i++ {
			x.contents(n.child(strconv.Itoa(i), x.at))
		}
	case '{':
		x.at++
		for x.more('}') {
			x.pair(n)
		}
	default:
		for x.at < len(x.text) && strings.IndexByte(",]}\r\n#", x.text[x.at]) < 0 {
			x.at++
		}
	}
}

// more passes blanks and commas and reports whether another element follows;
// the closing bracket is consumed.
func (x *index) more(end byte) bool {
	x.skip(" \t\r\n,")
	if x.at >= len(x.text) {
		return false
	}
	if x.text[x.at] == end {
		x.at++
		return false
	}
	return true
}

// quoted passes a string of any of the four kinds.
func (x *index) quoted() {
	q := x.text[x.at : x.at+1]
	if three := q + q + q; strings.HasPrefix(x.text[x.at:], three) {
		q = three
	}
	x.at += len(q)
	for x.at < len(x.text) && !strings.HasPrefix(x.text[x.at:], q) {
		if q[0] == '"' && x.text[x.at] == '\\' {
			x.at++
		}
		x.at++
	}
	x.at = min(x.at+len(q), len(x.text))
	for len(q) == 3 && x.at < len(x.text) && x.text[x.at] == q[0] {
		x.at++ // one or two quotes may stand before the closing three
	}
}

// deepest is how deep keys and brackets may nest. The decoder's time grows with
// the square of the depth: a line of 60 kB of "a.a.a.…" keeps it busy for more
// than a minute.
const deepest = 16

// tooDeep is the first line that nests deeper than deepest, or 0.
func tooDeep(text string) int {
	x := &index{text: text}
	line, brackets, dots := 1, 0, 0
	for x.at < len(text) {
		switch text[x.at] {
		case '"', '\'':
			start := x.at
			x.quoted()
			line += strings.Count(text[start:x.at], "\n")
			continue
		case '#':
			x.skip("")
			continue
		case '\n':
			line++
			dots = 0
		case '=', ',':
			dots = 0
		case '.':
			dots++
		case '[', '{':
			brackets++
		case ']', '}':
			brackets--
		}
		if dots > deepest || brackets > deepest {
			return line
		}
		x.at++
	}
	return 0
}
