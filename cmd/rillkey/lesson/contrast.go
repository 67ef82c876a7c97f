package lesson

import (
	"cmp"
	"maps"
	"slices"

	"rillkey/key"
	"rillkey/taxa"
)

// tellsWell is how well a feature must part two kinds to be told of before better ones that
// the drawing does not show (memory).
const tellsWell = 0.4

// contrast is the feature that parts the two best, what the drawing shows of the animal
// before what it does not, and what is seen at a glance or without a lens first, what many
// of both kinds show last; nil where none is known.
func contrast(l *Lesson, other *taxa.Taxon) *key.Contrast {
	worth := func(c key.Contrast) float64 {
		w := c.Separation
		if c.Trait.Glance {
			w += 0.15
		}
		if c.Trait.Look != taxa.Eye {
			w -= 0.15
		}
		if overlap(&c) {
			w -= 0.3
		}
		return w
	}
	all := l.Model.Compare(l.kind.ID, other.ID)
	all = slices.DeleteFunc(all, func(c key.Contrast) bool { return c.Trait.HiddenIf.Holds(l.animal.Shows) })
	there := slices.DeleteFunc(slices.Clone(all), func(c key.Contrast) bool { return l.animal.Lacking(c.Trait.ID) })
	if len(there) > 0 { // what this one lost can be no mark of it
		all = there
	}
	if len(all) == 0 {
		return nil
	}
	drawn := func(well bool) []key.Contrast {
		return slices.DeleteFunc(slices.Clone(all), func(c key.Contrast) bool {
			return (c.Separation >= tellsWell) != well || !drawnUnlike(l, &c)
		})
	}
	most := func(all []key.Contrast) *key.Contrast {
		best := slices.MaxFunc(all, func(a, b key.Contrast) int { return cmp.Compare(worth(a), worth(b)) })
		return &best
	}
	if !fromDrawing(l) {
		return most(all)
	}
	if well := drawn(true); len(well) > 0 {
		return most(well)
	}
	best := most(all)
	if !drawnOtherwise(l, best, other) {
		if seldom := drawn(false); len(seldom) > 0 {
			return most(seldom) // seldom a mark, but the only one that this drawing has
		}
	}
	return best
}

// overlap reports whether many of both kinds show the same state.
func overlap(c *key.Contrast) bool {
	return slices.ContainsFunc(c.A, func(a taxa.Weight) bool { return a.Share >= often && manyShow(c.B, a.State) })
}

// manyShow reports whether many animals of a kind show a state, by how usual each is.
func manyShow(shown []taxa.Weight, state string) bool {
	return slices.ContainsFunc(shown, func(w taxa.Weight) bool { return w.State == state && w.Share >= often })
}

// drawnUnlike reports whether the drawing tells this animal from those of the other kind
// of a contrast.
func drawnUnlike(l *Lesson, c *key.Contrast) bool {
	var own []string
	for _, s := range c.Trait.States {
		if !manyShow(c.B, s.ID) {
			own = append(own, s.ID)
		}
	}
	return l.animal.Shows[c.Trait.ID] != "" && slices.Contains(own, l.animal.Shows[c.Trait.ID]) && l.drawn(c.Trait.ID, own)
}

// drawnOtherwise reports whether an animal of the other kind would be drawn otherwise than
// this one, where all in which the two kinds differ is taken together, the feature of the
// contrast among it: by itself it may change no line, as a flat coil in a shell that is a
// flat disc as well.
func drawnOtherwise(l *Lesson, best *key.Contrast, other *taxa.Taxon) bool {
	atlas := l.atlas()
	state := l.animal.Shows[best.Trait.ID]
	if atlas == nil || state == "" || manyShow(best.B, state) {
		return false
	}
	if _, placed := atlas.Alike(l.kind, l.animal.Shows, best.Trait.ID); !placed {
		return false
	}
	shows := maps.Clone(l.animal.Shows)
	for _, c := range l.Model.Compare(l.kind.ID, other.ID) {
		if c.Separation >= tellsWell && shows[c.Trait.ID] != "" {
			shows[c.Trait.ID] = taxa.Usual(c.B)
		}
	}
	return atlas.Likeness(other, shows) != atlas.Likeness(l.kind, l.animal.Shows)
}
