package main

import (
	"os"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/taxa"
)

func (a *app) gradeCommand() *cobra.Command {
	var details bool
	var w scoring.Wish
	cmd := &cobra.Command{
		Use:   "grade",
		Short: "Grade a visit, or say why there is no grade yet",
		Long: `Grades the visit by the protocol it was begun with. With fewer samples than the
protocol asks for there is no grade: you see what is missing, and what was found
all the same. The exit status is then 3.`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return a.grade(details, w) },
	}
	cmd.Flags().BoolVar(&details, "details", false, "show every term of every index, to be checked by hand")
	cmd.Flags().BoolVar(&w.Anyway, "anyway", false, "also show what too few samples would give so far, marked as provisional")
	return cmd
}

func (a *app) grade(details bool, w scoring.Wish) error {
	catalog, err := a.catalog()
	if err != nil {
		return err
	}
	rules, err := a.rules(catalog)
	if err != nil {
		return err
	}
	v, damage, err := a.readVisit(true)
	if err != nil {
		return err
	}
	g, err := rules.GradeAs(v, w)
	if err != nil {
		return err
	}
	if a.json {
		err = show.JSON(a.out, show.Spoken{Grade: g, Words: show.InWords(g)})
	} else {
		err = show.Grade(a.out, a.width, g, details)
	}
	switch {
	case err != nil:
		return err
	case damage != nil:
		return damage
	case g.Withheld():
		return cannotSay
	}
	return nil
}

// rules are the embedded schemes and protocols, or those of --rules.
func (a *app) rules(catalog *taxa.Catalog) (*scoring.Rules, error) {
	if a.rulesDir == "" {
		return scoring.EmbeddedRules(catalog)
	}
	return scoring.LoadRules(os.DirFS(a.rulesDir), a.rulesDir, catalog)
}
