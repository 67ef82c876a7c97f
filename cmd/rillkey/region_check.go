package main

import (
	"errors"
	"os"
	"slices"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/region"
	"rillkey/cmd/rillkey/show"
	"rillkey/taxa/folder"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func regionCheckCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "check [FOLDER]",
		Short: "Find what is wrong in all files of a region at once",
		Long: `Checks the traits, the animals, region.toml, the key, the schemes and the protocols
of a region's folder or ZIP file (the present folder without a name), each finding
with its place. What others rest on comes first: with a mistake in the traits or the
animals the rest is not checked yet.`,
		Example: "  rillkey region check our-brook\n  rillkey region check our-brook.zip",
		RunE: func(cmd *cobra.Command, args []string) error {
			args = a.named(args, ".")
			if err := oneName("folder")(cmd, args); err != nil {
				return err
			}
			f, err := openRegion(args[0])
			if err != nil {
				return err
			}
			return showChecked(a, checkRegion(f))
		},
	}
}

// openRegion opens a region's folder or ZIP file.
func openRegion(name string) (*region.OpenRegion, error) {
	f, err := folder.Open(name)
	if errors.Is(err, os.ErrNotExist) {
		if slices.Contains(region.BuiltInIDs(), name) {
			return nil, wording.Errorf("%s is built into the program and lies in no folder here; it is written into one by: "+
				"rillkey region export %s --to our-brook", name, name)
		}
		if like := plain.Similar(name, region.BuiltInIDs()); len(like) > 0 {
			return nil, wording.Errorf("%s: there is no such folder, file or region; did you mean %s?", plain.Printable(name),
				plain.List(like))
		}
		return nil, wording.Errorf("%s: there is no such folder or file; one is begun by: rillkey region new %s",
			plain.Printable(name), plain.ShellWord(plain.Printable(name)))
	}
	if err != nil {
		return nil, err
	}
	return region.Opened(f), nil
}

// checkRegion finds everything that is wrong with a region.
func checkRegion(f *region.OpenRegion) *show.CheckJSON {
	found, report := f.Check(), show.NewChecked()
	if found.KeyFile != "" {
		report.Files = append(report.Files, show.CheckedFile{File: found.KeyFile, Couplets: found.Couplets, Ends: found.Ends})
	}
	report.Errors, report.Warnings = append(report.Errors, found.Errors...), append(report.Warnings, found.Warnings...)
	report.Note = found.Note
	return report
}
