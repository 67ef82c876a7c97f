package main

import (
	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/couplets/versions"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/folder"
)

func compareKeysCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "compare OLD NEW",
		Short: "What differs between two versions of a key, in words",
		Long: `Tells two versions of a key apart by what their couplets say and ask, not by their
numbers: which couplets are new, gone, reworded, ask otherwise or stand elsewhere,
and which animals now go another way. OLD and NEW are keys, or the folders or ZIP
files of regions.`,
		Example: "  rillkey couplets compare mykey-1.toml mykey.toml\n  rillkey couplets compare brook-2026.zip brook",
		RunE: func(_ *cobra.Command, names []string) error {
			if len(names) != 2 {
				return misused("give two versions of a key; see 'rillkey couplets compare --help'")
			}
			return compareKeys(a, names[0], names[1])
		},
	}
}

func compareKeys(a *app, oldName, newName string) error {
	old, _, err := a.version(oldName)
	if err != nil {
		return err
	}
	now, catalog, err := a.version(newName)
	if err != nil {
		return err
	}
	report := show.ComparedJSON{Old: oldName, New: newName, KeyDifference: versions.Compare(old, now, catalog.Current)}
	return a.give(report, func() error { return report.Text(a.stdout, a.width, catalog) })
}

// version reads a key, sound or not, with the animals it goes by: those of its
// region's folder, else those in use.
func (l *library) version(name string) (*couplets.File, *taxa.Catalog, error) {
	if isRegionFolder(name) {
		f, err := openRegion(name)
		if err != nil {
			return nil, nil, err
		}
		catalog, err := f.Animals()
		if err != nil {
			return nil, nil, err
		}
		file, _, err := f.Key(catalog)
		return file, catalog, unlessRead(file, err)
	}
	catalog, err := l.wholeCatalog()
	if err != nil {
		return nil, nil, err
	}
	if builtInFile, ok := couplets.EmbeddedFile(name); ok {
		var report authored.Report
		file, err := couplets.Read(couplets.Embedded(), builtInFile, builtInFile, &report)
		return file, catalog, err
	}
	dir, base := splitPath(name)
	if name == "" {
		base = folder.KeyFile
	}
	var report authored.Report
	file, err := couplets.Read(authored.DirFS(dir), base, name, &report)
	if err == nil && file == nil {
		err = report.Findings()
	}
	return file, catalog, noKey(name, fileError(name, err))
}

// unlessRead is the error of a key that could not be read at all.
func unlessRead(f *couplets.File, err error) error {
	if f != nil {
		return nil
	}
	return err
}
