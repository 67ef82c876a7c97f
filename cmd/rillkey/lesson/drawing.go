package lesson

import (
	"strconv"
	"time"

	"rillkey/cmd/rillkey/figure"
	"rillkey/key/practice"
)

// How often an animal is drawn anew where its drawing is one that the person has met.
const (
	freshOfKind  = 12
	freshInATest = 40
	otherKinds   = 8 // and how many other kinds are drawn in its place in a test
)

// draw draws the next animal, as it comes next for this person, or in a test as common as
// by the stream. It shows what its drawing shows, and its drawing is one that the person
// has not met, as far as its kind has another: in a test a picture that was met before
// asks for the memory of a picture.
func (l *Lesson) draw(now time.Time) {
	if l.Test == "" {
		drawOne(l, l.learner.Next(now, l.Random), freshOfKind)
	} else {
		for range otherKinds { // a kind that has no other drawing makes room for the next
			if drawOne(l, l.Course.ByCommonness(l.Random), freshInATest) {
				break
			}
		}
	}
	l.pose = lies(l)
	if l.Photos && l.Source == practice.DrawingSource && l.kind.Photo != nil && l.Random.IntN(2) == 0 {
		l.photo, l.animal, l.likeness = l.kind.Photo, l.Course.Typical(l.kind.ID), ""
	}
}

// drawOne draws an animal of a kind, so many times at most until its drawing is one that
// the person has not met; false where none was.
func drawOne(l *Lesson, kind string, tries int) (fresh bool) {
	l.kind, l.likeness = l.catalog.Taxon(kind), ""
	atlas := l.atlas()
	if l.worn[kind] {
		tries = 1
	}
	for range tries {
		l.animal = l.Course.Draw(kind, l.Random)
		if atlas == nil || l.Source != practice.DrawingSource {
			fresh = true
			break
		}
		l.leaveOwnMarks()
		individuate(l)
		l.animal.Shows = atlas.Drawn(l.kind, l.animal.Shows)
		if l.likeness = atlas.Likeness(l.kind, l.animal.Shows); !l.drawings[l.likeness] {
			fresh = true
			break
		}
	}
	l.worn[kind] = !fresh
	return fresh
}

// individuate makes the animal one of several that are drawn with lines of their own.
func individuate(l *Lesson) {
	n := strconv.Itoa(l.Random.IntN(figure.Individuals))
	for _, shows := range []map[string]string{l.animal.Shows, l.animal.Whole} {
		if shows != nil {
			shows[figure.Individual] = n
		}
	}
}

// lies is a pose for the animal: any, so that nobody learns a picture by heart. The softer
// its skin, the more it bends; a young one has a larger front.
func lies(l *Lesson) figure.Pose {
	either := func(most float64) float64 { return most * (2*l.Random.Float64() - 1) }
	bend := 0.04
	switch l.animal.Shows["skin"] {
	case "soft":
		bend = 0.12
	case "part":
		bend = 0.07
	}
	if held := l.animal.Shows["posture"]; held != "" && held != "straight" {
		bend = 0 // it is drawn bent as it is
	}
	p := figure.Pose{Turn: either(25), Stout: either(0.14), Bend: either(bend), Front: either(0.12), Small: 0.12 * l.Random.Float64(),
		Mirror: l.Random.IntN(2) == 0}
	if l.animal.Young {
		p.Front, p.Small = p.Front+0.08, p.Small+0.08
	}
	return p
}

// kindsMark is the share of a kind's animals from which on their pattern is a mark of the
// kind (memory).
const kindsMark = 0.75

// ownMarks are what looks like a mark of the kind in a drawing, and the state without it:
// a pattern, and a ridge across the plate behind the head.
var ownMarks = []struct{ trait, mark, unmarked string }{{"pattern", "marked", "plain"}, {"collar", "ridge", "none"}}

// leaveOwnMarks leaves out of a drawing the marks of an animal that only some of its kind
// have.
func (l *Lesson) leaveOwnMarks() {
	for _, m := range ownMarks {
		for _, w := range l.kind.States(m.trait) {
			if w.State == m.mark && w.Share < kindsMark && l.animal.Shows[m.trait] == m.mark {
				l.animal.Shows[m.trait] = m.unmarked
			}
		}
	}
}

// lengthOf draws how long the animal is.
func (l *Lesson) lengthOf() float64 {
	u := l.Random.Float64()
	r := l.kind.Length
	if !r.Known() || l.Source == practice.TraySource {
		return 0
	}
	mm := r.Min + u*(r.Max-r.Min)
	if l.animal.Young {
		mm = max(1, mm*0.4)
	}
	return float64(int(mm*2+0.5)) / 2
}
