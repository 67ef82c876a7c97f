package main

import (
	"io/fs"
	"path"
	"slices"
	"strings"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/folder"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// editionParts are what names and grades rest on, each with a fingerprint of its own.
var editionParts = []struct {
	name  string
	words string // in a sentence
	files []string
}{
	{"key", wording.Mark("the key"), []string{folder.Key}},
	{"taxa", wording.Mark("the animals"), []string{folder.Taxa}},
	{"rules", wording.Mark("the schemes and protocols"), []string{folder.Schemes, folder.Protocols}},
	{"region", wording.Mark("what the region says"), []string{folder.Head}},
}

// edition is the version of the region and the fingerprints of all that is in use,
// as a visit's file keeps them.
func (l *library) edition(r *taxa.Region) (out []string, err error) {
	f, err := l.inUse(r)
	if err != nil {
		return nil, err
	}
	return marks(f, r)
}

// builtInEdition is the edition of a region as it is inside the program, which a
// page for phones holds too.
func builtInEdition(id string) ([]string, error) {
	f, err := builtInFolder(id)
	if err != nil {
		return nil, err
	}
	catalog, err := taxa.Embedded()
	if err != nil {
		return nil, err
	}
	return marks(f, catalog.RegionNamed(id))
}

func marks(f *folder.Folder, r *taxa.Region) (out []string, err error) {
	if r != nil && r.Version != "" {
		out = append(out, wording.Sprintf("version %s", r.Version))
	}
	for _, p := range editionParts {
		mark, err := f.Fingerprint(p.files...)
		if err != nil {
			return nil, err
		}
		out = append(out, p.name+" "+mark)
	}
	return out, nil
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
		f = f.With([]folder.Part{l.keyPart(r)}, folder.Key)
	}
	if l.taxaDir != "" {
		parts, err := partsIn(l.taxaDir, "*.toml", folder.Taxa)
		if err != nil {
			return nil, err
		}
		f = f.With(parts, folder.Taxa)
	}
	if l.rulesDir == "" {
		return f, nil
	}
	parts, err := partsIn(l.rulesDir, "*/*.toml", "")
	return f.With(parts, folder.Schemes, folder.Protocols), err
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
func (l *library) keyPart(r *taxa.Region) folder.Part {
	if file, ok := builtIn(l.keyName(r)); ok {
		return folder.Part{Name: folder.Key, From: couplets.Embedded(), Path: file}
	}
	dir, name := splitPath(l.keyFile)
	return folder.Part{Name: folder.Key, From: authored.DirFS(dir), Path: name}
}

func partsIn(dir, pattern, into string) (out []folder.Part, err error) {
	from := authored.DirFS(dir)
	names, err := fs.Glob(from, pattern)
	if err == nil && len(names) == 0 {
		err = fs.ErrNotExist
	}
	for _, name := range names {
		out = append(out, folder.Part{Name: path.Join(into, name), From: from, Path: name})
	}
	return out, err
}

// tellEdition says once in one line that visits were begun with other files than
// those in use, and what differs. Older visits do not say what they were begun with.
func (l *library) tellEdition(r *taxa.Region) {
	was := l.header.Edition
	if len(was) == 0 || slices.ContainsFunc(l.told, func(t []string) bool { return slices.Equal(t, was) }) {
		return
	}
	l.told = append(l.told, was)
	is, err := l.edition(r)
	if err != nil || slices.Equal(is, was) {
		return // what cannot be read is said when it is used
	}
	if words := otherEdition(was, is); words != "" {
		l.complain("rillkey: " + words)
	}
}

// otherEdition says what differs between two editions, empty for nothing that names
// or grades rest on.
func otherEdition(was, is []string) string {
	old, now := fieldsOf(was), fieldsOf(is)
	var differs []string
	for _, p := range editionParts {
		if old[p.name] != "" && old[p.name] != now[p.name] {
			differs = append(differs, wording.Of(p.words))
		}
	}
	if len(differs) == 0 {
		return ""
	}
	words := wording.Of("this visit was begun with other files than those in use")
	if v, w := old["version"], now["version"]; v != w && v != "" && w != "" {
		words = wording.Sprintf("this visit was begun with version %s of the region, and version %s is in use",
			plain.Printable(v), plain.Printable(w))
	}
	return wording.Sprintf("%s; what differs: %s", words, plain.And(differs))
}

// fieldsOf are the values of an edition by their names.
func fieldsOf(edition []string) map[string]string {
	out := map[string]string{}
	for _, line := range edition {
		name, value, _ := strings.Cut(line, " ")
		out[name] = value
	}
	return out
}
