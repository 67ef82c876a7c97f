package authored

import (
	"errors"
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"

	"github.com/BurntSushi/toml"
)

// Table is a cursor over one table of a file. Reading a key of the wrong kind
// adds a finding and gives the zero value; [Table.Done] adds one for every key
// that nobody asked for.
type Table struct {
	node   *node
	values map[string]any
	asked  map[string]bool
	idx    *index
	report *Report
}

// Named is a table with the key it stands under.
type Named struct {
	ID string
	*Table
}

// Parse reads the text of a file into its top table. A syntax error is added to
// report and nil is returned.
func Parse(file string, data []byte, report *Report) *Table {
	if line := tooDeep(string(data)); line > 0 {
		report.Add(Pos{File: file, Line: line, Col: 1}, "too-deep", fmt.Sprintf("tables or keys nest more than %d deep here", deepest), "no file of this program needs that; check that it is the right one")
		return nil
	}
	var values map[string]any
	if err := toml.Unmarshal(data, &values); err != nil {
		addSyntax(file, err, report)
		return nil
	}
	idx := newIndex(file, string(data))
	return &Table{node: &idx.root, values: values, asked: map[string]bool{}, idx: idx, report: report}
}

func addSyntax(file string, err error, report *Report) {
	pos, msg := Pos{File: file}, err.Error()
	var pe toml.ParseError
	if errors.As(err, &pe) {
		msg = pe.Message
		if pe.Position.Line > 0 {
			pos.Line, pos.Col = pe.Position.Line, max(1, pe.Position.Col)
		}
	}
	report.Add(pos, "syntax", Printable(msg), "")
}

// Keys are the table's keys in the order of the file.
func (t *Table) Keys() []string { return t.node.order }

// Has reports whether the table has the key.
func (t *Table) Has(key string) bool { _, ok := t.values[key]; return ok }

// Here is where the table begins.
func (t *Table) Here() Pos { return t.idx.pos(t.node.key) }

// Pos is where the value of key begins; without such a key, where the table does.
func (t *Table) Pos(key string) Pos {
	if n := t.node.below[key]; n != nil {
		return t.idx.pos(n.value)
	}
	return t.Here()
}

// KeyPos is where the key itself begins; without such a key, where the table does.
func (t *Table) KeyPos(key string) Pos {
	if n := t.node.below[key]; n != nil {
		return t.idx.pos(n.key)
	}
	return t.Here()
}

// Elem is where element i of the list under key begins, or the value itself
// when it is no list.
func (t *Table) Elem(key string, i int) Pos {
	if list := t.node.below[key]; list != nil {
		if n := list.below[strconv.Itoa(i)]; n != nil {
			return t.idx.pos(n.value)
		}
	}
	return t.Pos(key)
}

// Fail adds a finding at the value of key.
func (t *Table) Fail(key, rule, message, hint string) {
	t.report.Add(t.Pos(key), rule, message, hint)
}

// FailAt adds a finding at p.
func (t *Table) FailAt(p Pos, rule, message, hint string) { t.report.Add(p, rule, message, hint) }

func (t *Table) get(key string) (any, bool) {
	t.asked[key] = true
	v, ok := t.values[key]
	return v, ok
}

func (t *Table) wrongKind(key, want string) {
	t.Fail(key, "wrong-kind", fmt.Sprintf("%s must be %s", Quote(key), want), "")
}

// Need adds a finding if the key is missing.
func (t *Table) Need(keys ...string) {
	for _, key := range keys {
		if !t.Has(key) {
			t.report.Add(t.Here(), "missing-field", fmt.Sprintf("%s is missing", Quote(key)), "add a line "+key+" = …")
		}
	}
}

// Str is the text under key; line breaks in it are blanks.
func (t *Table) Str(key string) string {
	v, ok := t.get(key)
	if !ok {
		return ""
	}
	s, ok := v.(string)
	if !ok {
		t.wrongKind(key, "text in quotes")
		return ""
	}
	return t.text(t.Pos(key), s)
}

// NeedStr is the text under key, which must be there and not empty.
func (t *Table) NeedStr(key string) string {
	t.Need(key)
	s := t.Str(key)
	if _, isText := t.values[key].(string); isText && strings.TrimSpace(s) == "" {
		t.Fail(key, "empty", fmt.Sprintf("%s is empty", Quote(key)), "")
	}
	return s
}

