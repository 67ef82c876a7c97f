package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/visit"
	"rillkey/scoring/wholefile"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

type mergeFlags struct {
	file, hold, samples, names, who string
	oneVisit, keep                  bool
}

// The words that decide for all at once.
const (
	holdLater   = "later"
	holdEarlier = "earlier"
	theSame     = "same"
	notTheSame  = "apart"
)

func mergeCommand(a *app) *cobra.Command {
	var f mergeFlags
	cmd := &cobra.Command{
		Use:   "merge FILE FILE…",
		Short: "Unite the files of one visit from several laptops",
		Long: `Unites the files of one visit by their entries, each once, in a new file, which
every command then finds. The files given are put away: ".merged" is added to
their names, and nothing in them is changed or deleted. In what order they are
given, and how often they are merged, makes no difference. Where corrections made
on two laptops contradict each other both are kept, and you are asked which one
holds.`,
		Example: `  rillkey visit merge ann.visit.toml bo.visit.toml --to both.visit.toml
  rillkey visit merge *.visit.toml --to both.visit.toml --hold later --samples same`,
		RunE: func(_ *cobra.Command, files []string) error { return mergeVisits(a, f, files) },
	}
	flags := cmd.Flags()
	flags.StringVar(&f.file, "to", "", "the new `FILE`; its name ends in .visit.toml, or is given that end")
	flags.StringVar(&f.hold, "hold", "", "which of contradicting corrections holds: later, earlier, or their `CODES` with commas")
	flags.StringVar(&f.samples, "samples", "", "samples recorded apart under one label are the `same` or apart")
	flags.StringVar(&f.names, "names", "", "people and labels written nearly alike are the `same` or apart")
	flags.StringVar(&f.who, "who", "", "`NAME` of the person who decides")
	flags.BoolVar(&f.oneVisit, "one-visit", false, "the files are of one visit although each was begun by itself")
	flags.BoolVar(&f.keep, "keep", false, "leave the files merged under their names")
	return cmd
}

// checkKeys looks at the flags, and gives the new file a name that is found.
func (f *mergeFlags) check(files []string) error {
	switch {
	case len(files) < 2:
		return misused("merging needs two files or more; name them all")
	case !slices.ContainsFunc(files[1:], func(file string) bool { return !sameFile(file, files[0]) }):
		return misused("%s is named more than once and alone; name the files of the other laptops too", files[0])
	case f.file == "":
		return misused("--to is missing; name the new file")
	}
	if err := inFolder(f.file); err != nil {
		return err
	}
	f.file = visit.NamedAsFile(f.file, "")
	for flag, value := range map[string]string{"samples": f.samples, "names": f.names} {
		if value != "" {
			if err := oneOf(flag, value, []string{theSame, notTheSame}); err != nil {
				return err
			}
		}
	}
	return refuseExisting(f.file)
}

// sameFile reports whether two names are of one file.
func sameFile(one, other string) bool {
	a, err := os.Stat(one)
	b, err2 := os.Stat(other)
	return err == nil && err2 == nil && os.SameFile(a, b)
}

// merging is one merge on its way.
type merging struct {
	*app
	f       mergeFlags
	catalog *taxa.Catalog
	visits  []*visit.Visit
	m       *visit.Visit
	said    []string
}

func mergeVisits(a *app, f mergeFlags, files []string) error {
	if err := f.check(files); err != nil {
		return err
	}
	catalog, err := a.catalog()
	if err != nil {
		return err
	}
	g := &merging{app: a, f: f, catalog: catalog}
	damaged := false
	for _, file := range files {
		v, err := visit.Read(file)
		if err != nil {
			return err
		}
		for _, n := range v.Notices {
			a.complain("rillkey: " + n.String())
			damaged = true
		}
		g.visits = append(g.visits, v)
	}
	clashes, err := g.unite()
	if err != nil {
		return err
	}
	for _, c := range clashes {
		if err := g.decide(c); err != nil {
			return err
		}
	}
	if err := g.sameNames(); err != nil {
		return err
	}
	if err := g.m.WriteNew(f.file, wholefile.ModeOf(files...)); err != nil {
		return err
	}
	g.kept(f.file)
	if err := g.report(); err != nil {
		return err
	}
	g.putAway()
	if damaged {
		return fault{status: statusBadData}
	}
	return nil
}

