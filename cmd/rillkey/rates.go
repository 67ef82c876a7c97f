package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/key/learned"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func ratesCommand(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "rates",
		Short: "How often your own group misreads each trait: show, learn",
		Long: `Second looks tell how often a group's first answers were wrong. 'rates learn'
counts that in the visits' files and keeps the counts in a file of the group's
own; 'identify --rates FILE' then believes its answers accordingly.`,
		RunE: group,
	}
	if a.meant("rates") {
		cmd.AddCommand(showRatesCommand(a), learnCommand(a))
	}
	return cmd
}

func showRatesCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:     "show [FILE]",
		Short:   "The rates in plain numbers: those of a group's file, else the built-in ones",
		Example: "  rillkey rates show\n  rillkey rates show ours.rates.toml",
		Args:    atMostOneFile,
		RunE: func(_ *cobra.Command, files []string) error {
			catalog, err := a.catalog()
			if err != nil {
				return err
			}
			v, file, record := catalog.Vocabulary(), "", &learned.Counts{}
			if len(files) > 0 {
				file = files[0]
				if record, err = readRates(file, v); err != nil {
					return err
				}
			}
			return showRates(a, show.NewRates(file, v, record))
		},
	}
}

func showRates(a *app, r *show.RatesJSON) error {
	return a.give(r, func() error { return r.Text(a.stdout, a.width) })
}

// readRates reads a group's file.
func readRates(file string, v *taxa.Vocabulary) (*learned.Counts, error) {
	dir, name := splitPath(file)
	record, err := learned.Read(authored.DirFS(dir), name, filepath.ToSlash(file), v)
	return record, fileError(file, err)
}

func learnCommand(a *app) *cobra.Command {
	var add bool
	cmd := &cobra.Command{
		Use:   "learn FILE VISIT... | postgres://…",
		Short: "Count in visits how often first answers were wrong, and keep that in FILE",
		Long: `Goes through all animals of the visits whose right name became known by a second
look or a correction, and counts for every trait that was answered at first
whether the right kind ever shows that. Rates rest on the animals that chance drew
('recheck draw'): those chosen because their name was doubtful hold more misreads
than others, so they are counted apart. FILE is made anew from the visits named,
so name all of them each time, files, folders or the database of a network; with --add the counts are added to those in it.

The key is that of the visits' own region, unless --region or --key name another.
Records name couplets by their number: a visit that says it was begun with another
key is left out.`,
		Example: "  rillkey rates learn ours.rates.toml *.visit.toml",
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) < 2 {
				return misused("give the file to keep the rates in and at least one visit's file; see 'rillkey rates learn --help'")
			}
			return learnRates(a, args[0], args[1:], add)
		},
	}
	cmd.Flags().BoolVar(&add, "add", false, "add to the counts in FILE instead of making it anew")
	return cmd
}

func learnRates(a *app, file string, visits []string, add bool) error {
	source, err := a.visitsAt(visits, nil)
	if err != nil {
		return err
	}
	defer source.Close()
	callOff := a.writesNothing()
	defer callOff()
	if err := goByRegionOf(a, source); err != nil {
		return err
	}
	m, err := usualModel(a.library)
	if err != nil {
		return err
	}
	k := m.Key()
	v := k.Catalog().Vocabulary()
	before, err := ratesBefore(file, v, add)
	if err != nil {
		return err
	}
	record := &learned.Counts{}
	if add {
		record = before
	}
	edition, err := a.edition(k.Catalog().Region())
	if err != nil {
		return err
	}
	record, from, err := learnFrom(source, m, edition.Key(), record)
	callOff()
	if err != nil {
		return err
	}
	if err := a.replacement(file, visits, record.TOML(v)); err != nil {
		return err
	}
	r := show.NewRates(file, v, record)
	r.Learned = from
	if len(source.Files) > 0 {
		from.First = source.Files[0]
	}
	return source.told(showRates(a, r))
}

// ratesBefore are the rates in the file that is about to be written, which must
// be a file of rates if it is there: whoever forgets its name names a visit first.
func ratesBefore(file string, v *taxa.Vocabulary, must bool) (*learned.Counts, error) {
	if strings.HasSuffix(file, visit.Suffix) {
		return nil, misused("%s is the name of a visit; the first file named is the one to keep the rates in, as in: "+
			"rillkey rates learn ours.rates.toml %s", plain.Printable(file), plain.ShellFiles(file))
	}
	if _, err := os.Lstat(file); errors.Is(err, fs.ErrNotExist) && !must {
		return &learned.Counts{}, nil
	}
	record, err := readRates(file, v)
	switch {
	case must && err != nil:
		return nil, err
	case err != nil, record.Empty() && !holds(file, nil) && !holds(file, record.TOML(v)):
		return nil, wording.Errorf("%s is there already and holds no rates, so it is left alone; name another file", plain.Printable(file))
	}
	return record, nil
}

// learnFrom adds to a record what the files of visits teach: from how many animals,
// and which others were left out.
func learnFrom(visits *visitSource, m *key.Model, mark string, record *learned.Counts) (*learned.Counts, *show.Learned, error) {
	from, err := eachConfirmed(visits, m, mark, true, func(c visit.Confirmed) error {
		more, err := record.AddPath(m, c.Path, m.Key().Catalog().Taxon(c.Taxon), c.Drawn)
		if err == nil {
			record = more
		}
		return err
	})
	return record, from, err
}
