package authored

import (
	"io/fs"
	"os"
	"path/filepath"

	"rillkey/taxa/wording"
)

// ErrNotRegular means that a name belongs to no ordinary file: to a pipe, say,
// which could make a program wait for ever.
var ErrNotRegular = wording.NewError("it is no ordinary file but a pipe, a device or the like")

// OpenFile opens an ordinary file or a folder, for reading unless flag says
// more, and fails with [ErrNotRegular] for anything else without waiting for it.
// It makes no file.
func OpenFile(path string, flag int) (*os.File, error) {
	f, err := os.OpenFile(path, flag|noWait, 0)
	if err != nil {
		return nil, err
	}
	info, err := f.Stat()
	if err == nil && !info.Mode().IsRegular() && !info.IsDir() {
		err = &fs.PathError{Op: "open", Path: path, Err: ErrNotRegular}
	}
	if err != nil {
		f.Close()
		return nil, err
	}
	return f, nil
}

// DirFS gives the ordinary files and the folders below dir, as [OpenFile] opens
// them.
func DirFS(dir string) fs.FS { return dirFS(dir) }

type dirFS string

func (d dirFS) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) || d == "" {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	f, err := OpenFile(filepath.Join(string(d), filepath.FromSlash(name)), os.O_RDONLY)
	if err != nil {
		return nil, err
	}
	return f, nil
}
