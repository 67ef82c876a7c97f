package main

import (
	"errors"
	"io/fs"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/region"
	"rillkey/taxa"
	"rillkey/taxa/folder"
)

func regionExportCommand(a *app) *cobra.Command {
	var to string
	cmd := &cobra.Command{
		Use:     "export NAME",
		Short:   "Write a built-in region out as a folder, to start from",
		Example: "  rillkey region export north-america --to our-brook",
		RunE: func(cmd *cobra.Command, args []string) error {
			args = a.named(args, "")
			if err := oneName("region")(cmd, args); err != nil {
				return err
			}
			if to == "" {
				return misused("say where the folder goes: --to our-brook")
			}
			f, err := builtInFolder(args[0])
			if err != nil {
				return err
			}
			files := func() (out []region.NewFile, err error) {
				err = f.Each(func(name string, data []byte) error {
					out = append(out, region.NewFile{Name: name, Data: data})
					return nil
				})
				return out, err
			}
			if err := a.writeRegion(to, files); err != nil {
				return err
			}
			a.plainly("The region %s is in %s. Give it an id of its own in %s before you change what it says.",
				args[0], to, folder.HeadFile)
			return nil
		},
	}
	cmd.Flags().StringVar(&to, "to", "", "the new `FOLDER`")
	return cmd
}

// builtInFolder is a region of the program as a folder would hold it.
func builtInFolder(id string) (*folder.Folder, error) {
	f, err := region.BuiltInFolder(id)
	if !errors.Is(err, fs.ErrNotExist) {
		return f, err
	}
	catalog, failed := taxa.Embedded()
	if failed != nil {
		return nil, failed
	}
	return nil, noSuchRegion(id, catalog, err)
}
