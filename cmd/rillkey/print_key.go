package main

import (
	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/paper"
)

func printKeyCommand(a *app, d *delivery) *cobra.Command {
	var long bool
	cmd := &cobra.Command{
		Use:   "key",
		Short: "A whole key to be read on paper: couplets, animals, words, index",
		Long: `Prints a whole key as one page: how to use it, a ruler, the numbered couplets
with a drawing of each answer, an entry for every animal they end in, the words
that are used, and an index of names. It names animals without this program.

A key that is small enough, as the key "kinds" is, goes on one side of a sheet:
its couplets with tiny drawings, and no more; --long prints all of it.`,
		Example: `  rillkey print key > key.html
  rillkey print key --region north-west-europe --open
  rillkey print key --key kinds --open
  rillkey print key --key mykey.toml --pdf key.pdf --sheet-size letter`,
		Args: noArgs,
	}
	cmd.Flags().BoolVar(&long, "long", false, "a small key too with its animals, words and index")
	return pageCommand(a, cmd, d, func([]string) (*paper.Page, error) {
		a.followAtHand()
		sound, catalog, err := a.sound()
		if err != nil {
			return nil, err
		}
		if !long && paper.OnOneSheet(sound) {
			return paper.ShortKey(sound, catalog), nil
		}
		return paper.LongKey(sound, catalog), nil
	})
}
