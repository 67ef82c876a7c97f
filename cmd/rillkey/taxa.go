package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/taxa"
)

const mostMatches = 8

func (a *app) taxaCommand() *cobra.Command {
	var other string
	cmd := &cobra.Command{
		Use:   "taxa NAME",
		Short: "Look up a creature by any of its names, however spelled",
		Long: `Looks a creature up by its common or scientific name, an older name or its id.
Misspelt names are found too. The best match is shown whole, others by name.
With --against OTHER: what tells the two apart, the most visible first.`,
		Example: "  rillkey taxa stonefly\n  rillkey taxa helgramite\n  rillkey taxa alderfly --against hellgrammite",
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return misused("which creature? Give a name, for example 'rillkey taxa mayfly'")
			}
			if other != "" {
				return a.against(strings.Join(args, " "), other)
			}
			catalog, rules, err := a.catalogAndRules()
			if err != nil {
				return err
			}
			return a.lookUp(catalog, rules.Standings, strings.Join(args, " "))
		},
	}
	cmd.Flags().StringVar(&other, "against", "", "tell it apart from `OTHER`")
	return cmd
}

func (a *app) lookUp(catalog *taxa.Catalog, standings show.Standings, name string) error {
	found := catalog.Find(name, mostMatches)
	if a.json {
		if err := show.JSON(a.out, show.NewMatches(catalog, standings, found)); err != nil {
			return err
		}
	} else if len(found) > 0 {
		if err := show.Matches(a.out, a.width, catalog, standings, found); err != nil {
			return err
		}
		if err := a.drawBelow(catalog, found[0].Taxon); err != nil {
			return err
		}
	}
	if len(found) == 0 {
		return fault{statusCannotSay, fmt.Errorf("no creature here has a name like %q; try a shorter part of the name", name)}
	}
	return nil
}
