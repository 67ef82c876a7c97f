// Package region reads and checks what a region's folder holds: its animals, its key, its
// rules, what it says of itself and in which words.
//
// Begin with [OpenRegion], [Preface] and [CheckedRegion].
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
	Preface Preface
	catalog *taxa.Catalog // read when it is first asked for
}

// Opened is a folder that was opened.
func Opened(f *folder.Folder) *OpenRegion {
	return &OpenRegion{Folder: f, Preface: ReadPreface(f.FS, folder.HeadFile)}
}

// Preface is what a region's file says of itself, as far as it can be read: what commands
// need to know before its animals are.
type Preface struct {
	ID, Key, Language string
	OnlyCautions      bool              // its own and no others: the region is no stream
	Instead           map[string]string // words in the place of others
}

// ReadPreface reads a region's file.
func ReadPreface(fsys fs.FS, name string) (p Preface) {
	var report authored.Report
	top, err := authored.ReadTable(fsys, name, name, &report)
	if err != nil || top == nil {
		return p
	}
	if head := top.Sub("region"); head != nil {
		p.ID, p.Key, p.Language = head.Str("id"), head.Str("key"), head.Str("language")
		p.OnlyCautions = head.Bool("only_these_cautions")
	}
	if own := top.Sub("instead"); own != nil {
		p.Instead = map[string]string{}
		for _, word := range own.Keys() {
			p.Instead[word] = own.Str(word)
		}
	}
	return p
}

// BuiltInWords is what is said in a region that is built in: English in its own words. It is
// nil where the region has none.
func BuiltInWords(id string) *wording.Translation {
	if id == "" { // as for most that is typed outside a visit
		return nil
	}
	if c, known := spoken.Load(id); known {
		return c.(*wording.Translation)
	}
	var none *wording.Translation
	c, _ := spoken.LoadOrStore(id, none.Replacing(ReadPreface(taxa.EmbeddedFiles(), "regions/"+id+".toml").Instead))
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
