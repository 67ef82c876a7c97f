package visit

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"rillkey/taxa/authored"
)

// Create begins a visit in a new file at path and returns its header, with
// the id drawn for it from random. It never overwrites a file, and the file
// appears whole and synced or not at all.
func Create(path string, h Header, random io.Reader) (Header, error) {
	id, err := drawID(random)
	if err != nil {
		return Header{}, err
	}
	h.ID, h.Begun = id, h.Begun.Round(0)
	if err := checkHeader(h); err != nil {
		return Header{}, fmt.Errorf("the visit is not begun: %w", err)
	}
	block := encodeHeader(h)
	if len(block) > MaxBlock {
		return Header{}, fmt.Errorf("the visit is not begun: its header is larger than %d kB; shorten its texts", MaxBlock>>10)
	}
	if err := createWhole(path, block); err != nil {
		return Header{}, createError(path, err)
	}
	return h, nil
}

func createWhole(path string, data []byte) error {
	if _, err := os.Lstat(path); err == nil {
		return fs.ErrExist
	}
	dir := filepath.Dir(path)
	f, err := os.CreateTemp(dir, ".visit-*.tmp")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	_, err = f.Write(data)
	if err == nil {
		err = f.Chmod(0o644)
	}
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	if err := place(f.Name(), path); err != nil {
		return err
	}
	return syncDir(dir)
}

// place gives a finished file its name without ever replacing another one. A
// hard link does that in one step; a memory card that knows no links gets an
// empty file first, which nobody else can then create.
func place(temp, path string) error {
	err := os.Link(temp, path)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	f.Close()
	if err := os.Rename(temp, path); err != nil {
		os.Remove(path)
		return err
	}
	return nil
}

func createError(path string, err error) error {
	shown := authored.Printable(path)
	switch {
	case errors.Is(err, fs.ErrExist):
		return fmt.Errorf("%s: the file exists already and is left alone; choose another name, or go on with that visit: %w", shown, fs.ErrExist)
	case errors.Is(err, fs.ErrNotExist):
		return authored.Said(shown+": the folder does not exist; create it first", fs.ErrNotExist)
	case errors.Is(err, fs.ErrPermission):
		return authored.Said(shown+": you may not write in this folder; choose another", fs.ErrPermission)
	}
	return fmt.Errorf("%s: the visit could not be written: %w", shown, reason(err))
}
