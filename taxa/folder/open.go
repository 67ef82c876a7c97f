//go:build !js

package folder

import (
	"archive/zip"
	"bytes"
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
	"rillkey/taxa/wording"
)

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
	data, err := authored.ReadUpTo(maxZip, authored.DirFS(filepath.Clean(dir+".")), base, name)
	if err != nil {
		return nil, err
	}
	return readZip(name, data)
}

// Zipped are the ZIP files of a folder that hold a region, in the order of their names.
// Other ZIP files, and what cannot be read, are passed over.
func Zipped(dir string) (out []string) {
	names, err := filepath.Glob(filepath.Join(dir, "*.zip"))
	if err != nil {
		return nil
	}
	for _, name := range names {
		r, err := zip.OpenReader(name)
		if err != nil {
			continue
		}
		if len(r.File) <= maxEntries && slices.ContainsFunc(r.File, func(e *zip.File) bool {
			return path.Base(e.Name) == HeadFile && strings.Count(e.Name, "/") <= 1
		}) {
			out = append(out, name)
		}
		_ = r.Close() // it was only read
	}
	return out
}

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
	return wording.Errorf("%s: a region holds its files itself, and this is a link or the like; put the file there",
		plain.Printable(path.Join(filepath.ToSlash(dir), name)))
}

// ofMacs is a folder that another system puts beside what it packs.
const ofMacs = "__MACOSX/"

// readZip reads a region from what a ZIP file holds, in which it may lie in a folder.
func readZip(shown string, data []byte) (*Folder, error) {
	bad := func(why string) error { return fmt.Errorf("%s: %s", plain.Printable(shown), why) }
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, bad(wording.Text("it is no ZIP file that can be read; one is made of a region's folder, as in: rillkey region pack " +
			"our-brook --to our-brook.zip"))
	}
	if len(r.File) > maxEntries {
		return nil, bad(wording.Sprintf("it holds %d files; a region has at most %d", len(r.File), MaxFiles))
	}
	seen := map[string]bool{}
	var roots, deep []string // folders that are regions, and those that lie too deep
	for _, e := range r.File {
		name := strings.TrimSuffix(e.Name, "/")
		switch {
		case !fs.ValidPath(name) || strings.ContainsAny(name, `\:`):
			return nil, bad(wording.Sprintf("it holds a file whose path leads out of the folder: %s", plain.Quote(e.Name)))
		case e.Mode()&fs.ModeType&^fs.ModeDir != 0:
			return nil, bad(wording.Sprintf("it holds a link or the like: %s", plain.Quote(e.Name)))
		case seen[name] && !e.FileInfo().IsDir():
			return nil, bad(wording.Sprintf("it holds %s twice; pack the folder anew", plain.Quote(name)))
		case path.Base(name) == HeadFile && strings.Count(name, "/") > 1:
			deep = append(deep, path.Dir(name))
		case path.Base(name) == HeadFile && !strings.HasPrefix(name, ofMacs):
			roots = append(roots, path.Dir(name))
		}
		seen[name] = true
	}
	switch {
	case slices.Contains(roots, "."):
		return list(shown, r)
	case len(roots) > 1:
		return nil, bad(wording.Sprintf("it holds more than one region: %s; unpack it, and name one of the folders", plain.List(roots)))
	case len(roots) == 0 && len(deep) > 0:
		return nil, bad(wording.Sprintf("its region lies too deep, in %s; unpack it, and name that folder", plain.Quote(deep[0])))
	case len(roots) == 0:
		return list(shown, r)
	}
	sub, err := fs.Sub(r, roots[0])
	if err != nil {
		return nil, err
	}
	return list(shown, sub)
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
