package lesson

import (
	"slices"
	"strings"

	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Name takes a name that was typed for the animal.
func (l *Lesson) Name(typed string) {
	l.said = ""
	if l.stage != meeting || l.looking || l.helping {
		l.said = wording.Of("That is no answer here.")
		return
	}
	if strings.TrimSpace(typed) == key.Unsure {
		l.Do(key.Unsure)
		return
	}
	found := l.catalog.Find(typed)
	kind := l.Course.Called(typed)
	switch {
	case kind != nil:
		l.meeting.Sight, l.meeting.Seconds, l.typed = kind.ID, l.seconds(), plain.OneLine(strings.TrimSpace(typed))
		l.finish()
	case found.Taxon != nil:
		l.said = tooBroad(l, found.Taxon)
	default:
		l.said = unknown(l, typed, found.Near)
	}
}

// practised reports whether a taxon is a kind of the course.
func (l *Lesson) practised(id string) bool { return l.Course.Common(id) > 0 }

// mostNames is how many names of kinds are listed at once.
const mostNames = 30

// unknown asks for another name where one means no animal: for a name of a kind that is
// like it, or of one within a group that is.
func unknown(l *Lesson, typed string, near []taxa.Match) string {
	no := wording.Sprintf("No kind is called %s.", plain.Quote(typed))
	var names []string
	for _, m := range near {
		if l.practised(m.Taxon.ID) && len(names) < 3 {
			names = append(names, plain.OneLine(m.Taxon.Name()))
		}
	}
	if len(names) > 0 {
		return no + " " + wording.Sprintf("Do you mean %s?", strings.Join(names, wording.Of(", or ")))
	}
	for _, m := range near {
		if len(l.Course.Under(m.Taxon)) > 0 {
			return no + " " + tooBroad(l, m.Taxon)
		}
	}
	return no + " " + wording.Sprintf("Say another name, or %s.", l.elseway())
}

// tooBroad asks for a closer name and lists those that there are, by the alphabet: it
// says nothing of whether this one holds, nor which is likely. A test lists them too,
// since it asks who knows the animals, not who has learned by heart how they are called
// here.
func tooBroad(l *Lesson, t *taxa.Taxon) string {
	var below []string
	for _, k := range l.Course.Under(t) {
		below = append(below, plain.OneLine(k.Name()))
	}
	slices.Sort(below)
	name := plain.Capital(plain.OneLine(t.Name()))
	switch n := len(below); {
	case n == 0:
		return wording.Sprintf("%s is no kind that is practised here. Say another name, or %s.", name, l.elseway())
	case n == 1:
		return wording.Sprintf("Do you mean %s?", below[0])
	case n > mostNames:
		below = append(below[:mostNames], wording.Sprintf("%d more", n-mostNames))
	}
	return wording.Sprintf("%s is several kinds here: %s. Say which, or %s.", name, strings.Join(below, "; "), l.elseway())
}
