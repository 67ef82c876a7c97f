package main

import (
	"cmp"
	"crypto/sha256"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/chart"
	"rillkey/cmd/rillkey/paper"
	"rillkey/scoring"
	"rillkey/scoring/export"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

type reportFlags struct {
	history    []string
	reference  string
	cover      string
	discretion export.Discretion
}

func printReportCommand(a *app, d *delivery) *cobra.Command {
	var f reportFlags
	cmd := pageCommand(a, &cobra.Command{
		Use:   "report [FILE]",
		Short: "The report of a visit, for the group and the public",
		Long: `Writes the report of one visit: the grade with its doubts, or plainly why there
is none; charts of classes and kinds, what the answer means and what it does
not, how it was done, quality figures, every animal and index, and the sources.

Without a file it is the one visit of the present folder. Earlier visits to the
same site, named with --history, are drawn over time; those to other sites among
them are passed over. The site is set beside the reference that the visit names, or
that of --reference, by visits of --history, else of the folder of its file. --for
puts a first page in front, in the words of one reader; it says what the report says, and a
file of your own words is refused where it would leave the grade out or speak on
drinking or swimming. Names of people and the exact place of an obscured site
stay out unless you ask for them; notes of records are never printed, but what
was noted on the effort of samples is, so read it first.`,
		Example: "  rillkey print report 2026-05-16-tanyard-brook.visit.toml --for landowner --open\n" +
			"  rillkey print report 2026-05-16-tanyard-brook.visit.toml --open\n" +
			"  rillkey print report 2026-05-16-tanyard-brook.visit.toml --history visits --pdf report.pdf",
	}, d, func(args []string) (*paper.Page, error) {
		if err := oneFile(a, args); err != nil {
			return nil, err
		}
		return reportPage(a, f)
	})
	deliver := cmd.RunE
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		if err := deliver(cmd, args); err != nil {
			return err
		}
		return a.damage
	}
	flags := cmd.Flags()
	flags.StringArrayVar(&f.history, "history", nil, "a `FILE or DIR` with other visits to the site, to show it over time; may be repeated")
	flags.StringVar(&f.reference, "reference", "", "compare with `SITE`, not with the one that the visit names")
	flags.StringVar(&f.cover, "for", "",
		"put a first page in front, in words for a `READER`: %s, or a file of your own")
	nameInHelp(flags, "for", paper.CoverNames())
	flags.BoolVar(&f.discretion.People, "with-people", false, "give the names of people, not only how many")
	flags.BoolVar(&f.discretion.Places, "exact-places", false, "give the name and exact place of an obscured site too")
	return cmd
}

// oneFile takes the visit's file from args, if it is there.
func oneFile(a *app, args []string) error {
	if len(args) > 1 {
		return misused("a report is of one visit; name others of the site with --history")
	}
	one, err := oneVisit(a, args)
	if err == nil && !one {
		return misused("%s is a folder; name one visit's file, and the folder with --history", plain.Printable(args[0]))
	}
	return err
}

// reportPage makes the page of the visit meant.
func reportPage(a *app, f reportFlags) (*paper.Page, error) {
	v, err := a.readQuietly()
	if err != nil {
		return nil, err
	}
	a.follow(v)
	catalog, rules, err := a.catalogAndRules()
	if err != nil {
		return nil, err
	}
	series.ObscuredBeside([]string{v.File}).Obscure(v)
	given := discreet(f.discretion, v)
	a.tellDamage(given, v.File)
	r := paper.VisitReport{Catalog: catalog, Rules: rules, People: f.discretion.People, Trouble: trouble(given)}
	if r.Cover, err = coverOf(f.cover); err != nil {
		return nil, err
	}
	if r.Sum, err = checksum(v.File); err != nil {
		return nil, err
	}
	w := scoring.GradeOptions{Today: a.now()}
	if w.Reference, err = addPast(a, &r, v, given, f); err != nil {
		return nil, err
	}
	for _, t := range f.discretion.Telling(v) {
		if t.Kind == "effort" { // the one text of this sort on the page
			a.complain(wording.Sprintf("rillkey: %s:%d: the effort names a person or the place that is kept back, and is printed as it is",
				plain.Printable(v.File), t.Line))
		}
	}
	r.Account = rules.Account(given)
	if r.Grade, err = rules.Grade(r.Account, w); err != nil {
		return nil, err
	}
	return r.Page(), nil
}

