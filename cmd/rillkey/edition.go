package main

import (
	"io/fs"
	"path"
	"slices"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/folder"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// edition is the version of the region and the fingerprints of all that is in use,
// as a visit's file keeps them.
func (l *library) edition(r *taxa.Region) (folder.Edition, error) {
	f, err := l.inUse(r)
	if err != nil {
		return nil, err
	}
	return f.Edition(versionOf(r))
}

// builtInEdition is the edition of a region as it is inside the program, which a
// page for phones holds too.
func builtInEdition(id string) (folder.Edition, error) {
	f, err := builtInFolder(id)
	if err != nil {
		return nil, err
	}
	catalog, err := taxa.Embedded()
	if err != nil {
		return nil, err
	}
	return f.Edition(versionOf(catalog.RegionNamed(id)))
}

// editionWords say which version of which region a page is made with; empty where no
// region holds, or it has no version.
func (l *library) editionWords() string {
	catalog, err := l.wholeCatalog()
	if err != nil {
		return "" // what the page needed of it was there
	}
	r, err := l.region(catalog)
	if err != nil || versionOf(r) == "" {
		return ""
	}
	return wording.Sprintf("region %s, version %s", plain.OneLine(r.ID), plain.OneLine(r.Version))
}

// versionOf is that of a region, empty without one.
func versionOf(r *taxa.Region) string {
	if r == nil {
		return ""
	}
	return r.Version
}

// inUse are the files in use: those of the region's folder or of a built-in region,
// with what flags put in their place.
func (l *library) inUse(r *taxa.Region) (*folder.Folder, error) {
	home, err := l.folder()
	if err != nil {
		return nil, err
	}
	var f *folder.Folder
	if home != nil {
		f = home.Folder
	} else if f, err = builtInFolder(builtInID(r)); err != nil {
		return nil, err
	}
	if !l.ownKey() {
		f = f.Replacing([]folder.RegionFile{l.keyPart(r)}, folder.KeyFile)
	}
	if l.taxaDir != "" {
		parts, err := partsIn(l.taxaDir, "*.toml", folder.Taxa)
		if err != nil {
			return nil, err
		}
		f = f.Replacing(parts, folder.Taxa)
	}
	if l.rulesDir == "" {
		return f, nil
	}
	parts, err := partsIn(l.rulesDir, "*/*.toml", "")
	return f.Replacing(parts, folder.Schemes, folder.Protocols), err
}

// builtInID is the id of a region if it is built in, else that of the usual one.
func builtInID(r *taxa.Region) string {
	catalog, err := taxa.Embedded()
	if err == nil && r != nil && catalog.RegionNamed(r.ID) != nil {
		return r.ID
	}
	return usualRegion
}

// keyPart is the key that is asked, where it is not that of the region's folder.
func (l *library) keyPart(r *taxa.Region) folder.RegionFile {
	if file, ok := couplets.EmbeddedFile(l.keyName(r)); ok {
		return folder.RegionFile{Name: folder.KeyFile, FS: couplets.Embedded(), Path: file}
	}
	dir, name := splitPath(l.keyFile)
	return folder.RegionFile{Name: folder.KeyFile, FS: authored.DirFS(dir), Path: name}
}

func partsIn(dir, pattern, into string) (out []folder.RegionFile, err error) {
	from := authored.DirFS(dir)
	names, err := fs.Glob(from, pattern)
	if err == nil && len(names) == 0 {
		err = fs.ErrNotExist
	}
	for _, name := range names {
		out = append(out, folder.RegionFile{Name: path.Join(into, name), FS: from, Path: name})
	}
	return out, err
}

// tellEdition says once in one line that visits were begun with other files than
// those in use, and what differs. Older visits do not say what they were begun with.
func (l *library) tellEdition(r *taxa.Region) {
	was := folder.Edition(l.header.Edition)
	if len(was) == 0 || slices.ContainsFunc(l.told, was.Is) {
		return
	}
	l.told = append(l.told, was)
	is, err := l.edition(r)
	if err != nil || was.Is(is) {
		return // what cannot be read is said when it is used
	}
	differs := was.Differs(is)
	if len(differs) == 0 {
		return
	}
	words := wording.Text("this visit was begun with other files than those in use")
	if own := l.header.Region; l.regionName != "" && own != "" && r != nil && own != r.ID {
		words = wording.Sprintf("this visit was keyed in the region %s, and --region has it go by %s; leave --region out, and it goes by "+
			"its own", plain.Quote(own), plain.Quote(r.ID))
	} else if v, w := was.Version(), is.Version(); v != w && v != "" && w != "" {
		words = wording.Sprintf("this visit was begun with version %s of the region, and version %s is in use",
			plain.Printable(v), plain.Printable(w))
	}
	l.complain("rillkey: " + wording.Sprintf("%s; what differs: %s", words, plain.And(differs)))
}
