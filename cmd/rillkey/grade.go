package main

import (
	"os"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/scoring/network"
)

func gradeCommand(a *app) *cobra.Command {
	var details, charts bool
	var w scoring.GradeOptions
	var rulesToCheck, reference string
	cmd := &cobra.Command{
		Use:   "grade [FILE… | DIR | postgres://…]",
		Short: "Grade a visit, or say why there is no grade yet",
		Long:  gradeHelp,
		Example: "  rillkey grade --details\n  rillkey grade visits --charts\n" +
			"  rillkey grade 2026-05-16-tanyard-brook.visit.toml\n  rillkey grade visits",
		RunE: func(_ *cobra.Command, args []string) error {
			if rulesToCheck != "" {
				return checkRules(a, rulesToCheck)
			}
			one, err := oneVisit(a, args)
			switch {
			case err != nil:
				return err
			case one:
				return gradeVisit(a, reference, details, charts || details, w)
			case details || w.Anyway:
				return misused("--details and --anyway are for one visit")
			}
			return gradeMany(a, args, reference, charts)
		},
	}
	if !a.meant("grade") {
		return cmd
	}
	cmd.Flags().StringVar(&reference, "reference", "", "compare with `SITE`, by visits of the same fortnight: "+
		"all sites of a table, or one visit with those beside its file")
	cmd.Flags().BoolVar(&details, "details", false, "show every term of every index, to be checked by hand, and the charts")
	cmd.Flags().BoolVar(&charts, "charts", false, "add charts as plain text")
	cmd.Flags().BoolVar(&w.Anyway, "anyway", false, "also show what too few samples would give so far, marked as provisional")
	cmd.Flags().StringVar(&rulesToCheck, "check-rules", "",
		"grade nothing: check the schemes and protocols in `DIR`, each finding at its place")
	return cmd
}

const gradeHelp = `Grades the visit by the protocol it was begun with. With fewer samples than the
protocol asks for there is no grade: you see what is missing, and what was found
all the same. The protocol's first index gives the word; the others are numbers.
There is no word either on too few animals, on animals that the index does not
know, or where it would hold in less than half of the cases: then the value
stands without one, or you see between which words it lies. Without a word the
exit status is 3.

How far a name may be trusted goes by all names of the visit together and by what
is common in the region: one animal beside thirty of its look-alike is likely the
thirty-first. The value goes by the names as they were said.

What is common in the region stands beside what was found: with --details always,
else where something is missing beyond chance.

A visit that names a reference site ('visit begin --reference') is set beside it, as
with --reference: by all visits to the two, in the folder of its file, that go
together. Where none goes with this visit it gets no word, since a fixed scale alone
does not say what a stream here should hold.

Several files, a folder, or the database of a network, give a table by site and date. The last visits of a
site are judged against its earlier ones at the same time of year with the same
effort, by how much the site varies between visits, and so is the trend; more
sites and more questions make each answer harder to get. Where nothing stands
out, you see how likely a loss would have been noticed. A visit is set against the
one before at equal effort or not at all, and with what else differed: time of
year, water, weather.

--charts adds charts as plain text: animals by class and by kind, how likely each
rating is, kinds found against samples taken; of several visits, each site over
time. With --plain they are words and numbers without bars.`

// oneVisit tells that one visit is meant, and takes its file from args.
func oneVisit(a *app, args []string) (bool, error) {
	if len(args) > 0 && a.visitFile != "" {
		return false, misused("name visits either with --visit or by themselves, not both")
	}
	if len(args) != 1 {
		return len(args) == 0, nil
	}
	if info, err := os.Stat(args[0]); network.IsAddress(args[0]) || err == nil && info.IsDir() {
		return false, nil
	}
	a.visitFile = args[0]
	return true, nil
}

func gradeVisit(a *app, reference string, details, charts bool, w scoring.GradeOptions) error {
	o, err := openVisit(a)
	if err != nil {
		return err
	}
	if w.Reference, err = besideReference(a, o.rules, o.visit, reference); err != nil {
		return err
	}
	w.Today = a.now()
	g, err := o.rules.Grade(o.account, w)
	if err != nil {
		return err
	}
	if a.json {
		err = show.JSON(a.stdout, show.GradeJSON{Grade: g, Words: show.InWords(g)})
	} else {
		err = show.Grade(a.stdout, a.width, g, details, a.sameVisit())
		if charts && err == nil {
			err = chartsOf(a, o.rules, o.account, g)
		}
	}
	switch {
	case err != nil:
		return err
	case a.damage != nil:
		return a.damage
	case g.Withheld():
		return cannotSay
	}
	return nil
}
