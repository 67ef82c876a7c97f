package scheme

import (
	"cmp"
	"slices"

	"rillkey/scoring/chance"
	"rillkey/taxa/sorting"
)

// OpenCount is what was found under one name too broad to tell the kind: how
// many animals, and the kinds that they may be.
type OpenCount struct {
	Taxon string
	Count int64
	Kinds []int
	Sole  bool // they are of one of these; else they may be of none
}

// bounds of a mean over animals: for the low one, every name that can pull the
// mean down takes its lowest value, the lowest of all first, until none can.
func (m mean) bounds(s *Scheme, found []KindCount, open []OpenCount) (low, high chance.Ratio) {
	_, value := m.value(s, found)
	moved := func(worth func(OpenCount) int64, way int, moves func(mean chance.Ratio, by int64) bool) chance.Ratio {
		mean, turns := value, slices.Clone(open)
		sorting.Stable(turns, func(a, b OpenCount) int {
			return cmp.Or(a.turn()-b.turn(), way*cmp.Compare(worth(a), worth(b)))
		})
		for _, o := range turns {
			if w := worth(o); o.Sole || !mean.Defined() || moves(mean, w) {
				mean = chance.Ratio{Num: mean.Num + o.Count*w, Den: mean.Den + o.Count}
			}
		}
		return mean
	}
	least := func(o OpenCount) int64 { return slices.Min(each(o.Kinds, m.weight)) }
	most := func(o OpenCount) int64 { return slices.Max(each(o.Kinds, m.weight)) }
	return moved(least, 1, chance.Ratio.Exceeds), moved(most, -1, chance.Ratio.FallsShort)
}

// turn has those first that count whatever they are.
func (o OpenCount) turn() int {
	if o.Sole {
		return 0
	}
	return 1
}

// each is what each of the kinds is worth, in steps.
func each(kinds []int, weight func(kind int) int64) []int64 {
	out := make([]int64, len(kinds))
	for i, k := range kinds {
		out[i] = weight(k)
	}
	return out
}

// newKinds are kinds not found that the animals named too broadly may be all
// at once, one animal for each, ordered by weight. Taking the next in order
// whenever the ones taken leave an animal for it is exact: sets of kinds that
// animals can be given to form a matroid, on which greed finds the best.
func newKinds(s *Scheme, found []KindCount, open []OpenCount, heaviestFirst bool) []int {
	have := map[int]bool{}
	for _, f := range found {
		have[f.Index] = true
	}
	var may []int
	for _, o := range open {
		for _, k := range o.Kinds {
			if !have[k] {
				have[k] = true
				may = append(may, k)
			}
		}
	}
	sorting.Stable(may, func(a, b int) int {
		if heaviestFirst {
			a, b = b, a
		}
		return cmp.Or(cmp.Compare(s.weightOf(a), s.weightOf(b)), cmp.Compare(a, b))
	})
	t := seating{open: open, held: make([][]int, len(open))}
	var seated []int
	for _, k := range may {
		if t.seat(k, make([]bool, len(open))) {
			seated = append(seated, k)
		}
	}
	return seated
}

// seating gives kinds to names too broad, to each at most as many as it has
// animals.
type seating struct {
	open []OpenCount
	held [][]int // kinds, by name
}

// seat finds a place for one more kind, moving others where that helps
// (augmenting paths, the textbook way to match). tried marks names looked at.
func (t *seating) seat(kind int, tried []bool) bool {
	for i, o := range t.open {
		if tried[i] || !slices.Contains(o.Kinds, kind) {
			continue
		}
		tried[i] = true
		if int64(len(t.held[i])) < o.Count {
			t.held[i] = append(t.held[i], kind)
			return true
		}
		for j, other := range t.held[i] {
			if t.seat(other, tried) {
				t.held[i][j] = kind
				return true
			}
		}
	}
	return false
}
