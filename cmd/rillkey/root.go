package main

import (
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/units"
	"rillkey/couplets"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
)

const summary = `rillkey names a stream animal by questions that a beginner can answer, keeps
the tally of a visit, and grades the stream by its animals, or says plainly
why there is no grade yet.`

// The library keeps these for the whole process, so they are set before anything
// runs: commands stay in the order given, and a double click on Windows is no
// reason to refuse to start.
func init() {
	cobra.EnableCommandSorting = false
	cobra.MousetrapHelpText = ""
}

// rootCommand is the command tree.
func rootCommand(a *app) *cobra.Command {
	var version bool
	root := &cobra.Command{
		Use:           "rillkey",
		Short:         "Name stream animals, count them, and grade the stream honestly",
		Long:          summary,
		Args:          noArgs,
		SilenceUsage:  true,
		SilenceErrors: true,

		PersistentPreRunE: func(cmd *cobra.Command, args []string) error {
			a.leaving.watch() // help only prints
			return a.speaks(cmd, args)
		},
		RunE: func(*cobra.Command, []string) error {
			if version {
				return showVersion(a)
			}
			return show.FirstSteps(a.stdout, a.width)
		},
	}
	root.Flags().BoolVar(&version, "version", false, "say which build of the program this is")
	flags := root.PersistentFlags()
	flags.BoolVar(&a.json, "json", false, "print one JSON document on standard output and nothing else there")
	flags.BoolVar(&a.plain, "plain", false, "plain lines: no colour, no full screens")
	flags.StringVar(&a.visitFile, "visit", "", "the visit's `FILE` (else the one unfinished visit in this folder)")
	flags.StringVar(&a.keyFile, "key", "", "a key `FILE` of your own, or a built-in key: %s")
	nameInHelp(flags, "key", couplets.EmbeddedNames())
	flags.StringVar(&a.regionName, "region", "", regionHelp)
	flags.StringVar(&a.taxaDir, "taxa", "", "a `DIR` of your own with traits and taxa")
	flags.StringVar(&a.rulesDir, "rules", "", "a `DIR` of your own with the folders schemes and protocols")
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		_ = a.speaks(cmd, nil) // before any flag is read; what is wrong with a region is told where it is needed
		return misused("%v; see '%s --help'", ofFlags(err), cmd.CommandPath())
	})
	root.AddCommand(
		identifyCommand(a), visitCommand(a), gradeCommand(a), recheckCommand(a), taxaCommand(a), regionCommand(a), coupletsCommand(a),
		printCommand(a), exportCommand(a), importCommand(a), publishCommand(a), sendCommand(a), fetchCommand(a),
		networkCommand(a), regradeCommand(a), ratesCommand(a), practiceCommand(a), tableCommand(a), pocketCommand(a), demoCommand(a),
	)
	completionAlone(a, root)
	speakingHelp(a, root)
	speakingArgs(a, root)
	return root
}

// inQuotes is the flag whose value a shell took apart at its blanks, as a measure and its
// unit, with that value in quotes; empty where there is none.
func inQuotes(cmd *cobra.Command, args []string) (flag string) {
	reads := func(value string) bool {
		_, area := units.SquareMetres(value)
		_, length := units.Metres(value)
		return area == nil || length == nil
	}
	cmd.Flags().Visit(func(f *pflag.Flag) {
		for n := len(args); n > 0 && flag == ""; n-- {
			if value := f.Value.String() + " " + strings.Join(args[:n], " "); f.Value.Type() == "string" && reads(value) {
				flag = "--" + f.Name + " " + plain.ShellWord(value)
			}
		}
	})
	return flag
}

// noArgs refuses words that a command does not take, naming the commands there
// are.
func noArgs(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	if file := args[len(args)-1]; !cmd.HasAvailableSubCommands() && strings.HasSuffix(file, visit.Suffix) && isThere(file) {
		return misused("%s takes a visit's file behind --visit: %s --visit %s", cmd.CommandPath(), cmd.CommandPath(),
			plain.ShellWord(file))
	}
	if value := inQuotes(cmd, args); value != "" {
		return misused("%s takes no %q; a value of several words is put in quotes, as %s", cmd.CommandPath(), args[0], value)
	}
	if !cmd.HasAvailableSubCommands() {
		return misused("%s takes no %q; see '%s --help'", cmd.CommandPath(), args[0], cmd.CommandPath())
	}
	var names []string
	for _, sub := range cmd.Commands() {
		if sub.IsAvailableCommand() {
			names = append(names, sub.Name())
		}
	}
	if near := nearest(args[0], names); near != "" {
		return misused("there is no command %q; did you mean '%s %s'?", args[0], cmd.CommandPath(), near)
	}
	return misused("there is no command %q; there are %s", args[0], strings.Join(names, ", "))
}

// nearest is the only one of some words that a slip of the fingers makes of another, else "".
func nearest(typed string, words []string) (near string) {
	for _, w := range words {
		if plain.Distance(typed, w) > min(2, len(w)/3) {
			continue
		}
		if near != "" {
			return ""
		}
		near = w
	}
	return near
}

// group runs a command that only holds others: it says which.
func group(cmd *cobra.Command, args []string) error {
	if err := noArgs(cmd, args); err != nil {
		return err
	}
	return cmd.Help()
}

// oneOf is a flag's value that must be among the words allowed.
func oneOf(flag, value string, allowed []string) error {
	for _, w := range allowed {
		if value == w {
			return nil
		}
	}
	if value == "" {
		return misused("--%s is missing; it is one of %s", flag, strings.Join(allowed, ", "))
	}
	return misused("--%s %q is not known here; it is one of %s", flag, value, strings.Join(allowed, ", "))
}
