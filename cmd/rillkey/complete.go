package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/taxa"
)

// offering completes a word from a list that is made when the shell asks; files are
// offered too where they may stand.
func offering(files bool, words func() []string) cobra.CompletionFunc {
	directive := cobra.ShellCompDirectiveNoFileComp
	if files {
		directive = cobra.ShellCompDirectiveDefault
	}
	return func(_ *cobra.Command, _ []string, typed string) (out []string, _ cobra.ShellCompDirective) {
		for _, w := range words() {
			if strings.HasPrefix(w, typed) {
				out = append(out, w)
			}
		}
		return out, directive
	}
}

// completeFlags says what may follow flags, wherever a command has them.
func completeFlags(a *app, cmd *cobra.Command) {
	for name, how := range map[string]cobra.CompletionFunc{
		"region": offering(true, builtInRegions), "key": offering(true, builtInNames),
		"protocol": offering(false, func() []string { return a.protocolIDs() }),
		"sample":   offering(false, func() []string { return a.sampleLabels() }),
		"observe":  offering(false, func() []string { return a.observations() }),
	} {
		if f := cmd.Flag(name); f != nil && f.Value.Type() != "bool" {
			_ = cmd.RegisterFlagCompletionFunc(name, how) // fails only if registered twice
		}
	}
	for _, sub := range cmd.Commands() {
		completeFlags(a, sub)
	}
}

func builtInRegions() []string {
	catalog, err := taxa.Embedded()
	if err != nil {
		return nil
	}
	return regionNames(catalog)
}

// What cannot be read is not offered: the shell has no place to say why.

func (a *app) protocolIDs() (out []string) {
	_, rules, err := a.catalogAndRules()
	if err != nil {
		return nil
	}
	for _, p := range rules.Protocols() {
		out = append(out, p.ID)
	}
	return out
}

func (a *app) sampleLabels() (out []string) {
	v, err := a.readVisit()
	if err != nil {
		return nil
	}
	for _, s := range v.Tally().Samples {
		out = append(out, s.Label)
	}
	return out
}

// observations are all traits with their states, as --observe takes them.
func (a *app) observations() (out []string) {
	catalog, err := a.wholeCatalog()
	if err != nil {
		return nil
	}
	for _, t := range catalog.Vocabulary().Traits() {
		for _, s := range t.States {
			out = append(out, t.ID+"="+s.ID)
		}
	}
	return out
}

// taxonNames are the names of the animals, sorted.
func (a *app) taxonNames() (out []string) {
	catalog, err := a.wholeCatalog()
	if err != nil {
		return nil
	}
	for _, t := range catalog.Taxa() {
		out = append(out, t.ID)
	}
	slices.Sort(out)
	return out
}
