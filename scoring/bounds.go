package scoring

import (
	"cmp"
	"slices"
)

// openCount is what was found under one name too broad to tell the kind: how
// many animals, and the kinds that they may be.
type openCount struct {
	taxon string
	count int64
	kinds []int
}

// bounded is a formula that can tell how far its value could move if every
// animal named too broadly were named closer: each may turn out to be any of
// the kinds it may be, or one that has no value and stays left out. So the
// value itself always lies between the two.
type bounded interface {
	bounds(s *Scheme, found []kindCount, open []openCount) (low, high ratio)
}

// bounds of a mean over animals: for the low one, every name that can pull the
// mean down takes its lowest value, the lowest of all first, until none can.
func (m meanTolerance) bounds(s *Scheme, found []kindCount, open []openCount) (low, high ratio) {
	_, value := m.value(s, found)
	return meanBounds(value, open, func(kind int) int64 { return s.weight[s.Kinds[kind].Group] })
}

// meanBounds moves a mean over animals down and up, weight being what an animal
// of a kind is worth in steps.
func meanBounds(value ratio, open []openCount, weight func(kind int) int64) (low, high ratio) {
	low, high = value, value
	worths := func(o openCount) []int64 {
		out := make([]int64, len(o.kinds))
		for i, k := range o.kinds {
			out[i] = weight(k)
		}
		return out
	}
	least := func(o openCount) int64 { return slices.Min(worths(o)) }
	most := func(o openCount) int64 { return slices.Max(worths(o)) }
	for _, o := range sortedBy(open, least) {
		if !low.defined() || low.above(least(o)) {
			low = ratio{low.num + o.count*least(o), low.den + o.count}
		}
	}
	for _, o := range slices.Backward(sortedBy(open, most)) {
		if !high.defined() || high.below(most(o)) {
			high = ratio{high.num + o.count*most(o), high.den + o.count}
		}
	}
	return low, high
}

// bounds of a sum over kinds: at best every animal is another kind that was
// not found before.
func (p presence) bounds(s *Scheme, found []kindCount, open []openCount) (low, high ratio) {
	_, low = p.value(s, found)
	high = low
	for _, w := range s.weights(newKinds(s, found, open, true)) {
		high.num += w
	}
	return low, high
}

// bounds of a count of kinds, likewise.
func (p presenceCount) bounds(s *Scheme, found []kindCount, open []openCount) (low, high ratio) {
	_, low = p.value(s, found)
	return low, ratio{low.num + s.one()*int64(len(newKinds(s, found, open, true))), low.den}
}

// bounds of a mean over kinds: new kinds join as long as they move the mean.
func (p presenceMean) bounds(s *Scheme, found []kindCount, open []openCount) (low, high ratio) {
	_, low = p.value(s, found)
	high = low
	for _, w := range s.weights(newKinds(s, found, open, false)) {
		if !low.defined() || low.above(w) {
			low = ratio{low.num + w, low.den + 1}
		}
	}
	for _, w := range s.weights(newKinds(s, found, open, true)) {
		if !high.defined() || high.below(w) {
			high = ratio{high.num + w, high.den + 1}
		}
	}
	return low, high
}

// weights are those of the kinds, in steps.
func (s *Scheme) weights(kinds []int) []int64 {
	out := make([]int64, len(kinds))
	for i, k := range kinds {
		out[i] = s.weight[s.Kinds[k].Group]
	}
	return out
}

func sortedBy(open []openCount, key func(openCount) int64) []openCount {
	return slices.SortedStableFunc(slices.Values(open), func(a, b openCount) int { return cmp.Compare(key(a), key(b)) })
}

// newKinds are kinds not found that the animals named too broadly may be all
// at once, one animal for each, ordered by weight. Taking the next in order
// whenever the ones taken leave an animal for it is exact: sets of kinds that
// animals can be given to form a matroid, on which greed finds the best.
func newKinds(s *Scheme, found []kindCount, open []openCount, heaviestFirst bool) []int {
	have := map[int]bool{}
	for _, f := range found {
		have[f.index] = true
	}
	var may []int
	for _, o := range open {
		for _, k := range o.kinds {
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
	open []openCount
	held [][]int // kinds, by name
}

// seat finds a place for one more kind, moving others where that helps
// (augmenting paths, the textbook way to match). tried marks names looked at.
func (t *seating) seat(kind int, tried []bool) bool {
	for i, o := range t.open {
		if tried[i] || !slices.Contains(o.kinds, kind) {
			continue
		}
		tried[i] = true
		if int64(len(t.held[i])) < o.count {
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
