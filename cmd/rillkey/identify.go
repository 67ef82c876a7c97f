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
	"rillkey/taxa"
)

// identifyFlags are what can be said on the command line about one creature.
type identifyFlags struct {
	answers string
	observe []string
	see     string
	length  string
	check   string
	list    bool
	inquiry inquiryFlags
	record  recordFlags
	noSave  bool
}

func (a *app) identifyCommand() *cobra.Command {
	var f identifyFlags
	cmd := &cobra.Command{
		Use:   "identify",
		Short: "Name one creature by answering questions",
		Long: `Asks what the creature shows, one question at a time, until it has a name that
is probable enough. "Can't tell" is always allowed and excludes nothing. One
misread answer need not lead astray: at the end more is asked while the name is
not sure, and the answer most likely misread can be given anew. What stays open
gets the name of its group, its tolerance class alone, or is set aside. Where a
visit is under way, the creature is added to it.

On a terminal the questions fill the screen; with --plain, or where there is no
terminal, they come line by line. With --see, --answers or --observe nothing is asked.

With --check NAME it is asked what settles whether the creature is that, and
nothing is added to a visit.`,
		Example: `  rillkey identify
  rillkey identify --answers 1b,30a,tails=2+3,7?
  rillkey identify --see "ten legs, big claws, 40 mm"
  rillkey identify --observe legs=6 --observe tails=2 --length 12mm
  rillkey identify --check stonefly`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return a.identify(f) },
	}
	flags := cmd.Flags()
	flags.StringVar(&f.answers, "answers", "", "what was answered, `1b,4a`, as a path is shown; 4? and hooks? mean can't tell, tails=2+3 one of these states")
	flags.StringArrayVar(&f.observe, "observe", nil, "something seen, `TRAIT=STATE`; several states with commas; may be repeated")
	flags.StringVar(&f.see, "see", "", "what strikes you, in your own `WORDS`, separated by commas: \"ten legs, pincers\"")
	flags.StringVar(&f.length, "length", "", "how long the creature is, in `MM` unless it says otherwise")
	flags.StringVar(&f.check, "check", "", "ask only whether it is what `NAME` says")
	flags.BoolVar(&f.list, "list", false, "with --check: only list what settles it, and ask nothing")
	f.inquiry.register(flags)
	f.record.register(flags)
	flags.BoolVar(&f.noSave, "no-save", false, "only look: add nothing to a visit")
	return cmd
}

func (a *app) identify(f identifyFlags) error {
	k, err := a.key()
	if err != nil {
		return err
	}
	options, err := f.inquiry.options()
	if err != nil {
		return err
	}
	length := 0.0
	if f.length != "" {
		if err := goodLength(f.length); err != nil {
			return misused("--length: %v", err)
		}
		length, _ = millimetres(f.length)
	}
	m, err := a.model(k, f.inquiry.rates)
	if err != nil {
		return err
	}
	if f.check != "" || f.list {
		return a.checkName(m, f, options, length)
	}
	s := &session{app: a, flags: f, adds: !f.noSave && a.hasOpenVisit(), begin: func() (*key.Inquiry, error) { return m.Inquire(options) }}
	if f.record.used() && !s.adds {
		return misused("there is no unfinished visit here to add to; name its file with --visit, or start one with 'rillkey visit begin'")
	}
	return s.run(length)
}

// session is one creature or several, one after the other.
type session struct {
	*app
	flags identifyFlags
	adds  bool // to the open visit
	begin func() (*key.Inquiry, error)
}

// run goes without asking where something was said on the command line.
func (s *session) run(length float64) error {
	if s.flags.answers == "" && s.flags.see == "" && len(s.flags.observe) == 0 {
		return s.interview(length)
	}
	q, err := s.begin()
	if err != nil {
		return err
	}
	if s.flags.see != "" {
		said, err := s.see(q, s.flags.see)
		if err != nil {
			return err
		}
		length = cmp.Or(length, said)
	}
	if err := say(q, s.flags.answers, s.flags.observe, length); err != nil {
		return err
	}
	return s.conclude(q, length)
}

// conclude shows what an inquiry has come to and adds it to the visit, asking
// nothing.
func (s *session) conclude(q *key.Inquiry, length float64) error {
	v := show.NewIdentified(q, length)
	if s.adds {
		body, err := s.flags.record.identification(q, length)
		if err != nil {
			return err
		}
		if v.Saved, err = s.addRecord(s.flags.record, body); err != nil {
			return err
		}
	}
	if err := s.showIdentified(q.Model().Key().Catalog(), v); err != nil {
		return err
	}
	if v.Undecided() {
		return cannotSay
	}
	return nil
}

