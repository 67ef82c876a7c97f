package main

import (
	crand "crypto/rand"
	"encoding/binary"
	"errors"
	"math/rand/v2"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/lesson"
	"rillkey/cmd/rillkey/paper"
	"rillkey/key"
	"rillkey/key/practice"
	"rillkey/scoring/visit"
	"rillkey/scoring/wholefile"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// practiceSuffix ends the name of a person's file.
const practiceSuffix = ".practice.toml"

// practiceFlags are what can be said of a sitting.
type practiceFlags struct {
	person  string
	folder  string
	animals int
	seed    uint64
	words   bool
	withKey bool
	drawn   string
	kinds   []string
	site    string
}

func practiceCommand(a *app) *cobra.Command {
	var f practiceFlags
	cmd := &cobra.Command{
		Use:   "practice",
		Short: "Learn to tell kinds apart before the first stream: ten minutes a day",
		Long: `Shows animals of the region one by one, as common as they are, some of them young or
hurt. Say what each is if you know it on sight, or walk with the key as you will by
the stream. After a mistake you see which answer was misread, beside what it should
have looked like, and the one feature that tells the two kinds apart. What comes
next is what takes most error from your own tallies to come. Ten minutes are a
sitting. If there are visits in this folder from this time of year, animals are as
common as in them.

On a terminal animals are drawings. Line by line, with --plain or without a
terminal, they are described in words of everyday; --drawn FILE draws them in a
page to keep open beside it, with the region's own photographs where it has some.

What you practised is kept in a file of your name in this folder, that only you
may read, and goes nowhere. A first name or a made-up one will do. 'rillkey practice
forget NAME' deletes it.`,
		Example: `  rillkey practice --as Robin
  rillkey practice tray ours.tray.toml --as Robin
  rillkey practice result --as Robin
  rillkey practice forget Robin`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return practise(a, f, nil, "") },
	}
	if a.meant("practice") {
		f.register(cmd.Flags(), cmd.PersistentFlags())
		cmd.AddCommand(practiceTrayCommand(a, &f), practiceTestCommand(a, &f), practiceResultCommand(a, &f), practiceRatesCommand(a, &f),
			practiceGroupCommand(a), practiceForgetCommand(a, &f))
	}
	return cmd
}

func (f *practiceFlags) register(own, all *pflag.FlagSet) {
	all.StringVar(&f.person, "as", "", wording.Text("who practises: a first `NAME` or a made-up one"))
	all.StringVar(&f.folder, "folder", ".", wording.Text("the `DIR` with people's files"))
	f.sitting(own)
}

// sitting registers what only sittings have.
func (f *practiceFlags) sitting(flags *pflag.FlagSet) {
	flags.IntVar(&f.animals, "animals", 0, "end after `N` animals, not after ten minutes")
	flags.BoolVar(&f.words, "words", false, "animals described in words, on a screen too")
	flags.StringVar(&f.drawn, "drawn", "", "line by line: drawings, each in its turn in the page `FILE`, in the place of words")
	flags.StringVar(&f.site, "site", "", "animals as common as at the site `NAME` at this time of year, by the visits in this folder")
	flags.StringArrayVar(&f.kinds, "like", nil,
		"animals as common as in the visit's `FILE`, not as in this folder's of the season; may be repeated")
	flags.Uint64Var(&f.seed, "seed", 0, "the same animals for the same `N` and the same answers")
}

func practiceTrayCommand(a *app, f *practiceFlags) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "tray FILE",
		Short: "Practise on real specimens in numbered cups, named by a trainer",
		Long: `FILE is the trainer's list of cups, which those who practise do not open:

  [cup.1]
  taxon = "perlidae"
  note = "one tail is broken"

taxon is any name that 'rillkey taxa' finds. The program says which cup to take next
and tells the name after your own. What is read off real animals is kept apart
from what is read off drawings.`,
		Example: "  rillkey practice tray ours.tray.toml --as Robin",
		Args:    justOneFile,
		RunE:    func(_ *cobra.Command, args []string) error { return practise(a, *f, args, "") },
	}
	f.sitting(cmd.Flags())
	return cmd
}

func practiceTestCommand(a *app, f *practiceFlags) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "test",
		Short: "Name animals as common as by the stream, and be told nothing but how many were right",
		Long: `A test on sight asks for the name of each animal, and the key is put away. With
--with-key each animal is named by the key's questions alone. Knowing on sight and
keying are two things: 'practice result' tells each test apart, by its number and
day. Nothing is told of single animals, nor of a test before it is finished. Names
are taken as they are typed, right or wrong, those of animals that are not played
among them; one that means several kinds may stand and is counted as that.`,
		Example: `  rillkey practice test --as Robin
  rillkey practice test --as Robin --with-key --animals 15`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return practise(a, *f, nil, f.testKind()) },
	}
	f.sitting(cmd.Flags())
	cmd.Flags().BoolVar(&f.withKey, "with-key", false, "each animal by the key's questions, none on sight")
	return cmd
}

// testKind is the kind of test that was asked for.
func (f *practiceFlags) testKind() practice.TestKind {
	if f.withKey {
		return practice.WithKey
	}
	return practice.OnSight
}

