package main

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// privately is the mode of files with names of people that came from a database.
const privately fs.FileMode = 0o600

func fetchCommand(a *app) *cobra.Command {
	from, to := "", ""
	cmd := &cobra.Command{
		Use:   "fetch",
		Short: "Fetch visits from the database of a network into a folder",
		Long: `Writes the visits of a network as files into a folder, one a visit: what all laptops
of the group sent, united as 'rillkey visit merge' unites their files. A group gets
its own visits, a coordinator those of all groups, in a folder for each.

A visit that is in the folder already gets the entries that it lacks; nothing in it is
changed or deleted.`,
		Example: "  rillkey fetch --from postgres://mill-brook@network.example/streams --to visits",
		Args:    noArgs,
		RunE:    func(*cobra.Command, []string) error { return fetchVisits(a, from, to) },
	}
	cmd.Flags().StringVar(&from, "from", "", "the `ADDRESS` of the database: postgres://GROUP@HOST/DATABASE")
	cmd.Flags().StringVar(&to, "to", "", "the `FOLDER` to write to; made where there is none")
	return cmd
}

func fetchVisits(a *app, from, to string) error {
	if from == "" || to == "" {
		return misused("--from and --to are both needed: the address of the database, and the folder to write to")
	}
	ctx := context.Background()
	db, err := a.database(ctx, from)
	if err != nil {
		return err
	}
	defer db.Close()
	keys, err := db.Keys(ctx)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(to, 0o777); err != nil {
		return cannotWrite(to, err)
	}
	f := &fetching{app: a, dir: to, report: show.Fetched{Target: to, Problems: []string{}}}
	if err := f.look(); err != nil {
		return err
	}
	for _, k := range keys {
		f.groups = f.groups || k.Group != keys[0].Group
	}
	watched := a.progress(wording.Text("visits"), len(keys))
	defer watched.Done()
	i := 0
	err = db.Source(ctx, keys).Each(func(item series.Item) bool {
		f.visit(keys[i].Group, item)
		i++
		watched.Step(i)
		return true
	})
	watched.Done()
	return f.tell(err)
}

// fetching writes visits into a folder.
type fetching struct {
	*app
	dir    string
	groups bool              // of several groups, each in a folder
	there  map[string]string // files of the folder by folder and id of their visit
	report show.Fetched
}

// look finds the visits that are in the folder.
func (f *fetching) look() (err error) {
	f.there, err = series.FilesByVisit(f.dir, f.passOver)
	return err
}

// visit writes one visit, or adds what its file lacks.
func (f *fetching) visit(group string, item series.Item) {
	v, err := item.Read()
	if err == nil {
		for _, n := range v.Notices {
			f.problem(n.String())
		}
		err = f.write(group, v)
	}
	if err != nil {
		f.problem(wording.Reason(err).Error())
	}
}

func (f *fetching) problem(words string) {
	f.report.Problems = append(f.report.Problems, words)
	f.complain("rillkey: " + plain.Printable(words))
}

func (f *fetching) write(group string, v *visit.Visit) error {
	dir := f.dir
	if f.groups {
		dir = filepath.Join(f.dir, plain.ID(group))
		if err := os.MkdirAll(dir, 0o777); err != nil {
			return cannotWrite(dir, err)
		}
	}
	if path := f.there[filepath.Join(dir, v.Header.ID)]; path != "" {
		return f.addTo(path, v)
	}
	written := v.Written()
	path := filepath.Join(dir, visit.FileName(written.Date, written.Site, v.Obscured(), written.ID))
	if err := v.WriteNew(path, privately); err != nil {
		return err
	}
	f.there[filepath.Join(dir, v.Header.ID)] = path
	f.report.New++
	f.kept(path)
	return nil
}

// addTo adds to a file the entries that it lacks.
func (f *fetching) addTo(path string, v *visit.Visit) error {
	s, err := visit.Share(path)
	if err != nil {
		return err
	}
	lacks := s.Lacks(v.Events)
	if len(lacks) == 0 {
		f.report.Same++
		return nil
	}
	refused, err := s.Unite(lacks)
	if err == nil {
		f.report.Added++
		f.kept(path)
	}
	return errors.Join(append(refused, err)...)
}

func (f *fetching) tell(ended error) error {
	err := f.give(f.report, func() error { return f.report.Text(f.stdout, f.width) })
	switch {
	case ended != nil:
		return wording.Errorf("not all visits were fetched: %w", ended)
	case err != nil:
		return err
	case len(f.report.Problems) > 0:
		return fault{status: statusBadData}
	}
	return nil
}
