package key

import (
	"math/bits"
	"slices"
	"sync"

	"rillkey/key/belief"
	"rillkey/taxa"
)

// Nothing follows from an answer that was likelier misread than not: two tails alone are
// as often three of which one was lost or overlooked, and still nobody who saw two
// can say how the middle one is. What only happens to go with an answer in all taxa
// of the catalog, and does not hang on it by the vocabulary, follows from one that fits
// the rest: all shells with the opening on the left are without a lid, and still the lid
// tells whether it is on the left.
const (
	likelyMisread = 0.5
	fitsTheRest   = 0.1
)

// shown is what the lowest taxa of a catalog show, whether the key leads to them
// or not, and what is usual.
type shown struct {
	taxa  [][]uint64          // by taxon and trait, the states as bits; 0 where unknown
	usual []uint64            // by trait, the state that most of them show and no other, or 0
	none  []uint64            // by trait, the state of this name, or 0
	parts []func() []seenWith // by trait, of what it is the whole
}

// seenWith says with what of a whole one of its parts is to be seen.
type seenWith struct {
	states uint64 // of the whole; with no others is anything of the part to be seen
	known  bool   // that it is so, and mostly: else nothing follows
}

// readShown reads the taxa of the catalog that nothing lies beneath, and those
// that the key ends in.
func (m *Model) readShown() shown {
	catalog := m.key.catalog
	passed := map[string]bool{}
	for _, t := range catalog.Taxa() {
		passed[t.Parent] = true
	}
	for _, end := range m.ends {
		passed[end.ID] = false
	}
	out := shown{usual: make([]uint64, len(m.traits)), none: make([]uint64, len(m.traits))}
	for _, t := range catalog.Taxa() {
		if !passed[t.ID] {
			out.taxa = append(out.taxa, m.canShow(t))
		}
	}
	for n, t := range m.traits {
		out.usual[n] = usual(out.taxa, n, len(t.States))
		if i := t.State("none"); i >= 0 {
			out.none[n] = 1 << i
		}
	}
	for whole := range m.traits {
		out.parts = append(out.parts, sync.OnceValue(func() []seenWith {
			parts := make([]seenWith, len(m.traits))
			for part := range parts {
				if part != whole && out.none[part] != 0 {
					parts[part] = out.seenWith(part, whole)
				}
			}
			return parts
		}))
	}
	return out
}

// canShow are the states that a taxon can show, as bits, by trait.
func (m *Model) canShow(t *taxa.Taxon) []uint64 {
	out := make([]uint64, len(m.traits))
	for n, trait := range m.traits {
		for _, w := range t.States(trait.ID) {
			out[n] |= 1 << trait.State(w.State)
		}
	}
	return out
}

func usual(taxa [][]uint64, trait, states int) uint64 {
	counts := make([]int, states)
	known := 0
	for _, shown := range taxa {
		if s := shown[trait]; s != 0 {
			known++
			if bits.OnesCount64(s) == 1 {
				counts[bits.TrailingZeros64(s)]++
			}
		}
	}
	for s, n := range counts {
		if 2*n > known {
			return 1 << s
		}
	}
	return 0
}

// met are, by trait, the usual states that the taxa that can show one of these
// states of a trait show throughout; 0 where they show others.
func (s *shown) met(trait int, states uint64) []uint64 {
	met := make([]uint64, len(s.usual))
	for _, shown := range s.taxa {
		if shown[trait] != 0 && shown[trait]&states == 0 {
			continue
		}
		for t, more := range shown {
			met[t] |= more
		}
	}
	for t := range met {
		if t == trait || met[t] != s.usual[t] {
			met[t] = 0
		}
	}
	return met
}

// absent are, by trait, the states "none" that follow from these states of
// another; 0 where something may be seen of it.
func (s *shown) absent(trait int, states uint64) []uint64 {
	out := make([]uint64, len(s.usual))
	for part, seen := range s.parts[trait]() {
		if seen.known && states&seen.states == 0 {
			out[part] = s.none[part]
		}
	}
	return out
}