// justOneFile refuses anything but one word.
func justOneFile(cmd *cobra.Command, args []string) error {
	if len(args) != 1 {
		return misused("%s takes the name of one file; see '%s --help'", cmd.CommandPath(), cmd.CommandPath())
	}
	return nil
}

// practise leads one sitting: of a trainer's tray where one is named.
func practise(a *app, f practiceFlags, tray []string, test practice.TestKind) error {
	if a.json {
		return misused("people practise, not scripts; leave --json out")
	}
	if f.animals < 0 || f.animals > practice.MostMeetings {
		return misused("--animals is a number from 1 to %d", practice.MostMeetings)
	}
	if f.site != "" && len(f.kinds) > 0 {
		return misused("--site and --like both say which visits; leave one out")
	}
	visits, about, err := a.takenAfter(f)
	if err != nil {
		return err
	}
	m, course, err := a.course(visits)
	if err != nil {
		return err
	}
	if practice.Common(m.Key(), visit.AnimalsByTaxon(visits)) == nil {
		switch {
		case len(f.kinds) > 0:
			return wording.NewError("the visits named with --like hold no animal that was named to a kind of this key")
		case f.site != "":
			return wording.Errorf("the visits to %s at this time of year hold no animal of this key; leave --site out", plain.Quote(f.site))
		}
		about = ""
	}
	o := lesson.Options{Opening: about, Photos: f.drawn != "", Model: m, Course: course, Clock: a.now, Length: lesson.Sitting,
		Animals: f.animals, Test: test,
		Source: practice.DrawingSource, Atlas: func() *figure.Atlas { return a.keyAtlas(m.Key()) }}
	if f.words || !a.onScreen() && f.drawn == "" {
		o.Source = practice.WordsSource
	}
	if f.drawn != "" {
		if err := refuseDrawn(a, f); err != nil {
			return err
		}
	}
	if len(tray) > 0 {
		o.Source = practice.TraySource
		if o.Cups, err = readTray(tray[0], course); err != nil {
			return err
		}
	}
	if o.Random, err = a.chance(f.seed); err != nil {
		return err
	}
	who, err := a.practiser(f)
	if err != nil {
		return err
	}
	o.Record, o.Keep = who.record, who.keep
	return a.sit(lesson.New(o), f.drawn)
}

// refuseDrawn refuses a page for drawings where there is no use for one, or its name is
// taken.
func refuseDrawn(a *app, f practiceFlags) error {
	if f.words || a.onScreen() {
		return misused("--drawn is for drawings line by line, with --plain or without a terminal; a screen has them beside its words")
	}
	if err := refuseExisting(f.drawn); err != nil {
		return wording.Errorf("%s exists already and is left alone; choose another name for the drawings", plain.Printable(f.drawn))
	}
	return nil
}

// drawingsIn keeps the drawings of the page at hand in a page of their own.
func (d *disk) drawingsIn(path string) func([]lesson.Picture) error {
	if path == "" {
		return nil
	}
	write := wholefile.New // of the first page; it is the sitting's own from then on
	return func(all []lesson.Picture) error {
		if len(all) == 0 {
			return nil
		}
		p := paper.New(wording.Text("Drawings"))
		for _, one := range all {
			if one.Photo != nil {
				p.Photograph(one.Photo, one.Caption)
			} else {
				p.Figure(one.Figure.SVG(figure.Size{Width: 160, Height: 100}), one.Caption)
			}
		}
		err := write(path, 0o600, whole(p))
		if err == nil {
			write = wholefile.Replace
		}
		return cannotWrite(path, err)
	}
}

// sit leads a sitting to its end, and says where it is kept.
func (a *app) sit(l *lesson.Lesson, drawn string) error {
	var err error
	if a.onScreen() {
		err = lesson.Screen(l, a.stdin, a.stdout, a.look())
	} else {
		lines, stop := a.typedLines()
		err = lesson.Lines(l, lines, a.talk(), a.width, a.drawingsIn(drawn))
		stop()
	}
	if errors.Is(err, ask.ErrLeft) {
		err = nil
	}
	if err == nil && l.Unsaved() != nil {
		return wording.Errorf("the last animals are not saved: %w", l.Unsaved())
	}
	if n, right := l.Met(); n > 0 && l.Test != "" && n < l.Animals {
		a.plainly("The test was left after %d of %s; saved. How many were right is told of whole tests alone.", n,
			plain.Count(l.Animals, "animal"))
	} else if n > 0 {
		a.plainly("%s, %d named rightly; saved.", plain.Capital(plain.Count(n, "animal")), right)
	}
	return err
}

// keyAtlas is the atlas of a key, made once.
func (d *drawer) keyAtlas(k *key.Key) *figure.Atlas {
	if d.atlas == nil {
		d.atlas = figure.NewAtlas(k.Catalog(), k.Sound())
	}
	return d.atlas
}

// chance is where a sitting's animals come from: the same for the same seed.
func (c *console) chance(seed uint64) (*rand.Rand, error) {
	if seed == 0 {
		var b [8]byte
		source := c.random
		if source == nil {
			source = crand.Reader
		}
		if _, err := source.Read(b[:]); err != nil {
			return nil, wording.Errorf("no random number could be had: %w", err)
		}
		seed = binary.LittleEndian.Uint64(b[:])
	}
	return rand.New(rand.NewPCG(seed, 0x9e3779b97f4a7c15)), nil
}