// unite merges, asking whether files that were begun apart are one visit where
// they look it.
func (g *merging) unite() (clashes []visit.Clash, err error) {
	g.m, clashes, err = visit.Unite(g.visits, g.f.oneVisit)
	if !errors.Is(err, visit.ErrOtherVisit) || !visit.LookLikeOne(g.visits) {
		return clashes, err
	}
	if g.json {
		return nil, misused("%w; if they are one visit, say --one-visit", err)
	}
	answers, askErr := g.ask(ask.Field{Key: "one", Title: wording.Text("Are these files of one visit?"),
		Help: wording.Sprintf("Each was begun by itself: %s and %s, on %s.", g.visits[0].Header.Site,
			g.visits[1].Header.Site, g.visits[0].Header.Date), Confirm: true})
	switch {
	case askErr != nil:
		return nil, unanswered(askErr, "--one-visit")
	case !answers.Yes("one"):
		return nil, err
	}
	g.m, clashes, err = visit.Unite(g.visits, true)
	return clashes, err
}

// unanswered names the flag that answers, for those who cannot be asked.
func unanswered(err error, flag string) error {
	if errors.Is(err, io.ErrUnexpectedEOF) {
		return misused("%w; where nobody can be asked, say %s", err, flag)
	}
	return err
}

func (g *merging) decide(c visit.Clash) error {
	if c.What == visit.ClashSamples {
		return g.decideSample(c)
	}
	holds, err := g.holder(c)
	if err != nil {
		return err
	}
	return g.m.Conclude(g.f.who, c.Settle(holds))
}

// holder is the code of the amendment that holds.
func (g *merging) holder(c visit.Clash) (string, error) {
	switch g.f.hold {
	case holdLater:
		return c.Latest(), nil
	case holdEarlier:
		return c.Earliest(), nil
	}
	var options []ask.Option
	for i, e := range c.Sides {
		if slices.Contains(plain.SplitList(g.f.hold), e.ID) {
			return e.ID, nil
		}
		options = append(options, ask.Option{Value: e.ID, Label: wording.Sprintf("%s [%s], by %s in %s",
			show.Correction(g.catalog, e.Body.(visit.Amendment)), e.ID, cmp.Or(e.Who, wording.Text("nobody named")), c.Files[i])})
	}
	if g.json || g.f.hold != "" {
		return "", misused("the corrections %s contradict each other; say which one holds with --hold later, --hold "+
			"earlier, or --hold and its code", strings.Join(c.Codes(), wording.Text(" and ")))
	}
	answers, err := g.ask(ask.Field{Key: "hold", Title: wording.Text("Two corrections contradict each other. Which one holds?"),
		Help: wording.Sprintf("They are about: %s", show.Entered(g.catalog, g.m, c.Entry)), Options: options})
	if err != nil {
		return "", unanswered(err, wording.Text("--hold later, --hold earlier, or --hold and a code"))
	}
	return answers["hold"], nil
}

func (g *merging) decideSample(c visit.Clash) error {
	same := g.f.samples == theSame
	label := c.Sides[0].Body.(visit.Sample).Label
	if g.f.samples == "" {
		if g.json {
			return misused("sample %s was recorded in several files; say --samples same if it is one sample, --samples apart "+
				"if they are several", label)
		}
		var sides []string
		for i, e := range c.Sides {
			sides = append(sides, fmt.Sprintf("%s (%s)", show.SampleWords(e.Body.(visit.Sample)), c.Files[i]))
		}
		answers, err := g.ask(ask.Field{Key: "same", Title: wording.Sprintf("Sample %s was recorded in several files. Is it one sample?",
			label), Help: strings.Join(sides, "; "), Confirm: true})
		if err != nil {
			return unanswered(err, wording.Text("--samples same or --samples apart"))
		}
		same = answers.Yes("same")
	}
	if same {
		return g.m.Conclude(g.f.who, visit.SameName{What: visit.NameSample, Name: label, Spelling: label})
	}
	for i, e := range c.Sides[1:] {
		from := slices.IndexFunc(g.visits, func(v *visit.Visit) bool { return v.File == c.Files[i+1] })
		others := slices.Delete(slices.Clone(g.visits), from, from+1)
		fresh := g.m.FreeLabel(label)
		if err := g.m.SampleApart(g.f.who, e, g.visits[from], others, fresh); err != nil {
			return err
		}
		g.said = append(g.said, wording.Sprintf("Sample %s of %s is now sample %s.", label, c.Files[i+1], fresh))
	}
	return nil
}

