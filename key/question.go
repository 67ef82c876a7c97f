package key

import (
	"slices"
	"strings"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Phase says why a question is asked.
type Phase string

// The phases of an inquiry.
const (
	Keyed      Phase = "keyed"      // it is next in the author's order
	Chosen     Phase = "chosen"     // it tells most for its effort
	Confirming Phase = "confirming" // the path has ended, the name is not sure enough
)

// Question is what an inquiry asks: a couplet, or a trait by itself.
type Question struct {
	Couplet *couplets.Couplet // nil for a trait
	Trait   *taxa.Trait       // nil for a couplet
	Left    []string          // states of the trait that an earlier answer leaves; nil for all
	Phase   Phase
	Gain    float64 // bits it is expected to give
}

// ID is the couplet's number or the trait's id; empty for the zero Question.
func (q Question) ID() string {
	switch {
	case q.Couplet != nil:
		return q.Couplet.ID
	case q.Trait != nil:
		return q.Trait.ID
	}
	return ""
}

// States are those of the trait to choose from; none for a couplet.
func (q Question) States() []string {
	if q.Left != nil || q.Trait == nil {
		return q.Left
	}
	return q.Trait.StateIDs()
}

// AnswerCost is what it takes a person to answer, in any unit. A question costs the
// effort of looking at each of its traits, and something more for every answer
// beyond two that has to be read.
type AnswerCost struct {
	Eye, Patience, Lens float64
	Option              float64 // for every answer beyond two
}

// usualEffort is the effort of people by a stream (common practice: the naked
// eye before waiting, waiting before the hand lens; the figures are memory).
var usualEffort = AnswerCost{Eye: 1, Patience: 1.4, Lens: 1.8, Option: 0.05}

func (e AnswerCost) forLook(look taxa.Look) float64 {
	switch look {
	case taxa.Lens:
		return e.Lens
	case taxa.Patience:
		return e.Patience
	}
	return e.Eye
}

func (m *Model) effort(a *ask, e AnswerCost) float64 {
	sum := 0.0
	for _, t := range a.traits {
		sum += e.forLook(m.traits[t].Look)
	}
	answers := 0
	if a.couplet != nil {
		answers = len(a.couplet.Leads)
	} else {
		answers = len(a.trait.States)
	}
	return sum + e.Option*float64(answers-2)
}

// needsLens reports whether a hand lens is needed to answer.
func (m *Model) needsLens(a *ask) bool {
	return slices.ContainsFunc(a.traits, func(t int) bool { return m.traits[t].Look == taxa.Lens })
}

// conditions are what an answer to the question stands for. Pick is a lead's
// letter, or states of the trait parted by commas.
func (q Question) conditions(pick string) ([]couplets.Condition, error) {
	if q.Trait != nil {
		return bare(q.Trait, strings.Split(pick, ","))
	}
	if q.Couplet == nil {
		return nil, wording.Errorf("nothing was asked that %s would answer", plain.Quote(pick))
	}
	for _, l := range q.Couplet.Leads {
		if l.Letter == pick {
			return l.Conditions, nil
		}
	}
	return nil, wording.Errorf("couplet %s has no lead %s; its leads are %s", q.Couplet.ID, plain.Quote(pick), leadList(q.Couplet))
}

func bare(t *taxa.Trait, states []string) ([]couplets.Condition, error) {
	for _, s := range states {
		if t.State(s) < 0 {
			return nil, wording.Errorf("the trait %s has no state %s (its states are %s)", plain.Quote(t.ID), plain.Quote(s),
				plain.List(t.StateIDs()))
		}
	}
	return []couplets.Condition{{Trait: t.ID, States: states}}, nil
}

// Says are the conditions that an answer stands for; none for "?" and for what
// is no answer.
func (q Question) Says(pick string) []couplets.Condition {
	says, _ := q.conditions(pick)
	return says
}

// answer is how a pick is written in a path: "4a", "4?", "tails=2", "tails?".
func (q Question) answer(pick string) string {
	if q.Trait != nil && pick != Unsure {
		return q.Trait.ID + "=" + strings.ReplaceAll(pick, ",", "+") // a comma parts answers
	}
	return q.ID() + pick
}
