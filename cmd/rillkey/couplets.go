package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/authored"
)

func (a *app) coupletsCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "couplets",
		Short: "For authors of keys: check, stats",
		RunE:  group,
	}
	cmd.AddCommand(&cobra.Command{
		Use:   "check [FILE…]",
		Short: "Find what is wrong with a key, each finding with its place",
		Long: `Checks keys against the catalog: every lead goes somewhere, every couplet is
reached, no lead contradicts the traits of a taxon beneath it, no animal fits two
leads or none. Without a file the built-in keys are checked.`,
		Example: "  rillkey couplets check\n  rillkey couplets check mykey.toml",
		RunE:    func(_ *cobra.Command, files []string) error { return a.check(files) },
	}, &cobra.Command{
		Use:   "stats",
		Short: "How long the walks through a key are",
		Args:  noArgs,
		RunE: func(*cobra.Command, []string) error {
			k, err := a.key()
			if err != nil {
				return err
			}
			if a.json {
				return show.JSON(a.out, k.Stats())
			}
			return show.Stats(a.out, a.width, k.Title(), k.Stats())
		},
	})
	return cmd
}

// check checks every file and gives one list of all findings.
func (a *app) check(files []string) error {
	catalog, err := a.catalog()
	if err != nil {
		return err
	}
	if len(files) == 0 && a.keyFile != "" {
		files = []string{a.keyFile}
	}
	report := show.NewChecked()
	if len(files) == 0 {
		names, err := fs.Glob(couplets.Embedded(), "*.toml")
		if err != nil {
			return err
		}
		for _, name := range names {
			s, err := couplets.Load(couplets.Embedded(), name, name, catalog)
			if err := addChecked(report, name, s, catalog, err); err != nil {
				return err
			}
		}
	}
	for _, file := range files {
		s, err := a.couplets(file, catalog)
		if err := addChecked(report, file, s, catalog, err); err != nil {
			return err
		}
	}
	return a.showChecked(report)
}

// addChecked adds what was found in one file; an error that is no finding, such
// as a file that is not there, ends the check.
func addChecked(report *show.Checked, file string, s *couplets.Sound, catalog *taxa.Catalog, err error) error {
	var found authored.Findings
	switch {
	case errors.As(err, &found):
		report.Add(file, 0, 0, found, nil)
	case err != nil:
		return err
	default:
		report.Add(file, len(s.Couplets), len(s.Ends), nil, couplets.Warnings(s, catalog))
	}
	return nil
}

func (a *app) showChecked(report *show.Checked) error {
	var err error
	if a.json {
		err = show.JSON(a.out, report)
	} else {
		err = report.Text(a.out)
	}
	if err == nil && len(report.Errors) > 0 {
		return fault{status: statusBadData}
	}
	return err
}

// couplets reads a key from a file, or the embedded one when file is empty.
func (a *app) couplets(file string, catalog *taxa.Catalog) (*couplets.Sound, error) {
	if file == "" {
		return couplets.Load(couplets.Embedded(), couplets.DefaultName, couplets.DefaultName, catalog)
	}
	dir, name := splitPath(file)
	s, err := couplets.Load(os.DirFS(dir), name, file, catalog)
	if err != nil && errors.Is(err, fs.ErrInvalid) {
		return nil, fmt.Errorf("%s cannot be the name of a file", authored.Quote(file))
	}
	return s, err
}
