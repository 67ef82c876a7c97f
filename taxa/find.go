package taxa

import (
	"cmp"
	"slices"
	"strings"

	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"

	"github.com/sahilm/fuzzy"
)

// Match is a taxon, and that name of it which is like what was typed.
type Match struct {
	Taxon *Taxon
	Name  string
	Exact bool // the name itself, but for case, hyphens, spaces, plural and words such as "larva"
}

// Lookup is what a typed name comes to: the taxon that is called so, or, where
// its Taxon is nil, nothing that could be taken for it.
type Lookup struct {
	Match
	Stage string // larva or adult where the name says it, else empty
	// Similar are others with a name like it, the nearest first. Where no taxon is
	// meant, they are those to ask about: taxa that share the name, else those
	// whose names come near it. Without any the name is unknown.
	Similar []Match
}

// Doubtful are the taxa to ask about before a name is gone by, the nearest first: none where
// it is the very name of its taxon, or misspelt while free says that it may stand for that
// one; else the taxon that it may stand for, or those similar.
func (f Lookup) Doubtful(free func(*Taxon) bool) []Match {
	switch {
	case f.Taxon == nil:
		return f.Similar
	case f.Exact || free(f.Taxon):
		return nil
	}
	return []Match{f.Match}
}

// Called are the taxa that have the very name that was looked up, in the order of
// the catalog: none, one, or several that share it.
func (f Lookup) Called() []*Taxon {
	var out []*Taxon
	for _, m := range append([]Match{f.Match}, f.Similar...) {
		if m.Taxon != nil && m.Exact {
			out = append(out, m.Taxon)
		}
	}
	return out
}

// longestName is how many bytes of a typed name are looked at; no animal's is
// nearly as long.
const longestName = 200

// Find looks a taxon up by any of its names: common, scientific, older, id, or
// one of a region. Where a word means different animals in different places it
// means that of the region that the catalog is seen from; without one all of them
// may be meant. A name that is
// written a little wrong is found, and then not Exact. One that is only like
// others, or belongs to several that are not of one kind, finds no taxon: whoever
// typed it is to be asked.
func (c *Catalog) Find(typed string) Lookup {
	want := readName(typed)
	if len(want.words) == 0 || len(typed) > longestName {
		return Lookup{}
	}
	found := meantBy(c, want)
	if found.Taxon == nil && len(found.Similar) > 1 && found.Similar[0].Exact {
		return found
	}
	near := c.namesLike(want)
	if found.Taxon != nil {
		near = slices.DeleteFunc(near, func(m Match) bool { return m.Taxon == found.Taxon })
	}
	found.Similar = merged(found.Similar, near)
	return found
}

// Meant is [Catalog.Find] without a search for names that come near, which takes most of
// its time: Similar are only those that a name is one of, or nearly so.
func (c *Catalog) Meant(typed string) Lookup {
	want := readName(typed)
	if len(want.words) == 0 || len(typed) > longestName {
		return Lookup{}
	}
	return meantBy(c, want)
}

// MeantByRegion is which taxon a name means in each region that has one for it, by the ids of
// both, and whether it means one in all others too: it may, as far as is known, where no region
// has one. In a catalog of one region there is no other.
func MeantByRegion(c *Catalog, name string) (in map[string]string, everywhere bool) {
	in = map[string]string{}
	if c.Region() == nil {
		for _, r := range c.Regions() {
			if t := c.InRegion(r).Meant(name).Taxon; t != nil {
				in[r.ID] = t.ID
			}
		}
	}
	return in, len(in) == 0 || c.Meant(name).Taxon != nil
}

// meantBy are those called so, or else those called nearly so.
func meantBy(c *Catalog, want reading) Lookup {
	meant := c.called(want)
	if len(meant) == 0 {
		meant = adjective(c, want)
	}
	if len(meant) == 0 {
		meant = c.spelt(want)
	}
	if len(meant) == 1 {
		return Lookup{Match: meant[0], Stage: want.stage}
	}
	return Lookup{Similar: meant, Stage: want.stage}
}

// Called are the taxa that go by this very name; see [Catalog.Find], which also looks
// for what is like it and takes many times as long.
func (c *Catalog) Called(name string) (out []*Taxon) {
	want := readName(name)
	if len(want.words) == 0 || len(name) > longestName {
		return nil
	}
	for _, m := range c.called(want) {
		if m.Taxon != nil {
			out = append(out, m.Taxon)
		}
	}
	return out
}

// EqualNames reports whether two names are one, but for case, hyphens, spaces and plural.
func EqualNames(a, b string) bool {
	x, y := readName(a), readName(b)
	return x.solid == y.solid && x.stage == y.stage
}

// adjective is the family that the word for its members names, alone or before the name
// of a group that holds it: a perlodid, or a perlodid stonefly, is of the Perlodidae.
func adjective(c *Catalog, want reading) []Match {
	word, rest := want.words[0], strings.Join(want.words[1:], "")
	if !strings.HasSuffix(word, "id") {
		return nil
	}
	for _, m := range c.called(reading{words: []string{word + "ae"}, solid: word + "ae", stage: want.stage, latin: true}) {
		above := slices.Concat([]*Taxon{m.Taxon}, c.Ancestors(m.Taxon.ID))
		called := func(t *Taxon) bool {
			return slices.ContainsFunc(t.Common, func(name string) bool { return readName(name).solid == rest })
		}
		if rest == "" || slices.ContainsFunc(above, called) {
			return []Match{m}
		}
	}
	return nil
}

// candidate is a naming, and how far it is from what was typed.
type candidate struct {
	*naming
	distance int
}

