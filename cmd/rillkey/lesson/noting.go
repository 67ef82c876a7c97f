package lesson

import (
	"slices"
	"strings"

	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// nameInTest takes a name in a test, where it is not that of one kind that is played.
// Every name that anybody knows is taken in the same words, right or wrong, since its
// refusal would tell; one that is wider than a kind may be said closer first, and no kind
// is listed, since a list teaches.
func (l *Lesson) nameInTest(typed string, found taxa.Lookup) {
	called := known(typed, found)
	near, spelt := speltNearly(typed, found)
	switch {
	case isMember(found):
		notPlayed(l, typed, nil)
	case len(called) > 0 && wide(l, called, found.Stage):
		l.choices = []choice{{wording.Sprintf("leave it at \"%s\"", typed), typed, called}}
		l.said = wording.Sprintf("%s is a name for several kinds. Say it closer, or %s.", plain.Quote(typed),
			l.press("1", wording.Sprintf("leave it at \"%s\"", typed)))
	case len(called) > 0:
		l.named(typed, called[0])
	case spelt:
		l.said = wording.Sprintf("Nobody here spells a name %s. Do you mean %s?", plain.Quote(typed), l.offer(near.Taxon, near.Name))
	case endsAs(l, typed) != nil:
		notPlayed(l, typed, endsAs(l, typed))
	case isFamily(typed):
		notPlayed(l, typed, nil)
	default:
		l.choices = []choice{{wording.Sprintf("leave it at \"%s\"", typed), typed, nil}}
		l.said = wording.Sprintf("%s is not in the lists of names here. Say it otherwise, or %s.", plain.Quote(typed),
			l.press("1", wording.Sprintf("leave it at \"%s\"", typed)))
	}
}

// known are the taxa that a name can mean: that which it does, else those that share it,
// else those of whose longer names it is a part, as the caterpillar of several.
func known(typed string, found taxa.Lookup) (out []*taxa.Taxon) {
	if found.Taxon != nil {
		return []*taxa.Taxon{found.Taxon}
	}
	if out = found.Called(); len(out) > 0 {
		return out
	}
	words := taxa.NameWords(typed)
	for _, m := range found.Similar {
		of := taxa.NameWords(m.Name)
		if !slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(of, w) }) {
			out = append(out, m.Taxon)
		}
	}
	return out
}

// wide reports whether a name that means these is wider than a kind.
func wide(l *Lesson, called []*taxa.Taxon, stage string) bool {
	kinds := map[*taxa.Taxon]bool{}
	for _, t := range called {
		for _, k := range l.Course.KindsUnder(t, stage) {
			kinds[k] = true
		}
	}
	return len(kinds) > 1
}

// How unlike a name may be spelt from the one that is meant: in letters, and as one of
// so many of them (memory).
const (
	mostSlips = 3
	oneSlipIn = 5
)

// speltNearly is a name that differs from what was typed in a few letters alone.
func speltNearly(typed string, found taxa.Lookup) (near taxa.Match, ok bool) {
	solid := func(name string) string { return strings.Join(taxa.NameWords(name), "") }
	want := solid(typed)
	best := min(mostSlips, len(want)/oneSlipIn) + 1
	for _, m := range found.Similar {
		if off := plain.Distance(want, solid(m.Name)); off < best {
			near, best, ok = m, off, true
		}
	}
	return near, ok
}

// endsAs is the taxon whose name is the end of a longer one, as the bug of "shore bug";
// nil where none is.
func endsAs(l *Lesson, typed string) *taxa.Taxon {
	words := taxa.NameWords(typed)
	for i := 1; i < len(words); i++ {
		end := l.catalog.Find(strings.Join(words[i:], " "))
		if called := end.Called(); len(called) > 0 {
			return called[0]
		}
		for _, m := range end.Similar { // as "true bug" ends in bug
			if of := taxa.NameWords(m.Name); len(of) > 0 && slices.Equal(of[max(0, len(of)-len(words)+i):], words[i:]) {
				return m.Taxon
			}
		}
	}
	return nil
}

// isFamily reports whether a name is a family's by its ending: animals that no key here
// has are named as well.
func isFamily(typed string) bool {
	return len(typed) > len(familyEnding)+2 && strings.HasSuffix(strings.ToLower(typed), familyEnding) &&
		plain.IsID(strings.ToLower(typed))
}

// familyEnding ends the names of families of animals (International Code of Zoological
// Nomenclature, article 29.2, from memory).
const familyEnding = "idae"

// notPlayed takes a name of an animal that is not played: of the group, where one is
// known, but none of its kinds here. Of a group that is one kind it names that kind.
func notPlayed(l *Lesson, typed string, group *taxa.Taxon) {
	sight := strings.ToLower(typed)
	if group != nil {
		if kind := l.Course.Called(group.ID); kind != nil {
			l.named(typed, kind)
			return
		}
		sight = group.ID
	}
	if !plain.IsID(sight) {
		sight = unlisted
	}
	l.meeting.Sight, l.meeting.Seconds, l.typed = sight, l.seconds(), typed
	l.finish()
}

// unlisted stands in a record for a name that is in no list.
const unlisted = "unlisted"