func (a *app) showIdentified(catalog *taxa.Catalog, v *show.Identified) error {
	if a.json {
		return show.JSON(a.out, v)
	}
	if err := a.drawAbove(catalog, v.Drawable()); err != nil {
		return err
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
func (s *session) interview(length float64) error {
	for {
		q, err := s.begin()
		if err != nil {
			return err
		}
		if err := say(q, "", nil, length); err != nil {
			return err
		}
		another, err := s.creature(q, length)
		if err != nil || !another {
			return err
		}
		length = 0
	}
}

// creature asks about one creature, shows what came of it, measures it, adds it
// to the visit if there is one, and says whether another creature follows.
func (s *session) creature(q *key.Inquiry, length float64) (another bool, err error) {
	if err := s.question(q); err != nil {
		return false, err
	}
	if s.json {
		return false, s.conclude(q, length)
	}
	if err := s.showIdentified(q.Model().Key().Catalog(), show.NewIdentified(q, length)); err != nil {
		return false, err
	}
	if length == 0 && s.flags.check == "" {
		if length, err = s.measure(q); err != nil {
			return false, err
		}
	}
	if s.adds {
		return s.offer(q, length)
	}
	if show.NewIdentified(q, length).Undecided() {
		return false, cannotSay
	}
	return false, nil
}

// question asks until the questions end; that somebody left is an error.
func (a *app) question(q *key.Inquiry) error {
	ask := func() (question.Outcome, error) {
		if a.onScreen() {
			return question.Screen(q, a.drawings(q), a.in, a.out, a.look())
		}
		return question.Lines(q, a.drawings(q), a.lines, a.talk(), a.width)
	}
	outcome, err := ask()
	if err == nil && outcome == question.Left {
		a.complain("rillkey: left without a name; nothing was added")
		return cannotSay
	}
	return err
}

// measure asks for the length and holds it against that of grown animals. What
// the length says is believed like an answer: where it does not fit, more is
// asked, and what came of it is shown again.
func (s *session) measure(q *key.Inquiry) (length float64, err error) {
	answers, err := s.ask(ask.Field{Key: "length", Title: "How long is it, in mm?", Help: "Without tails and feelers. May stay empty.", Optional: true, Check: goodLength})
	if err != nil || answers["length"] == "" {
		return 0, err
	}
	if length, err = millimetres(answers["length"]); err != nil {
		return 0, err
	}
	before := show.NewIdentified(q, length)
	if before.Size != nil {
		s.plainly("%s.", before.Size.Remark)
	}
	if err := q.ObserveLength(length); err != nil {
		return 0, err
	}
	if show.NewIdentified(q, length).Name == before.Name {
		return length, nil
	}
	if q.Question() != nil {
		s.plainly("With that length the answers no longer settle it. A few more questions:")
		if err := s.question(q); err != nil {
			return 0, err
		}
	}
	return length, s.showIdentified(q.Model().Key().Catalog(), show.NewIdentified(q, length))
}

// offer asks whether and how to add a creature to the visit.
func (s *session) offer(q *key.Inquiry, length float64) (another bool, err error) {
	r := s.flags.record
	fields, err := s.recordFields(r)
	if err != nil {
		return false, err
	}
	answers, err := s.ask(fields...)
	if err != nil {
		return false, err
	}
	if answers.Yes("add") {
		r = recordFlags{answers["sample"], answers["count"], answers["cell"], answers["who"], r.note}
		body, err := r.identification(q, length)
		if err != nil {
			return false, err
		}
		saved, err := s.addRecord(r, body)
		if err != nil {
			return false, err
		}
		s.plainly("Saved in %s as %s.", saved.File, saved.Event)
		s.record = r
	}
	next, err := s.ask(ask.Field{Key: "next", Title: "Another creature?", Confirm: true, Default: "yes"})
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
		{Key: "who", Title: "Who looked?", Optional: true, Offers: v.People(), Default: cmp.Or(r.who, a.record.who)},
	}, nil
}

// The lengths that are believed and can be kept, in mm.
const leastLength, mostLength = 0.1, visit.MaxLength

func goodLength(s string) error {
	mm, err := millimetres(s)
	if err == nil && (mm < leastLength || mm > mostLength) {
		return fmt.Errorf("%s cannot be; it lies between %v and %v mm", s, leastLength, mostLength)
	}
	return err
}

func goodCount(s string) error { _, err := wholeCount(s); return err }
