package main

import (
	"bufio"
	"cmp"
	"errors"
	"io"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/question"
	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/units"
	"rillkey/key"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// identifyFlags are what can be said on the command line about one creature.
type identifyFlags struct {
	answers string
	observe []string
	see     string
	length  string
	check   string
	list    bool
	ask     bool
	inquiry inquiryFlags
	record  recordFlags
	noSave  bool
}

func identifyCommand(a *app) *cobra.Command {
	var f identifyFlags
	cmd := &cobra.Command{
		Use:   "identify",
		Short: "Name one creature by answering questions",
		Long: `Asks what the creature shows, one question at a time, until it has a name that
is probable enough. "Can't tell" is always allowed and excludes nothing. One
misread answer need not lead astray: at the end more is asked while the name is
not sure, and the answer most likely misread can be given anew. What stays open
gets the name of its group, its tolerance class alone, or is set aside. What the
animal does is told after its name (d). Where a visit is under way, the creature
is added to it.
Asked for a visit, the questions stop where its protocol needs no narrower name;
--far end goes on to the end of the key, and + after a name goes on from there.
--far kind asks by the short key "kinds", which holds what a field sheet has.

On a terminal the questions fill the screen; with --plain, or where there is no
terminal, they come line by line. With --see, --answers or --observe nothing is asked,
unless --ask says so: then what is still open is.

With --check NAME it is asked what settles whether the creature is that, and
nothing is added to a visit.`,
		Example: `  rillkey identify
  rillkey identify --answers 1b,30a,tails=2+3,7?
  rillkey identify --see "ten legs, pincers, 40 mm"
  rillkey identify --observe legs=6 --observe tails=2 --length 12mm
  rillkey identify --check stonefly`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return nil
			}
			if length := strings.Join(append([]string{f.length}, args...), " "); f.length != "" {
				if _, err := units.Millimetres(length); err == nil {
					return misused("a length and its unit are one word, or stand in quotes: --length %s", plain.ShellWord(length))
				}
			}
			name := plain.ShellWord(strings.Join(args, " "))
			return misused("'rillkey identify' takes no name. To look it up, say taxa in the place of identify; to ask whether it "+
				"is that: rillkey identify --check %s", name)
		},
		RunE: func(cmd *cobra.Command, _ []string) error { return identifyAnimals(a, f, cmd.Flags()) },
	}
	if !a.meant("identify") {
		return cmd
	}
	flags := cmd.Flags()
	flags.StringVar(&f.answers, "answers", "", "what was answered, `1b,4a`, as a path is shown; 4? and hooks? mean can't "+
		"tell, tails=2+3 one of these states, said: stands before own words, / before a second look")
	flags.StringArrayVar(&f.observe, "observe", nil, "something seen, `TRAIT=STATE`; several states with commas; may be repeated")
	flags.StringVar(&f.see, "see", "", "what strikes you, in your own `WORDS`, separated by commas: \"ten legs, pincers\"")
	flags.StringVar(&f.length, "length", "", "how long the creature is, in `MM` unless it says otherwise")
	flags.StringVar(&f.check, "check", "", "ask only whether it is what `NAME` says")
	flags.BoolVar(&f.list, "list", false, "with --check: only list what settles it, and ask nothing")
	flags.BoolVar(&f.ask, "ask", false, "with --answers, --observe or --see: ask what is still open")
	f.inquiry.register(flags)
	f.record.register(flags)
	flags.BoolVar(&f.noSave, "no-save", false, "only look: add nothing to a visit")
	return cmd
}

