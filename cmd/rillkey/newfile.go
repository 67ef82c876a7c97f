package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// exists refuses a path that is taken, before any work is done for it.
func exists(path string) error {
	if _, err := os.Lstat(path); err == nil {
		return fmt.Errorf("%s exists already and is left alone; choose another name with --to", path)
	}
	return nil
}

// writeNewFile writes a file whole and synced, or not at all, and never over
// another one.
func writeNewFile(path string, write func(io.Writer) error) error {
	if err := exists(path); err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".rillkey-*.tmp")
	if err != nil {
		return cannotWrite(path, err)
	}
	defer os.Remove(f.Name())
	err = write(f)
	if err == nil {
		err = errors.Join(f.Chmod(0o644), f.Sync())
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	if os.Link(f.Name(), path) == nil {
		return nil
	}
	if err := exists(path); err != nil {
		return err
	}
	return cannotWrite(path, os.Rename(f.Name(), path)) // a card that knows no links
}

// writeNewFolder fills a folder and gives it its name once it is whole.
func writeNewFolder(path string, fill func(create func(string) (io.WriteCloser, error)) error) error {
	if err := exists(path); err != nil {
		return err
	}
	dir, err := os.MkdirTemp(filepath.Dir(path), ".rillkey-*.tmp")
	if err != nil {
		return cannotWrite(path, err)
	}
	defer os.RemoveAll(dir)
	err = fill(func(name string) (io.WriteCloser, error) {
		f, err := os.OpenFile(filepath.Join(dir, name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		return synced{f}, err
	})
	if err != nil {
		return err
	}
	return cannotWrite(path, errors.Join(os.Chmod(dir, 0o755), os.Rename(dir, path)))
}

// synced syncs before it closes.
type synced struct{ *os.File }

func (s synced) Close() error { return errors.Join(s.Sync(), s.File.Close()) }

func cannotWrite(path string, err error) error {
	switch {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s cannot be written: its folder does not exist; create it first", path)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s cannot be written: no permission in this folder; choose another", path)
	}
	return fmt.Errorf("%s cannot be written: %w", path, err)
}

// spool is a file without a name that others see.
type spool struct{ *os.File }

func (s spool) Rewind() (io.Reader, error) {
	_, err := s.Seek(0, io.SeekStart)
	return s, err
}
