// Package folder opens the folder of a region, or the ZIP file of one, as what it
// is: data of strangers. Only the files that belong to a region are seen, none
// outside it, none by a link, and never more than the bounds say.
package folder

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
)

// Names in a region's folder.
const (
	Head      = "region.toml" // the file that makes a folder a region's
	Key       = "key.toml"
	Words     = "words.toml" // what the program says there in other words
	Taxa      = "taxa"
	Schemes   = "schemes"
	Protocols = "protocols"
)

// Bounds of a region.
const (
	MaxFiles   = 500       // that belong to it
	MaxEntries = 10_000    // of a ZIP file, or in one of its folders
	MaxZip     = 32 << 20  // bytes of a ZIP file
	MaxSize    = 128 << 20 // bytes of its files as they are read
)

// patterns are the files that belong to a region; all others are not looked at.
var patterns = []string{Head, Key, Words, "*.md", "*.txt", "*.svg", Taxa + "/*.toml", Taxa + "/*.svg", Taxa + "/*.jpg",
	Taxa + "/*.jpeg", Taxa + "/*.png", Schemes + "/*.toml", Protocols + "/*.toml"}

// Part is one file of a region, which may lie elsewhere under another name.
type Part struct {
	Name string // in the region, such as "taxa/traits.toml"
	From fs.FS
	Path string // in From
}

// Folder is a region's folder.
type Folder struct {
	Shown string // its path, as people wrote it
	FS    fs.FS  // where the files are; nil for one that is put together
	parts []Part // sorted by name
}

// Of puts a region together from files that lie in several places.
func Of(shown string, parts []Part) *Folder {
	f := &Folder{Shown: shown, parts: slices.Clone(parts)}
	slices.SortFunc(f.parts, func(a, b Part) int { return strings.Compare(a.Name, b.Name) })
	return f
}

// Open opens a region's folder or the ZIP file of one. The error is
// [fs.ErrNotExist] where there is none.
func Open(name string) (*Folder, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if info.IsDir() {
		return openDir(name)
	}
	dir, base := filepath.Split(name)
	data, err := authored.ReadUpTo(MaxZip, authored.DirFS(filepath.Clean(dir+".")), base, name)
	if err != nil {
		return nil, err
	}
	return readZip(name, data)
}

// IsZip reports whether a file is named as a ZIP file is.
func IsZip(name string) bool { return strings.EqualFold(filepath.Ext(name), ".zip") }