func identifyAnimals(a *app, f identifyFlags, given *pflag.FlagSet) error {
	if given.Changed("see") && strings.TrimSpace(f.see) == "" {
		return misused("--see: %s", nothingSaid())
	}
	a.followAtHand()
	k, err := a.key()
	if err != nil {
		return err
	}
	options, err := f.inquiry.options()
	if err != nil {
		return err
	}
	length := 0.0
	if err := readOptional("length", f.length, lengthTyped(k), &length); err != nil {
		return err
	}
	m, err := a.model(k, f.inquiry.rates)
	if err != nil {
		return err
	}
	if f.check != "" || f.list {
		return checkName(a, m, f, options, length)
	}
	s := &session{app: a, flags: f, given: given}
	if s.target, err = a.target(f, f.asks() && !a.json); err != nil {
		return err
	}
	if m, err = s.followTarget(m); err != nil {
		return err
	}
	unsaid := farEnd
	if s.target.path != "" && f.asks() {
		unsaid = farCounted
	}
	if s.asked, err = s.howAsked(&f.inquiry, m, options, unsaid); err != nil {
		return err
	}
	if f.record.used() && s.target.path == "" {
		return misused("there is no unfinished visit here to add to; name its file with --visit, or start one with 'rillkey visit begin'")
	}
	return s.run(length)
}

// followTarget asks by the key and in the words of the visit that the animals go
// to, where that was not known before: one of several, or one just chosen.
func (s *session) followTarget(m *key.Model) (*key.Model, error) {
	if s.target.path == "" {
		return m, nil
	}
	v, err := visit.Read(s.target.path)
	if err != nil {
		return nil, err
	}
	if before := s.app.library.header; before.Region == v.Header.Region && before.Protocol == v.Header.Protocol {
		return m, nil
	}
	s.follow(v)
	k, err := s.key()
	if err != nil {
		return nil, err
	}
	return s.model(k, s.flags.inquiry.rates)
}

// asks reports whether people are asked what the creature shows: nothing of it
// was said on the command line, or not all.
func (f identifyFlags) asks() bool {
	return f.ask || f.answers == "" && f.see == "" && len(f.observe) == 0
}

// session is one creature or several, one after the other.
type session struct {
	*app
	flags  identifyFlags
	given  *pflag.FlagSet // all flags that were given
	target target
	asked
}

// run goes without asking where something was said on the command line.
func (s *session) run(length float64) error {
	q, length, err := s.told(length)
	if err != nil {
		return err
	}
	if s.flags.asks() {
		return s.interview(q, length)
	}
	return s.conclude(q, length)
}

// told is a new inquiry that knows what was said on the command line, and the length.
func (s *session) told(length float64) (*key.Inquiry, float64, error) {
	q, err := s.begin()
	if err != nil {
		return nil, 0, err
	}
	if s.flags.see != "" {
		said, err := observeWords(s.app, q, s.flags.see)
		switch {
		case err != nil:
			return nil, 0, err
		case said > 0 && length > 0 && said != length:
			return nil, 0, misused("--see says %v mm and --length %v mm; leave one of them out", said, length)
		case said > 0:
			return q, said, say(q, s.flags.answers, s.flags.observe, 0)
		}
	}
	return q, length, say(q, s.flags.answers, s.flags.observe, length)
}

// conclude shows what an inquiry has come to and adds it to the visit, asking
// nothing.
func (s *session) conclude(q *key.Inquiry, length float64) error {
	v := show.NewIdentified(q, length)
	if s.target.path != "" {
		body, err := s.flags.record.identification(q, length)
		if err != nil {
			return err
		}
		if v.Saved, err = s.addRecord(s.target.path, s.flags.record, body); err != nil {
			return err
		}
	}
	if err := showIdentified(s.app, q.Model().Key().Catalog(), v); err != nil {
		return err
	}
	if !s.json {
		s.unsaved()
	}
	if v.Undecided() && !s.json && v.Saved == nil {
		s.toGoOn(q, length, cannotSay)
	}
	if v.Undecided() {
		return cannotSay
	}
	return nil
}

func showIdentified(a *app, catalog *taxa.Catalog, v *show.Identified) error {
	if a.json {
		return show.JSON(a.stdout, v)
	}
	if err := a.drawAbove(catalog, v.Drawable()); err != nil {
		return err
	}
	if err := v.Text(a.stdout, a.width); err != nil {
		return err
	}
	if v.Saved != nil {
		a.plainly("Saved in %s as %s.", v.Saved.File, v.Saved.Event)
	}
	return nil
}

