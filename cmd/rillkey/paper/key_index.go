package paper

import (
	"cmp"
	"slices"
	"strings"

	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// entry is a line of the index: a name, the other name it is known by, and the
// leads that end there or the couplet where a group begins.
type entry struct {
	Name, other, Anchor string
	Leads               []string
	Begins              []string
}

// OtherName is the other name as it stands behind the first.
func (e entry) OtherName() string {
	switch {
	case strings.Contains(e.other, "("):
		return ", " + e.other
	case e.other != "":
		return " (" + e.other + ")"
	}
	return ""
}

// index lists all names of the end points and of the groups that the key offers
// to stop at, by the alphabet, with where they are in the key.
func (k *keyPage) index() {
	k.Section(wording.Text("Index of names"))
	k.Text("note", wording.Text("A number with a letter is where the key ends in that name; \"begins at\" is where all that "+
		"follows belongs to it."))
	k.put("index", k.entries())
	k.End()
}

func (k *keyPage) entries() []entry {
	var out []entry
	for _, t := range k.sound.Ends {
		out = append(out, named(t, entry{Anchor: taxonAnchor(t.ID), Leads: k.ends[t.ID], Begins: k.begins(t)})...)
	}
	for _, t := range k.catalog.Taxa() {
		if begins := k.begins(t); len(begins) > 0 && k.ends[t.ID] == nil {
			out = append(out, named(t, entry{Begins: begins})...)
		}
	}
	slices.SortStableFunc(out, func(a, b entry) int {
		return cmp.Or(strings.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)), strings.Compare(a.Name, b.Name))
	})
	return out
}

// named is an entry once for each name of a taxon: plain names have the
// scientific one beside them, all others the plain one.
func named(t *taxa.Taxon, e entry) []entry {
	var out []entry
	add := func(name, other string) {
		if name == other {
			other = ""
		}
		e.Name, e.other = name, other
		if !slices.ContainsFunc(out, func(had entry) bool { return had.Name == name }) {
			out = append(out, e)
		}
	}
	for _, name := range t.Common {
		add(name, t.Scientific)
	}
	add(t.Scientific, t.Name())
	for _, name := range t.Synonyms {
		add(name, t.Scientific)
	}
	return out
}

// begins are the couplets at which a group is first offered as a place to stop.
func (k *keyPage) begins(t *taxa.Taxon) []string {
	var out []string
	for i := range k.sound.Couplets {
		c := &k.sound.Couplets[i]
		within := func(label string) bool { return k.sound.Couplet(label[:len(label)-1]).Stop == t.ID }
		if c.Stop == t.ID && !slices.ContainsFunc(k.incoming[c.ID], within) {
			out = append(out, c.ID)
		}
	}
	return out
}
