package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"rillkey/cmd/rillkey/units"
	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// What the library that reads commands says itself, in the language in use. Texts of
// commands and flags stand in English in the tree, which is made before any region
// is known; they are looked up once somebody asks for help or completes a word.

// helpWidth is how wide texts of help are folded that are not said in English.
const helpWidth = 80

// speakHelp has what the help of a command shows said in the language in use: its own
// texts and flags, those that it inherits, and what its commands are for.
func speakHelp(cmd *cobra.Command) {
	cmd.Short = wording.Text(cmd.Short)
	if cmd.Long != "" {
		cmd.Long = wording.Long(cmd.Long, func(s string) []string { return folded(s) })
	}
	each := func(f *pflag.Flag) { f.Usage, f.DefValue = usageOf(cmd, f), wording.Text(f.DefValue) }
	cmd.LocalFlags().VisitAll(each)
	cmd.InheritedFlags().VisitAll(each)
	for _, sub := range cmd.Commands() {
		sub.Short = wording.Text(sub.Short)
	}
}

// speakOffers has what shells show beside the words that they offer said in the language
// in use, of all commands: which of them is typed is not known yet.
func speakOffers(cmd *cobra.Command) {
	cmd.Short = wording.Text(cmd.Short)
	each := func(f *pflag.Flag) { f.Usage = usageOf(cmd, f) }
	cmd.LocalNonPersistentFlags().VisitAll(each)
	cmd.PersistentFlags().VisitAll(each)
	for _, sub := range cmd.Commands() {
		speakOffers(sub)
	}
}

// folded is a paragraph in lines that break at blanks alone: --flag stays whole.
func folded(paragraph string) (out []string) {
	for _, word := range strings.Fields(paragraph) {
		if n := len(out); n > 0 && ansi.StringWidth(out[n-1])+1+ansi.StringWidth(word) <= helpWidth {
			out[n-1] += " " + word
		} else {
			out = append(out, word)
		}
	}
	return out
}

// useLine is how a command is written.
func useLine(cmd *cobra.Command) string {
	line := strings.Replace(cmd.UseLine(), "[flags]", wording.Text("[flags]"), 1)
	if _, args, ok := strings.Cut(cmd.Use, " "); ok {
		line = strings.Replace(line, args, wording.Text(args), 1)
	}
	return line
}

// namedInHelp are words that a flag's help ends in and that are not in its text, as
// an annotation of it.
const namedInHelp = "named"

// nameInHelp has a flag's help end in words that data give, at its %s.
func nameInHelp(flags *pflag.FlagSet, flag string, words []string) {
	_ = flags.SetAnnotation(flag, namedInHelp, words) // fails only for a flag that is not there
}

func usageOf(cmd *cobra.Command, f *pflag.Flag) string {
	if words, ok := f.Annotations[namedInHelp]; ok {
		return wording.Sprintf(f.Usage, strings.Join(words, ", "))
	}
	if f.Name == "help" {
		return wording.Sprintf("help for %s", cmd.Name())
	}
	return wording.Text(f.Usage)
}

// speakingHelp has the help of commands said in the language of the region in use.
func speakingHelp(a *app, root *cobra.Command) {
	usual := root.HelpFunc()
	root.SetHelpFunc(func(cmd *cobra.Command, args []string) {
		_ = a.speaks(cmd, nil) // what is wrong with a region is told where it is needed
		root.InitDefaultHelpCmd()
		cmd.InitDefaultHelpFlag()
		if about, _, err := root.Find([]string{"help"}); err == nil && about != root {
			about.Short = wording.Mark("What a command does, and its flags")
			about.Long = ""
		}
		speakHelp(cmd)
		usual(cmd, args)
	})
	root.SetUsageFunc(func(cmd *cobra.Command) error {
		_, err := fmt.Fprintln(cmd.OutOrStderr(), usage(cmd))
		return err
	})
}

// speakingArgs has it said in the language of the region in use, too, which words a
// command does not take: that is asked before anything else.
func speakingArgs(a *app, cmd *cobra.Command) {
	if takes := cmd.Args; takes != nil {
		cmd.Args = func(c *cobra.Command, args []string) error {
			err := takes(c, args)
			if err == nil {
				return nil
			}
			_ = a.speaks(c, nil) // what is wrong with a region is told where it is needed
			return takes(c, args)
		}
	}
	for _, sub := range cmd.Commands() {
		speakingArgs(a, sub)
	}
}

