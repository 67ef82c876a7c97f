package main

import (
	"errors"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/key/astray"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

func failuresCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "failures VISIT... | postgres://…",
		Short: "Which couplets lost whose animals, from the visits of real people",
		Long: `Goes through all animals of the visits whose right name became known by a second
look or a correction, and finds the couplet at which the answer led away from it:
how often, which animals, which lead was taken in the place of which, and what to
look at in its words. An animal that was lost says nothing of the couplets further
down. A record without answers, as of a sheet that was typed in, went the way of
its first name as far as only one lead of each couplet goes there.

The key is that of the visits' own region, unless --region or --key name another.
Records name couplets by their number: a visit that says it was begun with another
key is left out.`,
		Example: "  rillkey couplets failures *.visit.toml\n  rillkey couplets failures --region brook *.visit.toml",
		RunE: func(_ *cobra.Command, files []string) error {
			if len(files) == 0 {
				return misused("give at least one visit's file; see 'rillkey couplets failures --help'")
			}
			return findFailures(a, files)
		},
	}
}

func findFailures(a *app, files []string) error {
	source, err := a.visitsAt(files, nil)
	if err != nil {
		return err
	}
	defer source.Close()
	if err := goByRegionOf(a, source); err != nil {
		return err
	}
	m, err := usualModel(a.library)
	if err != nil {
		return err
	}
	k := m.Key()
	edition, err := a.edition(k.Catalog().Region())
	if err != nil {
		return err
	}
	count := astray.New(m)
	catalog := m.Key().Catalog()
	from, err := eachConfirmed(source, m, edition.Key(), false, func(c visit.Confirmed) error {
		return count.AddConfirmed(c.Path, c.Named, catalog.Taxon(c.Taxon))
	})
	if err != nil {
		return err
	}
	report := show.NewFailures(k, count.Couplets(), from)
	report.OnPaper = count.OnPaper
	if a.json {
		return source.told(show.JSON(a.stdout, report))
	}
	return source.told(report.Text(a.stdout, a.width))
}

// goByRegionOf has the region of several visits in use, where no flag names another: that of
// the first of them which can be read.
func goByRegionOf(a *app, visits *visitSource) error {
	if a.regionName != "" || a.keyFile != "" || a.taxaDir != "" {
		return nil
	}
	return visits.Each(func(i series.Item) bool {
		v, err := i.Read()
		if err != nil {
			return true // told when the visits are gone through
		}
		a.follow(v)
		a.library.header.Edition = nil // visits that were begun with another are told one by one
		return false
	})
}

// eachConfirmed calls see with every record of some visits whose right name is known; only
// those whose answers are kept where keyed. A visit named in two files is a slip; a file of
// a folder that cannot be read is left out.
func eachConfirmed(visits *visitSource, m *key.Model, mark string, keyed bool, see func(visit.Confirmed) error) (*show.Learned, error) {
	count, err := series.EachConfirmed(visits, series.ConfirmedQuery{Catalog: m.Key().Catalog(), Key: mark, Keyed: keyed,
		PassesOver: visits.passes, Named: func(file string) bool { return visits.db == nil && !visits.passes(file) }}, see)
	visits.unread = visits.unread || count.Unread
	var twice *series.SameVisitError
	if errors.As(err, &twice) {
		err = fault{statusMisused, err}
	}
	return &show.Learned{ConfirmedCount: *count}, err
}
