package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"rillkey/cmd/rillkey/region"
	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/folder"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// folder is the region's folder in use, nil for none: that of --region, else the
// present folder's, where that is the visit's or no visit says one. Flags that
// name other animals or a built-in key leave the present folder out.
func (l *library) folder() (*region.OpenRegion, error) {
	name := l.regionName
	if name == "" {
		_, ownKey := couplets.EmbeddedFile(l.keyFile)
		if l.taxaDir != "" || l.keyFile != "" && ownKey {
			return nil, nil
		}
		if name = here(l); name == "" {
			return nil, nil
		}
	} else if !isRegionFolder(name) {
		return nil, nil // built in, or a file by itself
	}
	if l.home == nil || l.home.Shown != name {
		f, err := folder.Open(name)
		if err != nil {
			return nil, err
		}
		l.home = region.Opened(f)
	}
	if l.regionName == "" && l.header.Region != "" && l.header.Region != l.home.Preface.ID {
		return nil, nil
	}
	return l.home, nil
}

// here is the region of the present folder: the folder itself, or the one ZIP file of a
// region in it, if no folder in it is a region too, as where regions are written;
// empty where there is none.
func here(l *library) string {
	if isFile(folder.HeadFile) {
		return "."
	}
	if zips := zipsHere(l); len(zips) == 1 {
		return zips[0]
	}
	return ""
}

// zipsHere are the ZIP files of regions in the present folder, none where regions are
// written in it.
func zipsHere(l *library) []string {
	if l.zipped == nil {
		zips := folder.Zipped(".")
		if len(zips) > 0 { // a folder has many files, and no ZIP file as a rule
			if beside, _ := filepath.Glob(filepath.Join("*", folder.HeadFile)); len(beside) > 0 { // the pattern is sound
				zips = nil
			}
		}
		l.zipped = &zips
	}
	return *l.zipped
}

// tellZips says once that several regions lie in the present folder, of which none was
// chosen.
func tellZips(l *library) {
	if l.zipsTold || l.taxaDir != "" || isFile(folder.HeadFile) {
		return
	}
	if zips := zipsHere(l); len(zips) > 1 {
		l.zipsTold = true
		l.complain("rillkey: " + wording.Sprintf("several regions lie here, and none of them is used: %s; choose one with --region",
			plain.Printable(strings.Join(zips, ", "))))
	}
}

// isRegionFolder reports whether a name is that of a region's folder or ZIP file. A
// folder named as a built-in region is one only if it holds a region.
func isRegionFolder(name string) bool {
	info, err := os.Stat(name)
	switch {
	case err != nil:
		return false
	case info.IsDir():
		return !plain.IsID(name) || isFile(filepath.Join(name, folder.HeadFile))
	}
	return folder.IsZip(name)
}

// ownKey reports whether the key that is asked is that of the region's folder.
func (l *library) ownKey() bool {
	if l.keyFile != "" {
		return false
	}
	f, err := l.folder()
	return err == nil && f != nil && f.Has(folder.KeyFile)
}

// builtInMeant is the id of the region that is built in that a name says in the way that
// people type it: with blanks and capitals, or with some of its words that no other
// has. It is empty where there is none, or several.
func builtInMeant(name string) (id string) {
	said := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return unicode.IsSpace(r) || r == '-' || r == '_' })
	for _, of := range couplets.EmbeddedNames() {
		words := strings.Split(of, "-")
		without := func(word string) bool { return !slices.Contains(words, word) }
		if of == kindsKey || len(said) == 0 || slices.ContainsFunc(said, without) {
			continue
		}
		if id != "" {
			return ""
		}
		id = of
	}
	return id
}

// meanRegion has what is typed for a region say one that is built in.
func meanRegion(c *console, name string) string {
	id := builtInMeant(name)
	if id == "" || id == name || isThere(name) {
		return name
	}
	c.complain("rillkey: " + wording.Sprintf("%s is taken for the region %s", plain.Quote(name), id))
	return id
}

// noSuchRegion says what --region may name, where it names nothing.
func noSuchRegion(name string, catalog *taxa.Catalog, err error) error {
	if !errors.Is(err, fs.ErrNotExist) {
		return fileError(name, err)
	}
	like := slices.DeleteFunc(regionNames(catalog), func(id string) bool {
		title := strings.ToLower(catalog.RegionNamed(id).Title)
		return nearest(name, []string{id}) == "" && !strings.Contains(title, strings.ToLower(name))
	})
	if len(like) == 1 {
		return misused("%s is neither a file, a folder nor a region that is built in; did you mean --region %s?", plain.Quote(name),
			like[0])
	}
	return misused("%s is neither a file, a folder nor a region that is built in; those are --region %s", plain.Quote(name),
		strings.Join(regionNames(catalog), ", --region "))
}