// sameNames settles which people and labels that are written nearly alike are the same.
// Where nobody can be asked they stay apart for now, and nothing is lost.
func (g *merging) sameNames() error {
	for _, kind := range []string{visit.NamePerson, visit.NameSample} {
		for _, pair := range g.m.NearlyAlike(kind) {
			same, decided, err := g.sameName(kind, pair)
			switch {
			case errors.Is(err, io.ErrUnexpectedEOF):
				return nil
			case err != nil:
				return err
			case !decided:
				continue
			case same:
				g.said = append(g.said, wording.Sprintf("%q and %q are one %s; %q holds.", pair.First, pair.Second, kind, pair.First))
			}
			if err := g.m.Conclude(g.f.who, pair.Means(kind, same)); err != nil {
				return err
			}
		}
	}
	return nil
}

// sameName is whether two names mean the same, by themselves, by --names or by whoever is
// asked; undecided with --json alone.
func (g *merging) sameName(kind string, pair visit.NamePair) (same, decided bool, err error) {
	switch {
	case pair.Same || g.f.names != "":
		return pair.Same || g.f.names == theSame, true, nil
	case g.json:
		return false, false, nil
	}
	answers, err := g.ask(ask.Field{Key: "same", Title: wording.Sprintf("Do %q and %q mean one %s?", pair.First, pair.Second, kind),
		Confirm: true})
	if err != nil {
		return false, false, err
	}
	return answers.Yes("same"), true, nil
}

func (g *merging) report() error {
	t := g.m.Tally()
	for _, n := range t.Notices {
		g.complain("rillkey: " + n.String())
	}
	if g.json {
		g.m.File = g.f.file
		return show.JSON(g.stdout, show.NewTally(g.catalog, g.m))
	}
	for _, s := range g.said {
		g.plainly("%s", s)
	}
	g.plainly("Saved: %d files are one in %s: %s, %s.", len(g.visits), g.f.file, plain.Count(len(t.Samples), "sample"),
		plain.CountOf(len(t.Records), "entry", "entries"))
	if filepath.Dir(g.f.file) != "." || !strings.HasSuffix(g.f.file, visit.Suffix) {
		g.plainly("This file is not found from here by itself; say --visit %s each time.", plain.ShellWord(g.f.file))
	}
	return nil
}

// putAway renames the files merged, so that nothing is added to them by mistake.
// The merged one is on the disk by then; a file that cannot be renamed is named.
func (g *merging) putAway() {
	if g.f.keep {
		for _, v := range g.visits {
			g.tellMissing(v, v.File)
		}
		g.plainly("The files merged are as they were; put them away, so that nothing is added to them by mistake.")
		return
	}
	var done []string
	for _, v := range g.visits {
		if slices.Contains(done, filepath.Clean(v.File)) {
			continue
		}
		done = append(done, filepath.Clean(v.File))
		to, err := visit.PutAway(v.File, g.m)
		if err != nil {
			g.complain(wording.Sprintf("rillkey: %v; it was merged but is still there: take it out of this folder, so that nothing "+
				"is added to it by mistake", err))
			continue
		}
		g.plainly("Put away: %s is now %s.", v.File, to)
		g.tellMissing(v, to)
	}
	g.plainly("No command finds what was put away. To take a file back, give it its old name again.")
}

// tellMissing says that what is damaged in a file merged, which now is called so, is not
// in the new one.
func (g *merging) tellMissing(v *visit.Visit, now string) {
	if n := v.Lost(); n > 0 {
		g.complain("rillkey: " + wording.Sprintf("what is damaged in %s, %s, is not in the new file; it may be brought back by: "+
			"rillkey visit salvage %s", plain.Printable(now), plain.CountOf(n, "entry", "entries"), plain.ShellFiles(now)))
	}
}
