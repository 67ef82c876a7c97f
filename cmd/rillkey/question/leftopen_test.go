package question

import (
	"slices"
	"strings"
	"testing"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/keytest"
)

// A trait of which leads left several states open is asked for with the last of them, and
// the states alone are offered that all of them left.
func TestWhatALeadLeftOpenIsAskedWithIt(t *testing.T) {
	t.Parallel()
	m, met := keytest.Model(t), 0
	for _, animal := range m.Key().Ends() {
		q, err := m.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		for now := q.Question(); now != nil; now = q.Question() {
			if now.Trait != nil {
				met += checkLeftOpen(t, &sitting{q: q, now: stateOf(q)})
			}
			if err := q.Answer(truly(*now, animal)); err != nil {
				t.Fatal(err)
			}
		}
	}
	if met == 0 {
		t.Error("no trait was asked for that a lead left open")
	}
}

// checkLeftOpen counts the leads that left open what is asked for.
func checkLeftOpen(t *testing.T, s *sitting) (met int) {
	t.Helper()
	asked, last := s.question(), ""
	of := func(c couplets.Condition) bool { return c.Trait == asked.Trait.ID }
	for _, g := range s.q.Given() {
		at := slices.IndexFunc(g.Says, of)
		if g.Question.Couplet == nil || at < 0 {
			continue
		}
		met++
		last = words(g)
		for _, state := range asked.States() {
			if !slices.Contains(g.Says[at].States, state) {
				t.Errorf("%s: %s of %s is offered, and %q left %v", path(s.q), state, asked.ID(), words(g), g.Says[at].States)
			}
		}
	}
	if said := leftOpen(s); !strings.Contains(said, last) {
		t.Errorf("%s: %s is asked after %q with %q", path(s.q), asked.ID(), last, said)
	}
	return met
}
