package key

import (
	"fmt"
	"slices"
	"strings"

	"rillkey/couplets"
	"rillkey/key/belief"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Order says which question comes next.
type Order string

// The orders.
const (
	AuthorsOrder Order = "author"   // that of the key, while it works
	Shortest     Order = "shortest" // always the question that tells most for its effort
)

// Options are how an inquiry is led. Start from [DefaultOptions].
type Options struct {
	Required float64 // the probability a name must have, above 0.5 and below 1
	// Settle is the probability at which questions stop; below Required it counts as that,
	// and above it a kind takes 0.99 where answers may lean on each other.
	Settle  float64
	Order   Order
	Confirm int     // most questions asked once the path has ended
	Most    int     // most questions asked at all
	Least   float64 // bits below which a question is not worth asking
	NoLens  bool    // nobody has a hand lens
	Effort  AnswerCost
	// Enough are ids of taxa of which no narrower name is needed: the questions stop
	// when one of them is probable enough to settle it.
	Enough []string
	// InTraits keeps the path without numbers of couplets: the
	// records beside it are read with another key.
	InTraits bool
}

// DefaultOptions are the usual options.
func DefaultOptions() Options {
	return Options{Required: 0.90, Settle: 0.97, Order: AuthorsOrder, Confirm: 10, Most: 30, Least: 0.01, Effort: usualEffort}
}

// Inquiry names one creature: it drives a walk through the key and the belief
// about the end points together. It is not safe for use by several goroutines
// at once.
type Inquiry struct {
	model   *Model
	opts    Options
	walk    *Walk
	belief  *belief.Belief
	given   []given
	stopped bool
	other   []float64 // log-likelihood of the length and of second looks, by kind, or nil
	suppose *supposed // what is to be checked, or nil

	lengthLeft bool // the length was asked for
	leftAfter  int  // how much was said before it was

	passed []uint64 // by trait, the states that were offered, or nil; see [Inquiry.PassOver]

	question *Question // the present one, once it has been chosen
	chosen   bool
}

// given is one thing that was said: an answer, "can't tell", an observation or
// a length.
type given struct {
	question Question // the zero Question for what nobody asked
	pick     string   // lead, states or Unsure
	says     []couplets.Condition
	length   float64 // mm, or 0
	asked    bool
	heard    bool // in words of the person's own
	retold   bool // asked in another inquiry, see [Inquiry.Retell]
	stop     bool
	steps    int       // steps of the walk that it took
	stood    int       // how often it was looked at again and stood
	earlier  []reading // what it was before it was given anew

	absent, usual []uint64 // by trait, what follows from it; see [Inquiry.implied]
	hangs         []bool   // by trait, what hangs on what could not be told; see [Model.hanging]
}

// reading is what was seen at one look.
type reading struct {
	pick string
	says []couplets.Condition
}

// Inquire begins an inquiry.
func (m *Model) Inquire(o Options) (*Inquiry, error) {
	if !(o.Required > 0.5 && o.Required < 1 && o.Settle < 1) {
		return nil, wording.Errorf("the required probability is %v and that to settle at %v; they must lie above 0.5 and below 1",
			o.Required, o.Settle)
	}
	o.Settle = max(o.Settle, o.Required)
	return &Inquiry{model: m, opts: o, walk: m.key.Walk(), belief: m.table.New()}, nil
}

// Model is the model behind the inquiry.
func (q *Inquiry) Model() *Model { return q.model }

// Options are how it is led.
func (q *Inquiry) Options() Options { return q.opts }

// Answer answers the present question with a lead's letter, or with a state of
// the trait or several parted by commas.
func (q *Inquiry) Answer(pick string) error {
	if pick == Unsure {
		return q.CantTell()
	}
	now := q.Question()
	if now == nil {
		return wording.Errorf("nothing is asked any more; %s answers nothing", plain.Quote(pick))
	}
	says, err := now.conditions(pick)
	if err != nil {
		return err
	}
	q.take(given{question: *now, pick: pick, says: says, asked: true})
	return nil
}

// CantTell leaves the present question open. It rules nothing out; who says so is taken to
// guess less.
func (q *Inquiry) CantTell() error {
	now := q.Question()
	if now == nil {
		return wording.Errorf("nothing is asked any more")
	}
	q.take(given{question: *now, pick: Unsure, asked: true})
	return nil
}

// Observe notes that the creature shows one of these states of the trait. Of a
// trait that was seen before, what both readings allow is believed; if they
// allow nothing together, either may be right.
func (q *Inquiry) Observe(trait string, states ...string) error {
	if problem, hint := q.model.key.catalog.Vocabulary().Unknown(trait, states...); problem != "" {
		return fmt.Errorf("%s (%s)", problem, hint)
	}
	if len(states) == 0 {
		return wording.Errorf("no state of %s was given", plain.Quote(trait))
	}
	bare := Question{Trait: q.model.key.catalog.Vocabulary().Trait(trait)}
	q.take(given{question: bare, pick: strings.Join(states, ","), says: []couplets.Condition{{Trait: trait, States: slices.Clone(states)}}})
	return nil
}

// ObserveLength notes the length of the body in mm, from 0.1 to 2000; a second
// length replaces the first. Longer than a kind's range speaks against it, 15 %
// too long as one standard deviation; shorter does so gently; and within it a length
// speaks the more for a kind the narrower its range is.
func (q *Inquiry) ObserveLength(mm float64) error {
	if !(mm >= 0.1 && mm <= 2000) {
		return wording.Errorf("a length of %v mm cannot be; it lies between 0.1 and 2000", mm)
	}
	q.take(given{length: mm})
	return nil
}

// Stop ends the questions where they stand.
func (q *Inquiry) Stop() { q.take(given{stop: true}) }

// Back undoes whatever was said last, and reports whether there was anything.
func (q *Inquiry) Back() bool {
	if len(q.given) == 0 {
		return false
	}
	last := q.given[len(q.given)-1]
	for range last.steps {
		q.walk.Back()
	}
	q.given = q.given[:len(q.given)-1]
	q.lengthLeft = q.lengthLeft && len(q.given) >= q.leftAfter
	q.believe()
	return true
}

// Reask answers anew what was said, by its place in [Inquiry.Given], and keeps
// everything else. Pick may be "?", which takes back what was said before; the
// same answer counts as read twice, and another one does not undo the first: both
// were read, and what else is known says which holds.
func (q *Inquiry) Reask(i int, pick string) error {
	if i < 0 || i >= len(q.given) {
		return wording.Errorf("there is no answer number %d", i)
	}
	g := q.given[i]
	if g.length > 0 || g.stop {
		return wording.Errorf("this was no question; go back, or give another length")
	}
	says, err := []couplets.Condition(nil), error(nil)
	if pick != Unsure {
		if says, err = g.question.conditions(pick); err != nil {
			return err
		}
	}
	switch {
	case pick == Unsure:
		g.stood, g.earlier = 0, nil
	case pick == g.pick:
		g.stood++
	case g.pick != Unsure:
		g.earlier, g.stood = append(slices.Clone(g.earlier), reading{g.pick, g.says}), 0
	}
	g.pick, g.says, g.heard = pick, says, false
	all := slices.Clone(q.given)
	all[i] = g
	q.walk, q.given = q.model.key.Walk(), nil
	for _, one := range all {
		q.follow(&one)
		q.given = append(q.given, one)
	}
	q.believe()
	return nil
}

func (q *Inquiry) take(g given) {
	q.follow(&g)
	q.given = append(q.given, g)
	q.believe()
}

// follow takes the walk along.
func (q *Inquiry) follow(g *given) {
	q.model.follows(g)
	before := len(q.walk.history)
	c := q.walk.Couplet()
	switch {
	case g.stop:
		q.walk.stop()
	case c != nil && c == g.question.Couplet && g.pick == Unsure:
		_ = q.walk.CantTell() // it is the couplet that is asked
	case c != nil && c == g.question.Couplet:
		_ = q.walk.Take(g.pick) // its pick has been looked up
	default:
		for _, cond := range g.says {
			_ = q.walk.Observe(cond.Trait, cond.States...) // its names have been looked up
		}
	}
	g.steps = len(q.walk.history) - before
}

// Given is one thing that was said.
type Given struct {
	Answer   string // "4a", "4?", "tails=2", "length=12"
	Question Question
	Says     []couplets.Condition // what it stands for; none for can't tell
	Asked    bool                 // whether it answered a question
}

// Given is all that was said, in order.
func (q *Inquiry) Given() []Given {
	out := make([]Given, 0, len(q.given))
	for _, g := range q.given {
		out = append(out, Given{g.answer(), g.question, g.says, g.asked})
	}
	return out
}

func (g *given) answer() string {
	switch {
	case g.stop:
		return saidStop
	case g.length > 0:
		return fmt.Sprintf("length=%g", g.length)
	}
	return g.question.answer(g.pick)
}

// Path is all that was said, as it is written: "4a", "4?", "tails=2", in own words
// "said:tails=2", and with a slash before every further look, "4a/b". An inquiry that is
// told it, see [Inquiry.Say], believes the same. It ends with "stop" where the questions
// are over and marks were passed over, of which it tells nothing.
func (q *Inquiry) Path() []string {
	out := make([]string, 0, len(q.given)+1)
	for i := range q.given {
		out = append(out, q.given[i].written())
	}
	if endsAfterPassing(q) {
		out = append(out, saidStop)
	}
	return out
}

// Leads is the walk that came of it: the leads taken, those too that followed from
// what was said of traits, as "4a", and "4?" where nobody could tell.
func (q *Inquiry) Leads() []string { return q.walk.Path() }

// Questions is how many questions were answered, "can't tell" included.
func (q *Inquiry) Questions() int {
	n := 0
	for i := range q.given {
		if q.given[i].asked {
			n++
		}
	}
	return n
}
