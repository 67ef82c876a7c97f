package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/key/astray"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/folder"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
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
	k, err := a.key()
	if err != nil {
		return err
	}
	m, err := a.model(k, "")
	if err != nil {
		return err
	}
	edition, err := a.edition(k.Catalog().Region())
	if err != nil {
		return err
	}
	count := astray.New(m)
	catalog, onPaper := m.Key().Catalog(), 0
	from, err := eachConfirmed(source, m, edition.Key(), func(v *visit.Visit, c visit.Confirmed) error {
		right := catalog.Taxon(catalog.Current(c.Taxon))
		if len(c.Path) > 0 {
			return count.Add(c.Path, right)
		}
		named := catalog.Taxon(catalog.Current(c.Named))
		if named == nil {
			return wording.Errorf("nothing here is called %s", plain.Quote(c.Named))
		}
		count.AddNamed(named, right)
		onPaper++
		return nil
	})
	if err != nil {
		return err
	}
	report := show.NewFailures(k, count.Couplets(), from)
	report.OnPaper = onPaper
	if a.json {
		return source.told(show.JSON(a.out, report))
	}
	return source.told(report.Text(a.out, a.width))
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

// ofOtherRegion reports whether a visit names a region that is not the one in use.
func ofOtherRegion(v *visit.Visit, catalog *taxa.Catalog) bool {
	r := catalog.Region()
	return r != nil && v.Header.Region != "" && v.Header.Region != r.ID
}

// errNoAnswers passes a record over of which no answer is kept.
var errNoAnswers = wording.NewError("it has no answers")

// eachConfirmed calls see with every record of some visits whose right name is
// known: how many there were, and what was left out. Paths name couplets by their
// number, so visits that were begun with another key than that of the fingerprint
// are left out whole, and so is a record that see refuses. A visit named in two files is
// a slip; in a folder or a network several may hold one, and each of its records counts
// once. A file of a folder that cannot be read is left out.
func eachConfirmed(visits *visitSource, m *key.Model, mark string, see func(*visit.Visit, visit.Confirmed) error) (*show.Learned, error) {
	from := &show.Learned{Visits: visits.Len()}
	seen := map[string]string{}     // visits by id, and their files
	counted := map[[2]string]bool{} // records by visit and id
	var failed error
	ended := visits.Each(func(i series.Item) bool {
		v, err := i.Read()
		switch {
		case err != nil && visits.passes(i.Name):
			from.LeftOut, visits.unread = append(from.LeftOut, wording.Reason(err).Error()), true
			from.Visits--
			return true
		case err != nil:
			failed = err
			return false
		}
		before, twice := seen[v.Header.ID]
		switch {
		case twice && visits.db == nil && !visits.passes(i.Name):
			failed = misused("%s and %s hold the same visit; name it once", before, i.Name)
			return false
		case twice:
			from.LeftOut = append(from.LeftOut, wording.Sprintf("%s: %s is the same visit; each of its animals is counted once",
				i.Name, before))
		default:
			seen[v.Header.ID] = i.Name
		}
		was := folder.Edition(v.Header.Edition).Key()
		if was != "" && was != mark || was == "" && ofOtherRegion(v, m.Key().Catalog()) {
			from.LeftOut = append(from.LeftOut, wording.Sprintf("%s: it was begun with another key; take that one for it", v.Header.ID))
			return true
		}
		for _, c := range v.Confirmed() {
			id := [2]string{v.Header.ID, c.Record}
			if m.Key().Catalog().Taxon(m.Key().Catalog().Current(c.Taxon)) == nil || counted[id] {
				continue
			}
			counted[id] = true
			err := see(v, c)
			if errors.Is(err, errNoAnswers) {
				continue
			}
			if err != nil {
				from.LeftOut = append(from.LeftOut, fmt.Sprintf("%s %s: %v", v.Header.ID, c.Record, wording.Reason(err)))
				continue
			}
			if from.Animals++; c.Drawn {
				from.Drawn++
			}
		}
		return true
	})
	return from, errors.Join(failed, ended)
}
