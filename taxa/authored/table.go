package authored

import (
	"math"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Table is a cursor over one table of a file. Reading a key of the wrong kind
// adds a finding and gives the zero value; [Table.Done] adds one for every key
// that nobody asked for.
type Table struct {
	tree    *tree
	node    int32
	missing []string // keys asked for that are not there
}

// Section is a table with the key it stands under.
type Section struct {
	ID string
	*Table
}

// Parse reads the text of a file, of at most 2 GB, into its top table. A syntax
// error is added to report and nil is returned.
func Parse(file string, data []byte, report *Report) *Table {
	return parse(file, string(data), report, false)
}

// parse reads a text. What is known to be sound, as what the program itself holds
// and its tests have decoded, is not decoded again: that takes thirty times as
// long as finding the places.
func parse(file, text string, report *Report, sound bool) *Table {
	if !sound {
		if line := tooDeep(text); line > 0 {
			report.Add(Pos{File: file, Line: line, Col: 1}, "too-deep",
				wording.Sprintf("tables or keys nest more than %d deep here", deepest),
				wording.Text("no file of this program needs that; check that it is the right one"))
			return nil
		}
	}
	parts := parts(text, partSize)
	inParts := !sound && len(parts) > 1 && takesEach(parts)
	if !sound && !inParts && !decodes(file, text, report) {
		return nil
	}
	t := newTree(file, text, report)
	if !sound && addHidden(t) {
		return nil
	}
	s := t.scan()
	if inParts && s.doubled && !decodes(file, text, report) {
		return nil
	}
	// Of a value and a table under one key the decoder drops one without a word.
	if s.twice >= 0 {
		report.Add(t.pos(int32(s.twice)), "syntax", wording.Text("this key is given a value, and something else too"),
			wording.Text("keep one of them"))
		return nil
	}
	return &Table{tree: t}
}

// decodes reports whether the decoder takes a text, and says why not.
func decodes(file, text string, report *Report) bool {
	var values map[string]any
	_, err := toml.Decode(text, &values)
	if err != nil {
		addSyntax(newTree(file, text, report), err)
	}
	return err == nil
}

// Keys are the table's keys in the order of the file.
func (t *Table) Keys() []string {
	out := make([]string, 0, t.tree.size(t.node))
	for _, n := range t.tree.children(t.node) {
		out = append(out, t.tree.name(n))
	}
	return out
}

// Text is the text of the whole file.
func (t *Table) Text() string { return t.tree.text }

// Has reports whether the table has the key.
func (t *Table) Has(key string) bool { return t.tree.find(t.node, key) != 0 }

// Here is where the table begins.
func (t *Table) Here() Pos { return t.tree.pos(t.tree.node(t.node).key) }

// Pos is where the value of key begins; without such a key, where the table does.
func (t *Table) Pos(key string) Pos {
	if n := t.tree.find(t.node, key); n != 0 {
		return t.tree.pos(t.tree.node(n).value)
	}
	return t.Here()
}

// KeyPos is where the key itself begins; without such a key, where the table does.
func (t *Table) KeyPos(key string) Pos {
	if n := t.tree.find(t.node, key); n != 0 {
		return t.tree.pos(t.tree.node(n).key)
	}
	return t.Here()
}

// Elem is where element i of the list under key begins, or the value itself
// when it is no list.
func (t *Table) Elem(key string, i int) Pos {
	if n := t.tree.find(t.node, key); n != 0 && t.tree.node(n).kind == list {
		if places := t.tree.places(n); i >= 0 && i < len(places) {
			return t.tree.pos(places[i])
		}
	}
	return t.Pos(key)
}

// Fail adds a finding at the value of key.
func (t *Table) Fail(key, rule, message, hint string) {
	t.FailAt(t.Pos(key), rule, message, hint)
}

// Found is how many findings the report of the file holds.
func (t *Table) Found() int { return len(t.tree.report.All()) }

// FailAt adds a finding at p.
func (t *Table) FailAt(p Pos, rule, message, hint string) { t.tree.report.Add(p, rule, message, hint) }

// FollowsAt adds a finding at p beneath the one that was added as number cause, from 0,
// whose consequence it is; by itself where there is none of that number.
func (t *Table) FollowsAt(cause int, p Pos, rule, message, hint string) {
	if cause >= t.Found() {
		t.FailAt(p, rule, message, hint)
		return
	}
	t.tree.report.Fold(cause, Finding{Pos: p, Rule: rule, Message: message, Hint: hint})
}

// ask is the node of a key, 0 without one, and its kind.
func (t *Table) ask(key string) (int32, kind) {
	n := t.tree.find(t.node, key)
	if n == 0 {
		t.missing = append(t.missing, key)
		return 0, 0
	}
	t.tree.node(n).asked = true
	return n, t.tree.node(n).kind
}

// word is the value of a key that is neither text, list nor table.
func (t *Table) word(key string) (v any, ok bool) {
	n, k := t.ask(key)
	if k == word {
		v = wordOf(t.tree.spelt(n))
	}
	return v, n != 0
}

// shapes are what values of each kind look like.
var shapes = map[string]string{
	aText: `"…"`, aTextOrList: wording.Mark(`"…" or ["…", "…"]`), aNumber: "12", aWhole: "12", numberList: "[1, 2]",
	aTruth: wording.Mark("true or false"), aTable: wording.Mark("{ … }, or its fields below a line of their own in brackets"),
}

// The kinds of values, as messages call them.
var (
	aText       = wording.Mark("text in quotes")
	aTextOrList = wording.Mark("a text or a list of texts")
	aNumber     = wording.Mark("a number")
	aWhole      = wording.Mark("a whole number")
	numberList  = wording.Mark("a list of numbers")
	aTruth      = wording.Mark("true or false")
	aTable      = wording.Mark("a table")
)

func (t *Table) wrongKind(key, want string) {
	hint := wording.Sprintf("write %s = %s", key, wording.Text(shapes[want]))
	n := t.tree.find(t.node, key)
	switch k := t.tree.node(n).kind; {
	case k == word && strings.Contains(want, "text"):
		hint = wording.Sprintf("put it in quotation marks: %s = %s", key, plain.Quote(t.tree.spelt(n)))
	case k == quoted && (want == aNumber || want == aWhole):
		said := strings.Replace(strings.TrimSpace(textOf(t.tree.spelt(n))), ",", ".", 1)
		if v, ok := number(wordOf(said)); ok && (want == aNumber || v == math.Trunc(v)) {
			hint = wording.Sprintf("write it without quotation marks: %s = %s", key, said)
		}
	}
	t.Fail(key, "wrong-kind", wording.Sprintf("%s must be %s", plain.Quote(key), wording.Text(want)), hint)
}

// Need adds a finding if the key is missing.
func (t *Table) Need(keys ...string) {
	for _, key := range keys {
		if !t.Has(key) {
			t.FailAt(t.Here(), "missing-field", lacking(key), wording.Sprintf("add a line %s = …", key))
		}
	}
}

// NeedHead adds a finding if the table is missing that says what the file is. Values that
// stand there without its line are told with it.
func (t *Table) NeedHead(key string) {
	if t.Has(key) {
		return
	}
	t.FailAt(t.Here(), "missing-field", lacking(key),
		wording.Sprintf("begin the file with a line [%s], and write its fields below it", key))
	for _, n := range t.tree.children(t.node) {
		n.asked = n.asked || n.kind >= list
	}
}

// Str is the text under key; line breaks in it are blanks.
func (t *Table) Str(key string) string {
	n, k := t.ask(key)
	switch k {
	case 0:
	case quoted:
		return t.text(t.tree.node(n).value, textOf(t.tree.spelt(n)))
	default:
		t.wrongKind(key, aText)
	}
	return ""
}

// NeedStr is the text under key, which must be there and not empty.
func (t *Table) NeedStr(key string) string {
	t.Need(key)
	s := t.Str(key)
	if strings.TrimSpace(s) == "" {
		if n := t.tree.find(t.node, key); n != 0 && t.tree.node(n).kind == quoted {
			t.Fail(key, "empty", wording.Sprintf("%s is empty", plain.Quote(key)),
				wording.Text("write something between the quotation marks, or delete the line if it may be left out"))
		}
	}
	return s
}

// Lines is the text under key with its line breaks; empty where there is none.
func (t *Table) Lines(key string) string {
	n, k := t.ask(key)
	if k != quoted {
		return ""
	}
	return linesOf(t.tree.spelt(n))
}

// text is a text as it will be shown: control characters are a finding.
func (t *Table) text(at int32, s string) string {
	if plain.HasControl(s) {
		t.FailAt(t.tree.pos(at), "control-character", wording.Sprintf("the text holds a control character: %s", plain.Quote(s)),
			wording.Text("remove it"))
	}
	return s
}

// Strs is the list of texts under key; a single text counts as a list of one.
func (t *Table) Strs(key string) []string {
	n, k := t.ask(key)
	switch k {
	case 0:
		return nil
	case quoted:
		return []string{t.text(t.tree.node(n).value, textOf(t.tree.spelt(n)))}
	case list:
	default:
		t.wrongKind(key, aTextOrList)
		return nil
	}
	values := t.tree.values(n)
	out := make([]string, 0, len(values))
	for i, e := range values {
		s, ok := e.(string)
		if !ok {
			t.FailAt(t.Elem(key, i), "wrong-kind", wording.Sprintf("%s must hold texts in quotes", plain.Quote(key)),
				wording.Text(`put each in quotation marks: ["6", "8"]`))
			continue
		}
		out = append(out, t.text(t.tree.places(n)[i], s))
	}
	return out
}

// Filled is [Table.Strs] in which each text says something.
func (t *Table) Filled(key string) []string {
	all := t.Strs(key)
	for i, s := range all {
		if strings.TrimSpace(s) == "" {
			t.FailAt(t.Elem(key, i), "empty", wording.Sprintf("%s holds an empty text", plain.Quote(key)),
				wording.Text("write something between the quotation marks, or take it out of the list"))
		}
	}
	return all
}

// Num is the finite number under key, and whether there is one.
func (t *Table) Num(key string) (float64, bool) {
	return scalar(t, key, aNumber, number)
}

// scalar is what the value of a key is taken as, and whether there is one that can be.
func scalar[T any](t *Table, key, want string, as func(any) (T, bool)) (out T, ok bool) {
	v, there := t.word(key)
	if !there {
		return out, false
	}
	if out, ok = as(v); !ok {
		t.wrongKind(key, want)
	}
	return out, ok
}

func is[T any](v any) (T, bool) {
	out, ok := v.(T)
	return out, ok
}

// Nums is the list of finite numbers under key.
func (t *Table) Nums(key string) []float64 {
	n, k := t.ask(key)
	if k == 0 {
		return nil
	}
	if k != list {
		t.wrongKind(key, numberList)
		return nil
	}
	values := t.tree.values(n)
	out := make([]float64, 0, len(values))
	for i, e := range values {
		f, ok := number(e)
		if !ok {
			t.FailAt(t.Elem(key, i), "wrong-kind", wording.Sprintf("%s must hold numbers", plain.Quote(key)),
				wording.Text("write numbers without quotation marks: [1, 2]"))
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
	return scalar(t, key, aWhole, is[int64])
}

// Bool is the true or false under key; false when it is not there.
func (t *Table) Bool(key string) bool {
	b, _ := scalar(t, key, aTruth, is[bool])
	return b
}

// IsTable reports whether the value under key is a table.
func (t *Table) IsTable(key string) bool {
	n := t.tree.find(t.node, key)
	return n != 0 && t.tree.node(n).kind.isTable()
}

// Sub is the table under key, nil when there is none.
func (t *Table) Sub(key string) *Table {
	n, k := t.ask(key)
	if n == 0 {
		return nil
	}
	if !k.isTable() {
		t.wrongKind(key, aTable)
		return nil
	}
	return &Table{tree: t.tree, node: n}
}

// Subs are the tables one level below key, in the order of the file. Every key
// there must be an id (see [CheckID]).
func (t *Table) Subs(key string) []Section {
	sub := t.Sub(key)
	if sub == nil {
		return nil
	}
	out := make([]Section, 0, t.tree.size(sub.node))
	for i, n := range t.tree.children(sub.node) {
		id := t.tree.name(n)
		if !plain.IsID(id) {
			if !n.asked { // else it is told already
				n.asked = true
				t.FailAt(t.tree.pos(n.key), "bad-id", wording.Sprintf("%s cannot be an id", plain.Quote(id)),
					wording.Text("use lower-case letters, digits and hyphens, at most 64"))
			}
			continue
		}
		if !n.kind.isTable() {
			t.FailAt(t.tree.pos(n.value), "wrong-kind", wording.Sprintf("%s must be a table", plain.Quote(id)),
				wording.Text("write its fields below a line with its name in brackets"))
			continue
		}
		out = append(out, Section{id, &Table{tree: t.tree, node: i}})
	}
	return out
}

// Done adds a finding for every key of the table that was not read.
func (t *Table) Done() {
	hint := ""
	for _, n := range t.tree.children(t.node) {
		if n.asked {
			continue
		}
		if hint == "" {
			hint = wording.Sprintf("check the spelling; the fields that can stand here are %s", plain.List(t.known()))
		}
		name := t.tree.name(n)
		found := Finding{Pos: t.tree.pos(n.key), Rule: "unknown-field",
			Message: wording.Sprintf("there is no field %s here", plain.Quote(name)), Hint: hint}
		meant := t.meant(name)
		if meant == "" { // it may be there already, as the first of several tables
			found.Hint = t.likeKnown(name, hint)
		} else {
			found.Hint = wording.Sprintf("did you mean %s?", plain.Quote(meant))
		}
		if strings.HasPrefix(t.tree.text[n.key:], "[[") {
			found.Message = wording.Sprintf("%s stands between two pairs of brackets", plain.Quote(name))
			found.Hint = wording.Text("write the name of the table between one pair: [couplet.4.a]")
		}
		if !t.tree.report.explain(t.Here(), lacking(meant), found) {
			t.FailAt(found.Pos, found.Rule, found.Message, found.Hint)
		}
	}
}

// likeKnown names the field that may stand here and looks most like a name, else it is
// the hint.
func (t *Table) likeKnown(name, hint string) string {
	for _, field := range t.known() {
		if len(field) > 3 && plain.Distance(name, field) <= 2 {
			return wording.Sprintf("did you mean %s?", plain.Quote(field))
		}
	}
	return hint
}

// meant is the field that somebody misspelt, of those that are not there; empty
// where none is nearly alike.
func (t *Table) meant(name string) string {
	best, least := "", 3
	for _, field := range t.missing {
		if d := plain.Distance(name, field); d < least && d < len(field)-1 {
			best, least = field, d
		}
	}
	return best
}

// lacking is the message about a field that is not there.
func lacking(key string) string { return wording.Sprintf("%s is missing", plain.Quote(key)) }

func (t *Table) known() []string {
	out := slices.Clone(t.missing)
	for _, n := range t.tree.children(t.node) {
		if n.asked {
			out = append(out, t.tree.name(n))
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
