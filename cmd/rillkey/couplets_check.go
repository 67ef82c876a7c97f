package main

import (
	"io/fs"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/couplets/rules"
	"rillkey/taxa"
	"rillkey/taxa/folder"
	"rillkey/taxa/plain"
)

// checkFlags are the flags of one check.
type checkFlags struct {
	explain string
	watch   bool
}

func checkCommand(a *app) *cobra.Command {
	var flags checkFlags
	cmd := &cobra.Command{
		Use:   "check [FILE…]",
		Short: "Find what is wrong with a key, each finding with its place",
		Long: `Checks keys against the catalog: every lead goes somewhere, every couplet is
reached, no lead contradicts the traits of a taxon beneath it, no animal fits two
leads or none. Warnings are worth heeding and leave the key usable. Without a
file the built-in keys are checked.`,
		Example: `  rillkey couplets check
  rillkey couplets check mykey.toml
  rillkey couplets check mykey.toml --watch
  rillkey couplets check --explain gap`,
		RunE: func(cmd *cobra.Command, files []string) error {
			if cmd.Flags().Changed("explain") {
				return explainRule(a, flags.explain)
			}
			if flags.watch {
				return startWatch(a, files, flags)
			}
			return checkKeys(a, files, flags)
		},
	}
	cmd.Flags().BoolVar(&flags.watch, "watch", false, "check again at every save and show the branch just edited")
	cmd.Flags().StringVar(&flags.explain, "explain", "", "explain a `RULE`, with an example of each side; \"all\" lists them")
	return cmd
}

// startWatch watches the one file that was named.
func startWatch(a *app, files []string, flags checkFlags) error {
	if len(files) == 0 && a.keyFile != "" {
		files = []string{a.keyFile}
	}
	if len(files) == 0 && a.ownKey() {
		files = []string{""}
	}
	if len(files) != 1 || a.json {
		return misused("--watch takes one file, and no --json")
	}
	return watchKey(a, files[0])
}

// explainRule prints the page of a rule, or the list of all.
func explainRule(a *app, rule string) error {
	if rule == "all" {
		return a.give(rules.Pages(), func() error { return show.KeyRules(a.stdout, a.width, rules.Pages()) })
	}
	page, ok := rules.Explain(rule)
	switch {
	case !ok:
		return misused("there is no rule %s; --explain all lists them", plain.Quote(rule))
	case a.json:
		return show.JSON(a.stdout, page)
	}
	return show.Rule(a.stdout, page)
}

// checkKeys checks every file and gives one list of all findings.
func checkKeys(a *app, files []string, flags checkFlags) error {
	catalog, err := a.wholeCatalog()
	if err != nil {
		return err
	}
	region, err := a.regionMeant(catalog)
	if err != nil {
		return err
	}
	if len(files) == 0 && a.keyFile != "" {
		files = []string{a.keyFile}
	}
	report := show.NewChecked()
	if len(files) == 0 && a.ownKey() {
		files = []string{""}
	}
	if len(files) == 0 {
		if err := checkEmbedded(a, report, catalog, region); err != nil {
			return err
		}
	}
	for _, file := range files {
		if _, err := checkFile(a, report, file, catalog, region); err != nil {
			return err
		}
	}
	return showChecked(a, report)
}

// checkEmbedded checks the keys of the program, each with the region it is meant
// for, which is known for the built-in catalog only.
func checkEmbedded(a *app, report *show.CheckJSON, catalog *taxa.Catalog, region *taxa.Region) error {
	names, err := fs.Glob(couplets.Embedded(), "*.toml")
	if err != nil {
		return err
	}
	for _, name := range names {
		f, s, err := a.examine(strings.TrimSuffix(name, ".toml"), catalog)
		subject := &rules.Input{File: f, Sound: s, Catalog: catalog, Region: rules.ResidentsFor(name, region)}
		if region == nil && a.taxaDir == "" && f != nil {
			subject.Region = rules.Residents(catalog.RegionNamed(f.ID))
		}
		if err := addChecked(report, name, subject, err); err != nil {
			return err
		}
	}
	return nil
}

// checkFile adds what is found in one file, and gives the key as read.
func checkFile(a *app, report *show.CheckJSON, file string, catalog *taxa.Catalog, region *taxa.Region) (*rules.Input, error) {
	f, s, err := a.examine(file, catalog)
	subject := &rules.Input{File: f, Sound: s, Catalog: catalog, Region: rules.Residents(region)}
	if name, ok := couplets.EmbeddedFile(file); ok && file != "" {
		subject.Region = rules.ResidentsFor(name, region)
	}
	if file == "" {
		file = a.home.Join(folder.KeyFile)
	}
	return subject, addChecked(report, file, subject, err)
}

// addChecked adds what was found in one file; an error that is no finding, such
// as a file that is not there, ends the check.
func addChecked(report *show.CheckJSON, file string, subject *rules.Input, err error) error {
	found, err := rules.Check(subject, err)
	if err == nil {
		report.Add(file, found.Couplets, found.Ends, found.Errors, found.Warnings)
	}
	return err
}

func showChecked(a *app, report *show.CheckJSON) error {
	err := a.give(report, func() error { return report.Text(a.stdout) })
	if err == nil && len(report.Errors) > 0 {
		return fault{status: statusBadData}
	}
	return err
}