// called are the taxa with this very name.
func (c *Catalog) called(want reading) []Match {
	var found []candidate
	names := c.names()
	for i := range names {
		n := &names[i]
		if off, fits := stageOff(want, n); fits && n.solid == want.solid {
			found = append(found, candidate{n, off})
		}
	}
	return c.meant(found, true)
}

// spelt are the taxa whose name is this with a slip or two.
func (c *Catalog) spelt(want reading) []Match {
	var found []candidate
	names := c.names()
	for i := range names {
		n := &names[i]
		if _, fits := stageOff(want, n); !fits {
			continue
		}
		if off, ok := misspelt(want, n.reading); ok {
			found = append(found, candidate{n, off})
		}
	}
	return c.meant(found, false)
}

// stageOff tells whether a name can be of the stage that was typed, and how far
// it is from saying so itself.
func stageOff(want reading, n *naming) (off int, fits bool) {
	meant := n.stageMeant()
	switch {
	case meant == want.stage:
		return 0, true
	case want.stage == "" && n.stage == "adult", want.stage != "" && meant != "":
		return 0, false
	}
	return 1, true
}

// meant are the taxa that found can mean, in a region by its own names first: one
// where all others belong to it. Of kin with the very same name those of the right stage are meant.
func (c *Catalog) meant(found []candidate, exact bool) []Match {
	here := func(f candidate) bool { return f.region != "" }
	if c.region != nil && slices.ContainsFunc(found, here) {
		found = slices.DeleteFunc(found, func(f candidate) bool { return !here(f) })
	}
	sorting.Stable(found, nearer)
	if exact {
		all := slices.Clone(found)
		found = slices.DeleteFunc(found, func(far candidate) bool {
			return slices.ContainsFunc(all, func(f candidate) bool { return f.distance < far.distance && kin(c, f.taxon, far.taxon) })
		})
	}
	out := matches(found, exact)
	for _, m := range out {
		if !slices.ContainsFunc(out, func(x Match) bool { return !c.IsUnder(x.Taxon.ID, m.Taxon.ID) }) {
			return []Match{m}
		}
	}
	return out
}

// kin tells whether one of two taxa belongs to the other.
func kin(c *Catalog, a, b *Taxon) bool { return c.IsUnder(a.ID, b.ID) || c.IsUnder(b.ID, a.ID) }

func nearer(a, b candidate) int { return cmp.Or(a.distance-b.distance, a.turn-b.turn) }

// matches are the taxa of found, each once by the first of its names there.
func matches(found []candidate, exact bool) []Match {
	var out []Match
	for _, f := range found {
		out = merged(out, []Match{{f.taxon, f.text, exact}})
	}
	return out
}

// merged is a and then what b has beside it.
func merged(a, b []Match) []Match {
	for _, m := range b {
		if !slices.ContainsFunc(a, func(x Match) bool { return x.Taxon == m.Taxon }) {
			a = append(a, m)
		}
	}
	return a
}

// How a name is like another, nearest first.
const (
	sharesWords = 100 * iota
	beginsSo
	almostSpelt
)

// namesLike are the taxa with a name like the one typed, those first of which more names
// share its words; where there is none, those with a name that has its letters in
// this order.
func (c *Catalog) namesLike(want reading) []Match {
	var found []candidate
	names := c.names()
	for i := range names {
		if off, ok := likeness(want, names[i].reading); ok {
			found = append(found, candidate{&names[i], off})
		}
	}
	if len(found) == 0 {
		found = abbreviated(c, want.solid)
	}
	sharing := map[*Taxon]int{} // how many of its names share the words
	for _, f := range found {
		if f.distance < beginsSo {
			sharing[f.taxon]++
		}
	}
	sorting.Stable(found, func(a, b candidate) int {
		return cmp.Or(a.distance/beginsSo-b.distance/beginsSo, sharing[b.taxon]-sharing[a.taxon], nearer(a, b))
	})
	return matches(found, false)
}

func likeness(want, name reading) (off int, ok bool) {
	w, n := want.solid, name.solid
	longer := max(len(n)-len(w), len(w)-len(n))
	switch {
	case containsAll(want.words, name.words), containsAll(name.words, want.words):
		return sharesWords + longer, true
	case len(w) >= 3 && (strings.HasPrefix(n, w) ||
		slices.ContainsFunc(name.words, func(x string) bool { return strings.HasPrefix(x, w) })):
		return beginsSo + longer, true
	case longer <= len(w)/3 && plain.Distance(w, n) <= min(3, len(w)/3):
		return almostSpelt + longer, true
	case len(want.words) == 1 && slices.ContainsFunc(name.words,
		func(x string) bool { _, ok := misspeltWord(w, x, name.latin); return ok }):
		return almostSpelt + longer, true
	}
	return 0, false
}

// containsAll tells whether all words are among others.
func containsAll(words, others []string) bool {
	return !slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(others, w) })
}

type solidNames []naming

func (s solidNames) Len() int            { return len(s) }
func (s solidNames) String(i int) string { return s[i].solid }

// abbreviated are the names, each by itself, that begin with the same letter and
// hold the others in this order, at least every third one.
func abbreviated(c *Catalog, want string) []candidate {
	const fewest, sparsest = 4, 3
	if len(want) < fewest {
		return nil
	}
	var out []candidate
	names := c.names()
	for rank, m := range fuzzy.FindFrom(want, solidNames(names)) {
		if m.MatchedIndexes[0] == 0 && len(m.Str) <= sparsest*len(want) {
			out = append(out, candidate{&names[m.Index], rank})
		}
	}
	return out
}
