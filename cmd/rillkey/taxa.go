package main

import (
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// mostAlike is how many are named that have a name like the one looked up.
const mostAlike = 8

func taxaCommand(a *app) *cobra.Command {
	var other string
	var card, traits bool
	cmd := &cobra.Command{
		Use:   "taxa NAME",
		Short: "Look up a creature by any of its names, however spelled",
		Long: `Looks a creature up by its common or scientific name, an older name or its id.
Misspelt names are found too. A name that is only like others, or that means
different animals in different places, gets a list of those; with --region it means
what it means there.
With --against OTHER: what tells the two apart, the most visible first.
With --card: what it does, what it tells of the stream, something to watch.
With --traits and no name: all traits and their states, as keys and --observe name them.`,
		Example: "  rillkey taxa stonefly\n  rillkey taxa helgramite\n  rillkey taxa alderfly --against hellgrammite\n" +
			"  rillkey taxa \"black fly\" --card\n  rillkey taxa --traits",
		RunE: func(_ *cobra.Command, args []string) error {
			if traits {
				return listTraits(a, args, other != "" || card)
			}
			if len(args) == 0 {
				return misused("which creature? Give a name, for example 'rillkey taxa mayfly'")
			}
			if other != "" && card {
				return misused("--against tells two creatures apart, --card tells of one: leave one of them out")
			}
			a.followAtHand() // beside a visit it has the names and classes that the visit has
			if other != "" {
				return compareTaxa(a, strings.Join(args, " "), other)
			}
			if card {
				return showCard(a, strings.Join(args, " "))
			}
			catalog, rules, err := a.catalogAndRules()
			if err != nil {
				return err
			}
			return lookUp(a, catalog, rules.Standings, strings.Join(args, " "))
		},
	}
	if !a.meant("taxa") {
		return cmd
	}
	cmd.Flags().StringVar(&other, "against", "", "tell it apart from `OTHER`")
	cmd.Flags().BoolVar(&traits, "traits", false, "list all traits with their states")
	cmd.Flags().BoolVar(&card, "card", false, "its card: how it lives and eats, what it tells, something to try")
	return cmd
}

// listTraits lists what animals can be asked for.
func listTraits(a *app, names []string, further bool) error {
	if len(names) > 0 || further {
		return misused("--traits lists all of them: leave the name and other flags out")
	}
	a.followAtHand()
	catalog, err := a.catalog()
	if err != nil {
		return err
	}
	traits := show.NewTraits(catalog.Vocabulary())
	return a.give(traits, func() error { return show.TraitList(a.stdout, a.width, traits) })
}

func lookUp(a *app, catalog *taxa.Catalog, standings show.Standings, name string) error {
	f := catalog.Find(name)
	f.Similar = f.Similar[:min(mostAlike, len(f.Similar))]
	var err error
	switch {
	case a.json:
		err = show.JSON(a.stdout, show.NewMatches(catalog, standings, f))
	case f.Taxon != nil:
		if err = show.Matches(a.stdout, a.width, catalog, standings, f); err == nil {
			err = a.drawBelow(catalog, f.Taxon)
		}
	case len(f.Similar) > 0:
		err = show.LookAlikes(a.stdout, a.width, name, f)
	}
	switch {
	case err != nil || f.Taxon != nil:
		return err
	case len(f.Similar) == 0:
		return fault{statusCannotSay, wording.Errorf("no creature here has a name like %q; try a shorter part of the name", name)}
	}
	return cannotSay
}
