package lesson

import (
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/key/practice"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// stop is the sign that ends a walk.
const stop = "s"

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
	what := wording.Of("leaves it without a name")
	switch {
	case v.Named() && l.Test != "":
		what = wording.Of("ends with a name that is several kinds")
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
		return wording.Of("the same button")
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
	return strings.Join(names, wording.Of(" or "))
}

// noted is what was taken down of an animal in a test: the person's own word as they
// typed it, since the name that the program has for it would teach; and not whether it
// is right.
func (l *Lesson) noted() string {
	switch {
	case l.meeting.Sight != "" && !l.meeting.Walked:
		return wording.Sprintf("Noted: %s.", l.typed)
	case len(l.meeting.Named) > 0:
		return wording.Of("Noted: the key came to a name.")
	}
	return wording.Of("Noted: no name.")
}

// testOver ends a test.
func (l *Lesson) testOver() Page {
	var t practice.Tested
	for _, one := range l.Record.Tested() {
		if one.Number == l.Record.Number(l.test) {
			t = one
		}
	}
	return Page{Title: wording.Sprintf("Test %d is over", t.Number), Go: wording.Of("end"), Before: []Text{
		{Words: wording.Sprintf("%s. Which they were is not told: that would spoil the next test.", plain.Capital(show.TestedWords(t)))}}}
}
