package main

import (
	"errors"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/draft"
	"rillkey/key/flow"
	"rillkey/scoring/wholefile"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// draftFlags are the flags of one draft.
type draftFlags struct {
	csv, keep     string
	file, taxaOut string
	sheet         string
	write         bool
	mistake       float64
	leads         int
}

// targets are the files that may be written. A catalog that stands without its key may
// be what a killed program left, and is looked at once it is known what it should hold.
func (f *draftFlags) targets() (names []string) {
	if f.file != "" {
		return []string{f.file}
	}
	if f.taxaOut != "" && f.csv != "" {
		names = append(names, filepath.Join(f.taxaOut, "traits.toml"), filepath.Join(f.taxaOut, "taxa.toml"))
	}
	return names
}

// terms are what a draft is measured by, as people look.
func (f *draftFlags) terms(looking flow.Observer) draft.Terms {
	return draft.Terms{Mistake: f.mistake, Option: looking.Option, Leads: f.leads}
}

func draftCommand(a *app) *cobra.Command {
	var flags draftFlags
	cmd := &cobra.Command{
		Use:   "draft",
		Short: "Draft a key from the trait table, to be put into your words",
		Long: `Drafts a key of the end points of a key (the built-in one, or that
of --key), or of a spreadsheet (CSV, .xlsx or .ods): one row a taxon, one column a
trait, several states with "|" between them, "?" for unknown. "(lens)" or "(patience)"
behind a trait's name says how it is looked at. Columns called scientific name, rank,
group, class, length (mm), commonness, source, notes and wording (what a lead says
that ends there) are no traits; a row called wording holds what is asked of each, one
called misread how often beginners get it wrong (0.1 for one in ten, as without it).
In a region in another language these words are that language's. --sheet gives such a
table of any key. Cells that are dates, half unknown, or several states in one (2 or
3) are refused with their line; states that stand only once in their column are listed
before the draft.

The draft asks as little as possible of beginners and is as rarely misread as it
can be. Couplets have three or four leads where that costs less than two questions;
with --leads 2 every couplet has two. The draft is printed, or written to --out; a file
that is there is only replaced with --write. What was written by hand into a drafted key
or its animals then stays: words, remarks, the order of couplets and leads, and numbers;
what the table says follows the table. With --keep the few branches of a key are drafted anew that gain
most for the couplets to be worded again; everything else in it stays as it is.`,
		Example: `  rillkey couplets draft --region brook.toml --out mine.toml
  rillkey couplets draft --csv animals.xlsx --out mine.toml --taxa-out mytaxa
  rillkey couplets draft --key north-west-europe --sheet animals.xlsx
  rillkey couplets draft --keep mine.toml --out better.toml`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return draftKey(a, flags) },
	}
	f := cmd.Flags()
	f.StringVar(&flags.csv, "csv", "", "a spreadsheet `FILE` (CSV, .xlsx or .ods) instead of the catalog")
	f.StringVar(&flags.keep, "keep", "", "better this key `FILE` with few changes instead of starting over")
	f.StringVar(&flags.file, "out", "", "the `FILE` for the key, else it is printed")
	f.StringVar(&flags.taxaOut, "taxa-out", "", "with --csv: the `DIR` for the catalog that the key needs")
	f.StringVar(&flags.sheet, "sheet", "", "draft nothing: write the table of the key's animals to this new `FILE` (.xlsx or .csv)")
	f.BoolVar(&flags.write, "write", false, "replace files that are there")
	f.IntVar(&flags.leads, "leads", draft.MaxLeads, "the most leads of a couplet, `N` from 2 to 4")
	f.Float64Var(&flags.mistake, "mistake", draft.UsualMistake, "what a wrong name costs, `LOOKS` with the naked eye")
	return cmd
}

func draftKey(a *app, flags draftFlags) error {
	if !(flags.mistake >= 0 && flags.mistake <= draft.MaxMistake) {
		return misused("--mistake is a number from 0 to 1000000")
	}
	if flags.leads < 2 || flags.leads > draft.MaxLeads {
		return misused("--leads is a number from 2 to %d", draft.MaxLeads)
	}
	if flags.csv != "" && a.regionName != "" {
		return misused("--csv and --region do not go together: leave rows out of the spreadsheet instead")
	}
	if flags.keep != "" {
		return improveKey(a, flags)
	}
	if flags.sheet != "" {
		return giveSheet(a, flags)
	}
	for _, name := range flags.targets() {
		if err := mayReplace(name, flags.write); err != nil {
			return err
		}
	}
	callOff := a.writesNothing()
	defer callOff()
	plan, err := planDraft(a, flags)
	if err != nil {
		return err
	}
	watched := a.progress("drafting", 0)
	d, err := draft.New(plan.table, flags.terms(plan.looking))
	callOff()
	watched.Done()
	if err != nil {
		return err
	}
	return deliverDraft(a, plan, d, flags)
}

