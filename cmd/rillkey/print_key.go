package main

import (
	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/paper"
)

func printKeyCommand(a *app, d *delivery) *cobra.Command {
	return pageCommand(a, &cobra.Command{
		Use:   "key",
		Short: "A whole key to be read on paper: couplets, animals, words, index",
		Long: `Prints a whole key as one page: how to use it, a ruler, the numbered couplets
with a drawing of each answer, an entry for every animal they end in, the words
that are used, and an index of names. It names animals without this program.`,
		Example: `  rillkey print key > key.html
  rillkey print key --region north-west-europe --open
  rillkey print key --key mykey.toml --pdf key.pdf --sheet-size letter`,
		Args: noArgs,
	}, d, func([]string) (*paper.Page, error) {
		a.followAtHand()
		sound, catalog, err := a.sound()
		if err != nil {
			return nil, err
		}
		return paper.Key(sound, catalog), nil
	})
}
