package main

import (
	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/taxa/plain"
)

func recheckCommand(a *app) *cobra.Command {
	var most int
	var practised []string
	cmd := &cobra.Command{
		Use:   "recheck [FILE… | FOLDER | postgres://…]",
		Short: "The animals worth a second look first, the blind second look, how well two people agree",
		Long: `Lists the records by how much more certain the grade would become, on average, if
the animals were settled: where they lie in the tray, what else they may be, and
the one feature that tells the two apart. Of several files, a folder or the database of
a network, it lists those of all visits.

'recheck look' lets a second person key the animals without seeing the first
name; 'recheck settle' says which name counts, and both stay in the file;
'recheck expert' takes the name that came back on a specimen's slip;
'recheck draw' lists animals that chance draws, whose second looks teach the group's
rates; 'recheck agreement' tells how often two people agreed.`,
		Example: `  rillkey recheck
  rillkey recheck look --who Oona
  rillkey recheck settle --of k3v9m2qa --taxon mayfly --who Mags
  rillkey recheck agreement`,
		RunE: func(cmd *cobra.Command, args []string) error {
			if most < 1 {
				return misused("--most %d: list one record at least", most)
			}
			if len(args) == 1 && plain.IsID(args[0]) && !isThere(args[0]) {
				return noArgs(cmd, args) // a command that there is not
			}
			one, err := oneVisit(a, args)
			switch {
			case err != nil:
				return err
			case one:
				return listRechecks(a, most, practised)
			case len(practised) > 0:
				return misused("--practised is for one visit")
			}
			return listManyRechecks(a, args, most)
		},
	}
	if a.meant("recheck") {
		cmd.Flags().IntVar(&most, "most", 3, "list at most `N` records")
		cmd.Flags().StringArrayVar(&practised, "practised", nil,
			"say too who of these reads the settling feature best: a person's `FILE` of practice; may be repeated")
		cmd.AddCommand(drawCommand(a), lookCommand(a), settleCommand(a), expertCommand(a), agreementCommand(a))
	}
	return cmd
}

func listRechecks(a *app, most int, practised []string) error {
	h, err := openVisit(a)
	if err != nil {
		return err
	}
	list, err := h.rules.Recheck(h.account, seed)
	if err != nil {
		return err
	}
	if a.json {
		err = show.JSON(a.stdout, list)
	} else {
		err = show.Recheck(a.stdout, a.width, list, most, a.sameVisit())
	}
	if err == nil && len(practised) > 0 && !a.json {
		readers, err := a.readers(practised)
		if err != nil {
			return err
		}
		tellWhoLooks(a, h.catalog, h.visit.Tally(), list.Records[:min(most, len(list.Records))], readers)
	}
	if err != nil {
		return err
	}
	return a.damage
}

// seed makes simulations repeatable; no figure depends on a choice of it. It is
// that of a Wish without one, so that every command gives a visit the same word.
const seed = 0

func agreementCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "agreement",
		Short: "How well first and second identifications agree",
		Args:  noArgs,
		RunE: func(*cobra.Command, []string) error {
			h, err := openVisit(a)
			if err != nil {
				return err
			}
			figures := h.rules.Agreement(h.account)
			if a.json {
				err = show.JSON(a.stdout, figures)
			} else {
				err = show.Agreement(a.stdout, a.width, h.catalog, figures)
			}
			switch {
			case err != nil:
				return err
			case a.damage != nil:
				return a.damage
			case figures.Records == 0:
				return cannotSay
			}
			return nil
		},
	}
}
