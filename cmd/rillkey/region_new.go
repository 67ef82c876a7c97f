package main

import (
	"cmp"
	"embed"
	"errors"
	"io"
	"io/fs"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/taxa/plain"
)

// starter is a small region that is sound, to be put into words of one's own. ID
// stands for its id.
//
//go:embed starter
var starter embed.FS

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
			if err := a.writeRegion(args[0], starterOf(id)); err != nil {
				return err
			}
			a.plainly("The region %s is begun in %s. Edit its files, and look what is wrong with: rillkey region check %s", id,
				args[0], plain.ShellWord(args[0]))
			return nil
		},
	}
}

// writing is a file of a region that is about to be written.
type writing struct {
	name string
	data []byte
}

func starterOf(id string) func() ([]writing, error) {
	return func() (out []writing, err error) {
		err = fs.WalkDir(starter, "starter", func(name string, e fs.DirEntry, err error) error {
			if err != nil || e.IsDir() {
				return err
			}
			data, err := starter.ReadFile(name)
			out = append(out, writing{strings.TrimPrefix(name, "starter/"),
				[]byte(strings.ReplaceAll(string(data), `"ID"`, plain.Quote(id)))})
			return err
		})
		return out, err
	}
}

// writeRegion writes a new folder.
func (a *app) writeRegion(dir string, files func() ([]writing, error)) error {
	if err := refuseExisting(dir); err != nil {
		return err
	}
	all, err := files()
	if err != nil {
		return err
	}
	return a.newFolder(filepath.Clean(dir), nil, func(create func(string) (io.WriteCloser, error)) error {
		for _, w := range all {
			f, err := create(filepath.FromSlash(w.name))
			if err != nil {
				return err
			}
			_, err = f.Write(w.data)
			if err = errors.Join(err, f.Close()); err != nil {
				return err
			}
		}
		return nil
	})
}
