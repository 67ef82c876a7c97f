package paper

import (
	"cmp"
	"html"
	"slices"
	"strings"

	"rillkey/taxa"
)

// entry is a line of the index: a name, the other name it is known by, and the
// leads that end there or the couplet where a group begins.
type entry struct {
	name, other, anchor string
	leads               []string
	begins              []string
}

// index lists all names of the end points and of the groups that the key offers
// to stop at, by the alphabet, with where they are in the key.
func (k *keyPage) index() {
	k.Section("Index of names")
	k.Text("note", "A number with a letter is where the key ends in that name; \"begins at\" is where all that follows belongs to it.")
	k.Raw(`<ul class="index">` + "\n")
	for _, e := range k.entries() {
		k.Raw("<li>")
		name := html.EscapeString(e.name)
		if e.anchor != "" {
			name = `<a href="#` + html.EscapeString(e.anchor) + `">` + name + "</a>"
		}
		switch {
		case strings.Contains(e.other, "("):
			name += ", " + html.EscapeString(e.other)
		case e.other != "":
			name += " (" + html.EscapeString(e.other) + ")"
		}
		var where []string
		if len(e.leads) > 0 {
			where = append(where, leadLinks(e.leads))
		}
		if len(e.begins) > 0 {
			links := make([]string, len(e.begins))
			for i, id := range e.begins {
				links[i] = coupletLink(id)
			}
			where = append(where, "begins at "+strings.Join(links, ", "))
		}
		k.Raw(name + " <b>" + strings.Join(where, "; ") + "</b></li>\n")
	}
	k.Raw("</ul>\n")
	k.End()
}

func (k *keyPage) entries() []entry {
	var out []entry
	for _, t := range k.sound.Ends {
		out = append(out, named(t, entry{anchor: taxonAnchor(t.ID), leads: k.ends[t.ID], begins: k.begins(t)})...)
	}
	for _, t := range k.catalog.Taxa() {
		if begins := k.begins(t); len(begins) > 0 && k.ends[t.ID] == nil {
			out = append(out, named(t, entry{begins: begins})...)
		}
	}
	slices.SortStableFunc(out, func(a, b entry) int {
		return cmp.Or(strings.Compare(strings.ToLower(a.name), strings.ToLower(b.name)), strings.Compare(a.name, b.name))
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
		e.name, e.other = name, other
		if !slices.ContainsFunc(out, func(had entry) bool { return had.name == name }) {
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
		if c.Stop == t.ID && !slices.ContainsFunc(k.from[c.ID], within) {
			out = append(out, c.ID)
		}
	}
	return out
}