// text is a text as it will be shown: a line break that the author set to keep
// lines short is a blank, and other control characters are a finding.
func (t *Table) text(p Pos, s string) string {
	s = strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", " "), "\n", " ")
	if HasControl(s) {
		t.report.Add(p, "control-character", "the text holds a control character: "+Quote(s), "remove it")
	}
	return s
}

// Strs is the list of texts under key; a single text counts as a list of one.
func (t *Table) Strs(key string) []string {
	v, ok := t.get(key)
	if !ok {
		return nil
	}
	if s, one := v.(string); one {
		return []string{t.text(t.Pos(key), s)}
	}
	list, ok := v.([]any)
	if !ok {
		t.wrongKind(key, "a text or a list of texts")
		return nil
	}
	out := make([]string, 0, len(list))
	for i, e := range list {
		s, ok := e.(string)
		if !ok {
			t.report.Add(t.Elem(key, i), "wrong-kind", fmt.Sprintf("%s must hold texts in quotes", Quote(key)), "")
			continue
		}
		out = append(out, t.text(t.Elem(key, i), s))
	}
	return out
}

// Num is the finite number under key, and whether there is one.
func (t *Table) Num(key string) (float64, bool) {
	v, ok := t.get(key)
	if !ok {
		return 0, false
	}
	f, ok := number(v)
	if !ok {
		t.wrongKind(key, "a number")
	}
	return f, ok
}

// Nums is the list of finite numbers under key.
func (t *Table) Nums(key string) []float64 {
	v, ok := t.get(key)
	if !ok {
		return nil
	}
	list, ok := v.([]any)
	if !ok {
		t.wrongKind(key, "a list of numbers")
		return nil
	}
	out := make([]float64, 0, len(list))
	for i, e := range list {
		f, ok := number(e)
		if !ok {
			t.report.Add(t.Elem(key, i), "wrong-kind", fmt.Sprintf("%s must hold numbers", Quote(key)), "")
			continue
		}
		out = append(out, f)
	}
	return out
}

func number(v any) (float64, bool) {
	switch n := v.(type) {
	case int64:
		return float64(n), true
	case float64:
		return n, !math.IsNaN(n) && !math.IsInf(n, 0)
	}
	return 0, false
}

// Int is the whole number under key, and whether there is one.
func (t *Table) Int(key string) (int64, bool) {
	v, ok := t.get(key)
	if !ok {
		return 0, false
	}
	n, ok := v.(int64)
	if !ok {
		t.wrongKind(key, "a whole number")
	}
	return n, ok
}

// Bool is the true or false under key; false when it is not there.
func (t *Table) Bool(key string) bool {
	v, ok := t.get(key)
	if !ok {
		return false
	}
	b, ok := v.(bool)
	if !ok {
		t.wrongKind(key, "true or false")
	}
	return b
}

// IsTable reports whether the value under key is a table.
func (t *Table) IsTable(key string) bool { _, ok := t.values[key].(map[string]any); return ok }

// Sub is the table under key, nil when there is none.
func (t *Table) Sub(key string) *Table {
	v, ok := t.get(key)
	if !ok {
		return nil
	}
	m, ok := v.(map[string]any)
	if !ok {
		t.wrongKind(key, "a table")
		return nil
	}
	n := t.node.below[key]
	if n == nil {
		n = &node{key: t.node.key, value: t.node.value}
	}
	return &Table{node: n, values: m, asked: map[string]bool{}, idx: t.idx, report: t.report}
}

// Subs are the tables one level below key, in the order of the file. Every key
// there must be an id (see [CheckID]).
func (t *Table) Subs(key string) []Named {
	sub := t.Sub(key)
	if sub == nil {
		return nil
	}
	var out []Named
	for _, id := range sub.Keys() {
		if !CheckID(id) {
			t.report.Add(sub.KeyPos(id), "bad-id", fmt.Sprintf("%s cannot be an id", Quote(id)), "use lower-case letters, digits and hyphens, at most 64")
			continue
		}
		if one := sub.Sub(id); one != nil {
			out = append(out, Named{id, one})
		}
	}
	return out
}

// Done adds a finding for every key of the table that was not read.
func (t *Table) Done() {
	for _, key := range t.Keys() {
		if !t.asked[key] {
			t.report.Add(t.KeyPos(key), "unknown-field", fmt.Sprintf("nothing reads a field %s here", Quote(key)), "check the spelling; the fields read here are "+List(t.known()))
		}
	}
}

func (t *Table) known() []string {
	out := make([]string, 0, len(t.asked))
	for k := range t.asked {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}
