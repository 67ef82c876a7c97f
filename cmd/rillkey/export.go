package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/terminal"
	"rillkey/scoring/export"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/scoring/wholefile"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// The forms to hand visits over in.
const (
	asDarwinCore = "darwin-core"
	asCSV        = "csv"
	asSQL        = "sql"
	asRows       = "rows"
)

type exportFlags struct {
	form, path            string
	title, group, licence string
	discretion            export.Discretion
}

func exportCommand(a *app) *cobra.Command {
	var f exportFlags
	cmd := &cobra.Command{
		Use:   "export [FILE or FOLDER… | postgres://…]",
		Short: "Hand visits over: Darwin Core Archive, CSV tables, SQL, a row a visit",
		Long: `Writes visits in a form that others can use without this program:

  darwin-core  a zipped Darwin Core Archive, for biodiversity portals
  csv          a folder of CSV tables with a data dictionary; 'rillkey import'
               reads it back without loss
  sql          one script that SQLite and PostgreSQL load, with example queries
  rows         one CSV table with a row a visit: grade, chances, indices, conditions

Without files or folders all visits below the present folder are taken; the database
of a network stands in their place. Names of
people and the exact place of an obscured site stay out unless you ask for them;
notes are given as they are, so read them first.`,
		Example: `  rillkey export --as csv --to for-the-county
  rillkey export --as darwin-core --to visits.zip --group "Saturday group" 2025 2026`,
		RunE: func(_ *cobra.Command, args []string) error { return exportVisits(a, f, args) },
	}
	if !a.meant("export") {
		return cmd
	}
	flags := cmd.Flags()
	flags.StringVar(&f.form, "as", "", "the `FORM`: darwin-core, csv, sql or rows")
	flags.StringVar(&f.path, "to", "", "where to, a `PATH` that does not exist yet")
	flags.StringVar(&f.title, "title", wording.Mark("Animals of streams, sampled by volunteers"), "what to call the data, `TEXT`")
	flags.StringVar(&f.group, "group", "", "`NAME` of the group that gives the data")
	flags.StringVar(&f.licence, "licence", "", "the `TERMS` others may use it on")
	flags.BoolVar(&f.discretion.People, "with-people", false, "give the names of people too")
	flags.BoolVar(&f.discretion.Places, "exact-places", false, "give the exact place of obscured sites too")
	return cmd
}

func exportVisits(a *app, f exportFlags, paths []string) error {
	if err := oneOf("as", f.form, []string{asDarwinCore, asCSV, asSQL, asRows}); err != nil {
		return err
	}
	if f.path == "" {
		return misused("--to is missing; say where to write")
	}
	catalog, rules, err := a.catalogAndRules()
	if err != nil {
		return err
	}
	switch {
	case len(paths) == 0 && a.visitFile != "":
		paths = []string{a.visitFile}
	case len(paths) == 0:
		paths = []string{"."}
	}
	from, err := a.visitsAt(paths, nil)
	if err != nil {
		return err
	}
	defer from.Close()
	out := &exporting{app: a, source: from, discretion: f.discretion, watched: a.progress("visits", from.Len())}
	if !f.discretion.Places {
		if out.obscured, err = from.Obscured(); err != nil {
			return err
		}
	}
	defer out.watched.Done()
	k := export.Knowledge{Catalog: catalog, Rules: rules, Regional: a.library.knowledgeOf(export.Knowledge{Catalog: catalog, Rules: rules})}
	if f.form == asRows && (from.db != nil || series.NamesReference(from.Files)) {
		if k.ReferenceDay, err = rowsBeside(a, from, k); err != nil {
			return err
		}
	}
	about := export.Metadata{Title: wording.Text(f.title), Group: f.group, Licence: f.licence, Day: a.now()}
	if err := out.write(f, k, about); err != nil {
		if errors.Is(err, export.ErrNoVisit) {
			return misused("there is no visit to hand over here; name files or folders of visits")
		}
		return err
	}
	out.watched.Done()
	for _, line := range out.said {
		a.complain(line)
	}
	if a.json {
		err = show.JSON(a.stdout, show.HandedOver{Form: f.form, Target: f.path, Visits: out.given, Skipped: out.skipped})
	} else {
		a.plainly("Saved: %s in %s.", plain.Count(out.given, "visit"), f.path)
		if !f.discretion.People {
			a.plainly("Names of people are left out; read the notes, efforts and reasons before you pass this on, they may hold some.")
		}
	}
	if err == nil && (len(out.skipped) > 0 || out.remarks) {
		err = fault{status: statusBadData}
	}
	return err
}

