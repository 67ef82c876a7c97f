package lesson

import (
	"bufio"
	"errors"
	"io"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"rillkey/cmd/rillkey/figure"
	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/key/practice"
)

// clock stands still until somebody moves it.
type clock struct{ at time.Time }

func (c *clock) now() time.Time { return c.at }

func options(t testing.TB, source practice.SpecimenSource) (Options, *clock) {
	t.Helper()
	m := keytest.Model(t)
	course, err := practice.NewCourse(m.Key(), practice.Plan{})
	if err != nil {
		t.Fatal(err)
	}
	c := &clock{time.Date(2031, 4, 5, 9, 0, 0, 0, time.UTC)}
	atlas := figure.NewAtlas(m.Key().Catalog(), m.Key().Sound())
	return Options{Model: m, Course: course, Record: &practice.PersonRecord{Person: "Robin"},
		Atlas: func() *figure.Atlas { return atlas }, Clock: c.now, Random: rand.New(rand.NewPCG(3, 4)), Source: source, Length: Sitting}, c
}

// begun is a lesson at its first animal, past what a test says first.
func begun(o Options) *Lesson {
	l := New(o)
	if l.stage == announcing {
		l.Do(GoOn)
	}
	return l
}

// rightly walks through the animal at hand with the answers that it shows.
func rightly(t *testing.T, l *Lesson) {
	t.Helper()
	was := l.met
	l.Do(byKey)
	for n := 0; l.met == was; n++ {
		if n > 60 {
			t.Fatal("60 answers came to no end")
		}
		q := l.talk.Inquiry().Question()
		if q == nil {
			l.Do("s")
			continue
		}
		l.Do(letterOf(l, *q))
	}
}

// letterOf is the letter of the true answer.
func letterOf(l *Lesson, q key.Question) string {
	pick := practice.Truly(q, l.animal.Shows)
	if q.Trait == nil || pick == key.Unsure {
		return pick
	}
	for i, s := range q.States() {
		if s == pick {
			return l.talk.Now().Options[i].Answer
		}
	}
	return key.Unsure
}

// "Scud" is what a group and one of its kinds are called: it is an answer.
func TestANameThatAGroupSharesWithAKindIsTheKinds(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	for typed, taken := range map[string]bool{"scud": true, "mayfly": false} {
		l := New(o)
		was := l.met
		l.Name(typed)
		if (l.met > was) != taken {
			t.Errorf("%s: taken %v, said %q", typed, l.met > was, l.said)
		}
	}
}

func TestWhoReadsRightlyIsToldTheNameAndGoesOn(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	kept := 0
	o.Keep = func(r *practice.PersonRecord) error { kept = len(r.Meetings); return nil }
	l := New(o)
	right := 0
	for range 20 {
		before := l.kind
		rightly(t, l)
		if p := l.Now(); strings.HasPrefix(p.Said, "Yes: ") && strings.Contains(p.Said, before.Name()) {
			right++
		}
		if l.stage == telling {
			l.Do(GoOn)
		}
	}
	if right < 14 { // some are young or hurt, and a true answer then leads astray
		t.Errorf("%d of 20 animals that were read rightly were named so", right)
	}
	if kept != 20 {
		t.Errorf("%d of 20 animals were kept", kept)
	}
}

func TestAMistakeIsShownBesideWhatItShouldHaveLookedLike(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	for range 60 {
		l := New(o)
		l.Do(byKey)
		q := l.talk.Inquiry().Question()
		right := practice.Truly(*q, l.animal.Shows)
		for _, c := range l.Now().Options { // the first answer is misread, the rest is true
			if c.Letter != right {
				l.Do(c.Letter)
				break
			}
		}
		for n := 0; l.stage == walking && n < 60; n++ {
			if q := l.talk.Inquiry().Question(); q != nil {
				l.Do(letterOf(l, *q))
			} else {
				l.Do("s")
			}
		}
		if l.stage != telling {
			continue // named all the same, by answers that no drawing shows
		}
		p := l.Now()
		var words strings.Builder
		for _, text := range p.Before {
			words.WriteString(text.Words + "\n")
		}
		if strings.Contains(words.String(), "You read: ") && strings.Contains(words.String(), "It shows: ") && len(p.Plates) == 2 {
			return
		}
	}
	t.Error("no misread of 60 was shown")
}

