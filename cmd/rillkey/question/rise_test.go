package question

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/taxa"
)

// Where an answer leaves more kinds possible they are not possible "still". What it was
// before is told where that was not expected; said of every rise it worried people whose
// answers were true.
func TestWhereMoreKindsArePossibleItIsSaid(t *testing.T) {
	m := keytest.Model(t)
	r := rand.New(rand.NewPCG(1, 2))
	rises := 0
	for range 25 {
		q, err := m.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		talk := QuestionsAlone(q, nil, false)
		for n := 0; !talk.Ended() && n < 12 && len(talk.Now().Options) > 0; n++ {
			before := len(talk.s.now.likely)
			options := talk.Now().Options
			talk.Answer(options[r.IntN(len(options))].Answer)
			if talk.Ended() || talk.s.stage != asking || len(talk.s.now.likely) <= before {
				continue
			}
			rises++
			said := ""
			for _, text := range talk.Now().After {
				said += text.Words + "\n"
			}
			if !strings.Contains(said, "Possible now") || strings.Contains(said, "Still possible") ||
				strings.Contains(said, "Before your last answer it was "+kinds(before)) != talk.s.grew {
				t.Errorf("%d kinds, then %d:\n%s", before, len(talk.s.now.likely), said)
			}
		}
	}
	if rises == 0 {
		t.Error("no answer left more possible")
	}
}

// Nobody is told that one kind is left and then asked on.
func TestOneKindAloneIsNeverAskedAbout(t *testing.T) {
	m := keytest.Model(t)
	alone := 0
	for i, end := range m.Key().Ends() {
		q, err := m.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		for now := q.Question(); now != nil; now = q.Question() {
			s := stateOf(q)
			if says := s.possible(false); strings.HasPrefix(says, "Still possible, 1 kind") {
				alone++
				if !strings.Contains(says, "or one that is not in this key") {
					t.Errorf("%d: %s is asked; %s", i, now.ID(), says)
				}
			}
			if err := q.Answer(truly(*now, end)); err != nil {
				t.Fatal(err)
			}
		}
	}
	if alone == 0 {
		t.Error("one kind was never left")
	}
}

// truly is the answer that an animal of the taxon fits, or can't tell.
func truly(now key.Question, t *taxa.Taxon) string {
	for _, c := range choicesOf(now) {
		differs := func(says couplets.Condition) bool {
			return !slices.ContainsFunc(t.States(says.Trait), func(w taxa.Weight) bool { return slices.Contains(says.States, w.State) })
		}
		if !slices.ContainsFunc(now.Says(c.pick), differs) {
			return c.pick
		}
	}
	return key.Unsure
}
