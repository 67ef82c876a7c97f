package visit

import (
	"errors"
	"io"
	"io/fs"
	"path/filepath"

	"rillkey/scoring/wholefile"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Create begins a visit in a new file at path and returns its header, with
// the id drawn for it from random. It never overwrites a file, and the file appears
// whole and synced or not at all.
func Create(path string, h Header, random io.Reader) (Header, error) {
	h, block, err := begun(h, random)
	if err != nil {
		return Header{}, err
	}
	if err := createWhole(path, wholefile.SharedMode, block); err != nil {
		return Header{}, createError(path, err)
	}
	return h, nil
}

// begun is a header with an id of its own, and its block.
func begun(h Header, random io.Reader) (Header, []byte, error) {
	id, err := drawID(random)
	if err != nil {
		return Header{}, nil, err
	}
	h.ID, h.Begun = id, h.Begun.Round(0)
	if err := checkHeader(h); err != nil {
		return Header{}, nil, wording.Errorf("the visit is not begun: %w", err)
	}
	block := encodeHeader(h)
	if len(block) > MaxBlock {
		return Header{}, nil, wording.Errorf("the visit is not begun: its header is larger than %d kB; shorten its texts", MaxBlock>>10)
	}
	return h, block, nil
}

// Creatable tells why no visit can be begun in a new file at path, as far as that
// shows before; nil if it can.
func Creatable(path string) error {
	if wholefile.NameTaken(path) {
		return createError(path, fs.ErrExist)
	}
	f, err := wholefile.Scratch(filepath.Dir(path))
	if err != nil {
		return createError(path, err)
	}
	return f.Close()
}

func createWhole(path string, mode fs.FileMode, data []byte) error {
	return wholefile.New(path, mode, func(w io.Writer) error { _, err := w.Write(data); return err })
}

func createError(path string, err error) error {
	shown := plain.Printable(path)
	switch {
	case errors.Is(err, fs.ErrExist):
		return plain.WithCause(wording.Sprintf(
			"%s: the file exists already and is left alone; choose another name, or go on with that visit", shown), fs.ErrExist)
	case errors.Is(err, fs.ErrNotExist):
		return plain.WithCause(wording.Sprintf("%s: the folder does not exist; create it first", shown), fs.ErrNotExist)
	case errors.Is(err, fs.ErrPermission):
		return plain.WithCause(wording.Sprintf("%s: you may not write in this folder; choose another", shown), fs.ErrPermission)
	}
	return wording.Errorf("%s: the visit could not be written: %w", shown, reason(err))
}