func TestTheTwoKindsAreToldApart(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	l := New(o)
	wrong := "golden stonefly"
	if l.kind.ID == "perlidae" {
		wrong = "crane fly"
	}
	l.Name(wrong)
	p := l.Now()
	if !strings.HasPrefix(p.Title, "This one is ") || len(p.Before) == 0 ||
		!strings.Contains(p.Before[0].Words, "The one thing to look at") {
		t.Errorf("%q %v", p.Title, p.Before)
	}
	was := l.kind.ID
	if l.Do("a"); l.kind.ID != was {
		t.Error("a key that is no answer skipped what is told")
	}
	l.Do(GoOn)
	if l.kind.ID == was {
		t.Error("the same kind came twice in a row")
	}
	if l.kind.ID != l.catalog.Find(wrong).Taxon.ID {
		t.Errorf("after the error comes %s, not the kind it was taken for", l.kind.ID)
	}
}

// A snail was "nearly" a hellgrammite.
func TestNearlyIsSaidOfKinAlone(t *testing.T) {
	o, _ := options(t, practice.WordsSource)
	for _, row := range [][3]string{{"perlidae", "striped stonefly", "Nearly: it is "}, {"perlidae", "pouch snail", "This one is "},
		{"physidae", "ramshorn snail", "Nearly: it is "}, {"corydalus", "scud", "This one is "}} {
		l := New(o)
		l.kind, l.animal = l.catalog.Taxon(row[0]), o.Course.Typical(row[0])
		l.meeting.Kind = row[0]
		if l.Name(row[1]); !strings.HasPrefix(l.Now().Title, row[2]) {
			t.Errorf("%s called %s: %q", row[0], row[1], l.Now().Title)
		}
	}
}

func TestNeitherPictureNorWordsSayWhatItIs(t *testing.T) {
	for _, source := range []practice.SpecimenSource{practice.DrawingSource, practice.WordsSource} {
		o, _ := options(t, source)
		o.Test, o.Animals = practice.OnSight, keytest.Times(60, 12)
		l := begun(o)
		for !l.Ended() && l.stage != resting {
			for _, sign := range []string{help, GoOn, closer, GoOn} {
				l.Do(sign)
				p := l.Now()
				words := strings.ToLower(inLines(&p) + p.Picture.Figure.Title + p.Picture.Figure.Alt)
				scientific, name := strings.ToLower(l.kind.Scientific), strings.ToLower(l.kind.Name())
				given := strings.Contains(words, scientific) || len(name) > 8 && strings.Contains(words, name)
				if l.Source == practice.DrawingSource && given {
					t.Errorf("%s is given away: %s", l.kind.ID, words)
				}
			}
			l.Name("golden stonefly")
			if p := l.Now(); strings.Contains(p.Said, "Yes") || strings.Contains(p.Title, ", not ") {
				t.Errorf("a test tells: %q %q", p.Said, p.Title)
			}
		}
	}
}

func TestTenMinutesAreASitting(t *testing.T) {
	o, c := options(t, practice.WordsSource)
	l := New(o)
	l.Name("golden stonefly")
	c.at = c.at.Add(Sitting)
	l.Do(GoOn)
	if p := l.Now(); !strings.Contains(p.Title, "enough for one sitting") {
		t.Fatalf("after ten minutes: %q", p.Title)
	}
	l.Do(more)
	if p := l.Now(); p.Title != "What is it?" {
		t.Errorf("ten minutes more: %q", p.Title)
	}
}

