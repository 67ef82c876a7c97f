// Package folder opens the folder of a region, or the ZIP file of one, as what it
// is: data of strangers. Only the files that belong to a region are seen, none
// outside it, none by a link, and never more than the bounds say.
//
// Begin with [Folder], [Edition] and [RegionFile].
package folder

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// Names in a region's folder.
const (
	HeadFile  = "region.toml" // the file that makes a folder a region's
	KeyFile   = "key.toml"
	WordsFile = "words.toml" // what the program says there in other words
	Taxa      = "taxa"
	Schemes   = "schemes"
	Protocols = "protocols"
)

// Bounds of a region.
const (
	MaxFiles   = 500       // that belong to it
	maxEntries = 10_000    // of a ZIP file, or in one of its folders
	maxZip     = 32 << 20  // bytes of a ZIP file
	maxSize    = 128 << 20 // bytes of its files as they are read
)

// patterns are the files that belong to a region; all others are not looked at.
var patterns = []string{HeadFile, KeyFile, WordsFile, "*.md", "*.txt", "*.svg", Taxa + "/*.toml", Taxa + "/*.svg", Taxa + "/*.jpg",
	Taxa + "/*.jpeg", Taxa + "/*.png", Schemes + "/*.toml", Protocols + "/*.toml"}

// RegionFile is one file of a region, which may lie elsewhere under another name.
type RegionFile struct {
	Name string // in the region, such as "taxa/traits.toml"
	FS   fs.FS
	Path string // in FS
}

// Folder is a region's folder.
type Folder struct {
	Shown string       // its path, as people wrote it
	FS    fs.FS        // where the files are; nil for one that is put together
	parts []RegionFile // sorted by name
}

// FromParts puts a region together from files that lie in several places.
func FromParts(shown string, parts []RegionFile) *Folder {
	f := &Folder{Shown: shown, parts: slices.Clone(parts)}
	sorting.Stable(f.parts, func(a, b RegionFile) int { return strings.Compare(a.Name, b.Name) })
	return f
}

// IsZip reports whether a file is named as a ZIP file is.
func IsZip(name string) bool { return strings.EqualFold(filepath.Ext(name), ".zip") }

// list finds the files of a region.
func list(shown string, fsys fs.FS) (*Folder, error) {
	f := &Folder{Shown: shown, FS: fsys}
	for _, pattern := range patterns {
		names, err := fs.Glob(fsys, pattern)
		if err != nil {
			return nil, err
		}
		for _, name := range names {
			f.parts = append(f.parts, RegionFile{name, fsys, name})
		}
	}
	if !f.Has(HeadFile) {
		for _, m := range f.misnamedFiles() {
			if m.Should == HeadFile {
				return nil, wording.Errorf("%s: it holds %s, which must be called %s", plain.Printable(shown),
					plain.Quote(m.Name), HeadFile)
			}
		}
		return nil, wording.Errorf("%s: it holds no %s, which makes it a region; one is begun beside it by: rillkey region new our-brook",
			plain.Printable(shown), HeadFile)
	}
	if len(f.parts) > MaxFiles {
		return nil, wording.Errorf("%s: a region has at most %d files, this has %d", plain.Printable(shown), MaxFiles, len(f.parts))
	}
	sorting.Stable(f.parts, func(a, b RegionFile) int { return strings.Compare(a.Name, b.Name) })
	return f, f.fits()
}

// fits refuses a region of too many bytes, by what the files say of their size.
func (f *Folder) fits() error {
	sum := int64(0)
	for _, p := range f.parts {
		info, err := fs.Stat(p.FS, p.Path)
		if err != nil {
			return err
		}
		if sum += info.Size(); sum > maxSize || info.Size() > authored.MaxSize {
			return wording.Errorf("%s: too large for a region: a file has at most %d MB, all together %d MB",
				plain.Printable(path.Join(f.Shown, p.Name)), authored.MaxSize>>20, maxSize>>20)
		}
	}
	return nil
}

// FromFS is a region that lies in a file system.
func FromFS(shown string, fsys fs.FS) (*Folder, error) { return list(shown, fsys) }

// Has reports whether the region has the file, or files in the folder.
func (f *Folder) Has(name string) bool {
	return slices.ContainsFunc(f.parts, func(p RegionFile) bool { return oneOf(p.Name, []string{name}) })
}

// Names are the names of its files, sorted.
func (f *Folder) Names() []string {
	out := make([]string, len(f.parts))
	for i, p := range f.parts {
		out[i] = p.Name
	}
	return out
}

// Join is the path of a file of the region, to be shown.
func (f *Folder) Join(name string) string { return path.Join(filepath.ToSlash(f.Shown), name) }

// Each hands over every file with what it holds, in the order of their names.
func (f *Folder) Each(do func(name string, data []byte) error) error {
	return f.each(func(string) bool { return true }, do)
}

// each is [Folder.Each] of those alone whose names are wanted.
func (f *Folder) each(wanted func(name string) bool, do func(name string, data []byte) error) error {
	sum := 0
	for _, p := range f.parts {
		if !wanted(p.Name) {
			continue
		}
		data, err := authored.Read(p.FS, p.Path, f.Join(p.Name))
		if err != nil {
			return err
		}
		if sum += len(data); sum > maxSize { // a ZIP file can say less than it holds
			return wording.Errorf("%s: too large for a region", plain.Printable(f.Shown))
		}
		if err := do(p.Name, data); err != nil {
			return err
		}
	}
	return nil
}

// Fingerprint tells the region's files from all others, or those with the names or in
// the folders given: the first twelve digits of the SHA-256 of the names and contents
// of those that the program reads. Line endings do not count, as programs for shared
// folders change them.
func (f *Folder) Fingerprint(of ...string) (string, error) {
	h := sha256.New()
	err := f.each(func(name string) bool {
		return strings.HasSuffix(name, ".toml") && (len(of) == 0 || oneOf(name, of))
	}, func(name string, data []byte) error {
		if bytes.Contains(data, []byte("\r\n")) {
			data = bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))
		}
		fmt.Fprintf(h, "%s %d\n", name, len(data))
		h.Write(data) // which never fails
		return nil
	})
	return hex.EncodeToString(h.Sum(nil))[:12], err
}

// Fingerprints tells several regions, in their order, from all others, as [Folder.Fingerprint]
// tells one.
func Fingerprints(all []*Folder, of ...string) (string, error) {
	h := sha256.New()
	for _, f := range all {
		mark, err := f.Fingerprint(of...)
		if err != nil {
			return "", err
		}
		fmt.Fprintln(h, mark)
	}
	return hex.EncodeToString(h.Sum(nil))[:12], nil
}

// oneOf reports whether a file has one of the names, or lies in a folder of one.
func oneOf(name string, of []string) bool {
	return slices.ContainsFunc(of, func(n string) bool { return name == n || strings.HasPrefix(name, n+"/") })
}

// Replacing is the region with other files in place of those with the names, or in the
// folders, given.
func (f *Folder) Replacing(parts []RegionFile, instead ...string) *Folder {
	kept := slices.DeleteFunc(slices.Clone(f.parts), func(p RegionFile) bool { return oneOf(p.Name, instead) })
	return FromParts(f.Shown, append(kept, parts...))
}