// usage is how a command is written, its commands and its flags.
func usage(cmd *cobra.Command) string {
	var b strings.Builder
	b.WriteString(wording.Text("Usage:"))
	if cmd.Runnable() {
		b.WriteString("\n  " + useLine(cmd))
	}
	if cmd.HasAvailableSubCommands() {
		b.WriteString("\n  " + wording.Sprintf("%s [command]", cmd.CommandPath()))
	}
	if cmd.HasExample() {
		b.WriteString("\n\n" + wording.Text("Examples:") + "\n" + cmd.Example)
	}
	if cmd.HasAvailableSubCommands() {
		b.WriteString("\n\n" + wording.Text("Available Commands:"))
		for _, sub := range cmd.Commands() {
			if sub.IsAvailableCommand() || sub.Name() == "help" {
				fmt.Fprintf(&b, "\n  %-*s %s", sub.NamePadding(), sub.Name(), sub.Short)
			}
		}
	}
	flags(&b, wording.Text("Flags:"), cmd.LocalFlags())
	flags(&b, wording.Text("Global Flags:"), cmd.InheritedFlags())
	if cmd.HasAvailableSubCommands() {
		b.WriteString("\n\n" + wording.Sprintf(`Use "%s [command] --help" for more information about a command.`, cmd.CommandPath()))
	}
	return b.String()
}

func flags(b *strings.Builder, title string, set *pflag.FlagSet) {
	if !set.HasAvailableFlags() {
		return
	}
	text := strings.TrimRight(set.FlagUsages(), " \n")
	b.WriteString("\n\n" + title + "\n" + strings.ReplaceAll(text, " (default ", " ("+wording.Text("default")+" "))
}

// ofFlags is what the library says of flags, in words of this program.
func ofFlags(err error) error {
	var unknown *pflag.NotExistError
	var bare *pflag.ValueRequiredError
	var bad *pflag.InvalidValueError
	var syntax *pflag.InvalidSyntaxError
	switch {
	case errors.As(err, &unknown) && units.IsNumber(unknown.GetSpecifiedShortnames()):
		return wording.Errorf("-%s is no flag; a count is a whole number above nought, without a sign", unknown.GetSpecifiedShortnames())
	case errors.As(err, &unknown):
		return wording.Errorf("there is no flag %s here", dashed(unknown.GetSpecifiedName(), unknown.GetSpecifiedShortnames()))
	case errors.As(err, &bare):
		return wording.Errorf("%s needs a value behind it", dashed(bare.GetSpecifiedName(), bare.GetSpecifiedShortnames()))
	case errors.As(err, &bad):
		return wording.Errorf("%s is no value of --%s: %s", plain.Quote(bad.GetValue()), bad.GetFlag().Name, ofValue(bad))
	case errors.As(err, &syntax):
		return wording.Errorf("%s is no flag", plain.Quote(syntax.GetSpecifiedFlag()))
	}
	return err
}

func dashed(name, short string) string {
	if name == "" {
		return "-" + short[:1]
	}
	return "--" + name
}

// ofValue says what a flag's value must be.
func ofValue(bad *pflag.InvalidValueError) string {
	switch bad.GetFlag().Value.Type() {
	case "int":
		return wording.Text("it takes a whole number")
	case "uint64":
		return wording.Text("it takes a whole number of 0 or more")
	case "float64":
		return wording.Text("it takes a number, with a point before its decimals")
	case "bool":
		return wording.Text("it takes true or false, or nothing")
	}
	return bad.Unwrap().Error()
}

// together and apart are how the library says which flags go together.
var (
	together = pattern.New(`^if any flags in the group \[(.*)\] are set they must all be set; missing \[(.*)\]$`)
	apart    = pattern.New(`^if any flags in the group \[.*\] are set none of the others can be; \[(.*)\] were all set$`)
)

// ofGroups is an error of the library about flags that go together, in words of this
// program, and any other as it is.
func ofGroups(err error) error {
	if err == nil {
		return nil
	}
	dashes := func(names string) string { return "--" + strings.Join(strings.Fields(names), ", --") }
	if m := together().FindStringSubmatch(err.Error()); m != nil {
		return misused("%s go together; %s is missing", dashes(m[1]), dashes(m[2]))
	}
	if m := apart().FindStringSubmatch(err.Error()); m != nil {
		return misused("only one of %s can be given", dashes(m[1]))
	}
	return err
}
