package main

import (
	"context"
	"runtime/debug"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/network"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func regradeCommand(a *app) *cobra.Command {
	dryRun := false
	cmd := &cobra.Command{
		Use:   "regrade postgres://…",
		Short: "Grade the visits of a network anew where something came or the rules changed",
		Long: `Keeps the grades beside the visits of a network, each with a fingerprint of the rules
of its protocol, the animals, the keys and the regions. Only visits of which something
came since, or whose rules are others now, are graded; run it after groups have sent,
and after an update. Lists and tables then answer at once, and readers see the grades.

With --dry-run nothing is kept: you see what other rules, as those of --rules or
--region, would change.`,
		Example: "  rillkey regrade postgres://ann@network.example/streams\n" +
			"  rillkey regrade postgres://ann@network.example/streams --rules next-year --dry-run",
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 || !network.IsAddress(args[0]) {
				return misused("name the database of the network, as in: rillkey regrade postgres://ann@network.example/groups")
			}
			return regrade(a, args[0], dryRun)
		},
	}
	cmd.Flags().BoolVar(&dryRun, "dry-run", false, "keep nothing, and tell what would change")
	return cmd
}

func regrade(a *app, address string, dryRun bool) error {
	catalog, rules, err := a.catalogAndRules()
	if err != nil {
		return err
	}
	book, err := a.book(catalog, rules)
	if err != nil {
		return err
	}
	ctx := context.Background()
	db, err := a.database(ctx, address)
	if err != nil {
		return err
	}
	defer db.Close()
	defer debug.SetGCPercent(debug.SetGCPercent(regradeGCPercent))
	watched := a.progress(wording.Text("visits"), 0)
	defer watched.Done()
	done := func(n, _ int) { watched.Step(n) }
	if dryRun {
		changes, err := db.WouldChange(ctx, book, done)
		watched.Done()
		if err != nil {
			return err
		}
		return a.give(changes, func() error { return show.GradeChanges(a.stdout, a.width, changes) })
	}
	n, err := db.Regrade(ctx, book, done)
	watched.Done()
	if n > 0 {
		a.kept(wording.Sprintf("%s in the network", plain.Count(n, "grade")))
	}
	if err != nil {
		return err
	}
	if a.json {
		return show.JSON(a.stdout, map[string]int{"graded": n})
	}
	a.plainly("%s graded and kept.", plain.Capital(plain.Count(n, "visit")))
	return nil
}

// regradeGCPercent is how much memory may be added, in per cent of what is in use, before what
// is no longer used is collected: only a few hundred visits are in use at once.
const regradeGCPercent = 200
