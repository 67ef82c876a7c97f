package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"rillkey/couplets"
	"rillkey/scoring"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/folder"
	"rillkey/taxa/plain"
)

// regionFolder is a region's folder that is in use, with its animals.
type regionFolder struct {
	*folder.Folder
	id      string
	catalog *taxa.Catalog // read when it is first asked for
}

// folder is the region's folder in use, nil for none: that of --region, else the
// present folder, where its region is the visit's or no visit says one. Flags that
// name other animals or a built-in key leave the present folder out.
func (l *library) folder() (*regionFolder, error) {
	name := l.regionName
	if name == "" {
		_, ownKey := builtIn(l.keyFile)
		if l.taxaDir != "" || l.keyFile != "" && ownKey || !isFile(folder.Head) {
			return nil, nil
		}
		name = "."
	} else if !isRegionFolder(name) {
		return nil, nil // built in, or a file by itself
	}
	if l.home == nil || l.home.Shown != name {
		f, err := folder.Open(name)
		if err != nil {
			return nil, err
		}
		l.home = &regionFolder{Folder: f, id: headID(f)}
	}
	if l.regionName == "" && l.header.Region != "" && l.header.Region != l.home.id {
		return nil, nil
	}
	return l.home, nil
}

// isRegionFolder reports whether a name is that of a region's folder or ZIP file. A
// folder named as a built-in region is one only if it holds a region.
func isRegionFolder(name string) bool {
	info, err := os.Stat(name)
	switch {
	case err != nil:
		return false
	case info.IsDir():
		return !plain.IsID(name) || isFile(filepath.Join(name, folder.Head))
	}
	return folder.IsZip(name)
}

// headID is the id that a region's folder gives, empty where it cannot be read.
func headID(f *folder.Folder) string {
	var report authored.Report
	top, err := authored.ReadTable(f.FS, folder.Head, f.Join(folder.Head), &report)
	if err != nil || top == nil {
		return ""
	}
	if head := top.Sub("region"); head != nil {
		return head.Str("id")
	}
	return ""
}

// animals are the folder's own, else those that are built in.
func (f *regionFolder) animals() (catalog *taxa.Catalog, err error) {
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

// region reads what the folder says of itself.
func (f *regionFolder) region(catalog *taxa.Catalog) (*taxa.Region, error) {
	return taxa.ReadRegion(f.FS, folder.Head, f.Join(folder.Head), catalog.Base())
}

// rules are the folder's own; else those that are built in, for animals that are.
func (f *regionFolder) rules(catalog *taxa.Catalog) (*scoring.Rules, error) {
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

// ownKey reports whether the key that is asked is that of the region's folder.
func (l *library) ownKey() bool {
	if l.keyFile != "" {
		return false
	}
	f, err := l.folder()
	return err == nil && f != nil && f.Has(folder.Key)
}

// key reads the key of the region's folder.
func (f *regionFolder) key(catalog *taxa.Catalog) (*couplets.File, *couplets.Sound, error) {
	return couplets.Examine(f.FS, folder.Key, f.Join(folder.Key), catalog)
}

// noSuchRegion says what --region may name, where it names nothing.
func noSuchRegion(name string, catalog *taxa.Catalog, err error) error {
	if !errors.Is(err, fs.ErrNotExist) {
		return fileError(name, err)
	}
	return misused("%s is neither a file, a folder nor a region that is built in (those are %s)", plain.Quote(name),
		strings.Join(regionNames(catalog), ", "))
}
