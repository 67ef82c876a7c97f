package key

import (
	"cmp"
	"math"

	"rillkey/taxa"
	"rillkey/taxa/sorting"
)

// Contrast is a trait that tells two taxa apart, always or often.
type Contrast struct {
	Trait *taxa.Trait
	A, B  []taxa.Weight // what the two show
	// Separation is how far apart the two are when read by fallible people: the
	// total variation distance of what is read of them, 0 to 1. It is the
	// difference between the chances of being right and wrong for somebody who
	// names one of the two by this trait alone.
	Separation float64
}

// leastSeparation is the separation below which a trait is no help to anybody.
const leastSeparation = 0.4

// Compare gives the traits that tell two taxa apart, those most visible first:
// by the effort of looking, then by how well they part the two. Traits unknown
// for either are left out. It is empty for a taxon that the catalog lacks.
func (m *Model) Compare(a, b string) []Contrast {
	ta, tb := m.key.catalog.Taxon(a), m.key.catalog.Taxon(b)
	if ta == nil || tb == nil {
		return nil
	}
	var out []Contrast
	for _, t := range m.traits {
		c := Contrast{Trait: t.Trait, A: ta.States(t.ID), B: tb.States(t.ID)}
		if c.A == nil || c.B == nil || t.Likeness {
			continue
		}
		c.Separation = t.separation(c.A, c.B)
		if c.Separation >= leastSeparation {
			out = append(out, c)
		}
	}
	sorting.Stable(out, func(x, y Contrast) int {
		return cmp.Or(cmp.Compare(usualEffort.forLook(x.Trait.Look), usualEffort.forLook(y.Trait.Look)),
			cmp.Compare(y.Separation, x.Separation))
	})
	return out
}

// separation is half the summed difference between what is read of the one and
// of the other.
func (t *trait) separation(a, b []taxa.Weight) float64 {
	sum := 0.0
	for j := range t.States {
		sum += math.Abs(t.read(a, j) - t.read(b, j))
	}
	return sum / 2
}

// read is the chance that an animal that shows these states is read as state j.
func (t *trait) read(shown []taxa.Weight, j int) float64 {
	sum := 0.0
	for _, w := range shown {
		sum += w.Share * t.readings[t.State(w.State)][j]
	}
	return sum
}
