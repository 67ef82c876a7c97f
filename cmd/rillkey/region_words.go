package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"rillkey/taxa/language"
)

func regionWordsCommand(a *app) *cobra.Command {
	ofStreams := false
	cmd := &cobra.Command{
		Use:   "words [FOLDER]",
		Short: "What the program says in a region that nobody has put into its language",
		Long: `Lists the sentences that people meet and that are still said in English in a region's
folder or ZIP file (the present folder without a name), as its file words.toml has
them: the English on the left, and room for what is said instead on the right. A % with
its letter, and {{…}}, stands for a value and is kept; "%[2]s" is the second one in
another order. Words beside a number have their forms parted by |. Under [instead] stand
words of these sentences, and what is said in their place: "animal" = "leaf". --of-streams lists instead
those that speak of animals, trays, nets, water or streams and are said as at a stream,
with what is said now: a region of something else says them anew.`,
		Example: "  rillkey region words our-brook > our-brook/words.toml",
		RunE: func(cmd *cobra.Command, args []string) error {
			args = a.named(args, ".")
			if err := oneName("folder")(cmd, args); err != nil {
				return err
			}
			f, err := openRegion(args[0])
			if err != nil {
				return err
			}
			words, err := f.Words()
			if err != nil {
				return err
			}
			fmt.Fprintln(a.stdout, "[say]")
			list, now := language.Missing(words), func(string) string { return "" }
			if ofStreams {
				list, now = language.OfStreams(words), words.Text
			}
			for _, s := range list {
				fmt.Fprintf(a.stdout, "%s = %s\n", language.Quoted(s), language.Quoted(now(s)))
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&ofStreams, "of-streams", false, "list what is still said as at a stream")
	return cmd
}