// seenWith says with which states of another trait something of a trait is to be
// seen: the lines on a lid are part of the lid. Of a part something is to be seen
// only with some states of the whole, and with these mostly.
func (s *shown) seenWith(part, whole int) seenWith {
	none, with := s.none[part], uint64(0)
	there, known := 0, 0
	for _, x := range s.taxa {
		if bits.OnesCount64(x[whole]) == 1 && x[part] != 0 && x[part]&none == 0 {
			with |= x[whole]
		}
	}
	for _, x := range s.taxa {
		switch {
		case x[part] == 0 || x[whole] == 0:
		case x[part] != none && x[whole]&with == 0:
			return seenWith{} // something is to be seen, nobody knows with what
		case x[whole]&^with == 0:
			known++
			if x[part]&none == 0 {
				there++
			}
		}
	}
	return seenWith{with, 2*there > known}
}

// follows notes what follows from an answer.
func (m *Model) follows(g *given) {
	g.absent, g.usual = make([]uint64, len(m.traits)), make([]uint64, len(m.traits))
	if g.asked && g.pick == Unsure {
		g.hangs = m.hanging(&m.asks[m.number(g.question)])
	}
	for _, part := range m.parts(g.says) {
		if m.traits[part.Trait].Likeness {
			continue // from which nothing follows
		}
		for t, is := range m.shown.absent(part.Trait, part.States) {
			g.absent[t] |= is
		}
		for t, is := range m.shown.met(part.Trait, part.States) {
			g.usual[t] |= is
		}
	}
}

// hanging are the traits of which some state of a question's trait leaves nothing to
// be seen: who cannot tell whether it has legs will hardly tell where they are.
func (m *Model) hanging(a *ask) []bool {
	out := make([]bool, len(m.traits))
	for _, whole := range a.traits {
		for s := range m.traits[whole].States {
			for t, none := range m.shown.absent(whole, 1<<s) {
				out[t] = out[t] || none != 0
			}
		}
	}
	return out
}

// impliedBy is by trait the state that follows from the answers, as a bit, or 0:
// without a lid there are no lines on it. Whether it is so the whole catalog
// says, not the key alone. What follows from an answer is no further evidence
// for it, and whoever is asked for it is asked twice.
func impliedBy(q *Inquiry) []uint64 {
	out := make([]uint64, len(q.model.traits))
	for i := range q.given {
		g := &q.given[i]
		if len(g.says) == 0 {
			continue
		}
		wrong := chanceWrong(q.model, q.belief, g, false)
		for t := range out {
			if wrong <= fitsTheRest || wrong <= likelyMisread && hangsOnAny(q.model, t, g) {
				out[t] |= g.absent[t]
			}
			if wrong <= fitsTheRest {
				out[t] |= g.usual[t]
			}
		}
	}
	return out
}

// hangsOnAny reports whether a trait hangs, by the vocabulary, on one of those that an
// answer speaks of, or on what hangs on it.
func hangsOnAny(m *Model, trait int, g *given) bool {
	parts := m.parts(g.says)
	for h := m.hangsOn(trait); h != nil; h = m.hangsOn(h.whole) {
		if slices.ContainsFunc(parts, func(p belief.Accepted) bool { return p.Trait == h.whole }) {
			return true
		}
	}
	return false
}

// idle reports whether a question has one answer at most, given the traits that
// are implied.
func (m *Model) idle(a *ask, implied []uint64) bool {
	if a.couplet == nil {
		return implied[a.traits[0]] != 0
	}
	open := 0
	for _, lead := range a.leads {
		possible := true
		for _, part := range lead {
			possible = possible && !(implied[part.Trait] != 0 && part.States&implied[part.Trait] == 0)
		}
		if possible {
			open++
		}
	}
	return open <= 1
}
