package main

import (
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/paper"
	"rillkey/cmd/rillkey/show"
	"rillkey/key/practice"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func practiceResultCommand(a *app, f *practiceFlags) *cobra.Command {
	var lines string
	cmd := &cobra.Command{
		Use:     "result",
		Short:   "What one person has practised, and what to look at next",
		Example: "  rillkey practice result --as Robin",
		Args:    noArgs,
		RunE: func(*cobra.Command, []string) error {
			s, err := a.standing(*f, lines)
			if err != nil {
				return err
			}
			return a.give(s, func() error { return s.Text(a.stdout, a.width) })
		},
	}
	readyBy(cmd, &lines)
	return cmd
}

// readyBy registers the flag for the file of lines by which people are called ready.
func readyBy(cmd *cobra.Command, file *string) {
	cmd.Flags().StringVar(file, "ready-by", "", "your own lines in `FILE` for who is ready, in the place of the usual ones")
}

// judged is the course with the lines of a file by which people are called ready; with
// the usual ones where none is named.
func (a *app) judged(file string) (*practice.Course, error) {
	_, course, err := a.course(nil)
	if err != nil || file == "" {
		return course, err
	}
	dir, name := splitPath(file)
	lines, err := practice.ReadReadiness(authored.DirFS(dir), name, filepath.ToSlash(file))
	if err != nil {
		return nil, fileError(file, err)
	}
	return course.ReadyBy(lines), nil
}

// standing is where the person named stands, by lines of a file where one is named.
func (a *app) standing(f practiceFlags, lines string) (*show.Practised, error) {
	course, err := a.judged(lines)
	if err != nil {
		return nil, err
	}
	p, err := a.practised(f)
	if err != nil {
		return nil, err
	}
	return show.NewPractised(course.Key().Catalog(), practice.ProgressOf(p.record, course, a.now())), nil
}

// practised is a person who has a file.
func (a *app) practised(f practiceFlags) (*practiser, error) {
	if f.person == "" {
		return nil, misused("say whose, such as --as Robin")
	}
	p, err := a.practiser(f)
	if err == nil && p.text == nil {
		return nil, wording.Errorf("nobody called %s has practised here: there is no %s", plain.Quote(f.person), plain.Printable(p.path))
	}
	return p, err
}

func practiceRatesCommand(a *app, f *practiceFlags) *cobra.Command {
	var from string
	cmd := &cobra.Command{
		Use:   "rates FILE",
		Short: "Keep in FILE how often one person misreads each trait, for 'identify --rates'",
		Long: `Writes how often the person read each trait in practice, and how often wrongly, as
'rillkey rates learn' writes it of visits. 'rillkey identify --rates FILE' then
believes their answers accordingly. Drawings and real specimens are kept apart: a
drawing is easier to read than an animal, so rates from drawings are too low.`,
		Example: `  rillkey practice rates robin.rates.toml --as Robin --from tray
  rillkey identify --rates robin.rates.toml`,
		Args: justOneFile,
		RunE: func(_ *cobra.Command, args []string) error { return writePracticeRates(a, *f, from, args[0]) },
	}
	cmd.Flags().StringVar(&from, "from", string(practice.DrawingSource), "what was read, `SOURCE`: drawing, or tray (real specimens)")
	return cmd
}

func writePracticeRates(a *app, f practiceFlags, from, file string) error {
	if err := oneOf("from", from, []string{string(practice.DrawingSource), string(practice.TraySource)}); err != nil {
		return err
	}
	_, course, err := a.course(nil)
	if err != nil {
		return err
	}
	p, err := a.practised(f)
	if err != nil {
		return err
	}
	v := course.Key().Catalog().Vocabulary()
	if _, err := ratesBefore(file, v, false); err != nil {
		return err
	}
	counts := p.record.Counts(course, practice.SpecimenSource(from))
	if counts.Empty() {
		how := map[practice.SpecimenSource]string{
			practice.DrawingSource: wording.Text("on a screen or with --drawn"),
			practice.TraySource:    wording.Text("with 'rillkey practice tray'")}
		return wording.Errorf("%s has read no trait of a %s yet: walk with the key in practice, %s", plain.Quote(p.record.Person), from,
			how[practice.SpecimenSource(from)])
	}
	text := counts.TOML(v)
	if err := p.willMake(file, text); err != nil {
		return err
	}
	if err := a.replacement(file, []string{p.path}, text); err != nil {
		return err
	}
	return showRates(a, show.NewRates(file, v, counts))
}

func practiceGroupCommand(a *app) *cobra.Command {
	var lines string
	cmd := &cobra.Command{
		Use:   "group FILE...",
		Short: "For a trainer: who is ready alone, who by twos, what the whole group confuses",
		Long: `Reads the files of those who gave them. Ready by twos is who would misname up to 25 in
100 animals of a tally, as far as practice on two days tells: a second person names
each animal too, without hearing the first name. Alone is who would misname up to 10,
and has practised on three days, named the kinds of half a tally rightly on two of
them, and met 20 real animals. Nothing is said of who met fewer than 30 animals in sittings and
90 in tests. That is a trainer's rule of thumb and no examination; lines of your own
are a file for --ready-by:

  [readiness]
  sittings = 30
  tests = 90
  by_twos = 0.25
  by_twos_days = 2
  alone = 0.10
  days = 3
  kept = 0.50
  real = 20
  source = "our trainers, 2026"

'rillkey print group' makes a page of it.`,
		Example: "  rillkey practice group *.practice.toml",
		RunE: func(_ *cobra.Command, args []string) error {
			g, err := a.group(args, lines)
			if err != nil {
				return err
			}
			return a.give(g, func() error { return g.Text(a.stdout, a.width) })
		},
	}
	readyBy(cmd, &lines)
	return cmd
}

// group is where the people stand whose files are named, by lines of a file where one is
// named.
func (a *app) group(files []string, lines string) (*show.PractisedGroup, error) {
	if len(files) == 0 {
		return nil, misused("name the files of those who gave them, as in 'rillkey practice group *%s'", practiceSuffix)
	}
	course, err := a.judged(lines)
	if err != nil {
		return nil, err
	}
	var all []*practice.PersonRecord
	for _, file := range files {
		dir, name := splitPath(file)
		r, err := practice.ReadRecord(authored.DirFS(dir), name, filepath.ToSlash(file))
		if err != nil {
			return nil, fileError(file, err)
		}
		all = append(all, r)
	}
	return show.NewPractisedGroup(course.Key().Catalog(), practice.GroupOf(all, course, a.now())), nil
}

func printGroupCommand(a *app, d *delivery) *cobra.Command {
	var lines string
	cmd := pageCommand(a, &cobra.Command{
		Use:     "group FILE...",
		Short:   "For a trainer: who is ready for what after practice, and what the group confuses",
		Example: "  rillkey print group *.practice.toml > group.html",
	}, d, func(files []string) (*paper.Page, error) {
		g, err := a.group(files, lines)
		if err != nil {
			return nil, err
		}
		a.sources = append(append(a.sources, files...), lines)
		return paper.GroupPage(g), nil
	})
	readyBy(cmd, &lines)
	return cmd
}

func printCertificateCommand(a *app, d *delivery) *cobra.Command {
	var lines string
	cmd := pageCommand(a, &cobra.Command{
		Use:     "certificate FILE",
		Short:   "What one person practised, on a sheet: what it rests on, and what it does not say",
		Example: "  rillkey print certificate robin.practice.toml > robin.html",
		Args:    justOneFile,
	}, d, func(files []string) (*paper.Page, error) {
		name := strings.TrimSuffix(filepath.Base(files[0]), practiceSuffix)
		g, err := a.group(files, lines)
		if err != nil {
			return nil, err
		}
		a.sources = append(append(a.sources, files...), lines)
		if len(g.People) == 0 || g.People[0].Animals+g.People[0].Tested == 0 {
			return nil, wording.Errorf("%s has met no animal yet", plain.Quote(name))
		}
		return paper.Certificate(&g.People[0]), nil
	})
	readyBy(cmd, &lines)
	return cmd
}
