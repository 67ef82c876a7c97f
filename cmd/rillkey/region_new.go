package main

import (
	"cmp"
	"errors"
	"io"
	"path/filepath"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/region"
	"rillkey/taxa/plain"
)

func regionCommand(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "region",
		Short: "A key with its animals, schemes and cautions, as one folder or file",
		Long: `A region is a folder that holds all that is used in one part of the world:

  region.toml    id, title, version, authors, licence, language, names, cautions
  key.toml       the key (else the built-in one that region.toml names)
  taxa/          traits.toml and the animals (else the built-in ones)
  schemes/       how a visit is graded
  protocols/     how a visit is made
  words.toml     what the program says there in other words (see 'rillkey region words')

In such a folder every command goes by it; elsewhere name it with --region, as a
folder or as the ZIP file that 'rillkey region pack' makes. It holds data only:
nothing in it runs, and no file outside it is read.`,
		RunE: group,
	}
	if a.meant("region") {
		cmd.AddCommand(regionNewCommand(a), regionCheckCommand(a), regionShowCommand(a), regionExportCommand(a),
			regionPackCommand(a), regionWordsCommand(a))
	}
	return cmd
}

// named is the region that a command is asked about: its argument, else that of
// --region, else the usual one, which may be empty.
func (a *app) named(args []string, usual string) []string {
	switch {
	case len(args) == 1:
		return []string{meanRegion(a.console, args[0])}
	case len(args) > 0:
		return args
	case a.regionName != "":
		return []string{a.regionName}
	case usual != "":
		return []string{usual}
	}
	return nil
}

// oneName wants one argument.
func oneName(what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) != 1 {
			return misused("%s takes one %s; see '%s --help'", cmd.CommandPath(), what, cmd.CommandPath())
		}
		return nil
	}
}

func regionNewCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "new FOLDER",
		Short:   "Begin a region: a small sound one, to be put into your words",
		Example: "  rillkey region new our-brook\n  rillkey region check our-brook",
		Args:    oneName("folder"),
		RunE: func(_ *cobra.Command, args []string) error {
			id := cmp.Or(plain.ID(filepath.Base(filepath.Clean(args[0]))), "our-stream")
			if err := a.writeRegion(args[0], func() ([]region.NewFile, error) { return region.Starter(id) }); err != nil {
				return err
			}
			a.plainly("The region %s is begun in %s. Edit its files, and look what is wrong with: rillkey region check %s", id,
				args[0], plain.ShellWord(args[0]))
			return nil
		},
	}
}

// writeRegion writes a new folder.
func (a *app) writeRegion(dir string, files func() ([]region.NewFile, error)) error {
	if err := refuseExisting(dir); err != nil {
		return err
	}
	all, err := files()
	if err != nil {
		return err
	}
	return a.newFolder(filepath.Clean(dir), nil, func(create func(string) (io.WriteCloser, error)) error {
		for _, w := range all {
			f, err := create(filepath.FromSlash(w.Name))
			if err != nil {
				return err
			}
			_, err = f.Write(w.Data)
			if err = errors.Join(err, f.Close()); err != nil {
				return err
			}
		}
		return nil
	})
}
