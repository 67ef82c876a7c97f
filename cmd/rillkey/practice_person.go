package main

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"rillkey/cmd/rillkey/ask"
	"rillkey/key/practice"
	"rillkey/scoring/wholefile"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// practiser is a person with their file.
type practiser struct {
	*disk
	path   string
	record *practice.PersonRecord
	text   []byte      // of the file as it was read or written last; nil without one
	saved  int         // meetings of the record that are in it
	tests  int         // and tests
	made   int         // and files made of it
	seen   fs.FileInfo // of the file, to see whether another program changed it

	rejoined bool // the record holds what another program wrote
}

// practiser finds the file of the person who is named, or who says their name.
func (a *app) practiser(f practiceFlags) (*practiser, error) {
	name := f.person
	if name == "" {
		answers, err := a.ask(ask.Field{
			Key: "as", Title: wording.Text("Who practises?"),
			Help:  wording.Text("A first name, or a made-up one: it stays on this machine."),
			Check: practice.CheckName})
		if err != nil {
			return nil, err
		}
		name = answers["as"]
	}
	if err := practice.CheckName(name); err != nil {
		return nil, misused("--as: %w", err)
	}
	p := &practiser{disk: a.disk, path: filepath.Join(f.folder, practice.FileStem(name)+practiceSuffix),
		record: &practice.PersonRecord{Person: name}}
	err := p.read()
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return p, nil
	case err != nil:
		return nil, err
	case p.record.Person != name:
		return nil, errTaken(p.path, p.record.Person)
	}
	return p, nil
}

// errTaken says that a name is too much like that of somebody else.
func errTaken(path, person string) error {
	return wording.Errorf("%s is the file of %s; take another name", plain.Printable(path), plain.Quote(person))
}

func (p *practiser) read() error {
	if _, err := os.Lstat(p.path); err != nil {
		return err
	}
	if wholefile.LeftEmpty(p.path) {
		return fs.ErrNotExist
	}
	dir, name := splitPath(p.path)
	text, err := authored.Read(authored.DirFS(dir), name, filepath.ToSlash(p.path))
	if err != nil {
		return fileError(p.path, err)
	}
	record, err := practice.ParseRecord(filepath.ToSlash(p.path), text)
	if err != nil {
		return err
	}
	p.record = record
	return p.hold(text)
}

// hold notes what is in the file, whose text is the record's.
func (p *practiser) hold(text []byte) (err error) {
	r := p.record
	p.text, p.saved, p.tests, p.made = text, len(r.Meetings), len(r.Tests), len(r.Made)
	p.seen, err = os.Lstat(p.path)
	return err
}

// untouched reports whether the file is as it was read or written last.
func (p *practiser) untouched() bool {
	now, err := os.Lstat(p.path)
	return err == nil && p.seen != nil && os.SameFile(now, p.seen) && now.Size() == p.seen.Size() && now.ModTime().Equal(p.seen.ModTime())
}

// keep writes the record, whole and synced, for its person alone. What another program
// has added meanwhile is taken in first, and what was deleted stays so.
func (p *practiser) keep(r *practice.PersonRecord) error {
	if len(r.Meetings) > practice.MostMeetings {
		return wording.Errorf("%s holds %d animals and takes no more; go on under another name", plain.Printable(p.path),
			practice.MostMeetings)
	}
	if !p.untouched() && (p.text != nil || isThere(p.path)) {
		saved := p.saved
		p.rejoined = true
		switch err := p.read(); {
		case errors.Is(err, fs.ErrNotExist):
			r.Rejoin(&practice.PersonRecord{}, saved)
		case err != nil:
			return err
		case p.record.Person != r.Person:
			other := p.record.Person
			p.record, p.text, p.seen = r, nil, nil
			return errTaken(p.path, other)
		default:
			r.Rejoin(p.record, saved)
		}
	}
	text := p.textOf(r)
	err := p.wrote(p.path, wholefile.Replace(p.path, 0o600, func(w io.Writer) error {
		_, err := w.Write(text)
		return err
	}))
	if err != nil {
		return err
	}
	p.record = r
	return p.hold(text)
}

// textOf is the text of the record. Of one that was only added to, what is in the file
// already is not made again: somebody waits for the next animal.
func (p *practiser) textOf(r *practice.PersonRecord) []byte {
	if p.text == nil || p.record != r || p.saved > len(r.Meetings) || p.tests != len(r.Tests) || p.made != len(r.Made) || p.rejoined {
		p.rejoined = false
		return r.TOML()
	}
	return r.AppendTOML(p.text, p.saved)
}