// coverOf is the first page for a reader, or of a file; nil where nobody asked.
func coverOf(reader string) (*paper.Cover, error) {
	if reader == "" {
		return nil, nil
	}
	if strings.HasSuffix(reader, ".toml") {
		dir, name := filepath.Split(reader)
		return paper.LoadCover(authored.DirFS(cmp.Or(dir, ".")), name, plain.Printable(reader))
	}
	c, err := paper.EmbeddedCover(reader)
	if err != nil {
		return nil, misused("%v", err)
	}
	return c, nil
}

// discreet is the visit as it may be given away. The name of an obscured site is
// often in the name of its file, which remarks would show.
func discreet(d export.Discretion, v *visit.Visit) *visit.Visit {
	out := d.Apply(v)
	if out.Header.Site == export.Withheld() && v.Header.Site != export.Withheld() {
		out.Header.Site, out.File = wording.Text("a stream whose place is withheld"), wording.Text("the file")
	}
	return out
}

// trouble is what was wrong with a visit's file, by its lines.
func trouble(v *visit.Visit) (out []string) {
	for _, n := range append(v.Notices, v.Tally().Notices...) {
		out = append(out, wording.Sprintf("line %d: %s", n.Line, n.Text))
	}
	return out
}

func checksum(file string) (string, error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return "", wording.Errorf("%s: it cannot be read a second time: %w", file, err)
	}
	return wording.Sprintf("SHA-256 of its file: %x.", sha256.Sum256(data)), nil
}

// addPast enters the visits to the same site into a report, and gives how it stands
// beside the reference, where one is named: among those visits, else in the folder of
// its file.
func addPast(a *app, r *paper.VisitReport, v, given *visit.Visit, f reportFlags) (beside *scoring.Reference, err error) {
	if len(f.history) == 0 {
		beside, err = besideReference(a, r.Rules, v, f.reference)
	} else {
		beside, err = addHistory(a, r, v, given, f)
	}
	if err != nil || beside == nil {
		return nil, err
	}
	hideReference(beside, f)
	r.Comparison = beside.Words
	return beside, nil
}

// hideReference takes the name of an obscured reference out of what is said of it.
func hideReference(r *scoring.Reference, f reportFlags) {
	files, _ := visitFiles(f.history) // read without complaint before
	if f.discretion.Places || series.ObscuredBeside(append(files, namesHere()...))[plain.Fold(r.Site)] == "" {
		return
	}
	hidden := wording.Text("a site whose place is withheld")
	r.Site, r.Words = hidden, strings.ReplaceAll(r.Words, r.Site, hidden)
}

// addHistory enters the visits of --history. The visit itself is among them as it is given
// away, with its place and the reference that it names, so that it is not replayed again.
func addHistory(a *app, r *paper.VisitReport, v, given *visit.Visit, f reportFlags) (*scoring.Reference, error) {
	named, err := visitFiles(f.history)
	if err != nil {
		return nil, err
	}
	this, err := os.Stat(v.File)
	if err != nil {
		return nil, err
	}
	a.sources = append(a.sources, named...)
	files := []string{v.File}
	for _, file := range named {
		if info, err := os.Stat(file); err != nil || !os.SameFile(info, this) {
			files = append(files, file)
		}
	}
	open := func(file string) (*visit.Visit, error) {
		if file == v.File {
			return visit.WithReference(given.Placed(v.Header.Site, v.Header.Spot), v.Header.Reference), nil
		}
		return readSteady(file)
	}
	table := series.GradeVisits(r.Rules, series.FileSource{Files: files, Open: open}, series.Options{
		Today: a.now(), Workers: runtime.GOMAXPROCS(0), Seed: seed, Reference: f.reference,
	})
	for _, p := range table.Problems {
		if !strings.HasPrefix(p, plain.Printable(v.File)+":") { // told already
			a.complain("rillkey: " + plain.Printable(p))
		}
	}
	if place, rows := table.PlaceOf(v.File); place != nil {
		c := chart.History(rows, r.Rules.Scheme(place.Scheme), v.Header.ID)
		r.History, r.Trend, r.Changed = &c, place.Words, place.ChangedBy(v.Header.Date)
	}
	return table.ReferenceOf(v.File), nil
}