// planDraft is what a draft is made from.
type plan struct {
	table   *draft.TraitTable
	head    draft.Head
	catalog *taxa.Catalog // nil for a sheet too large for one
	looking flow.Observer
	files   map[string][]byte // of the catalog, for a sheet
	author  *couplets.Sound   // the key whose end points are drafted
	again   map[string]bool   // names of files that hold what was written into them by hand
}

func planDraft(a *app, flags draftFlags) (*plan, error) {
	if flags.csv != "" {
		return planSheet(a, flags)
	}
	catalog, err := a.wholeCatalog()
	if err != nil {
		return nil, err
	}
	region, err := a.regionMeant(catalog)
	if err != nil {
		return nil, err
	}
	sound, err := a.couplets(a.keyFile, catalog)
	if err != nil {
		return nil, err
	}
	looking := key.Looking(catalog.Vocabulary())
	p := &plan{catalog: catalog, looking: looking, author: sound}
	p.head = draft.Head{ID: "drafted", Title: wording.Text("Draft of: ") + sound.Title, Region: sound.Region,
		Source: wording.Text("drafted by rillkey from the trait table; wording to be edited"), Catalog: catalog,
		Commonness: sound.Commonness, LensSets: sound.LensSets}
	if region != nil {
		p.head.Title, p.head.Region, p.author = wording.Text("Draft for: ")+region.Title, region.Title, nil
	}
	costs := draft.Costs{Effort: looking.Effort, Readings: looking.Readings}
	p.table, err = draft.FromCatalog(catalog, draft.RowsOf(sound, region, catalog), costs, nil)
	return p, err
}

func planSheet(a *app, flags draftFlags) (*plan, error) {
	dir, name := splitPath(flags.csv)
	data, err := authored.ReadUpTo(draft.LargestSheet, authored.DirFS(dir), name, flags.csv)
	if err != nil {
		return nil, fileError(flags.csv, err)
	}
	var report authored.Report
	sheet := draft.ReadSheet(flags.csv, data, &report)
	if sheet == nil {
		return nil, report.Findings()
	}
	for _, f := range sheet.Remarks {
		a.complain(show.Warning(f))
	}
	looking := key.Looking(&taxa.Vocabulary{})
	looking.Readings = draft.EvenReadings
	p := &plan{looking: looking, head: draft.Head{
		ID: "drafted", Title: wording.Sprintf("Draft of %s", plain.Printable(filepath.Base(flags.csv))),
		Source: wording.Text("drafted by rillkey from a spreadsheet; wording to be edited"), Commonness: sheet.Commonness(),
		Asks: sheet.Asks, Ends: sheet.Wording()}, files: sheetFiles(sheet, flags.taxaOut)}
	if flags.write {
		if err := catalogAgain(p, sheet, flags.taxaOut); err != nil {
			return nil, err
		}
	}
	for name, text := range p.files {
		p.files[name] = draft.Seal(text)
	}
	p.table, err = sheet.Table(draft.Costs{Effort: looking.Effort, Readings: looking.Readings})
	return p, err
}

// sheetFiles are the files of a sheet's catalog, as they go into a folder.
func sheetFiles(sheet *draft.Spreadsheet, dir string) map[string][]byte {
	if dir == "" {
		return sheet.Catalog()
	}
	there, _ := os.ReadDir(dir) // what is wrong with it is said when it is written into
	var names []string
	for _, f := range there {
		names = append(names, f.Name())
	}
	return sheet.CatalogOver(names)
}

// deliverDraft writes the key where it belongs, and says how good it is.
func deliverDraft(a *app, p *plan, d *draft.Draft, flags draftFlags) error {
	text, kept, err := keyAgain(p, d, flags)
	if err != nil {
		return err
	}
	report := show.Drafted{Kept: kept, Taxa: len(p.table.Taxa), Exact: d.Exact, MeanPath: d.MeanPath(), Cost: d.Cost,
		Inseparable: d.Inseparable(),
		File:        flags.file, Sheet: flags.csv != "", TaxaDir: flags.taxaOut}
	if report.Inseparable == nil {
		report.Inseparable = []draft.Inseparable{}
	}
	if p.catalog != nil {
		mine, err := couplets.LoadText(text, "the draft", p.catalog)
		if err != nil {
			return err
		}
		report.Draft = figures(mine, p)
		if p.author != nil {
			report.Author = figures(p.author, p)
		}
	}
	if err := writeDraft(a, text, p, flags); err != nil {
		return err
	}
	if a.json {
		report.Key = string(text)
		return show.JSON(a.stdout, report)
	}
	out := a.stdout
	if flags.file == "" {
		if _, err := a.stdout.Write(text); err != nil {
			return err
		}
		out = a.stderr
	}
	return report.Text(out, a.width)
}

