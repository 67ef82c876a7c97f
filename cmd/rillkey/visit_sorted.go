package main

import (
	"errors"
	"io"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/units"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// sortedFlags say how far samples are sorted.
type sortedFlags struct {
	samples       []string
	fraction, who string
	empty, notYet bool
}

func sortedCommand(a *app) *cobra.Command {
	var f sortedFlags
	cmd := &cobra.Command{
		Use:   "sorted",
		Short: "Say how far a sample is sorted: all of it, a part, truly empty",
		Long: `A net that nobody has gone through is no empty net. There is no grade before every
sample that the protocol asks for is sorted, or was found to be empty. A sample
with animals counts as sorted once the visit is finished; one without any has to
be said to be empty.`,
		Example: `  rillkey visit sorted
  rillkey visit sorted --sample 1 --sample 2
  rillkey visit sorted --sample 3 --fraction 1/4
  rillkey visit sorted --sample 4 --empty`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return markSorted(a, f) },
	}
	flags := cmd.Flags()
	flags.StringArrayVar(&f.samples, "sample", nil, "the `SAMPLE`; may be repeated")
	flags.StringVar(&f.fraction, "fraction", "", "only this `SHARE` of it was sorted, as 1/4")
	flags.BoolVar(&f.empty, "empty", false, "it was sorted, and nothing lived in it")
	flags.BoolVar(&f.notYet, "not-yet", false, "it is not sorted yet after all")
	flags.StringVar(&f.who, "who", "", "`NAME` of the person who sorted it")
	cmd.MarkFlagsMutuallyExclusive("empty", "not-yet")
	cmd.MarkFlagsMutuallyExclusive("fraction", "not-yet")
	return cmd
}

func markSorted(a *app, f sortedFlags) error {
	a.followAtHand()
	catalog, err := a.catalog()
	if err != nil {
		return err
	}
	path, v, err := a.visitToCorrect(true)
	if err != nil {
		return err
	}
	words, err := sortedWords(a, f, v)
	if err != nil {
		return err
	}
	for _, w := range words {
		if err := saySorted(a, path, f.who, w); err != nil {
			return err
		}
	}
	if !a.json {
		return nil
	}
	if v, err = visit.Read(path); err != nil {
		return err
	}
	return show.JSON(a.stdout, show.NewTally(catalog, v))
}

// sortedWords are what the flags say, or the person in their place.
func sortedWords(a *app, f sortedFlags, v *visit.Visit) (words []visit.SortedWord, err error) {
	tally := v.Tally()
	if len(tally.Samples) == 0 {
		return nil, a.noSample(v.File)
	}
	if len(f.samples) == 0 {
		if a.json || f.fraction != "" || f.empty || f.notYet {
			return nil, misused("say which sample with --sample; there are %s", tally.Labels())
		}
		if open := tally.Unsorted(); len(open) > 0 {
			return askSorted(a, open, tally)
		}
		return askSorted(a, tally.Samples, tally)
	}
	word := visit.SortedWord{State: visit.Sorted}
	switch {
	case f.empty:
		word.State = visit.Empty
	case f.notYet:
		word.State = visit.NotSorted
	}
	if err := readOptional("fraction", f.fraction, units.Fraction, &word.Fraction); err != nil {
		return nil, err
	}
	meant, err := tally.SamplesMeant(f.samples)
	if err != nil {
		return nil, misused("%w", err)
	}
	for _, word.Sample = range meant {
		if word.Contradicted(tally) {
			return nil, misused("sample %s holds no animal yet; say --empty if nothing lived in it", word.Sample.Label)
		}
		words = append(words, word)
	}
	return words, nil
}

// askSorted asks of each sample how far it is sorted, and, of those that are in part, which
// share. The first answer offered is what it seems to be.
func askSorted(a *app, samples []visit.Taken, tally visit.Tally) (words []visit.SortedWord, err error) {
	var fields []ask.Field
	for _, s := range samples {
		fields = append(fields, sortedField(s, tally.Animals(s.Label)))
	}
	for {
		answers, err := a.ask(fields...)
		if err != nil {
			return nil, err
		}
		for i := range fields {
			fields[i].Default = answers[fields[i].Key]
		}
		if words, err = a.askShares(samples, answers); !errors.Is(err, ask.ErrBefore) {
			return words, err
		}
	}
}

// askShares is what was answered of each sample, with the share of those that are sorted in
// part, which is asked.
func (a *app) askShares(samples []visit.Taken, answers ask.Answers) (words []visit.SortedWord, err error) {
	for _, s := range samples {
		answer := visit.SortedAnswer(answers[sampleField(s)])
		w := answer.Word(s)
		if answer == visit.PartSorted {
			part, err := a.ask(ask.Field{Key: "part", Title: wording.Sprintf("How much of sample %s was sorted?", s.Label),
				Help: wording.Text("A share, as 1/4."), Check: checkedBy(units.Fraction), GoesBack: true})
			if err != nil {
				return nil, err
			}
			if w.Fraction, err = units.Fraction(part["part"]); err != nil {
				return nil, misused("%w", err)
			}
		}
		words = append(words, w)
	}
	return words, nil
}

