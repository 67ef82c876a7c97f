package lesson

import (
	"slices"
	"strings"
	"testing"
	"time"

	"rillkey/key/practice"
)

// signs are the keys of a page.
func signs(p *Prompt) (out []string) {
	for _, k := range p.Keys {
		out = append(out, k.Sign)
	}
	return out
}

func TestATestOnSightPutsTheKeyAway(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	o.Test, o.Animals = practice.OnSight, 3
	l := begun(o)
	if p := l.Now(); slices.Contains(signs(&p), byKey) || !p.Named || !strings.HasPrefix(p.Where, "Test 1 on sight, animal 1 of 3") {
		t.Errorf("%q %v", p.Where, signs(&p))
	}
	l.Do(byKey)
	if p := l.Now(); l.stage != meeting || len(p.Options) > 0 || strings.Contains(p.Said, "key") {
		t.Errorf("the key was opened: %q", p.Said)
	}
	l.Name("mayfly")
	if p := l.Now(); l.met > 0 || p.Said != `"mayfly" is a name for several kinds. Say it closer, or choose 1 to leave it at "mayfly".` {
		t.Errorf("%q", p.Said)
	}
	l.Do("?")
	if p := l.Now(); l.met != 1 || p.Said != "Noted: no name." {
		t.Errorf("%d met, %q", l.met, p.Said)
	}
	l.Name("crane fly")
	if p := l.Now(); p.Said != "Noted: crane fly." && !strings.HasPrefix(p.Said, "Noted: crane fly") {
		t.Errorf("%q", p.Said)
	}
	if got := o.Record.Meetings; got[0].Sight != "" || got[0].Walked || got[1].Test != practice.OnSight || got[1].Number != 1 {
		t.Errorf("%+v", got)
	}
	l.Do("?")
	if p := l.Now(); p.Title != "Test 1 is over" || !strings.Contains(p.Before[0].Words, "of 3 animals named rightly") {
		t.Errorf("%q %v", p.Title, p.Before)
	}
}

func TestATestWithTheKeyTellsNothing(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	o.Test, o.Animals = practice.WithKey, 12
	l := begun(o)
	for n := 0; l.stage != resting && n < 600; n++ {
		p := l.Now()
		words := p.Said + inLines(&p)
		for _, teaches := range []string{"till possible", "ikely", "If you stop", "Yes", "Nearly", "This one is", "misread"} {
			if strings.Contains(words, teaches) {
				t.Fatalf("%q: %s", teaches, words)
			}
		}
		if p.Named || slices.Contains(signs(&p), "r") || slices.Contains(signs(&p), byKey) {
			t.Fatalf("more than the key's questions: %v", signs(&p))
		}
		if q := l.talk.Inquiry().Question(); q != nil {
			l.Do(letterOf(l, *q))
		} else {
			l.Do(stop)
		}
	}
	got := o.Record.Tested()
	if len(got) != 1 || !got[0].Finished() || got[0].Right < 9 {
		t.Errorf("%+v", got)
	}
	for _, m := range o.Record.Meetings {
		if m.Sight != "" || !m.Walked {
			t.Errorf("%+v", m)
		}
	}
}

// Walks that a player ended too early were counted as if they had a name to give.
func TestWhoEndsAWalkTooEarlyIsToldThatTheAnimalIsNotYetNamed(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	o.Test, o.Animals = practice.WithKey, 2
	l := begun(o)
	l.Do(stop)
	if p := l.Now(); l.met != 0 || !strings.HasPrefix(p.Said, "This animal is not yet named. ") || len(p.Options) == 0 {
		t.Fatalf("%d met, %q", l.met, p.Said)
	}
	l.Do(letterOf(l, *l.talk.Inquiry().Question()))
	l.Do(stop)
	if l.met != 0 {
		t.Fatal("after another answer one press ended it")
	}
	l.Do(stop)
	if p := l.Now(); l.met != 1 || !strings.HasPrefix(p.Said, "Noted: ") {
		t.Errorf("%d met, %q", l.met, p.Said)
	}
}

// A second test just began with its first animal.
func TestATestIsAnnounced(t *testing.T) {
	o, c := options(t, practice.DrawingSource)
	o.Animals = 2
	l := New(o)
	l.Name("crane fly")
	o.Test = practice.OnSight
	c.at = c.at.Add(time.Hour)
	for _, want := range []string{"Before this first test: 1 animal in 1 sitting.", "Since test 1, of 2031-04-05: no sitting."} {
		l = New(o)
		p := l.Now()
		all := p.Title + inLines(&p)
		for _, say := range []string{"on sight: 2 animals", "Nothing is told of any animal", want} {
			if !strings.Contains(all, say) {
				t.Errorf("no %q in %s", say, all)
			}
		}
		if l.Name("crane fly"); l.met > 0 || l.stage != announcing {
			t.Error("a name was taken before there was an animal")
		}
		l.Do(help)
		l.Do(GoOn)
		l.Do("?")
		l.Do("?")
		c.at = c.at.Add(time.Minute)
	}
}

// Only a test has an end of its own where nobody said how many animals.
func TestHowManyAnimalsATestHas(t *testing.T) {
	for _, row := range []struct {
		test    practice.TestKind
		animals int
		want    int
	}{{"", 0, 0}, {practice.OnSight, 0, usualTest}, {practice.WithKey, 0, usualTest}, {practice.OnSight, 4, 4}} {
		o, _ := options(t, practice.WordsSource)
		o.Test, o.Animals = row.test, row.animals
		if got := New(o).Animals; got != row.want {
			t.Errorf("%q of %d animals has %d, not %d", row.test, row.animals, got, row.want)
		}
	}
}
