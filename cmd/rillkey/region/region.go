// Package region reads what a region's folder holds: its animals, its key, its rules,
// what it says of itself and in which words.
package region

import (
	"io/fs"
	"path/filepath"
	"sync"

	"rillkey/couplets"
	"rillkey/scoring"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/folder"
	"rillkey/taxa/wording"
)

// OpenRegion is a region's folder or ZIP file that is in use, with its animals.
type OpenRegion struct {
	*folder.Folder
	ID      string        // as its head gives it, empty where it cannot be read
	catalog *taxa.Catalog // read when it is first asked for
}

// Opened is a folder that was opened.
func Opened(f *folder.Folder) *OpenRegion {
	return &OpenRegion{Folder: f, ID: HeadField(f.FS, folder.HeadFile, "id")}
}

// HeadField is a text of a region's head, empty where it cannot be read.
func HeadField(fsys fs.FS, name, key string) string {
	if head := table(fsys, name, "region"); head != nil {
		return head.Str(key)
	}
	return ""
}

// HeadSays reports whether a field of a region's head is there and true.
func HeadSays(fsys fs.FS, name, key string) bool {
	head := table(fsys, name, "region")
	return head != nil && head.Has(key) && head.Bool(key)
}

// Instead are the words that a region's file has in the place of others, none where it
// cannot be read.
func Instead(fsys fs.FS, name string) map[string]string {
	own := table(fsys, name, "instead")
	if own == nil {
		return nil
	}
	out := map[string]string{}
	for _, word := range own.Keys() {
		out[word] = own.Str(word)
	}
	return out
}

// table is one of a region's file, nil where it is not there or cannot be read.
func table(fsys fs.FS, name, key string) *authored.Table {
	var report authored.Report
	top, err := authored.ReadTable(fsys, name, name, &report)
	if err != nil || top == nil {
		return nil
	}
	return top.Sub(key)
}

// BuiltInWords is what is said in a region that is built in: English in its own words. It is
// nil where the region has none.
func BuiltInWords(id string) *wording.Translation {
	if c, known := spoken.Load(id); known {
		return c.(*wording.Translation)
	}
	var none *wording.Translation
	c, _ := spoken.LoadOrStore(id, none.Replacing(Instead(taxa.EmbeddedFiles(), "regions/"+id+".toml")))
	return c.(*wording.Translation)
}

// spoken are the catalogues that Spoken gave, by region: pages compare them by address.
var spoken sync.Map

// Animals are the folder's own, else those that are built in, of no region.
func (f *OpenRegion) Animals() (catalog *taxa.Catalog, err error) {
	if f.catalog != nil {
		return f.catalog, nil
	}
	if f.Has(folder.Taxa) {
		var own fs.FS
		if own, err = fs.Sub(f.FS, folder.Taxa); err != nil {
			return nil, err
		}
		f.catalog, err = taxa.Load(own, f.Join(folder.Taxa))
	} else {
		f.catalog, err = taxa.Embedded()
	}
	return f.catalog, err
}

// Region reads what the folder says of itself.
func (f *OpenRegion) Region(catalog *taxa.Catalog) (*taxa.Region, error) {
	return taxa.ReadRegion(f.FS, folder.HeadFile, f.Join(folder.HeadFile), catalog.Base())
}

// Rules are the folder's own; else those that are built in, for animals that are.
func (f *OpenRegion) Rules(catalog *taxa.Catalog) (*scoring.Rules, error) {
	switch {
	case f.Has(folder.Schemes) || f.Has(folder.Protocols):
		dir := filepath.ToSlash(f.Shown)
		if dir == "." {
			dir = ""
		}
		return scoring.LoadRules(f.FS, dir, catalog)
	case f.Has(folder.Taxa):
		return scoring.NoRules(catalog), nil
	}
	return scoring.EmbeddedRules(catalog)
}

// Key reads the key of the folder.
func (f *OpenRegion) Key(catalog *taxa.Catalog) (*couplets.File, *couplets.Sound, error) {
	return couplets.Examine(f.FS, folder.KeyFile, f.Join(folder.KeyFile), catalog)
}