// writeDraft writes all files, or, where one of them is there already, none.
func writeDraft(a *app, text []byte, p *plan, flags draftFlags) error {
	if flags.taxaOut != "" && p.files == nil {
		return misused("--taxa-out goes with --csv: this key uses the catalog there is")
	}
	files := map[string][]byte{}
	_, err := os.Lstat(flags.taxaOut)
	whole := flags.taxaOut != "" && errors.Is(err, fs.ErrNotExist)
	if flags.taxaOut != "" && !whole {
		for name, data := range p.files { // of a draft that was killed before its key was written they stay
			if name = filepath.Join(flags.taxaOut, name); flags.write || !holds(name, data) {
				files[name] = data
			}
		}
	}
	if flags.file != "" {
		files[flags.file] = text
	}
	names := slices.Sorted(maps.Keys(files))
	for _, name := range names {
		if err := mayReplace(name, flags.write); err != nil {
			return err
		}
		if p.again[name] {
			continue
		}
		if err := mayBeLost(name, files[name]); err != nil {
			return err
		}
	}
	if whole {
		if err := newCatalog(a, flags.taxaOut, []string{flags.csv}, p.files); err != nil {
			return err
		}
	}
	for _, name := range names {
		if err := replaceFile(a, name, []string{flags.csv}, files[name], flags.write); err != nil {
			return err
		}
	}
	return nil
}

// newCatalog makes a folder of a catalog's files, and those that it lies in.
func newCatalog(a *app, dir string, from []string, files map[string][]byte) error {
	if err := os.MkdirAll(filepath.Dir(filepath.Clean(dir)), 0o777); err != nil {
		return err
	}
	return a.newFolder(filepath.Clean(dir), from, func(create func(string) (io.WriteCloser, error)) error {
		for _, name := range slices.Sorted(maps.Keys(files)) {
			f, err := create(name)
			if err != nil {
				return err
			}
			_, err = f.Write(files[name])
			if err = errors.Join(err, f.Close()); err != nil {
				return err
			}
		}
		return nil
	})
}

// mostLost are the lines that are named when a file is not replaced.
const mostLost = 5

// mayBeLost refuses to put a drafted text in the place of a file that somebody has
// edited, and says what would be lost.
func mayBeLost(name string, drafted []byte) error {
	if info, err := os.Stat(name); err != nil || !info.Mode().IsRegular() {
		return nil // replacing it says what is wrong
	}
	old, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	lost := draft.ByHand(old, drafted)
	if len(lost) == 0 {
		return nil
	}
	words := wording.Sprintf("%s was edited by hand and is not replaced: %d of its lines would be lost. Write the draft to "+
		"another name, and move over what you want", plain.Quote(name), len(lost))
	for _, l := range lost[:min(mostLost, len(lost))] {
		words += wording.Sprintf("\n  line %d: %s", l.Number, l.Text)
	}
	if more := len(lost) - mostLost; more > 0 {
		words += wording.Sprintf("\n  and %d more", more)
	}
	return errors.New(words)
}

// figures measures a key.
func figures(s *couplets.Sound, p *plan) *show.KeyFigures {
	f := flow.Follow(s, p.catalog, s.Weights(), p.looking)
	return &show.KeyFigures{Couplets: len(s.Couplets), Questions: f.Questions, Effort: f.Effort, Lost: f.Lost}
}

// replaceFile writes a file whole or not at all. One that is there is left alone
// unless over is true.
func replaceFile(a *app, name string, from []string, data []byte, over bool) error {
	if err := mayReplace(name, over); err != nil {
		return err
	}
	return a.replacement(name, from, data)
}

// mayReplace refuses a name that is there, unless over is true.
func mayReplace(name string, over bool) error {
	if wholefile.NameTaken(name) && !over {
		return wording.Errorf("%s is already there; choose another name, or replace it with --write", plain.Quote(name))
	}
	return nil
}
