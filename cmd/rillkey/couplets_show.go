package main

import (
	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
)

func layoutCommand(a *app) *cobra.Command {
	var layout string
	cmd := &cobra.Command{
		Use:   "show [FILE]",
		Short: "A whole key: numbered as in print, as a tree, or as a graph",
		Example: `  rillkey couplets show
  rillkey couplets show mykey.toml --as tree
  rillkey couplets show --as dot > key.dot`,
		Args: atMostOneFile,
		RunE: func(_ *cobra.Command, files []string) error {
			if err := oneOf("as", layout, show.Layouts); err != nil {
				return err
			}
			catalog, err := a.catalog()
			if err != nil {
				return err
			}
			if len(files) == 0 {
				files = []string{a.keyFile}
			}
			sound, err := a.couplets(files[0], catalog)
			if err != nil {
				return err
			}
			return a.give(show.LayoutJSON(sound), func() error { return show.Layout(a.stdout, a.width, layout, sound, catalog) })
		},
	}
	cmd.Flags().StringVar(&layout, "as", "numbered", "the `LAYOUT`: numbered, tree, or dot (Graphviz)")
	return cmd
}
