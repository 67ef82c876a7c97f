package main

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"

	"rillkey/scoring/export"
	"rillkey/scoring/wholefile"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// refuseExisting refuses a path that is taken, before any work is done for it.
func refuseExisting(path string) error {
	if wholefile.NameTaken(path) {
		return taken(path)
	}
	return nil
}

// isThere reports whether there is a file or folder at a path.
func isThere(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

// isFile reports whether a path is a file that can be read to an end.
func isFile(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.Mode().IsRegular()
}

// holds reports whether a file holds just this text.
func holds(path string, text []byte) bool {
	info, err := os.Stat(path)
	if err != nil || info.Size() != int64(len(text)) {
		return false
	}
	data, err := os.ReadFile(path)
	return err == nil && bytes.Equal(data, text)
}

func taken(path string) error {
	return wording.Errorf("%s exists already and is left alone; choose another name with --to", plain.Printable(path))
}

// newFile writes a file whole and synced, or not at all, and never over another
// one. Whoever may not read the files it is made from may not read it.
func (d *disk) newFile(path string, from []string, fill func(io.Writer) error) error {
	return d.wrote(path, wholefile.New(path, wholefile.ModeOf(from...), fill))
}

// newFolder fills a folder and gives it its name once it is whole, as newFile
// does.
func (d *disk) newFolder(path string, from []string, fill func(create func(string) (io.WriteCloser, error)) error) error {
	return d.wrote(path, wholefile.NewFolder(path, wholefile.ModeOf(from...), fill))
}

// replacement writes a file over the one that is there, if any, whole and synced.
func (d *disk) replacement(path string, from []string, data []byte) error {
	return d.wrote(path, wholefile.Replace(path, wholefile.ModeOf(from...), func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	}))
}

// wrote notes that a file or folder is there now, or says why it is not.
func (d *disk) wrote(path string, err error) error {
	if err == nil {
		d.kept(path)
	}
	return cannotWrite(path, err)
}

// cannotWrite says in the words of people why a file is not there. What was wrong
// with its contents is passed on as it is.
func cannotWrite(path string, err error) error {
	var system *fs.PathError
	var link *os.LinkError
	switch {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrExist):
		return taken(path)
	case errors.Is(err, fs.ErrNotExist):
		return wording.Errorf("%s cannot be written: its folder does not exist; create it first", plain.Printable(path))
	case errors.Is(err, fs.ErrPermission):
		return wording.Errorf("%s cannot be written: no permission in this folder; choose another", plain.Printable(path))
	case errors.As(err, &system):
		return wording.Errorf("%s cannot be written: %w", plain.Printable(path), system.Err)
	case errors.As(err, &link):
		return wording.Errorf("%s cannot be written: %w", plain.Printable(path), link.Err)
	}
	return err
}

// spool is a file that is gone once it is closed.
type spool struct{ *wholefile.ScratchFile }

// Rewind implements [export.Spool].
func (s spool) Rewind() (io.Reader, error) {
	_, err := s.Seek(0, io.SeekStart)
	return s, err
}

var _ export.Spool = spool{}
