// Package scheme holds the rules that visits are graded by, as TOML files have
// them. A [Scheme] is one index: the kinds it counts, what each is worth, the form
// of its formula and its rating bands. A [Protocol] is a sampling effort with the
// schemes that it uses. [Read] gives both as a [Rulebook].
//
// Begin with [Rulebook], [Scheme] and [Protocol].
//
// Of an index this package knows what some kinds with some numbers of animals come
// to. What those animals are is an account's matter, and what may be said of the
// value is that of package scoring.
//
// A [KindSet] answers one question, with [KindSet.Place] and [KindSet.PlaceNamed]:
// which kind animals of a name are of, or why none. Whoever has a record of a
// visit asks an account of that visit instead, which asks here.
package scheme

import (
	"maps"
	"slices"
	"sync"

	"rillkey/taxa"
)

// Group is a set of kinds that tolerate about the same.
type Group struct {
	ID, Label string
}

// Kind is what counts once in a scheme, however many of its taxa were found.
type Kind struct {
	ID, Label string
	Group     string   // id of its group
	Taxa      []string // ids; what lies below them belongs to the kind as well
	Absent    []string // published names of which the catalog has no taxon
	ListedAs  string   // the name in the publication, where it is another
	Whole     bool     // a record of just this name counts although closer names below it have kinds of their own
	Status    string   // how far its place in the group was confirmed
	Note      string
}

// KindSet is the kinds of a scheme over the taxa of a catalog. It may be asked by
// several goroutines once it is filled.
type KindSet struct {
	Groups []Group
	Kinds  []Kind

	catalog *taxa.Catalog
	listed  map[string]int   // taxon to its kind
	absent  map[string]int   // published name that the catalog lacks, as the reader folds it, to its kind
	holders map[string][]int // taxon to the kinds below it that the catalog lacks
	placed  sync.Map         // taxon to its Place, as far as asked for
}

// newKindSet is a set without kinds.
func newKindSet(catalog *taxa.Catalog) *KindSet {
	return &KindSet{catalog: catalog, listed: map[string]int{}, absent: map[string]int{}, holders: map[string][]int{}}
}

// Clone is a set of the same groups and kinds, to which others can be added.
func (s *KindSet) Clone() *KindSet {
	out := newKindSet(s.catalog)
	out.Groups, out.Kinds = slices.Clone(s.Groups), slices.Clone(s.Kinds)
	out.listed, out.absent = maps.Clone(s.listed), maps.Clone(s.absent)
	for holder, kinds := range s.holders {
		out.holders[holder] = slices.Clone(kinds)
	}
	return out
}

// Group is the group with the id and its place among the groups, -1 for none.
func (s *KindSet) Group(id string) (Group, int) {
	i := slices.IndexFunc(s.Groups, func(g Group) bool { return g.ID == id })
	if i < 0 {
		return Group{}, i
	}
	return s.Groups[i], i
}

// claim makes a name one of a kind, unless it is one of a kind already.
func claim(names map[string]int, name string, kind int) bool {
	if _, doubled := names[name]; doubled {
		return false
	}
	names[name] = kind
	return true
}
