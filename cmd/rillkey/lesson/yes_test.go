package lesson

import (
	"strings"
	"testing"

	"rillkey/key/keytest"
	"rillkey/key/practice"
)

// placed is a lesson before an animal of a kind as it usually is.
func placed(o Options, kind string) *Lesson {
	l := New(o)
	place(l, o, kind)
	return l
}

func place(l *Lesson, o Options, kind string) {
	l.kind, l.animal = l.catalog.Taxon(kind), o.Course.Typical(kind)
	l.animal.Shows = l.atlas().Drawn(l.kind, l.animal.Shows)
	l.meeting.Kind = kind
}

// A lucky guess was answered by "Yes" alone, which taught nothing but the name.
func TestTheFirstRightNameOfAKindIsToldWhy(t *testing.T) {
	for _, row := range []struct{ kind, name, like, by string }{
		{"pleuroceridae", "horn snail", "mud snail", "Grown length: horn snail 8 to 40 mm"},
		{"hydrobiidae", "mud snail", "faucet snail", "a hard white lid"},
		{"perlidae", "golden stonefly", "striped stonefly", "The one thing to look at: "},
	} {
		o, _ := options(t, practice.DrawingSource)
		o.Animals = 10
		l := placed(o, row.kind)
		l.Name(row.name)
		p := l.Now()
		words := inLines(&p)
		if l.stage != telling || !strings.HasPrefix(p.Title, "Yes: "+row.name) || !strings.Contains(words, "Know it by: ") ||
			!strings.Contains(words, "Most like it is "+row.like) || !strings.Contains(words, row.by) || len(p.Plates) != 2 {
			t.Errorf("%d plates: %s", len(p.Plates), words)
		}
		l.Do(GoOn)
		place(l, o, row.kind)
		if l.Name(row.name); l.stage == telling || !strings.HasPrefix(l.said, "Yes: ") {
			t.Errorf("told again: %s", l.said)
		}
		place(l, o, row.kind)
		l.Name("crane fly") // after a mistake it is no longer known
		l.Do(GoOn)
		place(l, o, row.kind)
		if l.Name(row.name); l.stage != telling {
			t.Errorf("not told after a mistake: %s", l.said)
		}
	}
}

// A tail that was lost was the one thing to look at.
func TestWhatAnAnimalLacksIsNoMarkOfIt(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	lost, young := 0, 0
	o.Animals = practice.MostMeetings
	l := New(o)
	for _, kind := range o.Course.Kinds() {
		l.kind = kind
		other := lookAlike(l)
		for range keytest.Times(3, 1) {
			l.kind, l.animal = kind, o.Course.Draw(kind.ID, o.Random)
			if !l.animal.Hurt && len(l.animal.Lacks) == 0 {
				continue
			}
			l.animal.Shows = l.atlas().Drawn(kind, l.animal.Shows)
			l.meeting.Kind = kind.ID
			l.Name(other.ID)
			p := l.Now()
			words := inLines(&p)
			for _, trait := range l.catalog.Vocabulary().Traits() {
				if l.animal.Lacking(trait.ID) && strings.Contains(words, "The one thing to look at: "+trait.Question) &&
					!strings.Contains(words, "This one cannot show that") {
					t.Errorf("%s: %s", kind.ID, words)
				}
			}
			if l.animal.Hurt {
				lost++
			}
			if strings.Contains(words, "did not have these yet: ") {
				young++
			}
			if l.stage == telling {
				l.Do(GoOn)
			}
		}
	}
	if lost == 0 || young == 0 {
		t.Errorf("%d hurt, %d young", lost, young)
	}
}
