// Package trim makes a key shorter by leaving out what a region does not need,
// working on the text itself: wording and comments of what stays are not
// touched, byte for byte; only numbers and where leads go are.
package trim

import (
	"fmt"
	"slices"
	"sort"
	"strconv"
	"strings"

	"rillkey/couplets"
	"rillkey/taxa/authored"
	"rillkey/taxa/wording"
)

// Trimmed is a shortened key.
type Trimmed struct {
	Text     []byte
	Couplets []string // ids, as they were, of couplets that fell away
	Ends     []string // taxa that are no longer keyed
	// Numbers are the new ids of the couplets that stay, by the ids that they had.
	Numbers map[string]string
}

// Renumber is [Keep] of all end points: the couplets get the numbers of their order
// in the file.
func Renumber(data []byte, s *couplets.Sound) (*Trimmed, error) {
	return Keep(data, s, func(string) bool { return true })
}

// NumbersCSV are the numbers that the couplets of the key had, and those that they have, as a
// table in the order of the key, and how many have another one.
func (t *Trimmed) NumbersCSV(s *couplets.Sound) (table []byte, changed int) {
	table = append(table, "old,new\n"...)
	for _, c := range s.Couplets {
		table = fmt.Appendf(table, "%s,%s\n", c.ID, t.Numbers[c.ID])
		if t.Numbers[c.ID] != c.ID {
			changed++
		}
	}
	return table, changed
}

// Keep leaves of a key only the end points that keep holds. Data is the text
// that the key was read from. Couplets that no longer decide anything fall away,
// and the rest are numbered in the order of the file. It is an error when fewer
// than two end points would stay, or when the text is laid out so unusually that
// it cannot be cut safely.
func Keep(data []byte, s *couplets.Sound, keep func(end string) bool) (*Trimmed, error) {
	t := &trimmer{text: string(data), sound: s, keep: keep, goal: map[string]goal{}, number: map[string]string{}}
	out := &Trimmed{}
	left := 0
	for _, end := range s.Ends {
		if keep(end.ID) {
			left++
		} else {
			out.Ends = append(out.Ends, end.ID)
		}
	}
	if left < 2 {
		return nil, wording.Errorf("the region keeps %d of the key's %d end points; a key needs two", left, len(s.Ends))
	}
	t.index()
	t.goals()
	for i := range s.Couplets {
		if id := s.Couplets[i].ID; t.goal[id].couplet != id {
			out.Couplets = append(out.Couplets, id)
		}
	}
	t.renumber()
	if err := t.blocks(); err != nil {
		return nil, err
	}
	out.Text, out.Numbers = t.apply(), t.number
	return out, nil
}

// goal is where one comes to in the trimmed key: a couplet, an end point, whose
// taxa stand in end with commas between them, or nothing that is kept.
type goal struct{ couplet, end string }

type trimmer struct {
	text   string
	sound  *couplets.Sound
	keep   func(string) bool
	lines  []int
	goal   map[string]goal   // by couplet id
	number map[string]string // new numbers of the couplets that stay
	edits  []edit
}

// edit puts new text in the place of some bytes.
type edit struct {
	start, end int
	text       string
}

func (t *trimmer) index() {
	t.lines = []int{0}
	for i := 0; i < len(t.text); i++ {
		if t.text[i] == '\n' {
			t.lines = append(t.lines, i+1)
		}
	}
}

// offset is the byte that a place in the file means.
func (t *trimmer) offset(p authored.Pos) int {
	at := t.lines[p.Line-1]
	for range p.Col - 1 {
		at += len(string([]rune(t.text[at:min(len(t.text), at+4)])[:1]))
	}
	return at
}

// goals finds where one comes to from each couplet, the deepest couplets first.
func (t *trimmer) goals() {
	for _, place := range slices.Backward(t.sound.TopDown()) {
		c := &t.sound.Couplets[place]
		var found []goal
		for j := range c.Leads {
			if g := t.goalOf(&c.Leads[j]); g != (goal{}) && !slices.Contains(found, g) {
				found = append(found, g)
			}
		}
		switch len(found) {
		case 0:
		case 1:
			t.goal[c.ID] = found[0]
		default:
			t.goal[c.ID] = goal{couplet: c.ID}
		}
	}
}

// goalOf is where one comes to by a lead.
func (t *trimmer) goalOf(l *couplets.Lead) goal {
	if l.Next != "" {
		return t.goal[l.Next]
	}
	return goal{end: strings.Join(t.kept(l), ",")}
}

// kept are the taxa that a lead ends in and that are kept, in alphabetical order.
func (t *trimmer) kept(l *couplets.Lead) []string {
	var out []string
	for _, id := range l.Taxa {
		if t.keep(id) {
			out = append(out, id)
		}
	}
	slices.Sort(out)
	return out
}

func (t *trimmer) renumber() {
	n := 0
	for i := range t.sound.Couplets {
		if id := t.sound.Couplets[i].ID; t.goal[id].couplet == id {
			n++
			t.number[id] = strconv.Itoa(n)
		}
	}
}

func (t *trimmer) cut(from, to int)                  { t.edits = append(t.edits, edit{from, to, ""}) }
func (t *trimmer) replace(from, to int, with string) { t.edits = append(t.edits, edit{from, to, with}) }

func (t *trimmer) apply() []byte {
	sort.SliceStable(t.edits, func(i, j int) bool { return t.edits[i].start < t.edits[j].start })
	var b strings.Builder
	at := 0
	for _, e := range t.edits {
		if e.start < at { // inside something that is already cut
			continue
		}
		b.WriteString(t.text[at:e.start])
		b.WriteString(e.text)
		at = e.end
	}
	b.WriteString(t.text[at:])
	return []byte(b.String())
}