func TestWhatIsNotSavedIsSaidAndTriedAgain(t *testing.T) {
	o, _ := options(t, practice.WordsSource)
	full := errors.New("the disk is full")
	o.Keep = func(*practice.PersonRecord) error { return full }
	l := New(o)
	l.Name("golden stonefly")
	if p := l.Now(); !strings.Contains(p.Said, "NOT saved") || !strings.Contains(p.Said, "the disk is full") {
		t.Errorf("%q", p.Said)
	}
	full = nil
	l.Do(GoOn)
	l.Name("crane fly")
	if l.Unsaved() != nil {
		t.Error("what was saved later is still called unsaved")
	}
}

func TestWhatIsToldInWordsIsNoReadingOfADrawing(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	l := New(o)
	for range 15 {
		l.Do(byKey)
		for n := 0; l.stage == walking && n < 60; n++ {
			l.Do(closer) // everything is looked at
			l.Do(GoOn)
			if q := l.talk.Inquiry().Question(); q != nil {
				l.Do(letterOf(l, *q))
			} else {
				l.Do("s")
			}
		}
		last := o.Record.Meetings[len(o.Record.Meetings)-1]
		for _, r := range last.Readings {
			if l.stage == telling && (l.told[r.Trait] || !l.drawn(r.Trait, r.Fit)) {
				t.Errorf("%s was told in words and counted as read", r.Trait)
			}
		}
		l.Do(GoOn)
	}
}

func TestLines(t *testing.T) {
	o, _ := options(t, practice.WordsSource)
	o.Animals = 2
	var out strings.Builder
	err := Lines(New(o), bufio.NewReader(strings.NewReader("xyzzy\nh\n\ngolden stonefly\n\ncrane fly\n\n\n\n")), &out, 40, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"No kind is called", "How to look", "named rightly"} {
		if !strings.Contains(strings.Join(strings.Fields(out.String()), " "), want) {
			t.Errorf("no %q in\n%s", want, out.String())
		}
	}
	for _, line := range strings.Split(out.String(), "\n") {
		if len([]rune(line)) > 40 {
			t.Errorf("a line of more than 40: %q", line)
		}
	}
	for name, input := range map[string]string{"the end of the input": "k\n", "nonsense without end": strings.Repeat("%\n", 300)} {
		o, _ := options(t, practice.WordsSource)
		err := Lines(New(o), bufio.NewReader(strings.NewReader(input)), io.Discard, 80, nil)
		if err == nil || name == "the end of the input" && !errors.Is(err, io.ErrUnexpectedEOF) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestAnyPressesGoOn(t *testing.T) {
	o, c := options(t, practice.DrawingSource)
	r := rand.New(rand.NewPCG(9, 9))
	l := New(o)
	for range keytest.Times(500, 150) {
		if l.Ended() {
			l = New(o)
		}
		c.at = c.at.Add(time.Duration(r.IntN(9)) * time.Second)
		if sign := "abcdefgk?<rs+hqm"[r.IntN(16)]; r.IntN(40) == 0 {
			l.Name([]string{"leech", "golden stonefly", "\x1b[2J", ""}[r.IntN(4)])
		} else if sign != 'q' || r.IntN(30) == 0 {
			l.Do(strings.TrimSpace(string(sign)))
		}
		if r.IntN(3) == 0 {
			l.Do(GoOn)
		}
		l.Now()
	}
}

func TestWhoComesToNoNameIsToldWhatToKnowItBy(t *testing.T) {
	o, _ := options(t, practice.DrawingSource)
	l := New(o)
	l.Do(byKey)
	l.Do("s")
	l.Do("s")
	p := l.Now()
	if !strings.HasPrefix(p.Title, "No name this time: it is ") || len(p.Before) == 0 ||
		!strings.HasPrefix(p.Before[0].Words, "Know it by: ") ||
		len(p.Drawings()) != 1 {
		t.Errorf("%q %v, %d drawings", p.Title, p.Before, len(p.Drawings()))
	}
}
