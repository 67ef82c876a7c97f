package key

import (
	"cmp"
	"math"
	"slices"

	"rillkey/taxa"
	"rillkey/taxa/sorting"
)

// leastDiffering is the information in bits below which a mark is not worth a place in a
// list of those on which what is left differs.
const leastDiffering = 0.01

// fewestDiffering are listed at least: of fewer the trait by itself asks as much.
const fewestDiffering = 3

// A trait of which marks were offered that together had such a chance, and none was
// ticked, is so much more seldom told when it is asked by itself: whoever looked through
// the list would have ticked it (memory; of accounts of animals in words as many come out
// as narrow as at 0.3, after .1 can't tells fewer).
const (
	passedMostly = 0.5
	toldPassed   = 0.1
)

// Differing are up to most marks on which the kinds that are left differ, those of one
// trait beside each other, for somebody to tick what they see of them at once. Each is
// worth the information that seeing it gives, times the chance that it is seen: its part
// of the mutual information of trait and kind (the specific surprise of DeWeese and Meister
// 1999; from memory); and more worth where the trait is more likely told. What was said,
// asked, offered before ([Inquiry.PassOver]), or cannot be seen of this animal is not among
// them.
func (q *Inquiry) Differing(most int) []TraitState {
	var all []worthTicking
	gone, _ := goneFrom(q)
	closed, implied, told := closedTo(q), impliedBy(q), canBeTold(q)
	for i := range q.model.asks {
		a := &q.model.asks[i]
		if a.couplet != nil {
			continue
		}
		n := a.traits[0]
		t := q.model.traits[n]
		if q.belief.Seen(n) != 0 || closed[i] || a.speaksOf(gone) || outOfPlace(q, n) || q.model.idle(a, implied) ||
			q.opts.NoLens && t.Look == taxa.Lens {
			continue
		}
		can := answerable(q, a, told)
		for s, state := range t.States {
			if isPassed(q, n, s) || lacksWhole(q.model, n, s) || lacksSeen(q, n, s) {
				continue
			}
			if chance, bits := ticked(q, n, 1<<s); bits >= leastDiffering {
				all = append(all, worthTicking{TraitState{t.Trait, state.ID, chance}, bits * can})
			}
		}
	}
	sorting.Stable(all, func(a, b worthTicking) int { return cmp.Compare(b.worth, a.worth) })
	all = all[:min(most, len(all))]
	if len(all) < fewestDiffering {
		return nil
	}
	var out []TraitState
	for i, first := range all {
		if slices.ContainsFunc(all[:i], func(m worthTicking) bool { return m.Trait == first.Trait }) {
			continue
		}
		for _, m := range all[i:] {
			if m.Trait == first.Trait {
				out = append(out, m.TraitState)
			}
		}
	}
	return out
}

// lacksWhole reports whether a state says that there is nothing of the trait because that on
// which it hangs is not there: who sees that says it of the whole.
func lacksWhole(m *Model, trait, state int) bool {
	h := m.hangsOn(trait)
	return h != nil && state == h.none && !h.lacking
}

// lacksSeen reports whether a state says that there is nothing of a part that was seen.
func lacksSeen(q *Inquiry, trait, state int) bool {
	for part, h := range q.model.hangs {
		if h != nil && h.whole == trait && h.states&(1<<state) == 0 && q.belief.Seen(part)&^(1<<h.none) != 0 {
			return true
		}
	}
	return false
}

// worthTicking is a mark with what it is worth.
type worthTicking struct {
	TraitState
	worth float64
}

// ticked is the chance that a trait is read as these states, and that times the
// information in bits which this gives of the kind.
func ticked(q *Inquiry, trait int, states uint64) (chance, bits float64) {
	chance = readAs(q, trait, states)
	if chance < leastChance {
		return chance, 0
	}
	for i, p := range q.belief.P() {
		if p > negligible {
			read := q.model.table.Likelihood(trait, states, i)
			bits += p * read * math.Log2(read/chance)
		}
	}
	return chance, bits
}

// PassOver notes that marks were offered, whether some were ticked or not: they are not
// offered again, and what was not ticked of their traits is hardly asked for. Of itself it
// says nothing of the animal.
func (q *Inquiry) PassOver(marks []TraitState) {
	if q.passed == nil {
		q.passed = make([]uint64, len(q.model.traits))
	}
	for _, m := range marks {
		q.passed[q.model.index[m.Trait.ID]] |= 1 << m.Trait.State(m.State)
	}
	q.chosen = false
}

// isPassed reports whether a state of a trait was offered.
func isPassed(q *Inquiry, trait, state int) bool {
	return q.passed != nil && q.passed[trait]&(1<<state) != 0
}

// passedOver reports whether most of what a trait may show was offered and not ticked.
func passedOver(q *Inquiry, trait int) bool {
	return q.passed != nil && q.belief.Seen(trait) == 0 && readAs(q, trait, q.passed[trait]) >= passedMostly
}

// endsAfterPassing reports whether the questions are over, nobody stopped them, and marks
// were passed over, without which more may be asked.
func endsAfterPassing(q *Inquiry) bool {
	return q.passed != nil && !q.stopped && q.suppose == nil && q.Question() == nil
}

// EndsOpen reports whether the questions are over, nobody stopped them, something could not
// be told, and there is no name of a kind, nor of those that the key cannot part.
func (q *Inquiry) EndsOpen() bool {
	if q.stopped || q.suppose != nil || untoldOf(q) == 0 || q.Question() != nil || settled(q) {
		return false
	}
	v := q.Verdict()
	return v.Level == ToGroup || v.Level == ToClass || v.Level == SetAside
}
