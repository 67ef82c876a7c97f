package practice

import (
	"slices"
	"time"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
)

// SpecimenSource is what animals were met as. Rates are kept apart by it: a drawing is
// easier than an animal, and words are easier than a drawing.
type SpecimenSource string

// The sources.
const (
	DrawingSource SpecimenSource = "drawing"
	WordsSource   SpecimenSource = "words"
	TraySource    SpecimenSource = "tray" // a real specimen, named by a trainer
)

// Sources are all sources.
var Sources = []SpecimenSource{DrawingSource, WordsSource, TraySource}

// Meeting is one animal as a person met it.
type Meeting struct {
	Time   time.Time
	Source SpecimenSource
	Kind   string // what it is
	Test   TestKind
	Number int    // of the test, where it was met in one
	Begins bool   // it is the first animal of a sitting, or of a test
	Drawn  string // what its drawing is known by; empty where it was none
	// Sight is the taxon that the person named on sight; empty where they did not.
	Sight string
	// Named are the end points that the walk with the key came to: several where the
	// key cannot tell them apart, none where there was no walk or no name.
	Named  []string
	Walked bool
	// Group is the taxon that it was named on sight, or that the walk was ended with, where
	// it holds the kind but is wider.
	Group string
	// Alike tells that its drawing could as well be of the kind that it was named as, so
	// that the name is not wrong.
	Alike bool
	// Prompted tells that kinds were listed to choose from before it was named on sight.
	Prompted bool
	Readings []Reading
	Seconds  float64 // until the name on sight, else until the walk began
}

// Right reports whether the animal was named rightly, by the last name given.
func (m *Meeting) Right() bool {
	if m.Alike {
		return true
	}
	if m.Sight != "" && !m.Walked {
		return m.Sight == m.Kind || m.Group != ""
	}
	return slices.Contains(m.Named, m.Kind)
}

// knownAs is the kind that it was named on sight; empty where it was not, or no closer
// than as a group that holds it.
func (m *Meeting) knownAs() string {
	if m.Group != "" {
		return ""
	}
	return m.Sight
}

// takenFor is the taxon that it was named by the last name given, the first of several;
// empty for none.
func (m *Meeting) takenFor() string {
	if m.Walked && len(m.Named) > 0 {
		return m.Named[0]
	}
	return m.Sight
}

// Reading is one trait as it was read in an answer.
type Reading struct {
	Trait string
	Is    string   // the state that was to be seen
	Fit   []string // the states that the right answer stands for; Is is among them
	Given []string // the states that the answer given stands for
	// Blame is, of a misread, the chance that it was this trait that was misread:
	// below 1 where the answer speaks against the animal in several.
	Blame float64
}

// Wrong reports whether the trait was misread.
func (r *Reading) Wrong() bool { return !slices.Contains(r.Given, r.Is) }

// ReadingsOf are the traits that were read in what was said of an animal: each trait
// once, the first time that it was asked. What the animal does not show, what was left
// open, and a question that no answer fits is no reading, nor is what a couplet asks after
// an answer that led off the animal's way: its words were written for other animals.
func ReadingsOf(given []key.Given, shows map[string]string, v *taxa.Vocabulary) (out []Reading) {
	astray := false
	for _, g := range given {
		if !g.Asked || Truly(g.Question, shows) == key.Unsure || astray && g.Question.Couplet != nil {
			continue
		}
		from := len(out)
		for _, said := range g.Says {
			is, known := shows[said.Trait]
			if !known || slices.ContainsFunc(out, func(r Reading) bool { return r.Trait == said.Trait }) {
				continue
			}
			out = append(out, Reading{Trait: said.Trait, Is: is, Fit: Fitting(g.Question, said.Trait, is), Given: said.States})
		}
		Blame(out[from:], v)
		astray = astray || g.Question.Couplet != nil && slices.ContainsFunc(out[from:], func(r Reading) bool { return r.Wrong() })
	}
	return out
}

// Blame parts the blame for a wrong answer among the traits of it that were misread, by
// how easily each is; readings are those of one answer.
func Blame(readings []Reading, v *taxa.Vocabulary) {
	sum := 0.0
	ease := func(r *Reading) float64 {
		if t := v.Trait(r.Trait); t != nil && r.Wrong() {
			return t.Misread + 0.01
		}
		return 0
	}
	for i := range readings {
		sum += ease(&readings[i])
	}
	for i := range readings {
		if e := ease(&readings[i]); e > 0 {
			readings[i].Blame = e / sum
		}
	}
}

// Fitting are the states of the answer to a question that would have been right for an
// animal that shows a state of a trait; the state alone where no answer has it.
func Fitting(q key.Question, trait, is string) []string {
	if q.Couplet != nil {
		for _, l := range q.Couplet.Leads {
			for _, c := range l.Conditions {
				if c.Trait == trait && slices.Contains(c.States, is) {
					return c.States
				}
			}
		}
	}
	return []string{is}
}

// Truly is the answer to a question for an animal that is read rightly, as it is said
// to an inquiry; [key.Unsure] where no answer fits what it shows.
func Truly(q key.Question, shows map[string]string) string {
	if q.Trait != nil {
		if s := shows[q.Trait.ID]; slices.Contains(q.States(), s) {
			return s
		}
		return key.Unsure
	}
	for _, l := range q.Couplet.Leads {
		unlike := func(c couplets.Condition) bool { return !slices.Contains(c.States, shows[c.Trait]) }
		if !slices.ContainsFunc(l.Conditions, unlike) {
			return l.Letter
		}
	}
	return key.Unsure
}
