package main

import (
	"context"
	"errors"
	"runtime"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/key/trial"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// trialFlags are who is simulated, and how often.
type trialFlags struct {
	specimens    int
	seed         uint64
	misread      float64
	believed     string
	even         bool // misread was given
	unsureGiven  bool
	strangersToo bool // strangers was given
	methods      []string
	wrongAnswers bool
	flat         bool
	eachKind     bool
	unsure       float64
	people       string
	strangers    float64
	described    string
	spoken       bool
	inquiry      inquiryFlags
}

// trialHelp says who the people are.
const trialHelp = `Draws animals from the trait table and lets people who misread them answer, by
the plain key, with the questions that confirm, and by the shortest way. Says how
often the name, its order and its class come out right, how many questions that
takes, how far the probabilities can be trusted, and which questions lose most
animals. The same seed draws the same animals and people.

The people are made up, and answer from the same table that the program
believes: the trial says what the key makes of such people, not whether real
animals are as the table has them. With --people not all is as the program
believes: a few people misread six times as often as the others, some see what
they expect, animals are young or have lost parts, cells of the table are wrong,
and there are animals that the key does not lead to. The program believes the
vocabulary's rates all the same. careful, usual and hard have ever more of that.

With --described DIR the program makes up no animals: it is tried on those that
were described in words, by readers who know the words alone.
testdata/described in the program's source holds 110 of them.`

func trialCommand(a *app) *cobra.Command {
	var f trialFlags
	cmd := &cobra.Command{
		Use:   "trial [FILE]",
		Short: "Try a key on simulated people, or on animals described in words",
		Long:  trialHelp,
		Example: `  rillkey couplets trial
  rillkey couplets trial mykey.toml --misread 0.1 --specimens 5000 --seed 7
  rillkey couplets trial --people hard
  rillkey couplets trial --described testdata/described`,
		Args: atMostOneFile,
		RunE: func(cmd *cobra.Command, files []string) error {
			f.even = cmd.Flags().Changed("misread")
			f.unsureGiven, f.strangersToo = cmd.Flags().Changed("unsure"), cmd.Flags().Changed("strangers")
			if f.described != "" && !cmd.Flags().Changed("method") {
				f.methods = []string{string(trial.ConfirmingMethod)}
			}
			return runTrial(a, files, f)
		},
	}
	flags := cmd.Flags()
	flags.IntVar(&f.specimens, "specimens", 2000, "how many animals, `N`")
	flags.Uint64Var(&f.seed, "seed", 1, "draws the animals and people, `N`")
	flags.Var((*share)(&f.misread), "misread", "people misread every trait this often, `SHARE` up to 0.5 (else as the vocabulary says)")
	flags.StringVar(&f.believed, "believed", "", "they are taken to misread this often, `SHARE` up to 0.5 or \"vocabulary\" "+
		"(else as often as they do, or with --people as the vocabulary says)")
	flags.StringVar(&f.people, "people", "", "who looks, and at which animals, `PEOPLE`: careful, usual or hard "+
		"(else all is as the table has it)")
	flags.StringSliceVar(&f.methods, "method", methodNames(), "the ways of asking, `LIST`")
	flags.BoolVar(&f.wrongAnswers, "wrong-answers", false, "every misread gives a wrong answer; else many change nothing")
	flags.BoolVar(&f.flat, "flat", false, "every end point equally often, however common it is, and the program knows it")
	flags.BoolVar(&f.eachKind, "each-kind", false, "animals of every end point equally often, which the program does not know")
	flags.Var((*share)(&f.unsure), "unsure", "people can't tell this `SHARE` of the traits")
	flags.Var((*share)(&f.strangers), "strangers", "the key does not lead to this `SHARE` of the animals")
	flags.BoolVar(&f.spoken, "own-words", false,
		"with --described: what strikes is said in the words of the account, and taken as the screens understand it")
	flags.StringVar(&f.described, "described", "", "try the animals that are described in words in `DIR` instead")
	flags.BoolVar(&f.inquiry.noLens, "no-lens", false, "nobody has a hand lens")
	flags.Var(&f.inquiry.sure, "sure", sureHelp)
	flags.StringVar(&f.inquiry.rates, "rates", "", "the group's own misread rates, `FILE`")
	f.inquiry.order = string(key.AuthorsOrder)
	return cmd
}

func methodNames() []string {
	out := make([]string, len(trial.Methods))
	for i, m := range trial.Methods {
		out[i] = string(m)
	}
	return out
}

func runTrial(a *app, files []string, f trialFlags) error {
	if err := f.check(); err != nil {
		return err
	}
	if f.described != "" {
		return runDescribed(a, files, f)
	}
	k, err := a.keyOf(files)
	if err != nil {
		return err
	}
	setup, err := trialSetup(a, k, f)
	if err != nil {
		return err
	}
	ctx, stop := a.leaving.untilSignal()
	defer stop()
	result := show.NewTrial(k, setup, f.people, f.rate())
	for i, method := range f.methods {
		watched := a.progress(wording.Sprintf("animals (%d of %d, %s)", i+1, len(f.methods), method), f.specimens)
		setup.Method, setup.Progress = trial.Method(method), watched.Step
		report, err := trial.Run(ctx, setup)
		watched.Done()
		if errors.Is(err, context.Canceled) {
			return fault{statusCannotSay, wording.NewError("left; the trial was not finished")}
		}
		if err != nil {
			return err
		}
		result.Add(report)
	}
	return a.give(result, func() error { return result.Text(a.stdout, a.width) })
}

func (f *trialFlags) check() error {
	if f.specimens < 1 || f.specimens > trial.MostSpecimens {
		return misused("--specimens %d is not from 1 to %d", f.specimens, trial.MostSpecimens)
	}
	if !trial.IsMisreadRate(f.misread) {
		return misused("--misread %v is not from 0 to 0.5", f.misread)
	}
	if !trial.IsBelieved(f.believed) {
		return misused("--believed %s is neither from 0 to 0.5 nor %q", plain.Quote(f.believed), trial.AsVocabulary)
	}
	if !trial.IsHardshipShare(f.unsure) {
		return misused("--unsure %v is not from 0 to less than 1", f.unsure)
	}
	if !trial.IsHardshipShare(f.strangers) {
		return misused("--strangers %v is not from 0 to less than 1", f.strangers)
	}
	if len(f.methods) == 0 {
		return misused("--method is empty; it is some of %s", strings.Join(methodNames(), ", "))
	}
	for _, m := range f.methods {
		if err := oneOf("method", m, methodNames()); err != nil {
			return err
		}
	}
	f.methods = slices.Compact(slices.Clone(f.methods))
	return nil
}

// rate is how often every trait is misread, or below zero where that differs by
// trait.
func (f *trialFlags) rate() float64 {
	if f.even {
		return f.misread
	}
	return -1
}

func trialSetup(a *app, k *key.Key, f trialFlags) (trial.Setup, error) {
	options, err := f.inquiry.options()
	if err != nil {
		return trial.Setup{}, err
	}
	hardship, factor, err := trial.People(f.people).Hardship()
	if err != nil {
		return trial.Setup{}, misused("--people: %w", err)
	}
	if f.unsureGiven {
		hardship.Unsure = 0
	}
	if f.strangersToo {
		hardship.Strangers = f.strangers
	}
	believed, err := a.misreadRates(k, f.inquiry.rates)
	if err != nil {
		return trial.Setup{}, err
	}
	r := trial.MisreadRates{Vocabulary: believed, Factor: factor, Believed: f.believed, Known: f.people == ""}
	if f.even {
		r.Even = &f.misread
	}
	people, believed, err := r.Both(k.Catalog().Vocabulary())
	if err != nil {
		return trial.Setup{}, misused("--believed %s: %w", plain.Quote(f.believed), err)
	}
	return trial.Setup{
		Key: k, People: people, Model: believed, Options: options, Specimens: f.specimens,
		Answers: f.wrongAnswers, Hardship: hardship, Flat: f.flat, EachKind: f.eachKind, Unsure: f.unsure,
		Seed: f.seed, Workers: runtime.GOMAXPROCS(0),
	}, nil
}
