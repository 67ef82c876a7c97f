package key

import (
	"slices"
	"testing"
)

// What an animal is likened to speaks for the kinds that people say it of, makes no other
// impossible, is asked of nobody, and nobody is told to look at it again. Every end point has
// some (common practice: anything that moves is likened to something).
func TestWhatAnAnimalIsLikenedToIsRoughEvidence(t *testing.T) {
	m := embedded(t)
	for _, end := range m.ends {
		if end.States("like") == nil {
			t.Errorf("%s is likened to nothing", end.ID)
		}
	}
	q, err := m.Inquire(DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	for i, closed := range closedTo(q) {
		if a := &m.asks[i]; a.likens() && !closed {
			t.Errorf("%s is asked", a.trait.ID)
		}
	}
	for _, said := range []string{"said:like=worm/?", "like?"} { // which nobody is offered
		if err := q.Say(said); err != nil {
			t.Error(err)
		}
		if now := q.Question(); now == nil || now.Trait != nil && now.Trait.Likeness {
			t.Errorf("after %s there is %v asked", said, now)
		}
		q.Back()
	}
	place := func(id string) int { return slices.Index(endIDs(m), id) }
	sowbug, stonefly := place("asellidae"), place("perlodidae")
	before := slices.Clone(q.belief.P())
	if err := q.Hear("like", "woodlouse"); err != nil {
		t.Fatal(err)
	}
	p := q.belief.P()
	if for_, against := p[sowbug]/before[sowbug], p[stonefly]/before[stonefly]; for_ < 5*against || against < 0.02 {
		t.Errorf("a sowbug is %.3f times as likely, a stonefly %.4f", for_, against)
	}
	for _, said := range []string{"tails=2", "antennae=long", "wings=pads", "claws=2"} {
		if err := q.Say(said); err != nil {
			t.Fatal(err)
		}
	}
	if q.belief.P()[sowbug] > q.belief.P()[stonefly] || lackingOf(q) > 0 {
		t.Errorf("with tails, feelers and wing pads a sowbug has %.3f, a stonefly %.3f; %d things that nothing shows",
			q.belief.P()[sowbug], q.belief.P()[stonefly], lackingOf(q))
	}
	for _, s := range q.Suspects() {
		if s.Given == 0 && s.Probability > 0 {
			t.Errorf("what it was likened to is misread with %.3f", s.Probability)
		}
	}
}

func endIDs(m *Model) (out []string) {
	for _, end := range m.ends {
		out = append(out, end.ID)
	}
	return out
}
