package main

import (
	"errors"
	"io"
	"io/fs"
	"strings"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// outlet is standard output, which remembers that it failed, so that no status
// says otherwise.
type outlet struct {
	io.Writer
	err error
}

func (o *outlet) Write(p []byte) (int, error) {
	if o.err != nil {
		return 0, o.err
	}
	n, err := o.Writer.Write(p)
	if err != nil {
		var system *fs.PathError
		if errors.As(err, &system) {
			err = system.Err
		}
		o.err = wording.Errorf("standard output cannot be written: %w", err)
	}
	return n, o.err
}

// disk writes files, and remembers what is saved or written.
type disk struct{ onDisk []string }

// kept notes what is on the disk now, for a person who may never read on standard
// output that it is.
func (d *disk) kept(what string) { d.onDisk = append(d.onDisk, what) }

// ended is what a command ends with that came to err: where standard output
// failed, its status says whether anything is on the disk.
func (d *disk) ended(o *outlet, err error) error {
	var silent fault
	switch {
	case o == nil || o.err == nil:
		return err
	case err != nil && !errors.Is(err, o.err) && !(errors.As(err, &silent) && silent.cause == nil):
		return err
	case len(d.onDisk) == 0:
		return o.err
	}
	return fault{statusUntold, wording.Errorf("%w; it is saved all the same, so do not do it again: %s", o.err,
		plain.Printable(someOf(d.onDisk)))}
}

// someOf lists what there is, at most a few.
func someOf(all []string) string {
	const few = 5
	if n := len(all) - few; n > 0 {
		return wording.Sprintf("%s and %d more", strings.Join(all[:few], ", "), n)
	}
	return strings.Join(all, ", ")
}
