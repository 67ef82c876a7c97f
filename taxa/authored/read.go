package authored

import (
	"bytes"
	"embed"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// MaxSize is the largest authored file read, in bytes. A key of 5,000 couplets
// takes about two million.
const MaxSize = 16 << 20

// Read reads one file of at most [MaxSize] bytes. Its errors call the file
// shown, the name its reader knows it by, and say what to do.
func Read(fsys fs.FS, name, shown string) ([]byte, error) {
	return ReadUpTo(MaxSize, fsys, name, shown)
}

// ReadUpTo is [Read] for a file of at most so many bytes.
func ReadUpTo(most int64, fsys fs.FS, name, shown string) ([]byte, error) {
	var b bytes.Buffer
	if err := read(&b, most, fsys, name, shown); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// ReadTable is [Read] and [Parse] in one, with one copy of the text in memory.
// The table is nil after a syntax error, which is in the report. What is embedded
// in the program is taken to be sound TOML, which its tests see to.
func ReadTable(fsys fs.FS, name, shown string, report *Report) (*Table, error) {
	var b strings.Builder
	if err := read(&b, MaxSize, fsys, name, shown); err != nil {
		return nil, err
	}
	_, builtIn := fsys.(embed.FS)
	return parse(shown, b.String(), report, builtIn), nil
}

type buffer interface {
	io.Writer
	Grow(n int)
	Len() int
}

func read(into buffer, most int64, fsys fs.FS, name, shown string) error {
	f, err := fsys.Open(name)
	if err != nil {
		return openError(shown, err)
	}
	defer f.Close()
	piece := 32 << 10 // bytes at a time
	if info, err := f.Stat(); err == nil {
		if info.IsDir() {
			return wording.Errorf("%s: this is a folder, not a file", plain.Printable(shown))
		}
		size := int(min(max(0, info.Size()), most))
		into.Grow(size + bytes.MinRead)
		piece = min(piece, max(4<<10, size/8)) // most are small
	}
	if _, err := io.CopyBuffer(into, io.LimitReader(f, most+1), make([]byte, piece)); err != nil {
		return wording.Errorf("%s: cannot be read to its end: %w", plain.Printable(shown), cause(err))
	}
	if int64(into.Len()) > most {
		size := fmt.Sprintf("%d MB", most>>20)
		if most < 1<<20 {
			size = fmt.Sprintf("%d kB", most>>10)
		}
		return wording.Errorf("%s: larger than %s, too large for a file of this kind; is it the right file?", plain.Printable(shown), size)
	}
	return nil
}

func openError(shown string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return plain.WithCause(wording.Sprintf("%s: no such file; check the name and the folder", plain.Printable(shown)), fs.ErrNotExist)
	case errors.Is(err, fs.ErrPermission):
		return plain.WithCause(wording.Sprintf("%s: you may not read this file", plain.Printable(shown)), fs.ErrPermission)
	}
	return wording.Errorf("%s: cannot be opened: %w", plain.Printable(shown), cause(err))
}

// cause drops the file name that the operating system's error repeats.
func cause(err error) error {
	var pe *fs.PathError
	if errors.As(err, &pe) {
		return pe.Err
	}
	return err
}