func sampleField(s visit.Taken) string { return wording.Sprintf("sample %s", s.Label) }

// sortedWordings are what the answers are called.
var sortedWordings = map[visit.SortedAnswer]string{
	visit.AllSorted:  wording.Mark("all of it"),
	visit.PartSorted: wording.Mark("a part of it, by share"),
	visit.FoundEmpty: wording.Mark("truly empty: somebody went through it, and nothing lived in it"),
	visit.NotYet:     wording.Mark("not yet"),
}

func sortedField(s visit.Taken, animals int) ask.Field {
	possible, seems := s.SortedAnswers(animals)
	f := ask.Field{Key: sampleField(s), Title: wording.Sprintf("Sample %s, %s: how far is it sorted?", s.Label,
		plain.Count(animals, "animal")), Default: string(seems)}
	for _, answer := range possible {
		f.Options = append(f.Options, ask.Option{Value: string(answer), Label: wording.Text(sortedWordings[answer])})
	}
	return f
}

// saySorted saves what was said, unless the file says so already.
func saySorted(a *app, path, who string, w visit.SortedWord) error {
	s, change, news := w.Once()
	if news {
		if _, err := a.save(path, who, visit.Amendment{
			Entry: s.ID, Reason: wording.Text("said how far it is sorted"), Change: change}); err != nil {
			return err
		}
	}
	a.plainly("Saved: sample %s is %s.", s.Label, show.SortedWords(s.Sample, s.State))
	return nil
}

// finishCommand closes a visit.
func finishCommand(a *app) *cobra.Command {
	var note, who string
	cmd := &cobra.Command{
		Use:   "finish",
		Short: "Close the visit: no more samples or animals",
		Long: `Closes the visit, and asks of each sample that nobody spoke of how far it is
sorted. Without an answer samples with animals count as sorted, and those without
any as not yet sorted, which 'rillkey visit sorted' can say otherwise later.`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return finishVisit(a, note, who) },
	}
	cmd.Flags().StringVar(&note, "note", "", "anything worth keeping, `TEXT`")
	cmd.Flags().StringVar(&who, "who", "", "`NAME` of the person who closes it")
	return cmd
}

func finishVisit(a *app, note, who string) error {
	path, v, err := a.visitToCorrect(false)
	if err != nil {
		return err
	}
	said := false
	if !v.Finished() {
		if said, err = sortedAtTheEnd(a, v, who, note == "" && who == ""); err != nil {
			return err
		}
	}
	saved, err := a.save(path, who, visit.Finish{Note: note})
	if err != nil {
		return err
	}
	if a.json {
		return a.savedJSON(v, saved)
	}
	a.plainly("Saved: the visit is finished. What the animals say: rillkey grade --visit %s", plain.ShellWord(path))
	if said { // of samples, so that what was read is no longer what holds
		if v, err = visit.Read(path); err != nil {
			return nil // what was saved was said; the next command says what is wrong
		}
	}
	tally := v.Tally().OnceFinished()
	stillUnsorted(a, tally.Samples)
	a.plainly("Something was left? It is opened again by: rillkey visit reopen --visit %s", plain.ShellWord(path))
	goingHome(a, tally, path)
	return nil
}

// goingHome lists what is left to do before anybody leaves.
func goingHome(a *app, t visit.Tally, path string) {
	a.plainly("Before going home:")
	var region *taxa.Region
	if catalog, err := a.catalog(); err == nil {
		region = catalog.Region()
	}
	for _, left := range show.GoingHome(t, region, " --visit "+plain.ShellWord(path)) {
		a.plainly("- %s", left)
	}
}

// sortedAtTheEnd asks of the samples that nobody spoke of how far they are sorted, and
// reports whether somebody said so. Where nobody can be asked they stay as they are.
func sortedAtTheEnd(a *app, v *visit.Visit, who string, mayAsk bool) (said bool, err error) {
	if a.json || !mayAsk {
		return false, nil
	}
	tally := v.Tally()
	open := tally.Unsorted()
	if len(open) == 0 {
		return false, nil
	}
	words, err := askSorted(a, open, tally)
	if errors.Is(err, io.ErrUnexpectedEOF) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	for _, w := range words {
		if w.GoesWithoutSaying(tally) {
			continue
		}
		if err := saySorted(a, v.File, who, w); err != nil {
			return said, err
		}
		said = true
	}
	return said, nil
}

// stillUnsorted says which of the samples hold up a grade, and what to do.
func stillUnsorted(a *app, samples []visit.Taken) {
	for _, s := range samples {
		switch s.State {
		case visit.NotSorted:
			a.plainly("Sample %s holds no animal and is not yet sorted. If nothing lived in it: rillkey visit sorted --sample %s --empty%s",
				s.Label, plain.ShellWord(s.Label), a.sameVisit())
		case visit.BeingSorted:
			a.plainly("Sample %s is being sorted. When it is done: rillkey visit sorted --sample %s%s", s.Label, plain.ShellWord(s.Label),
				a.sameVisit())
		}
	}
}
