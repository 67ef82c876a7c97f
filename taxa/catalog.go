package taxa

import (
	"embed"
	"io/fs"
	"maps"
	"path"
	"slices"
	"sort"
	"strings"
	"sync"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

//go:embed *.toml regions/*.toml
var embedded embed.FS

// vocabularyFile is the file of a catalog's folder that holds the traits.
const vocabularyFile = "traits.toml"

// Catalog is a vocabulary and the taxa described in it.
type Catalog struct {
	vocabulary *Vocabulary
	taxa       []*Taxon
	index      map[string]*Taxon
	former     map[string]string // ids of earlier editions, to those of today
	regions    []*Region
	cards      func() []*Card
	names      func() []naming // read when a name is first looked up

	base   *Catalog // as it was read, where this one is changed
	region *Region  // that it is seen from
}

// Embedded is the catalog inside the program, parsed on first use.
var Embedded = sync.OnceValues(func() (*Catalog, error) { return Load(embedded, "") })

// EmbeddedFiles are the files of the catalog inside the program, those of its regions
// in the folder regions.
func EmbeddedFiles() fs.FS { return embedded }

// Load reads a catalog from a folder: traits.toml and, in the order of their
// names, all its other .toml files as taxa, but for cards.toml, which holds its
// cards, and those of its folder regions. A catalog with anything wrong is refused; the error is of type
// [authored.Findings] where the files could be read at all. Messages put dir before the names of the files.
func Load(fsys fs.FS, dir string) (*Catalog, error) {
	var report authored.Report
	vocabulary, err := loadVocabulary(fsys, dir, &report)
	if err != nil {
		return nil, err
	}
	names, err := taxaFiles(fsys)
	if err != nil {
		return nil, err
	}
	c := &Catalog{vocabulary: vocabulary, index: map[string]*Taxon{}, former: map[string]string{}}
	for _, name := range names {
		top, err := authored.ReadTable(fsys, name, path.Join(dir, name), &report)
		if err != nil {
			return nil, err
		}
		if top != nil {
			addFile(c, top, folder{fsys, dir})
		}
	}
	if found := report.Findings(); len(found) > 0 {
		return nil, found
	}
	c.link()
	c.raise()
	if err := readRegions(c, fsys, dir, &report); err != nil {
		return nil, err
	}
	if err := haveCards(c, fsys, dir, &report); err != nil {
		return nil, err
	}
	if err := report.Findings().Err(); err != nil {
		return nil, err
	}
	c.names = sync.OnceValue(c.namings)
	return c, nil
}

func loadVocabulary(fsys fs.FS, dir string, report *authored.Report) (*Vocabulary, error) {
	top, err := authored.ReadTable(fsys, vocabularyFile, path.Join(dir, vocabularyFile), report)
	if err != nil {
		return nil, err
	}
	if top == nil {
		return nil, report.Findings()
	}
	return readVocabulary(top, folder{fsys, dir}), report.Findings().Err()
}

func taxaFiles(fsys fs.FS) ([]string, error) {
	names, err := fs.Glob(fsys, "*.toml")
	if err != nil {
		return nil, err
	}
	names = slices.DeleteFunc(names, func(n string) bool { return n == vocabularyFile || n == cardsFile })
	if len(names) == 0 {
		return nil, wording.Errorf("the folder of taxa holds no .toml file beside %s; put one with the animals there, as [taxon.NAME]",
			vocabularyFile)
	}
	sort.Strings(names)
	return names, nil
}

func addFile(c *Catalog, top *authored.Table, files folder) {
	for _, named := range top.Subs("taxon") {
		if first := c.index[named.ID]; first != nil {
			named.FailAt(named.Here(), "doubled-id",
				wording.Sprintf("the taxon %s is already described at %s", plain.Quote(named.ID), first.table.Here()),
				wording.Text("keep one of the two, or give one another id"))
			continue
		}
		t := readTaxon(named, files)
		t.readStates(c.vocabulary)
		t.checkMarks(c.vocabulary)
		named.Done()
		c.taxa = append(c.taxa, t)
		c.index[t.ID] = t
	}
	top.Done()
}

// link checks what taxa say of each other, then hands down what each inherits.
func (c *Catalog) link() {
	for _, t := range c.taxa {
		checkParent(c, t)
		checkFormer(c, t)
		for _, m := range t.Mistaken {
			if c.index[m.Taxon] == nil {
				at := t.table.Sub("mistaken")
				at.FailAt(at.KeyPos(m.Taxon), "unknown-taxon", wording.Sprintf("there is no taxon %s", plain.Quote(m.Taxon)),
					c.nearest(m.Taxon))
			}
		}
	}
	done := map[string]bool{}
	for _, t := range c.taxa {
		c.inherit(t, done)
	}
}

// checkFormer notes the former ids of a taxon, each of which must be free and mean
// one taxon alone.
func checkFormer(c *Catalog, t *Taxon) {
	for i, id := range t.Was {
		switch {
		case c.index[id] != nil:
			t.table.FailAt(t.table.Elem("was", i), "doubled-id",
				wording.Sprintf("the former id %s is the id of a taxon today", plain.Quote(id)),
				wording.Text("where it was split, let what it meant keep its id, as the parent of the new ones"))
		case c.former[id] != "":
			t.table.FailAt(t.table.Elem("was", i), "doubled-id",
				wording.Sprintf("the former id %s is also one of %s", plain.Quote(id), plain.Quote(c.former[id])),
				wording.Text("a former id can mean one taxon: give it to the one that holds both"))
		default:
			c.former[id] = t.ID
		}
	}
}

func checkParent(c *Catalog, t *Taxon) {
	if t.Parent == "" {
		return
	}
	if c.index[t.Parent] == nil {
		t.table.Fail("parent", "unknown-taxon", wording.Sprintf("there is no taxon %s", plain.Quote(t.Parent)), c.nearest(t.Parent))
		t.Parent = ""
		return
	}
	met := map[*Taxon]bool{t: true}
	for up := c.index[t.Parent]; up != nil; up = c.index[up.Parent] {
		switch {
		case met[up]:
			up.table.Fail("parent", "parent-cycle", wording.Sprintf("%s is its own ancestor", plain.Quote(up.ID)),
				wording.Text("correct the parent of one of the taxa on the way round"))
			up.Parent = ""
			return
		case len(met) > highest:
			t.table.Fail("parent", "too-deep", wording.Sprintf("more than %d taxa stand above %s", highest, plain.Quote(t.ID)),
				wording.Text("leave out some of those between"))
			t.Parent = ""
			return
		}
		met[up] = true
	}
}

// highest is how many taxa may stand above one; systems of names have some
// thirty ranks.
const highest = 60

func (c *Catalog) inherit(t *Taxon, done map[string]bool) {
	if done[t.ID] {
		return
	}
	done[t.ID] = true
	up := c.index[t.Parent]
	if up == nil {
		return
	}
	c.inherit(up, done)
	all := make(map[string][]Weight, len(up.states)+len(t.states)) // which need not grow
	maps.Copy(all, up.states)
	maps.Copy(all, t.states)
	t.states = all
	if t.Class == "" {
		t.Class, t.ClassSource = up.Class, up.ClassSource
	}
	if t.Build == "" {
		t.Build = up.Build
	}
	if t.Handling == "" {
		t.Handling = up.Handling
	}
}

// nearest proposes the ids that look like the one typed, else those of the taxa whose
// names do.
func (c *Catalog) nearest(typed string) string {
	ids := make([]string, len(c.taxa))
	var called []string
	for i, t := range c.taxa {
		ids[i] = t.ID
		names := []string{strings.ToLower(t.Scientific)}
		for _, name := range t.Common {
			names = append(names, strings.ToLower(name))
		}
		if len(plain.Similar(strings.ToLower(typed), names)) > 0 {
			called = append(called, t.ID)
		}
	}
	if len(plain.Similar(typed, ids)) == 0 && len(called) > 0 {
		return wording.Sprintf("did you mean %s?", plain.List(called))
	}
	return plain.Nearest(typed, ids)
}

// Vocabulary is the set of traits that the taxa are described in.
func (c *Catalog) Vocabulary() *Vocabulary { return c.vocabulary }

// Taxa are all taxa in the order of the files.
func (c *Catalog) Taxa() []*Taxon { return c.taxa }

// Taxon is the taxon with the id, or nil.
func (c *Catalog) Taxon(id string) *Taxon { return c.index[id] }

// Current is the id that a taxon has today whose id may be one of an earlier edition;
// any other id as it is.
func (c *Catalog) Current(id string) string {
	if now := c.former[id]; now != "" {
		return now
	}
	return id
}

// Unknown says in one sentence that there is no taxon of this id, and which ids
// look like it; it is empty when the taxon is known.
func (c *Catalog) Unknown(id string) (problem, hint string) {
	if c.index[id] != nil {
		return "", ""
	}
	if now := c.former[id]; now != "" {
		return wording.Sprintf("there is no taxon %s any more", plain.Quote(id)), wording.Sprintf("it is called %s now", plain.Quote(now))
	}
	if c.names != nil { // names are known once all is read
		if called := c.Called(id); len(called) == 1 {
			return wording.Sprintf("there is no taxon %s", plain.Quote(id)),
				wording.Sprintf("that is a name; did you mean %s?", plain.Quote(called[0].ID))
		}
	}
	return wording.Sprintf("there is no taxon %s", plain.Quote(id)), c.nearest(id)
}

// Ancestors are the taxa above id, nearest first.
func (c *Catalog) Ancestors(id string) []*Taxon {
	var up []*Taxon
	for t := c.index[id]; t != nil && t.parent != nil; t = t.parent {
		up = append(up, t.parent)
	}
	return up
}

// raise has each taxon know the one above it.
func (c *Catalog) raise() {
	for _, t := range c.taxa {
		t.parent = c.index[t.Parent]
	}
}

// IsUnder reports whether id is ancestor or lies below it.
func (c *Catalog) IsUnder(id, ancestor string) bool {
	for t := c.index[id]; t != nil; t = t.parent {
		if t.ID == ancestor {
			return true
		}
	}
	return false
}

// Cover is the lowest taxon that holds all of ids, or nil when none does.
func (c *Catalog) Cover(ids []string) *Taxon {
	if len(ids) == 0 {
		return nil
	}
	for t := c.index[ids[0]]; t != nil; t = t.parent {
		if !slices.ContainsFunc(ids, func(id string) bool { return !c.IsUnder(id, t.ID) }) {
			return t
		}
	}
	return nil
}

// CommonClass is the class that all of ids share, or empty.
func (c *Catalog) CommonClass(ids []string) Class {
	var class Class
	for i, id := range ids {
		t := c.index[id]
		if t == nil || i > 0 && t.Class != class {
			return ""
		}
		class = t.Class
	}
	return class
}

// Lineage is the scientific names from the top down to id, joined by " > ".
func (c *Catalog) Lineage(id string) string {
	var names []string
	for t := c.index[id]; t != nil; t = t.parent {
		names = append(names, t.Scientific)
	}
	slices.Reverse(names)
	return strings.Join(names, " > ")
}
