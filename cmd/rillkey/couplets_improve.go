package main

import (
	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/key/draft"
	"rillkey/key/improve"
)

// mostBettered is how many end points a key may have for --keep. With 126 the
// search had not ended after a minute and a quarter.
const mostBettered = 30

// improve betters the key of --keep with few changes.
func (a *app) improve(flags draftFlags) error {
	if flags.csv != "" || flags.region != "" || flags.taxaOut != "" {
		return misused("--keep goes with neither --csv nor --region: it keeps the end points of the key")
	}
	catalog, err := a.catalog()
	if err != nil {
		return err
	}
	a.keyFile = flags.keep
	data, sound, err := a.source(catalog)
	if err != nil {
		return err
	}
	if len(sound.Ends) > mostBettered {
		return misused("--keep betters keys of up to %d end points; %s has %d, for which the search takes too long to be of use: better a part of it (couplets trim), or start over without --keep", mostBettered, flags.keep, len(sound.Ends))
	}
	looking := key.Looking(catalog.Vocabulary())
	better, err := improve.Key(data, sound, catalog, looking, draft.Model{Effort: looking.Effort, Readings: looking.Readings, Mistake: flags.mistake})
	if err != nil {
		return err
	}
	if flags.out != "" && len(better.Changes) > 0 {
		if err := replaceFile(flags.out, better.Text, flags.write); err != nil {
			return err
		}
	}
	p := &plan{catalog: catalog, looking: looking}
	report := show.Bettered{File: flags.out, Changes: better.Changes, Before: figures(sound, p), After: figures(better.Sound, p)}
	if report.Changes == nil {
		report.Changes = []improve.Change{}
	}
	if a.json {
		return show.JSON(a.out, report)
	}
	if flags.out == "" && len(better.Changes) > 0 {
		if _, err := a.out.Write(better.Text); err != nil {
			return err
		}
		return report.Text(a.err, a.width)
	}
	return report.Text(a.out, a.width)
}
