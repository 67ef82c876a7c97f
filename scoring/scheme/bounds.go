package scheme

import (
	"cmp"
	"iter"
	"slices"

	"rillkey/scoring/chance"
)

// OpenCount is what was found under one name too broad to tell the kind: how
// many animals, and the kinds that they may be.
type OpenCount struct {
	Taxon string
	Count int64
	Kinds []int
	Sole  bool // they are of one of these; else they may be of none
}

// meanBounds moves a mean over animals down and up, weight being what an animal
// of a kind is worth in steps.
func meanBounds(value chance.Ratio, open []OpenCount, weight func(kind int) int64) (low, high chance.Ratio) {
	low, high = value, value
	worths := func(o OpenCount) []int64 {
		out := make([]int64, len(o.Kinds))
		for i, k := range o.Kinds {
			out[i] = weight(k)
		}
		return out
	}
	least := func(o OpenCount) int64 { return slices.Min(worths(o)) }
	most := func(o OpenCount) int64 { return slices.Max(worths(o)) }
	for _, o := range soleFirst(slices.All(sortedBy(open, least))) {
		if o.Sole || !low.Defined() || low.Exceeds(least(o)) {
			low = chance.Ratio{Num: low.Num + o.Count*least(o), Den: low.Den + o.Count}
		}
	}
	for _, o := range soleFirst(slices.Backward(sortedBy(open, most))) {
		if o.Sole || !high.Defined() || high.FallsShort(most(o)) {
			high = chance.Ratio{Num: high.Num + o.Count*most(o), Den: high.Den + o.Count}
		}
	}
	return low, high
}

// soleFirst has those first that count whatever they are, in the order given.
func soleFirst(open iter.Seq2[int, OpenCount]) (out []OpenCount) {
	var others []OpenCount
	for _, o := range open {
		if o.Sole {
			out = append(out, o)
		} else {
			others = append(others, o)
		}
	}
	return append(out, others...)
}

// weights are those of the kinds, in steps.
func (s *Scheme) weights(kinds []int) []int64 {
	out := make([]int64, len(kinds))
	for i, k := range kinds {
		out[i] = s.weight[s.Kinds[k].Group]
	}
	return out
}

func sortedBy(open []OpenCount, key func(OpenCount) int64) []OpenCount {
	return slices.SortedStableFunc(slices.Values(open), func(a, b OpenCount) int { return cmp.Compare(key(a), key(b)) })
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
	weight := func(k int) int64 { return s.weight[s.Kinds[k].Group] }
	slices.SortFunc(may, func(a, b int) int {
		if heaviestFirst {
			a, b = b, a
		}
		return cmp.Or(cmp.Compare(weight(a), weight(b)), cmp.Compare(a, b))
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