// rowsBeside tells which visits stand beside one to their reference, by all that are handed
// over.
func rowsBeside(a *app, from *visitSource, k export.Knowledge) (func(*visit.Visit) string, error) {
	entries, _, err := from.listed(a, k.Catalog, k.Rules, series.Query{})
	if err != nil {
		return nil, err
	}
	return series.DaysBeside(entries), nil
}

// exporting reads visits one by one and counts them.
type exporting struct {
	app     *app
	source  *visitSource
	given   int
	skipped []string
	remarks bool
	watched *terminal.ProgressLine

	discretion export.Discretion
	obscured   series.ObscuredSites
	said       []string // what to know before this is passed on
}

func (e *exporting) visits(yield func(*visit.Visit, error) bool) {
	err := e.source.Each(func(i series.Item) bool {
		v, err := i.Read()
		if err != nil {
			e.watched.Interrupt(func() {
				e.app.complain(wording.Sprintf("rillkey: left out: %s", plain.Printable(wording.Reason(err).Error())))
			})
			e.skipped = append(e.skipped, i.Name)
			return true
		}
		for _, n := range v.Notices {
			e.watched.Interrupt(func() { e.app.complain("rillkey: " + n.String()) })
			e.remarks = true
		}
		e.given++
		e.discreetly(v)
		e.watched.Step(e.given + len(e.skipped))
		return yield(v, nil)
	})
	if err != nil {
		yield(nil, err)
	}
}

// discreetly obscures a place that another visit obscures, and says what would be
// given away against the will of those who recorded it.
func (e *exporting) discreetly(v *visit.Visit) {
	say := func(format string, args ...any) {
		e.said = append(e.said, "rillkey: "+plain.Printable(v.File)+wording.Sprintf(format, args...))
	}
	if e.obscured.Obscure(v) {
		say(wording.Mark(": its place is obscured too, as that of another visit to this site is; --exact-places gives both"))
	}
	for _, t := range e.discretion.Telling(v) {
		line := ""
		if t.Line > 0 { // else it came from a network
			line = fmt.Sprintf(":%d", t.Line)
		}
		say(wording.Mark("%s: the %s names a person or the place that is kept back, and is given as it is"), line, t.Kind)
	}
	if n := e.discretion.Hides(v); n > 0 {
		say(wording.Mark(": %d entries or fields of a newer program are left out, because they could hold a name or a place; "+
			"--with-people and --exact-places give them"), n)
	}
}

func (e *exporting) write(f exportFlags, k export.Knowledge, about export.Metadata) error {
	switch f.form {
	case asCSV:
		return e.app.newFolder(f.path, e.source.Files, func(create func(string) (io.WriteCloser, error)) error {
			return export.Tables(create, e.visits, k, f.discretion, about)
		})
	case asRows:
		return e.app.newFile(f.path, e.source.Files, func(w io.Writer) error { return export.Rows(w, e.visits, k, f.discretion) })
	case asSQL:
		return e.app.newFile(f.path, e.source.Files, func(w io.Writer) error { return export.SQL(w, e.visits, k, f.discretion, about) })
	}
	var spools []spool
	defer func() {
		for _, s := range spools {
			s.Close()
		}
	}()
	return e.app.newFile(f.path, e.source.Files, func(w io.Writer) error {
		return export.DarwinCoreArchive(w, e.visits, k, f.discretion, about, func() (export.Spool, error) {
			file, err := wholefile.Scratch(filepath.Dir(f.path))
			if err != nil {
				return nil, cannotWrite(f.path, err)
			}
			spools = append(spools, spool{file})
			return spool{file}, nil
		})
	})
}
