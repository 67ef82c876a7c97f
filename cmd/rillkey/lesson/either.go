package lesson

import (
	"maps"
	"slices"

	"rillkey/key/practice"
	"rillkey/taxa"
)

// halfGrown is how long a half-grown animal is beside the shortest grown one (memory).
const halfGrown = 0.4

// couldBe reports whether all that was drawn and told of the animal fits another kind as
// well: an animal of that kind would be drawn in the very same lines, and is as long, and
// what was told in words is told of many of its animals.
func couldBe(l *Lesson, other *taxa.Taxon) bool {
	atlas := l.atlas()
	if other == nil || other == l.kind || !fromDrawing(l) || atlas == nil || !longEnough(l, other) {
		return false
	}
	shows, ok := asAnother(l, other)
	own := atlas.Likeness(l.kind, l.animal.Shows)
	return ok && own != "" && atlas.Likeness(other, atlas.Drawn(other, shows)) == own
}

// asAnother is what an animal of another kind would show that is as like this one as that
// kind can be, the same parts lost; false where something was told that few of them show.
func asAnother(l *Lesson, other *taxa.Taxon) (shows map[string]string, ok bool) {
	shows = maps.Clone(l.animal.Shows)
	for _, t := range l.catalog.Vocabulary().Asked() {
		state := shows[t.ID]
		if l.animal.Lacking(t.ID) || shownByMany(other, t.ID, state) || hangsOnNothing(t, shows) {
			continue
		}
		if l.told[t.ID] && !shadeOf(l, other, t) {
			return nil, false
		}
		if all := other.States(t.ID); len(all) > 0 && !t.HiddenIf.Holds(shows) {
			shows[t.ID] = taxa.Usual(all)
		}
	}
	before := maps.Clone(shows)
	practice.Build(other, shows)
	for trait, state := range before {
		if l.told[trait] && shows[trait] != state {
			return nil, false
		}
	}
	return shows, true
}

// hangsOnNothing reports whether a trait is of a part that is not there because what it
// hangs on is not: it says nothing of the kind by itself.
func hangsOnNothing(t *taxa.Trait, shows map[string]string) bool {
	if t.OnlyIf == nil || !absent(shows[t.ID]) {
		return false
	}
	whole, known := shows[t.OnlyIf.Trait]
	return known && !slices.Contains(t.OnlyIf.States, whole)
}

// shadeOf reports whether a trait is a colour in which the kind varies, and that of the
// animal is often read as one that many of another kind show: grey and brown part no two
// kinds of which one is both.
func shadeOf(l *Lesson, other *taxa.Taxon, t *taxa.Trait) bool {
	i := t.State(l.animal.Shows[t.ID])
	if t.ID != "colour" || i < 0 || slices.ContainsFunc(l.kind.States(t.ID), func(w taxa.Weight) bool { return w.Share >= kindsMark }) {
		return false
	}
	return slices.ContainsFunc(t.States[i].MistakenFor, func(state string) bool { return shownByMany(other, t.ID, state) })
}

// longEnough reports whether an animal of another kind may be as long as this one is told
// to be.
func longEnough(l *Lesson, other *taxa.Taxon) bool {
	r := other.Length
	return l.length == 0 || !r.Known() || l.length <= r.Max && l.length >= r.Min*halfGrown
}

// shownByMany reports whether many animals of a kind show a state of a trait, as far as
// the catalog says anything of it.
func shownByMany(kind *taxa.Taxon, trait, state string) bool {
	all := kind.States(trait)
	return len(all) == 0 || state != "" && manyShow(all, state)
}

// allowAlike lets a wrong name stand where the drawing does as well for what was named:
// nobody can know it from that.
func allowAlike(l *Lesson, named ...*taxa.Taxon) {
	if l.meeting.Right() {
		return
	}
	l.meeting.Alike = slices.ContainsFunc(named, func(t *taxa.Taxon) bool {
		return t != nil && slices.ContainsFunc(l.Course.KindsUnder(t, ""), func(kind *taxa.Taxon) bool { return couldBe(l, kind) })
	})
}