func openDir(dir string) (*Folder, error) {
	fsys := authored.DirFS(dir)
	for _, sub := range []string{Taxa, Schemes, Protocols} {
		if err := noLink(dir, sub); err != nil {
			return nil, err
		}
	}
	f, err := list(dir, fsys)
	if err != nil {
		return nil, err
	}
	for _, p := range f.parts {
		if err := noLink(dir, p.Name); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// noLink refuses what is no file or folder of the region's own.
func noLink(dir, name string) error {
	info, err := os.Lstat(filepath.Join(dir, filepath.FromSlash(name)))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case info.Mode().IsRegular() || info.IsDir():
		return nil
	}
	return fmt.Errorf("%s: a region holds its files itself, and this is a link or the like; put the file there",
		plain.Printable(path.Join(filepath.ToSlash(dir), name)))
}

// list finds the files of a region.
func list(shown string, fsys fs.FS) (*Folder, error) {
	f := &Folder{Shown: shown, FS: fsys}
	for _, pattern := range patterns {
		names, err := fs.Glob(fsys, pattern)
		if err != nil {
			return nil, err
		}
		for _, name := range names {
			f.parts = append(f.parts, Part{name, fsys, name})
		}
	}
	if !f.Has(Head) {
		return nil, fmt.Errorf("%s: it holds no %s, which makes it a region; 'rillkey region new DIR' begins one",
			plain.Printable(shown), Head)
	}
	if len(f.parts) > MaxFiles {
		return nil, fmt.Errorf("%s: a region has at most %d files, this has %d", plain.Printable(shown), MaxFiles, len(f.parts))
	}
	slices.SortFunc(f.parts, func(a, b Part) int { return strings.Compare(a.Name, b.Name) })
	return f, f.fits()
}

// fits refuses a region of too many bytes, by what the files say of their size.
func (f *Folder) fits() error {
	sum := int64(0)
	for _, p := range f.parts {
		info, err := fs.Stat(p.From, p.Path)
		if err != nil {
			return err
		}
		if sum += info.Size(); sum > MaxSize || info.Size() > authored.MaxSize {
			return fmt.Errorf("%s: too large for a region: a file has at most %d MB, all together %d MB",
				plain.Printable(path.Join(f.Shown, p.Name)), authored.MaxSize>>20, MaxSize>>20)
		}
	}
	return nil
}

// readZip reads a region from a ZIP file, in which it may lie in a folder.
func readZip(shown string, data []byte) (*Folder, error) {
	bad := func(why string) error { return fmt.Errorf("%s: %s", plain.Printable(shown), why) }
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, bad("it is no ZIP file that can be read; 'rillkey region pack DIR --to FILE.zip' makes one")
	}
	if len(r.File) > MaxEntries {
		return nil, bad(fmt.Sprintf("it holds %d files; a region has at most %d", len(r.File), MaxFiles))
	}
	root := ""
	for _, e := range r.File {
		name := strings.TrimSuffix(e.Name, "/")
		switch {
		case !fs.ValidPath(name) || strings.ContainsAny(name, `\:`):
			return nil, bad("it holds a file whose path leads out of the folder: " + plain.Quote(e.Name))
		case e.Mode()&fs.ModeType&^fs.ModeDir != 0:
			return nil, bad("it holds a link or the like: " + plain.Quote(e.Name))
		case path.Base(name) == Head && strings.Count(name, "/") == 1 && root == "":
			root = path.Dir(name)
		case name == Head:
			root = "."
		}
	}
	if root == "" || root == "." {
		return list(shown, r)
	}
	sub, err := fs.Sub(r, root)
	if err != nil {
		return nil, err
	}
	return list(shown, sub)
}

// Has reports whether the region has the file, or files in the folder.
func (f *Folder) Has(name string) bool {
	return slices.ContainsFunc(f.parts, func(p Part) bool { return within(p.Name, []string{name}) })
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
	sum := 0
	for _, p := range f.parts {
		data, err := authored.Read(p.From, p.Path, f.Join(p.Name))
		if err != nil {
			return err
		}
		if sum += len(data); sum > MaxSize { // a ZIP file can say less than it holds
			return fmt.Errorf("%s: too large for a region", plain.Printable(f.Shown))
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
	err := f.Each(func(name string, data []byte) error {
		if strings.HasSuffix(name, ".toml") && (len(of) == 0 || within(name, of)) {
			data = bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))
			fmt.Fprintf(h, "%s %d\n%s", name, len(data), data)
		}
		return nil
	})
	return hex.EncodeToString(h.Sum(nil))[:12], err
}

// within reports whether a file has one of the names, or lies in a folder of one.
func within(name string, of []string) bool {
	return slices.ContainsFunc(of, func(n string) bool { return name == n || strings.HasPrefix(name, n+"/") })
}

// With is the region with other files in place of those with the names, or in the
// folders, given.
func (f *Folder) With(parts []Part, instead ...string) *Folder {
	kept := slices.DeleteFunc(slices.Clone(f.parts), func(p Part) bool { return within(p.Name, instead) })
	return Of(f.Shown, append(kept, parts...))
}

// Pack writes the region as a ZIP file, the same for the same files.
func (f *Folder) Pack(w io.Writer) error {
	z := zip.NewWriter(w)
	err := f.Each(func(name string, data []byte) error {
		into, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate})
		if err == nil {
			_, err = into.Write(data)
		}
		return err
	})
	return errors.Join(err, z.Close())
}
