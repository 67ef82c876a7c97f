package versions

import (
	"slices"
	"strconv"
	"strings"

	"rillkey/couplets"
	"rillkey/taxa/authored"
	"rillkey/taxa/authored/merge"
	"rillkey/taxa/pattern"
	"rillkey/taxa/wording"
)

// Version is a version of a key, as read and as it is written.
type Version struct {
	File *couplets.File
	Text string
}

// MergedKey is a key with what two people made of one version of it.
type MergedKey struct {
	Text      string        `json:"-"`
	Conflicts []KeyConflict `json:"conflicts"`
	// Both are couplets that both changed, in different things, by the numbers of the
	// result: whoever reads them once more sees whether they still say one thing.
	Both []string `json:"both"`
	// Added are the couplets that only the other version has, by their numbers in it,
	// with those in the result.
	Added []Numbered `json:"added"`
}

// Numbered is a couplet that has another number in the result.
type Numbered struct {
	Was string `json:"was"`
	Now string `json:"now"`
}

// KeyConflict is one thing that the two versions made different. Values are as the files
// have them, empty where there is none.
type KeyConflict struct {
	Couplet string   `json:"couplet,omitempty"` // by the number in the result; empty where it is of no couplet
	Lead    string   `json:"lead,omitempty"`    // its letter
	Table   string   `json:"table,omitempty"`   // where it is of no couplet, such as "commonness.weight"
	Fields  []string `json:"fields"`            // none where a couplet or lead is gone in one version and changed in the other
	Base    string   `json:"base"`
	Ours    string   `json:"ours"`
	Theirs  string   `json:"theirs"`
}

// MergeComment is the first line of the comments by which a merged key says what the other
// version has, in the language in use.
func MergeComment() string { return merge.MergedRemark() }

// MergeKeys brings together what two people made of one key, couplet by couplet: a couplet
// is the same whatever its number, and keeps the one that it has in ours. Couplets that
// only theirs has get numbers that are free. The text is that of ours where the two
// contradict, with the other in a comment below.
func MergeKeys(base, ours, theirs Version) (*MergedKey, error) {
	m := &keyMerge{ours: ours.File, used: map[string]bool{}, inBase: map[string]string{}, inTheirs: map[string]string{}}
	m.number(base.File, theirs.File)
	docs := make([]*merge.Document, 3)
	for i, e := range []Version{base, ours, theirs} {
		docs[i] = merge.Read(e.Text)
		if err := laidOut(docs[i], e.File); err != nil {
			return nil, err
		}
	}
	renumber(docs[0], m.inBase)
	renumber(docs[2], m.inTheirs)
	done := merge.Merge(docs[0], docs[1], docs[2], merge.Options{
		One: [][]string{{"to", "taxon"}, {"text", "traits"}}, Mark: MergeComment()})
	out := &MergedKey{Text: done.String(), Conflicts: []KeyConflict{}, Both: []string{}, Added: []Numbered{}}
	for _, c := range done.Conflicts {
		out.Conflicts = append(out.Conflicts, conflictOf(c))
	}
	for _, path := range done.Both {
		if len(path) > 1 && path[0] == "couplet" && !slices.Contains(out.Both, path[1]) {
			out.Both = append(out.Both, path[1])
		}
	}
	for _, id := range m.added {
		out.Added = append(out.Added, Numbered{id, m.inTheirs[id]})
	}
	return out, nil
}

// keyMerge finds what each couplet is called in the result.
type keyMerge struct {
	ours             *couplets.File
	used             map[string]bool
	inBase, inTheirs map[string]string
	added            []string
	next             int
}

