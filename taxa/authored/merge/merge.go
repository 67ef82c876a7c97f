package merge

import (
	"slices"
	"strings"

	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// Options say what of a file belongs together.
type Options struct {
	// One holds sets of fields that say one thing together: changed here and there,
	// even in different fields, they contradict.
	One [][]string
	// Mark is the first line of a comment that holds what the other version has where
	// the two contradict.
	Mark string
}

// Conflict is what the two versions made different of one thing. A value is empty where
// a version has none.
type Conflict struct {
	Path               []string // of the table
	Keys               []string // of the fields; none where the table itself is gone in one
	Base, Ours, Theirs string
}

// Merged is two versions in one.
type Merged struct {
	*Document
	Conflicts []Conflict
	// Both are tables that both versions changed, each by the first of those that are there
	// or gone together.
	Both [][]string
	// Gone are the tables of ours that theirs no longer has, by what is there or gone
	// together.
	Gone [][]*Block
}

// Merge brings together what was made of one base. Ours is changed: it holds the result,
// in its own order and layout. Where the two contradict, ours stays and theirs is put
// beside it as a comment. Tables whose first two names are the same are there or gone
// together.
func Merge(base, ours, theirs *Document, rules Options) *Merged {
	m := &merger{rules: rules, Merged: &Merged{Document: ours}, base: groupsOf(base), ours: groupsOf(ours), theirs: groupsOf(theirs)}
	for _, name := range m.ours.order {
		m.group(name)
	}
	for i, name := range m.theirs.order {
		if m.ours.blocks[name] == nil {
			m.added(name, m.theirs.order[:i])
		}
	}
	m.tail(base, theirs)
	return m.Merged
}

type merger struct {
	rules Options
	*Merged
	base, ours, theirs groups
}

// groups are tables that are there or gone together, by the first two names.
type groups struct {
	blocks map[string][]*Block
	order  []string
}

func groupsOf(d *Document) groups {
	g := groups{blocks: map[string][]*Block{}}
	for _, b := range d.Blocks {
		name := groupOf(b)
		if g.blocks[name] == nil {
			g.order = append(g.order, name)
		}
		g.blocks[name] = append(g.blocks[name], b)
	}
	return g
}

func groupOf(b *Block) string { return strings.Join(b.Path[:min(2, len(b.Path))], "\x00") }

// group merges tables that ours has.
func (m *merger) group(name string) {
	ours, theirs, base := m.ours.blocks[name], m.theirs.blocks[name], m.base.blocks[name]
	switch {
	case theirs != nil:
		if base != nil && !sameBlocks(base, ours) && !sameBlocks(base, theirs) && !sameBlocks(ours, theirs) {
			m.Both = append(m.Both, ours[0].Path)
		}
		m.blocks(base, ours, theirs)
	case base == nil:
	case sameBlocks(ours, base):
		m.remove(ours)
		m.Gone = append(m.Gone, ours)
	default:
		m.Conflicts = append(m.Conflicts, Conflict{Path: ours[0].Path, Base: textOf(base), Ours: textOf(ours)})
		last := ours[len(ours)-1]
		last.Tail += Commented(m.rules.Mark, "  "+wording.Text("nothing: it leaves this out"))
	}
}

// added takes over tables that ours lacks, behind those that they follow in theirs.
func (m *merger) added(name string, before []string) {
	theirs, base := m.theirs.blocks[name], m.base.blocks[name]
	at := 0
	for _, earlier := range slices.Backward(before) {
		if ours := m.ours.blocks[earlier]; ours != nil && slices.Contains(m.Blocks, ours[len(ours)-1]) {
			at = slices.Index(m.Blocks, ours[len(ours)-1]) + 1
			break
		}
	}
	switch {
	case base == nil:
		m.ours.blocks[name] = theirs
		m.Blocks = slices.Insert(m.Blocks, at, theirs...)
	case !sameBlocks(theirs, base):
		m.Conflicts = append(m.Conflicts, Conflict{Path: theirs[0].Path, Base: textOf(base), Theirs: textOf(theirs)})
		m.Blocks[max(0, at-1)].Tail += Commented(m.rules.Mark, textOf(theirs))
	}
}

// blocks merges the tables of one group that both versions have.
func (m *merger) blocks(base, ours, theirs []*Block) {
	after := ours[0]
	for _, o := range ours {
		t, b := find(theirs, o.Path), find(base, o.Path)
		switch {
		case t != nil:
			m.block(b, o, t)
		case b == nil:
		case same(b, o):
			m.remove([]*Block{o})
		default:
			m.Conflicts = append(m.Conflicts, Conflict{Path: o.Path, Base: b.String(), Ours: o.String()})
			o.Tail += Commented(m.rules.Mark, "  "+wording.Text("nothing: it leaves this out"))
		}
	}
	for _, t := range theirs {
		if o := find(ours, t.Path); o != nil {
			if slices.Contains(m.Blocks, o) {
				after = o
			}
			continue
		}
		b := find(base, t.Path)
		switch at := slices.Index(m.Blocks, after); {
		case b == nil:
			m.Blocks = slices.Insert(m.Blocks, at+1, t)
			after = t
		case !same(b, t):
			m.Conflicts = append(m.Conflicts, Conflict{Path: t.Path, Base: b.String(), Theirs: t.String()})
			after.Tail += Commented(m.rules.Mark, t.String())
		}
	}
}

// block merges one table that both versions have; base may lack it.
func (m *merger) block(base, ours, theirs *Block) {
	if base == nil {
		base = &Block{}
	}
	ours.Lead = m.comments(base.Lead, ours.Lead, theirs.Lead)
	inBase, inOurs, inTheirs := base.byKey(), ours.byKey(), theirs.byKey()
	for _, unit := range m.units(ours, theirs, base) {
		b, o, t := inBase.unit(unit), inOurs.unit(unit), inTheirs.unit(unit)
		switch {
		case sameFields(o, t) || sameFields(t, b):
		case sameFields(o, b):
			ours.put(unit, t, theirs)
		default:
			m.Conflicts = append(m.Conflicts, Conflict{ours.Path, unit, valuesOf(b, unit), valuesOf(o, unit), valuesOf(t, unit)})
			ours.remark(unit, m.rules.Mark, t)
		}
	}
}

// units are the fields of some tables, those together that say one thing.
func (m *merger) units(of ...*Block) (out [][]string) {
	seen := map[string]bool{}
	for _, b := range of {
		for _, f := range b.Fields {
			if seen[f.Key] {
				continue
			}
			unit := []string{f.Key}
			for _, one := range m.rules.One {
				if slices.Contains(one, f.Key) {
					unit = one
				}
			}
			for _, key := range unit {
				seen[key] = true
			}
			out = append(out, unit)
		}
	}
	return out
}

// comments brings comments together: those that one version changed, else the lines of
// both.
func (m *merger) comments(base, ours, theirs string) string {
	switch {
	case squeezed(ours) == squeezed(theirs) || squeezed(theirs) == squeezed(base):
		return ours
	case squeezed(ours) == squeezed(base):
		return theirs
	}
	var more string
	for line := range strings.Lines(theirs) {
		if !strings.Contains(ours, strings.TrimSpace(line)) && !strings.Contains(base, strings.TrimSpace(line)) {
			more += line
		}
	}
	return ours + more
}

func (m *merger) tail(base, theirs *Document) { m.Tail = m.comments(base.Tail, m.Tail, theirs.Tail) }

func (m *merger) remove(blocks []*Block) {
	m.Blocks = slices.DeleteFunc(m.Blocks, func(b *Block) bool { return slices.Contains(blocks, b) })
}

func find(blocks []*Block, path []string) *Block {
	for _, b := range blocks {
		if slices.Equal(b.Path, path) {
			return b
		}
	}
	return nil
}

// byKey are fields by their names.
type byKey map[string]KeyValue

func (b *Block) byKey() byKey {
	out := make(byKey, len(b.Fields))
	for _, f := range b.Fields {
		out[f.Key] = f
	}
	return out
}

// unit are the fields of some names that there are.
func (b byKey) unit(keys []string) (out []KeyValue) {
	for _, key := range keys {
		if f, ok := b[key]; ok {
			out = append(out, f)
		}
	}
	return out
}

// put puts fields in the place of those of some names; where there are none of them,
// behind what they follow in the table that they come from.
func (b *Block) put(keys []string, fields []KeyValue, from *Block) {
	at := slices.IndexFunc(b.Fields, func(f KeyValue) bool { return slices.Contains(keys, f.Key) })
	b.Fields = slices.DeleteFunc(b.Fields, func(f KeyValue) bool { return slices.Contains(keys, f.Key) })
	if len(fields) == 0 {
		return
	}
	if at < 0 {
		at = len(b.Fields)
		first := slices.IndexFunc(from.Fields, func(f KeyValue) bool { return f.Key == fields[0].Key })
		if first > 0 {
			if before := slices.IndexFunc(b.Fields, func(f KeyValue) bool { return f.Key == from.Fields[first-1].Key }); before >= 0 {
				at = before + 1
			}
		}
	}
	b.Fields = slices.Insert(b.Fields, min(at, len(b.Fields)), fields...)
}

// remark puts the fields of the other version beside those of some names, as a comment.
func (b *Block) remark(keys []string, mark string, fields []KeyValue) {
	text := wording.Text("nothing: it leaves this out")
	if len(fields) > 0 {
		text = ""
		for _, f := range fields {
			text += f.Text
		}
	}
	text = Commented(mark, text)
	for i := range slices.Backward(b.Fields) {
		if slices.Contains(keys, b.Fields[i].Key) {
			b.Fields[i].Text += text
			return
		}
	}
	b.Tail += text
}

// valuesOf is the value of fields, with their names where there may be several.
func valuesOf(fields []KeyValue, unit []string) string {
	var out []string
	for _, f := range fields {
		if len(unit) == 1 {
			return f.Value
		}
		out = append(out, f.Key+" = "+f.Value)
	}
	return strings.Join(out, "\n")
}

func textOf(blocks []*Block) string {
	var b strings.Builder
	for _, one := range blocks {
		b.WriteString(one.String())
	}
	return b.String()
}

func same(a, b *Block) bool {
	return squeezed(a.Lead) == squeezed(b.Lead) && sameFields(sorted(a.Fields), sorted(b.Fields))
}

// sorted are fields in the order of their names: another order is no change.
func sorted(fields []KeyValue) []KeyValue {
	out := slices.Clone(fields)
	sorting.Stable(out, func(x, y KeyValue) int { return strings.Compare(x.Key, y.Key) })
	return out
}

func sameBlocks(a, b []*Block) bool {
	if len(a) != len(b) {
		return false
	}
	for _, x := range a {
		if y := find(b, x.Path); y == nil || !same(x, y) {
			return false
		}
	}
	return true
}

func sameFields(a, b []KeyValue) bool {
	return slices.EqualFunc(a, b, func(x, y KeyValue) bool {
		return x.Key == y.Key && squeezed(x.Lead+x.Text) == squeezed(y.Lead+y.Text)
	})
}

// squeezed is a text with single blanks, so that aligning is no change.
func squeezed(text string) string { return strings.Join(strings.Fields(text), " ") }
