package lesson

import (
	"strings"
	"time"

	"rillkey/cmd/rillkey/question"
	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/key/practice"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// stop is the sign that ends a walk.
const stop = "s"

// announce begins a test, of which first is said which it is and what it asks.
func (l *Lesson) announce() {
	l.stage = announcing
	since := sinceLastTest(l)
	l.test = l.Record.BeginTest(l.Test, l.Animals, l.began)
	l.lesson = Prompt{
		Title: wording.Sprintf("Test %d, %s: %s", l.test.Number, show.TestKindWords(l.Test), plain.Count(l.Animals, "animal")),
		Go:    wording.Text("begin the test"),
		Keys:  []Command{{leave, wording.Text("leave"), wording.Text("leave; the test is not begun.")}},
		Before: []question.Paragraph{{Words: asks(l)},
			{Words: wording.Text("Nothing is told of any animal, neither now nor later: at the end you learn how many of all were " +
				"named rightly.")},
			{Words: since}}}
}

// sinceLastTest says how much was practised since the last test.
func sinceLastTest(l *Lesson) string {
	var last practice.Test
	if n := len(l.Record.Tests); n > 0 {
		last = l.Record.Tests[n-1]
	}
	practised := wording.Text("no sitting")
	if animals, sittings := l.Record.SinceTest(); animals > 0 {
		practised = wording.Sprintf("%s in %s", plain.Count(animals, "animal"), plain.Count(sittings, "sitting"))
	}
	if last.Number == 0 {
		return wording.Sprintf("Before this first test: %s.", practised)
	}
	return wording.Sprintf("Since test %d, of %s: %s.", last.Number, last.Began.Format(time.DateOnly), practised)
}

// asks says what a test asks, and what counts.
func asks(l *Lesson) string {
	if l.Test == practice.WithKey {
		return wording.Text("Each animal is named by the key's questions alone. One that is left without a name is not named rightly.")
	}
	return wording.Text("Say the name of each on sight, as close as you can; the key is put away. Names are taken as you type them. One " +
		"that means several kinds may stand, and is counted as that. A wrong name and no name are the same: not named rightly.")
}

// tooEarly holds back who would end a walk before the animal has as close a name as the
// key gives, and says so; the same sign once more ends it.
func (l *Lesson) tooEarly(sign string) bool {
	if sign != stop || l.ending {
		l.ending = false
		return false
	}
	v := l.talk.Inquiry().Verdict()
	if len(v.Set) > 0 || v.Named() && l.practised(v.Taxon) || l.talk.Inquiry().Question() == nil {
		return false
	}
	what := wording.Text("leaves it without a name")
	switch {
	case v.Named() && l.Test != "":
		what = wording.Text("ends with a name that is several kinds")
	case v.Named():
		what = wording.Sprintf("ends with %s, which is several kinds", inWords(l, v))
	}
	l.ending = true
	l.said = wording.Sprintf("This animal is not yet named. The questions go on; %s once more %s.", l.again(), what)
	return true
}

// again is what ends a walk, as it is pressed.
func (l *Lesson) again() string {
	if l.Buttons {
		return wording.Text("the same button")
	}
	return stop
}

// inWords is what a walk came to.
func inWords(l *Lesson, v key.Verdict) string {
	var names []string
	for _, id := range v.Set {
		names = append(names, plain.OneLine(l.catalog.Taxon(id).Name()))
	}
	if t := l.catalog.Taxon(v.Taxon); len(names) == 0 && v.Named() && t != nil {
		names = append(names, plain.OneLine(t.Name()))
	}
	return strings.Join(names, wording.Text(" or "))
}

// noted is what was taken down of an animal in a test: the person's own word as they
// typed it, since the name that the program has for it would teach; and not whether it
// is right.
func (l *Lesson) noted() string {
	switch {
	case l.meeting.Sight != "" && !l.meeting.Walked:
		return wording.Sprintf("Noted: %s.", l.typed)
	case len(l.meeting.Named) > 0:
		return wording.Text("Noted: the key came to a name.")
	}
	return wording.Text("Noted: no name.")
}

// testOver ends a test.
func (l *Lesson) testOver() Prompt {
	var t practice.Tested
	for _, one := range l.Record.Tested() {
		if one.Number == l.Record.Number(l.test) {
			t = one
		}
	}
	return Prompt{Title: wording.Sprintf("Test %d is over", t.Number), Go: wording.Text("end"), Before: []question.Paragraph{
		{Words: wording.Sprintf("%s. Which they were is not told: that would spoil the next test.", plain.Capital(show.TestedWords(t)))}}}
}