// unsaved says why nothing was saved, if that is so for want of a visit.
func (s *session) unsaved() {
	if s.target.instead != "" && !s.flags.noSave {
		s.plainly("Not saved: %s.", s.target.instead)
	}
}

// interview asks about creatures, one after the other while a visit is under
// way; of the first something may be known already. Ctrl-C is held all the while, so
// that it loses no answer between two questions either.
func (s *session) interview(q *key.Inquiry, length float64) error {
	_, stop := s.leaving.untilSignal()
	defer stop()
	for {
		another, err := s.creature(q, length)
		if err != nil || !another {
			return err
		}
		if q, err = s.begin(); err != nil {
			return err
		}
		length = 0
	}
}

// creature asks about one creature, shows what came of it, adds it to the visit if
// there is one, and says whether another creature follows.
func (s *session) creature(q *key.Inquiry, length float64) (another bool, err error) {
	to, err := s.destination(s.target, s.flags.record.sample)
	if err != nil {
		return false, err
	}
	if s.flags.check != "" {
		to.Rest = wording.Text("Nothing is saved: only a check")
	}
	if err := askQuestions(s.app, q, to); err != nil {
		s.toGoOn(q, length, err)
		return false, err
	}
	if length == 0 {
		length = q.Length()
	}
	if s.json {
		return false, s.conclude(q, length)
	}
	for {
		another, err := s.named(q, &length, to)
		switch {
		case errors.Is(err, errCloser):
			if q, err = s.goCloser(q); err == nil {
				err = askQuestions(s.app, q, to)
			}
		case errors.Is(err, errLookAgain):
			err = answersAgain(s.app, q, to)
		default:
			return another, err
		}
		if err != nil {
			s.toGoOn(q, length, err)
			return false, err
		}
		length = cmp.Or(q.Length(), length)
	}
}

// errLookAgain says that somebody would look at an answer again before the animal
// is saved.
var errLookAgain = wording.NewError("an answer is looked at again")

// backToAnswers is the way back to the answers from the prompts after a name.
var backToAnswers = ask.Option{Value: "r", Label: wording.Mark("look again at an answer")}

// named shows what came of the questions, and asks where the creature goes; somebody
// who doubts an answer comes back with errLookAgain.
func (s *session) named(q *key.Inquiry, length *float64, to question.Destination) (another bool, err error) {
	if err := showIdentified(s.app, q.Model().Key().Catalog(), show.NewIdentified(q, *length)); err != nil {
		return false, err
	}
	if s.target.path != "" {
		return s.offer(q, *length)
	}
	s.unsaved()
	if err := s.anythingMore(q, *length); err != nil {
		return false, err
	}
	if show.NewIdentified(q, *length).Undecided() {
		return false, cannotSay
	}
	return false, nil
}

// answersAgain goes back to which answer to look at again, and asks what follows.
func answersAgain(a *app, q *key.Inquiry, to question.Destination) error {
	if a.onScreen() {
		return a.untilEnded(question.ScreenAgain(q, to, a.drawings(q), a.stdin, a.stdout, a.look()))
	}
	lines, stop := a.typedLines()
	defer stop()
	return a.untilEnded(question.LinesAgain(q, to, a.drawings(q), lines, a.talk(), a.width))
}

// askQuestions asks until the questions end; that somebody left is an error.
func askQuestions(a *app, q *key.Inquiry, to question.Destination) error {
	if a.onScreen() {
		return a.untilEnded(question.Screen(q, to, a.drawings(q), a.stdin, a.stdout, a.look()))
	}
	lines, stop := a.typedLines()
	defer stop()
	return a.untilEnded(question.Lines(q, to, a.drawings(q), lines, a.talk(), a.width))
}

// typedLines are the lines of questions, which Ctrl-C ends whenever it comes, until
// stop is called.
func (a *app) typedLines() (lines *bufio.Reader, stop func()) {
	left, stop := a.leaving.untilSignal()
	return bufio.NewReader(&leavable{console: a.console, left: left}), stop
}

