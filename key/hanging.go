package key

import (
	"math"
	"math/bits"
	"slices"

	"rillkey/couplets"
	"rillkey/taxa"
)

// hang is what a part hangs on: it is there only where the whole has one of these
// states, and is none elsewhere.
type hang struct {
	whole  int
	states uint64
	none   int // the state of the part where it is not there
	// lacking says that some kind always shows the whole and can lack the part: many a
	// coiled shell has no lid.
	lacking bool
}

// likelyThere is the probability below which nobody is asked about a part.
const likelyThere = 0.5

// hangsOn is what a trait hangs on, by the vocabulary; nil for nothing.
func (m *Model) hangsOn(part int) *hang { return m.hangs[part] }

// findHangs notes what each trait hangs on.
func findHangs(m *Model) {
	m.hangs = make([]*hang, len(m.traits))
	for n, t := range m.traits {
		if t.OnlyIf != nil {
			whole := m.index[t.OnlyIf.Trait]
			h := &hang{whole: whole, states: mask(m.traits[whole].Trait, t.OnlyIf.States), none: t.State("none")}
			for i, kind := range m.kinds {
				h.lacking = h.lacking || kind != nil && kind.States(t.ID) != nil && t.truth[i][h.none] > 0 && wholeAlways(m, h, i)
			}
			m.hangs[n] = h
		}
	}
}

// wholeAlways reports whether kind i shows nothing but that on which the part hangs.
func wholeAlways(m *Model, h *hang, i int) bool {
	for s, share := range m.traits[h.whole].truth[i] {
		if share > 0 && h.states&(1<<s) == 0 {
			return false
		}
	}
	return true
}

// denied reports whether what was seen of the whole says that the part is not there,
// and affirmed whether it says that it is.
func (h *hang) denied(seen uint64) bool   { return seen != 0 && seen&h.states == 0 }
func (h *hang) affirmed(seen uint64) bool { return seen != 0 && seen&^h.states == 0 }

// outOfPlace reports whether a trait is not to be asked for: it is a part that was
// denied, that is not yet likely to be there, or that is hidden.
func outOfPlace(q *Inquiry, trait int) bool {
	if by := q.model.traits[trait].HiddenIf; by != nil && isSeen(q, *by) {
		return true
	}
	h := q.model.hangsOn(trait)
	if h == nil {
		return false
	}
	if seen := q.belief.Seen(h.whole); seen != 0 {
		return h.denied(seen)
	}
	return readAs(q, h.whole, h.states) < likelyThere
}

// isSeen reports whether all that was seen of a trait, or is told by a part of it, is one of
// these states.
func isSeen(q *Inquiry, by taxa.Dependence) bool {
	whole := q.model.index[by.Trait]
	seen := q.belief.Seen(whole)
	if seen == 0 {
		seen = toldByItsPart(q, whole)
	}
	return seen != 0 && seen&^mask(q.model.traits[whole].Trait, by.States) == 0
}

// asksInVain reports whether what was seen says of all traits of a question what there is
// of them: who sees a snail's shell cannot tell how many legs it has, and need not, and who
// tells of its lid has told of the shell.
func asksInVain(q *Inquiry, a *ask) bool {
	return !slices.ContainsFunc(a.traits, func(t int) bool {
		return toldByItsPart(q, t) == 0 &&
			!slices.ContainsFunc(q.model.traits[t].UnaskedIf, func(by taxa.Dependence) bool { return isSeen(q, by) })
	})
}

// toldByItsPart is the state of a trait, as a bit, with which alone a part is there that
// somebody spoke of unasked, where that is likely by all that is known; 0 for none, and where
// the trait was seen. A part that was asked for is as often misread as the whole.
func toldByItsPart(q *Inquiry, trait int) uint64 {
	if q.belief.Seen(trait) != 0 {
		return 0
	}
	for part, h := range q.model.hangs {
		if h == nil || h.whole != trait || bits.OnesCount64(h.states) != 1 {
			continue
		}
		if seen := q.belief.Seen(part); seen != 0 && seen&(1<<h.none) == 0 && isUnasked(q, part) &&
			readAs(q, trait, h.states) >= likelyThere {
			return h.states
		}
	}
	return 0
}

// isUnasked reports whether all that was said of a trait was said unasked.
func isUnasked(q *Inquiry, trait int) bool {
	return !slices.ContainsFunc(q.given, func(g given) bool {
		return g.asked && slices.ContainsFunc(g.says, func(c couplets.Condition) bool { return c.Trait == q.model.traits[trait].ID })
	})
}

// dropAbsent takes back, of what was seen, what only repeats that a part is not
// there: without wing flaps there are none to lie this way or that.
func (m *Model) dropAbsent(seen []uint64) {
	denied := make([]bool, len(seen))
	for t := range seen {
		h := m.hangsOn(t)
		denied[t] = h != nil && seen[t] == 1<<h.none && h.denied(seen[h.whole])
	}
	for t, is := range denied {
		if is {
			seen[t] = 0
		}
	}
}

// givenTheWhole adds to the log-likelihood of every kind, of parts of which the whole
// was seen, how much likelier what was seen of the part is where it is there: a kind
// that shows gills now and then is not asked twice whether it does.
func (m *Model) givenTheWhole(log []float64, seen []uint64) []float64 {
	for t, states := range seen {
		h := m.hangsOn(t)
		if h == nil || states == 0 || !h.affirmed(seen[h.whole]) {
			continue
		}
		if log == nil {
			log = make([]float64, len(m.kinds))
		}
		trait := m.traits[t]
		for i := range log {
			there := 1 - trait.truth[i][h.none]
			if there <= 0 || there >= 1 || wholeAlways(m, h, i) {
				continue
			}
			read := 0.0
			for s, share := range trait.truth[i] {
				if s != h.none {
					read += share / there * trait.reads(s, states)
				}
			}
			log[i] += math.Log(read / m.table.Likelihood(t, states, i))
		}
	}
	return log
}
