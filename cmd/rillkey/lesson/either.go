package lesson

import (
	"cmp"
	"maps"
	"slices"

	"rillkey/taxa"
)

// halfGrown is how long a half-grown animal is beside the shortest grown one (memory).
const halfGrown = 0.4

// couldBe reports whether all that was drawn and told of the animal fits another kind as
// well: an animal of that kind would be drawn in the very same lines, and is as long, and
// what was told in words is told of many of its animals.
func couldBe(l *Lesson, other *taxa.Taxon) bool {
	atlas := l.atlas()
	if other == nil || other == l.kind || !fromDrawing(l) || atlas == nil {
		return false
	}
	if !longEnough(l, other) {
		return false
	}
	shows := maps.Clone(l.animal.Shows)
	for _, t := range l.catalog.Vocabulary().Traits() {
		state := shows[t.ID]
		if l.animal.Lacking(t.ID) || shownByMany(other, t.ID, state) {
			continue
		}
		if l.told[t.ID] {
			return false
		}
		if all := other.States(t.ID); len(all) > 0 && !t.HiddenIf.Holds(shows) {
			shows[t.ID] = slices.MaxFunc(all, func(a, b taxa.Weight) int { return cmp.Compare(a.Share, b.Share) }).State
		}
	}
	own := atlas.Likeness(l.kind, l.animal.Shows)
	return own != "" && atlas.Likeness(other, atlas.Drawn(other, shows)) == own
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
	if state == "" {
		return len(all) == 0
	}
	return len(all) == 0 || slices.ContainsFunc(all, func(w taxa.Weight) bool { return w.State == state && w.Share >= often })
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
