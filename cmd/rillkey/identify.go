package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/question"
	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/scoring/visit"
)

// identifyFlags are what can be said on the command line about one creature.
type identifyFlags struct {
	answers string
	observe []string
	length  string
	record  recordFlags
	noSave  bool
}

func (a *app) identifyCommand() *cobra.Command {
	var f identifyFlags
	cmd := &cobra.Command{
		Use:   "identify",
		Short: "Name one creature by answering questions",
		Long: `Asks what the creature shows, one question at a time, until it has a name. "Can't
tell" is always allowed and excludes nothing. Where a visit is under way, the
creature is added to it.

On a terminal the questions fill the screen; with --plain, or where there is no
terminal, they come line by line. With --answers or --observe nothing is asked.`,
		Example: `  rillkey identify
  rillkey identify --answers 1b,30a
  rillkey identify --observe legs=6 --observe tails=2 --length 12mm`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return a.identify(f) },
	}
	flags := cmd.Flags()
	flags.StringVar(&f.answers, "answers", "", "the leads to take, `1b,4a`; 4? means can't tell")
	flags.StringArrayVar(&f.observe, "observe", nil, "something seen, `TRAIT=STATE`; several states with commas; may be repeated")
	flags.StringVar(&f.length, "length", "", "how long the creature is, in `MM` unless it says otherwise")
	f.record.register(flags)
	flags.BoolVar(&f.noSave, "no-save", false, "only look: add nothing to a visit")
	return cmd
}

func (a *app) identify(f identifyFlags) error {
	k, err := a.key()
	if err != nil {
		return err
	}
	length := 0.0
	if f.length != "" {
		if length, err = millimetres(f.length); err != nil {
			return misused("--length: %v", err)
		}
	}
	adds := !f.noSave && a.hasOpenVisit()
	if f.record.used() && !adds {
		return misused("there is no unfinished visit here to add to; name its file with --visit, or start one with 'rillkey visit begin'")
	}
	if f.answers == "" && len(f.observe) == 0 {
		return a.interview(k, f, length, adds)
	}
	w, err := walkAlong(k, f.answers, f.observe)
	if err != nil {
		return err
	}
	return a.conclude(k, w, f, length, adds)
}

// walkAlong walks without asking.
func walkAlong(k *key.Key, answers string, observe []string) (*key.Walk, error) {
	w := k.Walk()
	for _, o := range observe {
		trait, states, ok := strings.Cut(o, "=")
		if !ok {
			return nil, misused("--observe %q is not of the form trait=state", o)
		}
		if err := w.Observe(strings.TrimSpace(trait), split(states)...); err != nil {
			return nil, misused("--observe %q: %w", o, err)
		}
	}
	for i, answer := range split(answers) {
		if err := w.Answer(answer); err != nil {
			return nil, misused("--answers, number %d: %w", i+1, err)
		}
	}
	return w, nil
}

func split(list string) []string {
	var out []string
	for _, s := range strings.Split(list, ",") {
		if s = strings.TrimSpace(s); s != "" {
			out = append(out, s)
		}
	}
	return out
}

// conclude shows what a walk has come to and adds it to the visit, asking
// nothing.
func (a *app) conclude(k *key.Key, w *key.Walk, f identifyFlags, length float64, adds bool) error {
	result := w.Result()
	v := show.NewIdentified(k.Catalog(), result, length)
	if adds {
		body, err := f.record.identification(k, result, length)
		if err != nil {
			return err
		}
		if v.Saved, err = a.addRecord(f.record, body); err != nil {
			return err
		}
	}
	if err := a.showIdentified(v); err != nil {
		return err
	}
	if v.Undecided() {
		return cannotSay
	}
	return nil
}

func (a *app) showIdentified(v *show.Identified) error {
	if a.json {
		return show.JSON(a.out, v)
	}
	if err := v.Text(a.out, a.width); err != nil {
		return err
	}
	if v.Saved != nil {
		a.plainly("Saved in %s as %s.", v.Saved.File, v.Saved.Event)
	}
	return nil
}

// interview asks about creatures, one after the other while a visit is under
// way.
func (a *app) interview(k *key.Key, f identifyFlags, length float64, adds bool) error {
	for {
		w := k.Walk()
		outcome, err := a.question(w)
		if err != nil {
			return err
		}
		if outcome == question.Left {
			fmt.Fprintln(a.err, "rillkey: left without a name; nothing was added")
			return cannotSay
		}
		another, err := a.settle(k, w, f, length, adds)
		if err != nil || !another {
			return err
		}
		length = 0
	}
}