// untilEnded is how asking ended, as an error where somebody left.
func (a *app) untilEnded(outcome question.Ending, err error) error {
	if err == nil && outcome == question.Left || errors.Is(err, ask.ErrLeft) {
		a.complain(wording.Text("rillkey: left without a name; nothing was added"))
		return cannotSay
	}
	return err
}

// lengthTyped reads a length that was asked for, or given with a flag.
func lengthTyped(k *key.Key) func(string) (float64, error) {
	return func(text string) (float64, error) { return question.LengthTyped(k.Catalog().Vocabulary(), text) }
}

// offer asks whether and how to add a creature to the visit.
func (s *session) offer(q *key.Inquiry, length float64) (another bool, err error) {
	r := s.flags.record
	fields, err := s.recordFields(r)
	if err != nil {
		return false, err
	}
	answers, err := s.askOrTell(q, length, show.NewIdentified(q, length).Brief(), fields...)
	if err != nil {
		return false, s.keeping(q, length, err)
	}
	switch answers["add"] {
	case backToAnswers.Value:
		return false, errLookAgain
	case toCloser.Value:
		return false, errCloser
	}
	if answers.Yes("add") {
		r = recordFlags{answers["sample"], answers["count"], answers["cell"], answers["who"], r.note}
		if err := s.keep(q, length, r); err != nil {
			return false, err
		}
		s.record = r
	}
	next, err := s.ask(ask.Field{Key: "next", Title: wording.Text("Another creature?"), Confirm: true, Default: "yes"})
	if errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, ask.ErrLeft) {
		return false, nil // what was saved is saved
	}
	return next.Yes("next"), err
}

// keep saves a creature, once more where it could not be and somebody thinks that
// it can be now.
func (s *session) keep(q *key.Inquiry, length float64, r recordFlags) error {
	body, err := r.identification(q, length)
	if err != nil {
		return err
	}
	for {
		saved, err := s.addRecord(s.target.path, r, body)
		if err == nil {
			s.plainly("Saved in %s as %s.", saved.File, saved.Event)
			return nil
		}
		s.complain("rillkey: " + plain.Printable(wording.Reason(err).Error()))
		once, askErr := s.ask(ask.Field{Key: "again", Title: wording.Text("Try to save it once more?"), Confirm: true, Default: "yes"})
		if askErr != nil || !once.Yes("again") {
			s.kept(q, length, r, wording.Text("it could not be written"))
			return fault{status: statusBadData}
		}
	}
}

// recordFields are what is asked of a creature that joins the visit; what was
// said of the one before stands as the default.
func (s *session) recordFields(r recordFlags) ([]ask.Field, error) {
	v, err := visit.Read(s.target.path)
	if err != nil {
		return nil, err
	}
	var samples []ask.Option
	t := v.Tally()
	for _, taken := range t.Samples {
		words := strings.TrimSpace(taken.Label + " " + scheme.HabitatWords(taken.Habitat))
		samples = append(samples, ask.Option{Value: taken.Label, Label: words})
	}
	if len(samples) == 0 {
		return nil, s.noSample(s.target.path)
	}
	return []ask.Field{
		{Key: "add", Title: wording.Text("Add it to the visit?"), Help: v.Header.Site + ", " + v.Header.Date,
			Confirm: true, Default: "yes"},
		{Key: "count", Title: wording.Text("How many look the same?"), Default: r.count, Check: checkedBy(units.Animals)},
		{Key: "sample", Title: wording.Text("Which sample did it come from?"), Options: samples, Default: s.sampleNext(t, r.sample)},
		{Key: "cell", Title: wording.Text("Which tray cell?"),
			Help: wording.Text("So that it can be found again. May stay empty."), Optional: true, Default: r.cell},
		{Key: "who", Title: wording.Text("Who looked?"), Optional: true, Offers: v.People(), Default: cmp.Or(r.who, s.record.who)},
	}, nil
}
