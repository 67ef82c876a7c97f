package figure

import (
	"slices"

	"rillkey/taxa"
)

// mostMarked are how many builds a large group is shown by where marks are
// pointed at: more would be too small to point at anything.
const mostMarked = 2

// Marked is the figure of a taxon with the traits set off and pointed at that it
// is known by, as far as its outline has a place for them.
func (a *Atlas) Marked(t *taxa.Taxon, traits []string) Figure {
	f := a.Taxon(t)
	if t.Drawing != nil {
		return f
	}
	for i, member := range a.shownBy(t) {
		if i == mostMarked {
			f.panels = f.panels[:mostMarked]
			break
		}
		l := a.look(member)
		drawn := body(l.traits(), l.plan(), placed(l.places(), traits))
		drawn.aims = slices.DeleteFunc(drawn.aims, func(a aim) bool { return a.absent }) // a mark is there
		f.panels[i] = drawn
	}
	return f
}

// placed are the traits that an outline has a place for.
func placed(places map[string][]pt, traits []string) (out []string) {
	for _, t := range traits {
		if len(places[t]) > 0 {
			out = append(out, t)
		}
	}
	return out
}
