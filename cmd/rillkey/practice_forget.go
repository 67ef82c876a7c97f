package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"rillkey/key/practice"
	"rillkey/scoring/wholefile"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func practiceForgetCommand(a *app, f *practiceFlags) *cobra.Command {
	return &cobra.Command{
		Use:   "forget NAME",
		Short: "Delete all that is kept of one person",
		Long: `Deletes the person's file, the files of rates that were made of it, where nobody changed
them since, and what a crash left of it. Pages that were printed, and copies that
were given away, are not known here: they are for people to delete.`,
		Example: "  rillkey practice forget Robin",
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return misused("say who is to be forgotten: one name")
			}
			f.person = args[0]
			return forget(a, *f)
		},
	}
}

// forget deletes a person's file, also one that cannot be read any more, and what was
// made of it; what is no such file is left alone.
func forget(a *app, f practiceFlags) error {
	if err := practice.CheckName(f.person); err != nil {
		return misused("%w", err)
	}
	path := filepath.Join(f.folder, practice.FileStem(f.person)+practiceSuffix)
	p := &practiser{disk: a.disk, path: path, record: &practice.PersonRecord{}}
	var findings authored.Findings
	switch err := p.read(); {
	case errors.Is(err, fs.ErrNotExist):
		return wording.Errorf("nothing is kept of %s: there is no %s", plain.Quote(f.person), plain.Printable(path))
	case err != nil && !errors.As(err, &findings):
		return err
	case err == nil && p.record.Person != f.person:
		return wording.Errorf("%s is the file of %s and is left alone", plain.Printable(path), plain.Quote(p.record.Person))
	}
	deleted, changed, others := []string{path}, []string{}, []string{}
	for _, made := range p.record.Made {
		switch state, err := stateOf(made); {
		case errors.Is(err, fs.ErrNotExist):
		case err == nil && state == practice.NotRates:
			others = append(others, made.Path)
		case err == nil && state == practice.AsMade:
			deleted = append(deleted, made.Path)
		default:
			changed = append(changed, made.Path)
		}
	}
	deleted = append(deleted, p.leftovers(f.person)...)
	for i := range deleted { // the person's own file last: it knows of the others
		file := deleted[len(deleted)-1-i]
		if err := os.Remove(file); err != nil {
			return cannotWrite(file, err)
		}
	}
	for _, file := range deleted {
		a.plainly("Deleted: %s.", plain.Printable(file))
	}
	for _, file := range changed {
		a.plainly("Left alone, since it was changed after it was made of the record: %s.", plain.Printable(file))
	}
	for _, file := range others {
		a.plainly("Left alone, since it holds no rates: %s.", plain.Printable(file))
	}
	a.plainly("Printed pages and copies that were given away are for you to delete.")
	return wholefile.SyncFolder(f.folder)
}

// leftovers are what a crash left of the file while it was written.
func (p *practiser) leftovers(name string) (out []string) {
	for _, file := range wholefile.Leftovers(filepath.Dir(p.path)) {
		text, err := os.ReadFile(file)
		if err == nil && practice.IsRecordOf(text, name) {
			out = append(out, file)
		}
	}
	return out
}

// willMake notes in the person's file that another is about to be made of it, so that it
// is deleted with it.
func (p *practiser) willMake(file string, text []byte) error {
	full, err := filepath.Abs(file)
	if err != nil {
		return cannotWrite(file, err)
	}
	p.record.MadeFile(practice.NewMade(full, text))
	return p.keep(p.record)
}

// stateOf is what became of a file that was made of a record; what is no plain file is not
// opened, and holds no rates.
func stateOf(made practice.Made) (practice.MadeState, error) {
	if info, err := os.Lstat(made.Path); err != nil || !info.Mode().IsRegular() {
		return practice.NotRates, err
	}
	dir, name := splitPath(made.Path)
	text, err := authored.Read(authored.DirFS(dir), name, made.Path)
	return made.State(text), err
}
