package lesson

import (
	"math/rand/v2"
	"slices"
	"time"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/question"
	"rillkey/cmd/rillkey/terminal"
	"rillkey/key"
	"rillkey/key/practice"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Options are how a lesson is led.
type Options struct {
	Opening string // what is said first; may be empty
	Model   *key.Model
	Course  *practice.Course
	Record  *practice.PersonRecord
	Atlas   func() *figure.Atlas // nil, or giving nil, where nothing is drawn
	Clock   func() time.Time
	Random  *rand.Rand
	Source  practice.SpecimenSource
	Cups    []practice.Cup // for a tray
	Buttons bool           // answers have buttons, not keys
	Photos  bool           // pictures can be photographs, where the region has them

	// Keep saves the record after each animal; what is not saved is said, and tried
	// again with the next.
	Keep func(*practice.PersonRecord) error
	// Length is how long a sitting is; Animals, where it is not 0, ends it instead.
	Length  time.Duration
	Animals int
	// Test, where it is not empty, tells nothing of the animals, and has Animals set.
	Test practice.TestKind
}

// Sitting is how long people practise at a time: attention fails before time does
// (common practice).
const Sitting = 10 * time.Minute

// usualTest is how many animals a test has where nobody says.
const usualTest = 30

// Lesson is one sitting. It is for one goroutine at a time.
type Lesson struct {
	Options
	catalog    *taxa.Catalog
	learner    *practice.Learner
	began      time.Time
	startError float64 // the error that was expected in a tally when the sitting began
	begins     bool    // the next animal is the sitting's first
	stage      stage
	ended      bool

	drawings map[string]bool    // the likenesses of all animals met, in whatever sitting
	worn     map[string]bool    // kinds of which no other drawing was found
	missed   []practice.Reading // what was misread in this sitting

	animal   practice.Specimen
	photo    *taxa.Photo // of the animal, in the place of a drawing
	likeness string      // of its drawing
	pose     figure.Pose
	cup      practice.Cup
	kind     *taxa.Taxon
	length   float64         // mm, 0 where it is not known
	names    map[string]bool // the words of its names and of those above it, once somebody looked closer
	chosen   map[string]int  // by trait, which of its words are used
	shown    time.Time       // when the animal was first seen
	talk     *question.Talk
	told     map[string]bool     // traits that were told in words
	alike    map[string][]string // by trait, the states that the drawing does not tell apart, once somebody asked
	looking  bool                // the closer look is shown
	close    []*taxa.Trait       // what it is at
	helping  bool
	meeting  practice.Meeting
	typed    string             // the name that was said on sight, as it was typed
	choices  []choice           // names that can be taken by their numbers
	misread  []practice.Reading // what is told of, also of what was told in words
	ending   bool               // the walk is to be ended though the animal has no close name
	test     practice.Test
	lesson   Prompt // what is told after an animal

	met, right int
	said       string
	unsaved    error
}

// stage is what stands to be done.
type stage int

const (
	announcing stage = iota // what a test is
	meeting                 // an animal, to be named
	walking                 // by the key
	telling                 // what it was
	resting                 // the sitting is over
)

// New begins a sitting.
func New(o Options) *Lesson {
	if o.Test != "" && o.Animals == 0 {
		o.Animals = usualTest
	}
	l := &Lesson{Options: o, catalog: o.Model.Key().Catalog(), learner: o.Record.Learner(o.Course), began: o.Clock(), begins: true,
		drawings: map[string]bool{}, worn: map[string]bool{}}
	for i := range o.Record.Meetings {
		l.drawings[o.Record.Meetings[i].Drawn] = true
	}
	l.startError = l.learner.Error(l.began)
	if l.Test != "" {
		l.announce()
	} else {
		l.next()
	}
	l.said = l.Opening
	return l
}

// Ended reports whether the sitting is over and left.
func (l *Lesson) Ended() bool { return l.ended }

// Unsaved is why the last animals are not saved; nil where all are.
func (l *Lesson) Unsaved() error { return l.unsaved }

// Met is how many animals were met, and how many of them were named rightly.
func (l *Lesson) Met() (animals, right int) { return l.met, l.right }

// next brings the next animal.
func (l *Lesson) next() {
	now := l.Clock()
	if spent(l, now) {
		l.stage = resting
		return
	}
	l.stage, l.talk, l.told, l.alike, l.looking, l.helping, l.ending = meeting, nil, map[string]bool{}, nil, false, false, false
	l.photo, l.names, l.close, l.choices = nil, nil, nil, nil
	if l.Source == practice.TraySource {
		l.cup = practice.NextCup(l.Cups, l.learner, now, l.Random, l.cup)
		l.animal = practice.Specimen{Kind: l.cup.Kind}
		l.kind = l.catalog.Taxon(l.cup.Kind)
	} else {
		l.draw(now)
	}
	l.length = l.lengthOf()
	l.chosen = map[string]int{}
	for _, t := range l.catalog.Vocabulary().Asked() {
		l.chosen[t.ID] = l.Random.IntN(mostWays)
	}
	l.shown = now
	l.tellColour()
	l.meeting = practice.Meeting{Source: l.Source, Kind: l.animal.Kind, Test: l.Test, Begins: l.begins, Drawn: l.likeness}
	if l.Test == practice.WithKey {
		walk(l)
	}
}

// spent reports whether the sitting has lasted long enough.
func spent(l *Lesson, now time.Time) bool {
	if l.Animals > 0 {
		return l.met >= l.Animals
	}
	return now.Sub(l.began) >= l.Length
}

// Do takes the letter of an option or the sign of a key; [GoOn] is the main key.
func (l *Lesson) Do(sign string) {
	l.said = ""
	switch {
	case l.ended:
	case sign == leave:
		l.ended = true
	case l.looking || l.helping:
		l.looking, l.helping = false, false
	case sign == help && l.stage != announcing:
		l.helping = true
	case l.stage == meeting:
		meet(l, sign)
	case l.stage == walking && sign == closer:
		l.look()
	case l.stage == walking:
		answer(l, sign)
	case (l.stage == telling || l.stage == announcing) && sign == GoOn:
		l.next()
	case l.stage == resting && sign == more && l.Animals == 0:
		l.began, l.begins, l.missed = l.Clock(), true, nil
		l.startError = l.learner.Error(l.began)
		l.next()
	case l.stage == resting && sign == GoOn:
		l.ended = true
	default: // whoever types fast skips nothing that is told
		l.said = wording.Text("First read this. Enter goes on.")
		if l.Buttons {
			l.said = wording.Text("First read this.")
		}
	}
}

func meet(l *Lesson, sign string) {
	switch {
	case sign == key.Unsure && l.Test == practice.OnSight:
		l.meeting.Seconds = l.seconds()
		l.finish()
	case (sign == byKey || sign == key.Unsure) && l.Test == "":
		walk(l)
	case sign == closer:
		l.look()
	case l.choose(sign):
	default:
		l.said = wording.Sprintf("That is no answer here. Say its name, or %s.", l.elseway())
	}
}

// elseway is what can be done with an animal beside naming it.
func (l *Lesson) elseway() string {
	if l.Test == practice.OnSight {
		return l.press(key.Unsure, wording.Text("leave it unnamed"))
	}
	return l.press(byKey, wording.Text("walk with the key"))
}

// press says how something beside the answers is done: by its key, or on a page by its
// button.
func (l *Lesson) press(sign, words string) string {
	if l.Buttons {
		return wording.Sprintf("tap \"%s\"", plain.Capital(words))
	}
	return wording.Sprintf("choose %s to %s", sign, words)
}

// walk begins to ask by the key.
func walk(l *Lesson) {
	q, err := l.Model.Inquire(key.DefaultOptions())
	if err == nil && l.length > 0 {
		err = q.ObserveLength(l.length)
	}
	if err != nil {
		l.said = plain.OneLine(err.Error())
		return
	}
	if l.meeting.Seconds == 0 {
		l.meeting.Seconds = l.seconds()
	}
	l.close = nil
	l.talk, l.stage, l.choices = question.QuestionsAlone(q, l.Atlas, l.Buttons), walking, nil
	ended(l)
}

func (l *Lesson) seconds() float64 { return max(0.1, l.Clock().Sub(l.shown).Seconds()) }

func answer(l *Lesson, sign string) {
	if sign == GoOn {
		l.said = wording.Text("Choose an answer by its letter, or ? for can't tell.")
		if l.Buttons {
			l.said = wording.Text("Choose an answer, or \"Can't tell\".")
		}
		return
	}
	if l.tooEarly(sign) {
		return
	}
	l.talk.Answer(sign)
	passHidden(l, sign)
	l.close = nil
	if !l.talk.Ended() {
		l.said = l.talk.Now().Said
	}
	ended(l)
}

// passHidden goes past questions about what the animal's case hides: nobody can tell.
func passHidden(l *Lesson, sign string) {
	if sign != key.Unsure && sign != terminal.Back {
		sign = key.Unsure
	}
	for range mostHidden {
		if l.talk.Ended() || !slices.ContainsFunc(l.talk.Traits(), func(t *taxa.Trait) bool { return t.HiddenIf.Holds(l.animal.Shows) }) {
			return
		}
		l.talk.Answer(sign)
	}
}

// mostHidden is how many hidden traits may be asked for one after another.
const mostHidden = 10

// ended goes on to what the walk came to, once it has ended.
func ended(l *Lesson) {
	if !l.talk.Ended() {
		return
	}
	q := l.talk.Inquiry()
	v := q.Verdict()
	l.meeting.Walked = true
	switch {
	case len(v.Set) > 0:
		l.meeting.Named = v.Set
	case v.Taxon != "" && v.Named():
		l.meeting.Named = []string{v.Taxon}
		if l.catalog.IsUnder(l.kind.ID, v.Taxon) {
			l.meeting.Named = []string{l.kind.ID} // right, as far as it goes
			if v.Taxon != l.kind.ID {
				l.meeting.Group = v.Taxon
			}
		}
	}
	l.meeting.Readings = l.readings(q)
	l.missed = append(l.missed, l.misread...)
	for _, id := range l.meeting.Named {
		allowAlike(l, l.catalog.Taxon(id))
	}
	l.finish()
}

// finish takes the meeting into the record and tells what it was.
func (l *Lesson) finish() {
	l.meeting.Time, l.begins = l.Clock(), false
	if l.likeness != "" {
		l.drawings[l.likeness] = true
	}
	if l.Test != "" {
		l.meeting.Number = l.Record.Number(l.test)
	}
	l.met++
	if l.meeting.Right() && (l.Test == "" || l.meeting.Group == "") {
		l.right++
	}
	l.Record.Meetings = append(l.Record.Meetings, l.meeting)
	l.learner.Take(l.meeting)
	if l.Keep != nil {
		l.unsaved = l.Keep(l.Record)
	}
	if l.Test != "" {
		noted := l.noted()
		l.next()
		l.said = noted
		return
	}
	l.tell()
}