func (m *keyMerge) number(base, theirs *couplets.File) {
	for _, f := range []*couplets.File{m.ours, base, theirs} {
		for i := range f.Couplets {
			n, _ := strconv.Atoi(f.Couplets[i].ID)
			m.next = max(m.next, n)
			m.used[f.Couplets[i].ID] = f == m.ours || m.used[f.Couplets[i].ID]
		}
	}
	toOurs, toTheirs := pair(base, m.ours), pair(base, theirs)
	for i := range base.Couplets {
		if o := toOurs.newOf[i]; o >= 0 {
			m.inBase[base.Couplets[i].ID] = m.ours.Couplets[o].ID
		} else {
			m.inBase[base.Couplets[i].ID] = m.free(base.Couplets[i].ID)
		}
	}
	alike := m.addedAlike(theirs, toOurs, toTheirs)
	for j := range theirs.Couplets {
		id := theirs.Couplets[j].ID
		switch i := toTheirs.oldOf[j]; {
		case i >= 0:
			m.inTheirs[id] = m.inBase[base.Couplets[i].ID]
		case alike[j] != "":
			m.inTheirs[id] = alike[j]
		default:
			m.inTheirs[id] = m.free(id)
			m.added = append(m.added, id)
		}
	}
}

// addedAlike finds the couplets that both added: what they say and ask is the same.
func (m *keyMerge) addedAlike(theirs *couplets.File, toOurs, toTheirs pairing) map[int]string {
	mine := map[string]string{}
	mark := func(c *couplets.Couplet) string { return words(c) + "\x00" + asks(c) + "\x00" + ends(c) }
	for o := range m.ours.Couplets {
		if toOurs.oldOf[o] < 0 {
			mine[mark(&m.ours.Couplets[o])] = m.ours.Couplets[o].ID
		}
	}
	out := map[int]string{}
	for j := range theirs.Couplets {
		if toTheirs.oldOf[j] < 0 {
			s := mark(&theirs.Couplets[j])
			out[j] = mine[s]
			delete(mine, s) // each once
		}
	}
	return out
}

// free is a number that nothing else has in the result: this one, if it may be.
func (m *keyMerge) free(id string) string {
	if m.used[id] {
		m.next++
		id = strconv.Itoa(m.next)
	}
	m.used[id] = true
	return id
}

// laidOut refuses a key whose couplets have no lines of their own to begin with.
func laidOut(d *merge.Document, f *couplets.File) error {
	there := map[string]bool{}
	for _, b := range d.Blocks {
		if len(b.Path) > 1 && b.Path[0] == "couplet" {
			there[b.Path[1]] = true
		}
	}
	for i := range f.Couplets {
		if c := &f.Couplets[i]; !there[c.ID] {
			return authored.Findings{{Pos: c.Pos, Rule: "unusual-layout",
				Message: wording.Sprintf("couplet %s does not begin with a line [couplet.%s]", c.ID, c.ID),
				Hint:    wording.Text("write it so; then it can be merged")}}
		}
	}
	return nil
}

// inline is where a lead in braces goes.
var inline = pattern.New(`(\bto\s*=\s*")([^"]*)(")`)

// renumber gives the couplets of a key other numbers, and what leads to them.
func renumber(d *merge.Document, to map[string]string) {
	called := func(id string) string {
		if now, ok := to[id]; ok {
			return now
		}
		return id
	}
	for _, b := range d.Blocks {
		ofCouplet := len(b.Path) > 1 && b.Path[0] == "couplet"
		if ofCouplet && called(b.Path[1]) != b.Path[1] {
			b.Rename(1, called(b.Path[1]))
		}
		for i := range b.Fields {
			f := &b.Fields[i]
			goal := ofCouplet && f.Key == "to" || b.Is("key") && f.Key == "start"
			switch {
			case goal && len(f.Value) > 1:
				f.SetValue(`"` + called(strings.Trim(f.Value, `"'`)) + `"`)
			case ofCouplet && strings.HasPrefix(f.Value, "{"):
				f.SetValue(inline().ReplaceAllStringFunc(f.Value, func(s string) string {
					part := inline().FindStringSubmatch(s)
					return part[1] + called(part[2]) + part[3]
				}))
			}
		}
	}
}

func conflictOf(c merge.Conflict) KeyConflict {
	out := KeyConflict{Fields: c.Keys, Base: c.Base, Ours: c.Ours, Theirs: c.Theirs}
	if out.Fields == nil {
		out.Fields = []string{}
	}
	switch {
	case len(c.Path) > 2 && c.Path[0] == "couplet":
		out.Couplet, out.Lead = c.Path[1], c.Path[2]
	case len(c.Path) > 1 && c.Path[0] == "couplet":
		out.Couplet = c.Path[1]
	default:
		out.Table = strings.Join(c.Path, ".")
	}
	return out
}