func (a *app) question(w *key.Walk) (question.Outcome, error) {
	if a.onScreen() {
		return question.Screen(w, a.in, a.out, a.look())
	}
	return question.Lines(w, a.lines, a.talk(), a.width)
}

// settle shows the result of one creature, measures it, adds it to the visit if
// there is one, and says whether another creature follows.
func (a *app) settle(k *key.Key, w *key.Walk, f identifyFlags, length float64, adds bool) (another bool, err error) {
	if a.json {
		return false, a.conclude(k, w, f, length, adds)
	}
	v := show.NewIdentified(k.Catalog(), w.Result(), length)
	if err := a.showIdentified(v); err != nil {
		return false, err
	}
	if length == 0 {
		if length, err = a.measure(k, v); err != nil {
			return false, err
		}
	}
	if adds {
		return a.offer(k, w.Result(), f.record, length)
	}
	if v.Undecided() {
		return false, cannotSay
	}
	return false, nil
}

// measure asks for the length and holds it against that of grown animals.
func (a *app) measure(k *key.Key, v *show.Identified) (length float64, err error) {
	answers, err := a.ask(ask.Field{Key: "length", Title: "How long is it, in mm?", Help: "Without tails and feelers. May stay empty.", Optional: true, Check: goodLength})
	if err != nil || answers["length"] == "" {
		return 0, err
	}
	if length, err = millimetres(answers["length"]); err != nil {
		return 0, err
	}
	if v.Measure(k.Catalog(), length); v.Size != nil {
		a.plainly("%s.", v.Size.Remark)
	}
	return length, nil
}

// offer asks whether and how to add a creature to the visit.
func (a *app) offer(k *key.Key, result key.Identification, r recordFlags, length float64) (another bool, err error) {
	fields, err := a.recordFields(r)
	if err != nil {
		return false, err
	}
	answers, err := a.ask(fields...)
	if err != nil {
		return false, err
	}
	if answers.Yes("add") {
		r = recordFlags{answers["sample"], answers["count"], answers["cell"], answers["who"], r.note}
		body, err := r.identification(k, result, length)
		if err != nil {
			return false, err
		}
		saved, err := a.addRecord(r, body)
		if err != nil {
			return false, err
		}
		a.plainly("Saved in %s as %s.", saved.File, saved.Event)
		a.record = r
	}
	next, err := a.ask(ask.Field{Key: "next", Title: "Another creature?", Confirm: true, Default: "yes"})
	if errors.Is(err, io.ErrUnexpectedEOF) {
		return false, nil // what was saved is saved
	}
	return next.Yes("next"), err
}

// recordFields are what is asked of a creature that joins the visit; what was
// said of the one before stands as the default.
func (a *app) recordFields(r recordFlags) ([]ask.Field, error) {
	path, err := a.visitPath(false)
	if err != nil {
		return nil, err
	}
	v, err := visit.Read(path)
	if err != nil {
		return nil, err
	}
	var samples []ask.Option
	for _, s := range v.Tally().Samples {
		samples = append(samples, ask.Option{Value: s.Label, Label: strings.TrimSpace(s.Label + " " + s.Habitat)})
	}
	if len(samples) == 0 {
		return nil, misused("%s has no sample yet; add one with 'rillkey visit sample' first", path)
	}
	last := samples[len(samples)-1].Value
	return []ask.Field{
		{Key: "add", Title: "Add it to the visit?", Help: v.Header.Site + ", " + v.Header.Date, Confirm: true, Default: "yes"},
		{Key: "count", Title: "How many look the same?", Default: r.count, Check: goodCount},
		{Key: "sample", Title: "Which sample did it come from?", Options: samples, Default: cmp.Or(r.sample, a.record.sample, last)},
		{Key: "cell", Title: "Which tray cell?", Help: "So that it can be found again. May stay empty.", Optional: true, Default: r.cell},
		{Key: "who", Title: "Who looked?", Optional: true, Default: cmp.Or(r.who, a.record.who)},
	}, nil
}

func goodLength(s string) error { _, err := millimetres(s); return err }

func goodCount(s string) error { _, err := wholeCount(s); return err }
