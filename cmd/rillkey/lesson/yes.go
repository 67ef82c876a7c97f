package lesson

import (
	"cmp"
	"slices"

	"rillkey/cmd/rillkey/show"
	"rillkey/key/practice"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// sayYes says that an animal was named rightly. Who named its kind rightly on sight for
// the first time, or for the first time after a mistake, is shown why it is that, beside
// the kind that looks most like it: it may have been a guess.
func sayYes(l *Lesson) {
	said := wording.Sprintf("Yes: %s.", plain.OneLine(show.BothNames(l.kind)))
	if l.meeting.Sight != "" && !l.meeting.Walked && !knewBefore(l) {
		if tellWhy(l); len(l.lesson.Before) > 0 {
			return
		}
	}
	if words := l.odd(); words != "" {
		said += " " + words
	}
	l.next()
	l.said = said
}

// knewBefore reports whether the kind was named rightly on sight, from no list, when it
// was met last before this.
func knewBefore(l *Lesson) bool {
	all := l.Record.Meetings[:len(l.Record.Meetings)-1]
	for _, m := range slices.Backward(all) {
		if m.Kind == l.kind.ID && m.Test == "" {
			return m.Sight == m.Kind && !m.Walked && !m.Prompted
		}
	}
	return false
}

// tellWhy goes on to what makes the animal what it is.
func tellWhy(l *Lesson) {
	l.stage = telling
	l.lesson = Prompt{Title: wording.Sprintf("Yes: %s", plain.OneLine(show.BothNames(l.kind))), Go: wording.Text("next animal"),
		Keys: []Command{{leave, wording.Text("leave"), wording.Text("end the sitting; all so far is saved.")}}}
	tellMarks(l)
	l.lesson.Picture = Picture{} // the animal itself comes beside its look-alike
	if other := lookAlike(l); other != nil {
		l.add(false, "Most like it is %s.", plain.OneLine(show.BothNames(other)))
		tellFrom(l, other, wording.Text("its look-alike"))
	}
	tellState(l)
	if len(l.lesson.Before) == 0 {
		l.stage = meeting
	}
}

// lookAlike is the kind of the course that is most like the animal's: of those that the
// catalog says it is taken for, else of all, the one that fewest features part from it,
// the commoner of equals; nil where none is near.
func lookAlike(l *Lesson) *taxa.Taxon {
	among := l.Course.LookAlikes(l.kind.ID)
	if len(among) == 0 {
		among = l.Course.Kinds()
	}
	var best *taxa.Taxon
	least := 0.0
	for _, other := range among {
		if other == l.kind {
			continue
		}
		apart := 0.0
		for _, c := range l.Model.Compare(l.kind.ID, other.ID) {
			apart += c.Separation
		}
		if best == nil || cmp.Or(cmp.Compare(apart, least), cmp.Compare(l.Course.Common(best.ID), l.Course.Common(other.ID))) < 0 {
			best, least = other, apart
		}
	}
	return best
}

// sizes says how long two kinds grow, where the one hardly ends where the other begins;
// empty where they overlap.
func sizes(a, b *taxa.Taxon) string {
	if !a.Length.Known() || !b.Length.Known() || max(a.Length.Min, b.Length.Min) < min(a.Length.Max, b.Length.Max) {
		return ""
	}
	return wording.Sprintf("Grown length: %s %s, %s %s.", plain.OneLine(a.Name()), show.LengthRange(a.Length), plain.OneLine(b.Name()),
		show.LengthRange(b.Length))
}

// lacked says what a young animal does not have yet; empty where it has all.
func lacked(s *practice.Specimen) string {
	words := map[string]string{"wings": wording.Text("wing flaps"), "gills": wording.Text("gills"), "gill-form": wording.Text("gills"),
		"pattern": wording.Text("pattern"), "side-arms": wording.Text("arms at its sides")}
	var out []string
	for _, trait := range s.Lacks {
		if w := words[trait]; w != "" && !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	return plain.And(out)
}
