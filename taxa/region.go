package taxa

import (
	"io/fs"
	"path"
	"slices"
	"strings"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Region is what holds in one part of the world: the animals that are met there,
// their names in its own English, their tolerance classes, what to do on finding a
// foreign or a protected one, and the key and the protocols used there.
type Region struct {
	ID, Title, Source string
	Version           string     // as its authors count; may be empty
	Authors           []string   // who wrote it
	Licence, Language string     // such as "CC-BY-4.0"; a language as RFC 5646 writes it, such as "en"
	Key               string     // the id of the key that is asked there
	Protocols         []string   // ids; empty where any may be followed
	Cautions          []string   // those of the region, beside those of all work at streams
	OnlyCautions      bool       // in their place: the region is no stream
	Taxa              []Resident // the animals that people meet there

	called      []regional
	also        []regional
	instead     map[string]string // words that are said otherwise here
	classSource string
	classes     map[string]Class
	invaders    map[string]*Concern
	protected   map[string]*Concern
}

// Resident is a taxon of a region, and where it was named. One of higher rank
// means all that belongs to it.
type Resident struct {
	Taxon string
	Pos   authored.Pos
}

// Concern is why a find matters in a region beyond the count.
type Concern struct {
	Some   bool   // only some of the animals of the taxon
	Mark   string // which they are and how to know them; may be empty
	Do     string // what to do on finding one
	Source string
}

// regional are the names that one taxon has in a region.
type regional struct {
	taxon string
	names []string
	pos   authored.Pos
}

// regionsDir is the folder of a catalog that holds its regions.
const regionsDir = "regions"

// readRegions reads the regions of a catalog's folder, in the order of their names.
func readRegions(c *Catalog, fsys fs.FS, dir string, report *authored.Report) error {
	names, err := fs.Glob(fsys, regionsDir+"/*.toml")
	if err != nil {
		return err
	}
	slices.Sort(names)
	for _, name := range names {
		r, err := readRegion(fsys, name, path.Join(dir, name), c, report)
		if err != nil {
			return err
		}
		if r != nil {
			c.regions = append(c.regions, r)
		}
	}
	return nil
}

// ReadRegion reads a region's file, whose name without its ending is the region's
// id where the file gives none. What is wrong with it is in the error, of type [authored.Findings] where the
// file could be read.
func ReadRegion(fsys fs.FS, name, shown string, catalog *Catalog) (*Region, error) {
	var report authored.Report
	r, err := readRegion(fsys, name, shown, catalog, &report)
	if err != nil {
		return nil, err
	}
	if err := report.Findings().Err(); err != nil {
		return nil, err
	}
	return r, nil
}

func readRegion(fsys fs.FS, name, shown string, c *Catalog, report *authored.Report) (*Region, error) {
	top, err := authored.ReadTable(fsys, name, shown, report)
	if err != nil || top == nil {
		return nil, err
	}
	r := &Region{ID: strings.TrimSuffix(path.Base(name), ".toml")}
	top.NeedHead("region")
	if t := top.Sub("region"); t != nil {
		r.readHead(t, c)
	}
	r.called, r.also = readNames(c, top, "called"), readNames(c, top, "also")
	r.instead = readInstead(top)
	r.readClasses(top, c)
	r.readConcerns(top, c)
	top.Done()
	return r, nil
}

// isLanguageTag reports whether RFC 5646 writes a language so, with what else is said
// of it. Each start reads it, so no expression is compiled for it.
func isLanguageTag(s string) bool {
	for i, part := range strings.Split(s, "-") {
		odd := func(r rune) bool { return (r|0x20 < 'a' || r|0x20 > 'z') && (i == 0 || r < '0' || r > '9') }
		if len(part) > 8 || i == 0 && len(part) > 3 || i == 0 && len(part) < 2 || part == "" || strings.ContainsFunc(part, odd) {
			return false
		}
	}
	return true
}

func (r *Region) readHead(t *authored.Table, c *Catalog) {
	r.Title, r.Source, r.Key = t.NeedStr("title"), t.NeedStr("source"), t.Str("key")
	filled := func(key string) string {
		if t.Has(key) {
			return t.NeedStr(key)
		}
		return t.Str(key)
	}
	r.Version, r.Authors, r.Licence, r.Language = filled("version"), t.Filled("authors"), filled("licence"), filled("language")
	if r.Language != "" && !isLanguageTag(r.Language) {
		t.Fail("language", "bad-language", wording.Sprintf("%s is no sign of a language", plain.Quote(r.Language)),
			wording.Text("write its two or three letters, as RFC 5646 has them: en, de, fr, es, pt-BR"))
	}
	if t.Has("id") {
		if r.ID = t.NeedStr("id"); r.ID != "" && !plain.IsID(r.ID) {
			t.Fail("id", "bad-id", wording.Sprintf("%s cannot be an id", plain.Quote(r.ID)),
				wording.Text("use lower-case letters, digits and hyphens, at most 64"))
		}
	}
	r.Protocols, r.Cautions, r.OnlyCautions = t.Filled("protocols"), t.Filled("cautions"), t.Bool("only_these_cautions")
	if r.Key == "" {
		r.Key = r.ID
	}
	t.Need("taxa")
	ids := t.Strs("taxa")
	before := make(map[string]bool, len(ids)) // a drafted region names thousands
	for i, id := range ids {
		c.known(t, t.Elem("taxa", i), id)
		if before[id] {
			t.FailAt(t.Elem("taxa", i), "doubled-id", wording.Sprintf("%s stands in this list twice", plain.Quote(id)),
				wording.Text("name each taxon once"))
		}
		before[id] = true
		r.Taxa = append(r.Taxa, Resident{id, t.Elem("taxa", i)})
	}
	if t.Has("taxa") && len(r.Taxa) == 0 {
		t.Fail("taxa", "empty", wording.Text("the region holds no taxon"), wording.Text("name the taxa that people will meet there"))
	}
	t.Done()
}

// known reports an id at a place that the catalog does not have.
func (c *Catalog) known(t *authored.Table, at authored.Pos, id string) {
	if problem, hint := c.Unknown(id); problem != "" {
		t.FailAt(at, "unknown-taxon", problem, hint)
	}
}

// readNames reads a table of names by taxon.
func readNames(c *Catalog, top *authored.Table, key string) (out []regional) {
	t := top.Sub(key)
	if t == nil {
		return nil
	}
	for _, id := range t.Keys() {
		c.known(t, t.KeyPos(id), id)
		names := t.Filled(id)
		if t.Has(id) && names != nil && len(names) == 0 {
			t.Fail(id, "empty", wording.Sprintf("%s has no name here", plain.Quote(id)), wording.Text("name it, or delete the line"))
		}
		out = append(out, regional{id, names, t.Elem(id, 0)})
	}
	return out
}

func (r *Region) readClasses(top *authored.Table, c *Catalog) {
	t := top.Sub("tolerance")
	if t == nil {
		return
	}
	r.classSource = t.NeedStr("source")
	t.Need("class")
	if of := t.Sub("class"); of != nil {
		r.classes = map[string]Class{}
		for _, id := range of.Keys() {
			c.known(of, of.KeyPos(id), id)
			r.classes[id] = Class(of.NeedStr(id))
			checkWordAt(of, id, "class", of.Str(id), classWords())
		}
	}
	t.Done()
}

// readConcerns reads what is foreign and what is protected. What to do on finding
// one is said once for each, under [found], and by a row for itself.
func (r *Region) readConcerns(top *authored.Table, c *Catalog) {
	usual := map[string]string{}
	if t := top.Sub("found"); t != nil {
		usual["invader"], usual["protected"] = t.Str("invader"), t.Str("protected")
		t.Done()
	}
	read := func(kind string) map[string]*Concern {
		out := map[string]*Concern{}
		for _, row := range top.Subs(kind) {
			c.known(top.Sub(kind), row.Here(), row.ID)
			x := &Concern{Some: row.Bool("some"), Mark: row.Str("mark"), Do: row.Str("do"), Source: row.NeedStr("source")}
			if x.Do == "" {
				x.Do = usual[kind]
			}
			if x.Do == "" {
				row.FailAt(row.Here(), "missing-field", wording.Sprintf("nothing says what to do on finding %s", plain.Quote(row.ID)),
					wording.Sprintf("give it the field do, or give the table [found] the field %s", kind))
			}
			row.Done()
			out[row.ID] = x
		}
		return out
	}
	r.invaders, r.protected = read("invader"), read("protected")
}

// Names are the names that a taxon has in the region beside those that it has
// everywhere, its first name there first.
func (r *Region) Names(taxon string) (out []string) {
	for _, x := range slices.Concat(r.called, r.also) {
		for _, name := range x.names {
			if x.taxon == taxon && !slices.Contains(out, name) {
				out = append(out, name)
			}
		}
	}
	return out
}

// Holds reports whether an end point is met in the region: it belongs to one of
// the region's taxa, or holds one.
func (r *Region) Holds(end string, catalog *Catalog) bool {
	for _, t := range r.Taxa {
		if catalog.IsUnder(end, t.Taxon) || catalog.IsUnder(t.Taxon, end) {
			return true
		}
	}
	return false
}

// held are the ids for which [Region.Holds] is true.
func (r *Region) held(c *Catalog) map[string]bool {
	resident, out := map[string]bool{}, map[string]bool{}
	for _, t := range r.Taxa {
		resident[t.Taxon] = true
		for up := c.index[t.Taxon]; up != nil; up = up.parent {
			out[up.ID] = true
		}
	}
	for _, t := range c.taxa {
		for up := t; up != nil && !out[t.ID]; up = up.parent {
			out[t.ID] = resident[up.ID]
		}
	}
	return out
}
