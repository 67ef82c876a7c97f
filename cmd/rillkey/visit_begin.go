package main

import (
	"cmp"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/scheme"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/scoring/wholefile"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

type beginFlags struct {
	site, date, people, protocol     string
	cautionsRead                     bool
	position, uncertainty, reference string
	obscured                         bool
}

func beginCommand(a *app) *cobra.Command {
	var f beginFlags
	cmd := &cobra.Command{
		Use:   "begin",
		Short: "Begin a visit: region, site, date, people, protocol",
		Long: `Shows the cautions, asks that they were read, and begins a visit in a new file.
The visit keeps its region: names, tolerance classes and protocols are those used
there. The protocol says how many samples a grade needs. A file that exists is never
overwritten.

With --reference the site is compared with another, upstream or of the same kind and
in good state: the visit keeps that, and so do later visits to the site begun in the
same folder. No grade has a word then without a visit there to stand beside it.`,
		Example: `  rillkey visit begin
  rillkey visit begin --site "Mill Brook" --protocol riffle-three --cautions-read
  rillkey visit begin --site "Below the Works" --reference "Upper Ford"
  rillkey visit begin --region north-west-europe`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return beginVisit(a, f, func(name string) bool { return cmd.Flags().Changed(name) })
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&f.site, "site", "", "the place, in your own words, `NAME`")
	flags.StringVar(&f.date, "date", "", "the `DAY`, as 2026-05-16 (else today)")
	flags.StringVar(&f.people, "people", "", "who takes part, `NAMES` with commas")
	flags.StringVar(&f.protocol, "protocol", "", "`ID` of the protocol followed")
	flags.StringVar(&f.position, "at", "", "where it is, `LATITUDE,LONGITUDE` in decimal degrees (WGS 84), as 44.12,-72.98")
	flags.StringVar(&f.uncertainty, "within", "", "how far off that may be, `METRES`")
	flags.StringVar(&f.reference, "reference", "", "the `SITE` that you compare this one with (else that of the last visit to it here)")
	flags.BoolVar(&f.obscured, "obscured", false, "do not give the exact place to others: a species there is sensitive")
	flags.BoolVar(&f.cautionsRead, "cautions-read", false, "the cautions were read to everybody")
	return cmd
}

func beginVisit(a *app, f beginFlags, given func(string) bool) error {
	catalog, err := a.wholeCatalog()
	if err != nil {
		return err
	}
	rules, err := a.rules(catalog)
	if err != nil {
		return err
	}
	if err := roomFor(a, f); err != nil {
		return err
	}
	region, err := a.beginRegion(catalog, f)
	if err != nil {
		return err
	}
	catalog = catalog.InRegion(region)
	if err := readCautions(a, f.cautionsRead, region); err != nil {
		return err
	}
	if err := a.fill(beginSettings(a, &f, rules.Followed(catalog), given)); err != nil {
		return err
	}
	if err := a.askObscured(&f, given); err != nil {
		return err
	}
	spot, err := spotAt(f.position, f.uncertainty)
	if err != nil {
		return err
	}
	reference, err := referenceFor(f, given("reference"))
	if err != nil {
		return err
	}
	before := series.FindObscured(namesHere()).FileOf(f.site)
	f.obscured = f.obscured || before != ""
	path := a.visitFile
	if path == "" {
		path = visit.FileName(f.date, f.site, f.obscured)
	}
	if err := inFolder(path); err != nil {
		return err
	}
	header := visit.Header{Site: f.site, Date: f.date, People: plain.SplitNames(f.people), Protocol: f.protocol, CautionsRead: true,
		Begun: a.now(), Spot: spot, Obscured: f.obscured, Reference: reference}
	if region != nil {
		header.Region = region.ID
	}
	if header.Edition, err = a.edition(region); err != nil {
		return err
	}
	if header, err = createVisit(a, path, header); err != nil {
		return err
	}
	return tellBegun(a, catalog, path, before, header)
}

// createVisit makes the file of a visit, and says so where it takes over what a killed
// program left.
func createVisit(a *app, path string, header visit.Header) (visit.Header, error) {
	left := wholefile.LeftEmpty(path)
	header, err := visit.Create(path, header, a.random)
	if err == nil && left {
		a.complain(wording.Sprintf("rillkey: %s was there and empty, left by a program that was killed; the visit is written into it",
			plain.Printable(path)))
	}
	return header, err
}

// tellBegun says where the new visit is, what else speaks of its place, and what comes
// next.
func tellBegun(a *app, catalog *taxa.Catalog, path, before string, header visit.Header) error {
	a.kept(path)
	if a.json {
		return show.JSON(a.stdout, show.NewTally(catalog, &visit.Visit{File: path, Header: header}))
	}
	a.plainly("Saved: the visit is begun in %s.", path)
	if header.Date > a.now().Format(time.DateOnly) {
		a.plainly("That day, %s, is still to come. If it was today: rillkey visit amend --date %s%s", header.Date,
			a.now().Format(time.DateOnly), naming(path))
	}
	if before != "" {
		a.plainly("The place counts as obscured, as it does in %s.", before)
	}
	if header.Reference != "" {
		a.plainly("It is compared with %s; a grade has no word without a visit there in the same fortnight.", header.Reference)
	}
	a.plainly("Next, weather and water: rillkey visit conditions%s", naming(path))
	a.plainly("Then each sample: rillkey visit sample%s", naming(path))
	a.plainly("Then the animals: rillkey identify%s", naming(path))
	if filepath.Dir(path) != "." || !strings.HasSuffix(path, visit.Suffix) {
		a.plainly("This file is not found by itself; say --visit %s each time.", plain.ShellWord(path))
	}
	return nil
}

// roomFor looks, before anything is asked, whether a new file can be written where
// the visit's will be.
func roomFor(a *app, f beginFlags) error {
	if f.date != "" {
		if err := realDate(f.date); err != nil { // it is in the name of the file
			return misused("--date: %w", err)
		}
	}
	path := a.visitFile
	if path == "" {
		path = visit.FileName(cmp.Or(f.date, a.now().Format(time.DateOnly)), cmp.Or(f.site, "new"), f.obscured)
	}
	if err := inFolder(path); err != nil {
		return err
	}
	return visit.Creatable(path)
}

func beginSettings(a *app, f *beginFlags, all []*scheme.Protocol, given func(string) bool) []setting {
	var protocols []ask.Option
	for _, p := range all {
		protocols = append(protocols, ask.Option{Value: p.ID, Label: p.Title})
	}
	return []setting{
		{ask.Field{Key: "site", Title: wording.Text("Which place?"),
			Help: wording.Text("The stream and the spot, as your group calls it.")}, &f.site, given("site")},
		{ask.Field{Key: "date", Title: wording.Text("Which day?"), Help: wording.Text("As year-month-day."),
			Default: a.now().Format(time.DateOnly),
			Check:   realDate}, &f.date, given("date")},
		{ask.Field{Key: "people", Title: wording.Text("Who takes part?"),
			Help:     wording.Text("Names with commas between them; may stay empty."),
			Optional: true}, &f.people, given("people")},
		{ask.Field{Key: "protocol", Title: wording.Text("By which protocol?"),
			Help:    wording.Text("It says how many samples a grade needs."),
			Options: protocols}, &f.protocol, given("protocol")},
		{ask.Field{Key: "at", Title: wording.Text("Where is it on the map?"),
			Help:     wording.Text("Latitude and longitude in decimal degrees (WGS 84), as 44.12,-72.98; may stay empty."),
			Optional: true, Check: isPlace}, &f.position, given("at")},
	}
}

// beginRegion is the region of a new visit: that of --region, the one that follows
// the protocol given, else the one people choose; nil where there is none.
func (a *app) beginRegion(catalog *taxa.Catalog, f beginFlags) (*taxa.Region, error) {
	if r, err := a.regionMeant(catalog); r != nil || err != nil {
		return r, err
	}
	all := catalog.Regions()
	switch {
	case f.protocol != "":
		return taxa.OnlyRegion(catalog.Regions(), f.protocol), nil
	case len(all) == 0:
		return nil, nil
	case len(all) == 1:
		return all[0], nil
	}
	var options []ask.Option
	for _, r := range all {
		options = append(options, ask.Option{Value: r.ID, Label: regionTitle(r)})
	}
	id := ""
	err := a.fill([]setting{{ask.Field{Key: "region", Title: wording.Text("In which region?"),
		Help:    wording.Text("Names, classes and protocols are those used there."),
		Options: options}, &id, false}})
	return catalog.RegionNamed(id), err
}

// readCautions shows the cautions and wants to hear that they were read.
func readCautions(a *app, read bool, region *taxa.Region) error {
	if read {
		return nil
	}
	if a.json {
		if err := show.CautionList(a.stderr, a.width, region); err != nil {
			return err
		}
		return misused("the cautions above must be read to everybody; then say --cautions-read")
	}
	answers, err := a.ask(
		ask.Field{Key: "cautions", Title: show.CautionTitle(), Text: show.NumberedCautions(region)},
		ask.Field{Key: "read", Title: wording.Text("Were these read to everybody?"), Confirm: true})
	if err != nil {
		return err
	}
	if !answers.Yes("read") {
		return fault{statusCannotSay, wording.NewError("no visit was begun; read the cautions to everybody first")}
	}
	return nil
}

func realDate(s string) error {
	if _, err := time.Parse(time.DateOnly, s); err != nil {
		return wording.Errorf("%q is no day of the calendar; write it as 2026-05-16", s)
	}
	return nil
}
