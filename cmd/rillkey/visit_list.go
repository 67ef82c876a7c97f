package main

import (
	"cmp"
	"os"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/scoring/network"
	"rillkey/scoring/series"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

type listFlags struct{ site, first, last, taxon, person string }

func listCommand(a *app) *cobra.Command {
	var f listFlags
	cmd := &cobra.Command{
		Use:   "list [FOLDER | postgres://…]",
		Short: "List the visits of a folder or network: site, date, grade, state",
		Long: `Lists the visits in a folder and the folders in it, which are a group's archive, or
those in the database of a network.
Names are found however they are written.`,
		Example: `  rillkey visit list
  rillkey visit list --site tanyard --from 2025-04 --taxon stonefly`,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return misused("one folder at a time; %q is too many", args[1])
			}
			return listVisits(a, f, append(args, ".")[0])
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&f.site, "site", "", "only visits to this site, `NAME` or part of it")
	flags.StringVar(&f.first, "from", "", "only from this `DAY` on, as 2026-05-16, 2026-05 or 2026")
	flags.StringVar(&f.last, "to", "", "only up to this `DAY`, likewise")
	flags.StringVar(&f.taxon, "taxon", "", "only visits that found this animal, any `NAME` of it or of what it belongs to")
	flags.StringVar(&f.person, "person", "", "only visits with this person, `NAME` or part of it")
	return cmd
}

func listVisits(a *app, f listFlags, dir string) error {
	catalog, rules, err := a.catalogAndRules()
	if err != nil {
		return err
	}
	q := series.Query{Site: f.site, FirstDay: f.first, LastDay: f.last, Person: f.person}
	for flag, value := range map[string]string{"from": f.first, "to": f.last} {
		if value != "" && !series.IsDay(value) {
			return misused("--%s: %q is no day; write it as 2026-05-16, 2026-05 or 2026", flag, value)
		}
	}
	if f.taxon != "" {
		if q.Taxon, err = a.wanted(catalog, f.taxon); err != nil {
			return misused("--taxon: %w", err)
		}
	}
	if info, err := os.Stat(dir); !network.IsAddress(dir) && (err != nil || !info.IsDir()) {
		return misused("there is no folder %s", plain.Printable(dir))
	}
	entries, of, err := visitsIn(a, dir, catalog, rules, q)
	if err != nil {
		return err
	}
	found := show.NewVisits(dir, entries, of)
	if a.json {
		err = show.JSON(a.stdout, found)
	} else {
		err = found.Text(a.stdout, a.width)
	}
	if err == nil && found.Unreadable > 0 {
		err = fault{status: statusBadData}
	}
	return err
}

// wanted tells whether an animal is meant by a name: by what its visit's own region
// means by it, else by what all regions do.
func (a *app) wanted(catalog *taxa.Catalog, name string) (func(*series.VisitFile, string) bool, error) {
	meant, everywhere := taxa.MeantByRegion(catalog, name)
	usual := ""
	if everywhere {
		t, err := a.taxonNamed(catalog, name)
		if err != nil {
			return nil, err
		}
		usual = t.ID
	}
	return func(v *series.VisitFile, id string) bool {
		of := cmp.Or(meant[v.Region], usual)
		return of != "" && catalog.IsUnder(id, of)
	}, nil
}

// visitsIn lists the visits of a folder or a database that a query wants, and tells how
// many there are.
func visitsIn(a *app, dir string, catalog *taxa.Catalog, rules *scoring.Rules, q series.Query) ([]series.VisitFile, int, error) {
	watched := a.progress(wording.Text("reading the visits"), 0)
	defer watched.Done()
	if network.IsAddress(dir) {
		from, err := a.visitsAt([]string{dir}, nil)
		if err != nil {
			return nil, 0, err
		}
		defer from.Close()
		return from.listed(a, catalog, rules, q)
	}
	entries, err := series.ReadFolder(dir, rules)
	if err != nil {
		return nil, 0, wording.Errorf("the folder %s cannot be read: %w", plain.Printable(dir), err)
	}
	return series.Filter(entries, q), len(entries), nil
}
