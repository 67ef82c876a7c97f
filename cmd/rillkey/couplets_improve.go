package main

import (
	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/key/draft"
	"rillkey/key/improve"
	"rillkey/taxa/wording"
)

// improveKey betters the key of --keep with few changes.
func improveKey(a *app, flags draftFlags) error {
	if flags.csv != "" || a.regionName != "" || flags.taxaOut != "" {
		return misused("--keep goes with neither --csv nor --region: it keeps the end points of the key")
	}
	catalog, err := a.wholeCatalog()
	if err != nil {
		return err
	}
	a.keyFile = flags.keep
	data, sound, err := a.source(catalog)
	if err != nil {
		return err
	}
	looking := key.Looking(catalog.Vocabulary())
	watched, callOff := a.progress(wording.Text("looking for better couplets"), 0), a.writesNothing()
	better, err := improve.Improve(data, sound, catalog, looking,
		draft.Costs{Effort: looking.Effort, Readings: looking.Readings, Terms: flags.terms(looking)})
	callOff()
	watched.Done()
	if err != nil {
		return err
	}
	if flags.file != "" && len(better.Changes) > 0 {
		if err := replaceFile(a, flags.file, []string{a.keyFile}, better.Text, flags.write); err != nil {
			return err
		}
	}
	p := &plan{catalog: catalog, looking: looking}
	report := show.Bettered{File: flags.file, Changes: better.Changes, Before: figures(sound, p), After: figures(better.Sound, p)}
	if report.Changes == nil {
		report.Changes = []improve.Rewrite{}
	}
	if a.json {
		return show.JSON(a.stdout, report)
	}
	if flags.file == "" && len(better.Changes) > 0 {
		if _, err := a.stdout.Write(better.Text); err != nil {
			return err
		}
		return report.Text(a.stderr, a.width)
	}
	return report.Text(a.stdout, a.width)
}
