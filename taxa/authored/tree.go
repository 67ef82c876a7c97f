package authored

import (
	"iter"
	"sort"
	"strings"
	"unicode/utf8"
)

// kind is what a key of the file holds.
type kind uint8

const (
	implied kind = iota + 1 // a table that a header below it implies
	stated                  // a table with a header of its own
	dotted                  // a table made by a dotted key
	inline                  // a table in braces
	rows                    // an array of tables, each a node below
	list                    // a list in brackets
	quoted                  // a text
	word                    // anything else: a number, true, a date
)

func (k kind) isTable() bool { return k >= implied && k <= inline }

// node is one key of the file. A large file has some hundred thousand, so a node
// holds offsets into the text, and the keys below a table are a chain.
type node struct {
	key, value, end   int32 // where the key begins, and the value begins and ends
	name, size        int32 // where the name stands; size is -1 for one in tree.names
	first, last, next int32 // nodes; 0 is none
	kind              kind
	keys              uint8 // how many keys are below, up to wide
	asked             bool
}

const (
	slab = 512 // nodes made at once
	wide = 16  // a table with as many keys has a map of them
)

// tree is the keys of one file, with their places.
type tree struct {
	file, text string
	report     *Report
	slabs      [][]node
	used       int
	names      []string                   // those that the text spells otherwise
	maps       map[int32]map[string]int32 // the keys of wide tables

	lines []int32 // where each line begins
	line  int     // the line of the place found last, 0 before the first
	last  int32   // its offset
	col   int     // and its column

	list     int32   // the list looked at last
	elements []int32 // where its elements begin
}

// newTree is a tree of nothing but the top table, node 0.
func newTree(file, text string, report *Report) *tree {
	t := &tree{file: file, text: text, report: report, maps: map[int32]map[string]int32{}}
	t.lines = append(make([]int32, 0, strings.Count(text, "\n")+1), int32(afterMark(text)))
	for i := 0; i < len(text); i++ {
		next := strings.IndexByte(text[i:], '\n')
		if next < 0 {
			break
		}
		i += next
		t.lines = append(t.lines, int32(i+1))
	}
	t.node(t.make(node{kind: stated}))
	return t
}

// afterMark is where the text begins after a byte order mark, as the decoder has it.
func afterMark(text string) int {
	switch {
	case strings.HasPrefix(text, "\ufeff"):
		return len("\ufeff")
	case strings.HasPrefix(text, "\xff\xfe"), strings.HasPrefix(text, "\xfe\xff"):
		return 2
	}
	return 0
}

func (t *tree) node(n int32) *node { return &t.slabs[n/slab][n%slab] }

func (t *tree) make(n node) int32 {
	if t.used%slab == 0 {
		t.slabs = append(t.slabs, make([]node, slab))
	}
	t.used++
	*t.node(int32(t.used - 1)) = n
	return int32(t.used - 1)
}

func (t *tree) name(n *node) string {
	if n.size < 0 {
		return t.names[n.name]
	}
	return t.text[n.name : n.name+n.size]
}

// spelt is a value as it stands in the text.
func (t *tree) spelt(n int32) string { return t.text[t.node(n).value:t.node(n).end] }

// size is how many keys are below a table.
func (t *tree) size(table int32) int {
	if n := t.node(table).keys; n < wide {
		return int(n)
	}
	return len(t.maps[table])
}

// children are the keys below a table, in the order of the file.
func (t *tree) children(table int32) iter.Seq2[int32, *node] {
	return func(yield func(int32, *node) bool) {
		for n := t.node(table).first; n != 0; n = t.node(n).next {
			if !yield(n, t.node(n)) {
				return
			}
		}
	}
}

// find is the key below a table, or 0.
func (t *tree) find(table int32, name string) int32 {
	top := t.node(table)
	if top.keys == 0 {
		return 0
	}
	if t.name(t.node(top.last)) == name {
		return top.last // most often
	}
	if top.keys == wide {
		return t.maps[table][name]
	}
	for n := top.first; n != 0; n = t.node(n).next {
		if t.name(t.node(n)) == name {
			return n
		}
	}
	return 0
}

// add makes a key below a table. The name stands at an offset of the text, or
// nowhere if that is below 0.
func (t *tree) add(table int32, name string, at int, n node) int32 {
	n.name, n.size = int32(at), int32(len(name))
	if at < 0 {
		n.name, n.size = int32(len(t.names)), -1
		t.names = append(t.names, name)
	}
	added := t.make(n)
	top := t.node(table)
	if top.last == 0 {
		top.first = added
	} else {
		t.node(top.last).next = added
	}
	top.last = added
	t.count(table, name, added)
	return added
}

// count notes one more key below a table.
func (t *tree) count(table int32, name string, added int32) {
	top := t.node(table)
	if top.keys == wide {
		t.maps[table][name] = added
		return
	}
	if top.keys++; top.keys < wide {
		return
	}
	keys := map[string]int32{}
	for n := top.first; n != 0; n = t.node(n).next {
		keys[t.name(t.node(n))] = n
	}
	t.maps[table] = keys
}

// pos turns a byte offset into a place that people can go to. Offsets are mostly
// asked for in the order of the file, so the search goes on from the last one: a
// file may be one long line.
func (t *tree) pos(offset int32) Pos {
	if t.line == 0 || offset < t.last || t.line < len(t.lines) && offset >= t.lines[t.line] {
		t.toLine(offset)
	}
	t.col += utf8.RuneCountInString(t.text[t.last:offset])
	t.last = offset
	return Pos{File: t.file, Line: t.line, Col: t.col}
}

// toLine goes to the beginning of the line that holds an offset.
func (t *tree) toLine(offset int32) {
	next := t.line + 1
	if t.line == 0 || next > len(t.lines) || offset < t.lines[next-1] || next < len(t.lines) && offset >= t.lines[next] {
		next = max(1, sort.Search(len(t.lines), func(i int) bool { return t.lines[i] > offset }))
	}
	t.line, t.last, t.col = next, min(t.lines[next-1], offset), 1
}
