package main

import (
	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
)

func visitCommand(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "visit",
		Short: "Keep a sampling visit: begin, sample, conditions, add, undo, enter, show, amend, sorted, finish, reopen, " +
			"merge, salvage, list",
		Long: `A visit is one file. Everything you enter is added at its end and safely on the
disk before the program says "saved". Nothing is ever rewritten: a correction is
a new entry.`,
		RunE: group,
	}
	if a.meant("visit") {
		cmd.AddCommand(beginCommand(a), sampleCommand(a), conditionsCommand(a), addCommand(a), undoCommand(a), enterCommand(a),
			showCommand(a), amendCommand(a), sortedCommand(a), finishCommand(a), reopenCommand(a), mergeCommand(a), salvageCommand(a),
			listCommand(a))
	}
	return cmd
}

func showCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "show",
		Short: "Print the tally by sample and class",
		Args:  noArgs,
		RunE: func(*cobra.Command, []string) error {
			v, err := a.readVisit()
			if err != nil {
				return err
			}
			a.follow(v)
			catalog, err := a.catalog()
			if err != nil {
				return err
			}
			tally := show.NewTally(catalog, v)
			if a.json {
				err = show.JSON(a.stdout, tally)
			} else {
				err = tally.Text(a.stdout, a.width)
			}
			if err != nil {
				return err
			}
			return a.damage
		},
	}
}
