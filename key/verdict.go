package key

import (
	"cmp"
	"slices"

	"rillkey/taxa"
	"rillkey/taxa/sorting"
)

// Level says how far down a verdict goes.
type Level string

// The levels, lowest first.
const (
	ToKind   Level = "kind"       // an end point of the key: most often a family
	ToSet    Level = "set"        // one of several kinds that the key cannot tell apart
	ToGroup  Level = "group"      // a taxon above it, at order or below
	ToClass  Level = "class"      // the tolerance class alone
	SetAside Level = "aside"      // nothing: the animal waits for a second look
	NotInKey Level = "not-in-key" // no end point of the key, nor a group that it knows
)

// Verdict is what an inquiry has come to: the lowest of what is probable enough.
type Verdict struct {
	Level       Level
	Taxon       string  // id of the kind or group, or of what holds the set; else empty
	Probability float64 // that the animal is of it
	// Set are the ids of the kinds between which the key cannot tell, at the level
	// of a set, and SetProbability that the animal is one of them.
	Set            []string
	SetProbability float64
	// Class is the tolerance class that is probable enough, else empty: it may be wrong
	// twice as often as a name.
	Class            taxa.Class
	ClassProbability float64
	// Leaning is the likeliest class where none is probable enough and one is likely, at
	// 0.7 or more; else empty.
	Leaning            taxa.Class
	LeaningProbability float64
	// Likeliest is the kind most probable, whether enough or not; the key may not
	// lead to it ([Key.EndsIn]).
	Likeliest            string
	LikeliestProbability float64
	// Enclosing is the lowest taxon of the catalog that holds all that is likely,
	// strangers among it; empty where there is none.
	Enclosing string
	Rivals    []Rival // the other kinds, most probable first
	// OutsideKey is the probability that the animal is none of the key's end points.
	OutsideKey float64
	// Lacking is the least number of the things said that an end point cannot show.
	Lacking int
	// Misfit says that it is more than one: answers were misread, or the key does not
	// hold the animal.
	Misfit    bool
	Path      []string
	Questions int
}

// Rival is a kind that the animal may be instead of the likeliest.
type Rival struct {
	Taxon       string
	Probability float64
	// Apart is what best tells the rival from the likeliest and was not yet
	// answered; nil when nothing is left that would.
	Apart *Contrast
}

// Of the rivals only so many are named, and none below this probability; of those that
// the key leaves out, which are rare or absent where it is used, none below another.
const (
	mostRivals     = 5
	rivalsAbove    = 0.01
	strangersAbove = 0.05
)

// Candidate is an end point with its probability.
type Candidate struct {
	Taxon       string
	Probability float64
}

// Probabilities are those of all end points, in the order of the key. With
// [Verdict.OutsideKey] they sum to 1.
func (q *Inquiry) Probabilities() []Candidate {
	out := make([]Candidate, len(q.model.ends))
	for i, end := range q.model.ends {
		out[i] = Candidate{end.ID, q.belief.P()[i]}
	}
	return out
}

// Strangers are the probabilities of the kinds that the catalog knows and the key
// leaves out, in the order of the catalog.
func (q *Inquiry) Strangers() []Candidate {
	var out []Candidate
	for i := len(q.model.ends); i < len(q.model.kinds) && q.model.kinds[i] != nil; i++ {
		out = append(out, Candidate{q.model.kinds[i].ID, q.belief.P()[i]})
	}
	return out
}

// Verdict is what the answers so far come to.
func (q *Inquiry) Verdict() Verdict {
	v := Verdict{Level: SetAside, Path: q.Path(), Questions: q.Questions()}
	top := likeliestOf(q)
	v.Likeliest, v.LikeliestProbability = q.model.kinds[top].ID, q.belief.P()[top]
	v.OutsideKey, v.Enclosing, v.Lacking = q.strangerProbability(), likeTaxon(q), lackingOf(q)
	v.Misfit = v.Lacking > forgiven
	v.Class, v.ClassProbability = classBy(q, q.belief.P(), q.Question() == nil)
	if v.Class == "" {
		v.Leaning, v.LeaningProbability = leaningOf(q)
	}
	switch {
	case v.OutsideKey >= q.opts.Required:
		v.Level = NotInKey
	case v.Class != "":
		v.Level = ToClass
	}
	giveName(q, &v)
	v.Rivals = rivalsOf(q, top)
	return v
}

// atMisfit is the most that is told of a name where no kind shows all that was
// said, but for one thing: less than people call sure (memory). The belief reckons with misread answers
// as with anything else, but where the catalog or the key is wrong it knows nothing
// of that.
const atMisfit = 0.89

// Confidence is the probability of the name as it is told and recorded, 0 where
// there is none: that of the set or the taxon, and of a misfit at most 0.89.
func (v *Verdict) Confidence() float64 {
	p := v.Probability
	if v.Level == ToSet {
		p = v.SetProbability
	}
	return v.Told(p)
}

// Told is a probability as it is told of what the verdict is about: of a misfit at
// most 0.89.
func (v *Verdict) Told(p float64) float64 {
	if v.Misfit {
		return min(p, atMisfit)
	}
	return p
}

// Named reports whether the verdict is a name: a kind, a set of kinds or a group.
func (v *Verdict) Named() bool { return v.Level == ToKind || v.Level == ToSet || v.Level == ToGroup }

func giveName(q *Inquiry, v *Verdict) {
	g, p := nameBy(q, q.belief.P())
	switch {
	case g == nil, g.set == nil && !q.model.key.nameable(g.taxon) && v.OutsideKey >= q.opts.Required:
		return
	case g.set != nil:
		v.Level, v.Set, v.SetProbability = ToSet, ids(g.set), p
		if g.taxon != nil {
			v.Taxon, v.Probability = g.taxon.ID, massIn(q.belief.P(), q.model.isUnder(g.taxon.ID))
		}
		return
	}
	v.Level, v.Taxon, v.Probability = ToGroup, g.taxon.ID, p
	if isEnd(q, g.taxon) {
		v.Level = ToKind
	}
}

// leastSeen is of how many traits something must be known before the questions stop at
// a name: one mark that strikes everybody may be all that an animal shares with its
// kind, as two shell halves with a clam's. Of accounts of animals in words as many are
// named with it, after 0.1 questions more.
const leastSeen = 3

// settled reports whether the name can get no lower.
func settled(q *Inquiry) bool {
	if q.suppose != nil {
		return q.Checked().Outcome != CheckOpen
	}
	top, p := likeliestOf(q), q.belief.P()
	if seenTraits(q) < leastSeen && !endsThere(q, top) {
		return false
	}
	if p[top] >= settlesAt(q) || q.model.kinds[len(p)-1] == nil && p[len(p)-1] >= q.opts.Settle {
		return true
	}
	if q.Enough() != "" {
		return true
	}
	set := lensSetOf(q, q.model.kinds[top].ID)
	if set == nil {
		return false
	}
	together := 0.0
	for i, end := range q.model.ends {
		if slices.Contains(set.taxa, end.ID) {
			together += p[i]
		}
	}
	return together >= q.opts.Settle
}

// endsThere reports whether the author's path has led to a kind, in however few
// couplets: of a shed skin or of eggs there is nothing more to see.
func endsThere(q *Inquiry, kind int) bool {
	return q.opts.Order == AuthorsOrder && q.walk.Ended() && kind < len(q.model.ends) && q.walk.possible().Has(kind)
}

// Enough is the lowest of the taxa of [Options.Enough] that is probable enough for
// the questions to stop; empty when there is none.
func (q *Inquiry) Enough() string {
	for i := range q.model.groups {
		g := &q.model.groups[i]
		if g.set == nil && slices.Contains(q.opts.Enough, g.taxon.ID) && massOf(q.belief.P(), g) >= q.opts.Settle {
			return g.taxon.ID
		}
	}
	return ""
}

// likeliestOf is the kind most probable, what no catalog holds left aside.
func likeliestOf(q *Inquiry) int {
	p := q.belief.P()
	top := 0
	for i, kind := range q.model.kinds {
		if kind != nil && p[i] > p[top] {
			top = i
		}
	}
	return top
}

// nameBy is the taxon, or the set that the key cannot part, with fewest end points
// that holds the required probability, by those of the kinds. As that is more than a
// half, all taxa that hold it lie one above the other.
func nameBy(q *Inquiry, kinds []float64) (*group, float64) {
	for i := range q.model.groups {
		g := &q.model.groups[i]
		p := massOf(kinds, g)
		if p < q.opts.Required {
			continue
		}
		if g.set != nil {
			return g, p
		}
		if set := lensSetOf(q, g.taxon.ID); set != nil {
			above := q.model.key.catalog.Taxon(set.taxon)
			return &group{taxon: above}, massIn(kinds, q.model.isUnder(above.ID))
		}
		return g, p
	}
	return nil, 0
}

func massOf(kinds []float64, g *group) float64 {
	sum := 0.0
	for _, i := range g.ends {
		sum += kinds[i]
	}
	return min(1, sum)
}

// heldBy is the set of kinds that the key cannot part and that holds the
// probability to settle at; nil when there is none.
func heldBy(q *Inquiry) *group {
	for i := range q.model.groups {
		if g := &q.model.groups[i]; g.set != nil && massOf(q.belief.P(), g) >= q.opts.Settle {
			return g
		}
	}
	return nil
}

func isEnd(q *Inquiry, t *taxa.Taxon) bool { return slices.Contains(q.model.ends, t) }

func massIn(kinds []float64, in []bool) float64 {
	sum := 0.0
	for i, p := range kinds {
		if in[i] {
			sum += p
		}
	}
	return min(1, sum)
}

// A class is one of four, and no record keeps it: once nothing more is asked it may be
// wrong so many times as often as a name, and is told with how sure it is. Of accounts of
// animals in words all 13 that are between 0.8 and 0.9 sure of a class have that one, and
// of hard people's animals 133 of 152; of names as sure as that 10 of 12 are right.
const classRisk = 2

// Of itself and of those kinds of other classes that its likeliest kind is mistaken for a
// class may be wrong so many times as often as a name. Of accounts of animals in words five
// more have their class so than at 1, all five the right one, and of 5,408 animals of hard
// people 33 more the right one and 9 more a wrong one.
const takenRisk = 1.25

// classAt is the probability that a class must have once nothing more is asked.
func classAt(required float64) float64 {
	return min(required, max(leaningAt, 1-classRisk*(1-required)))
}

// classBy is the tolerance class that is probable enough, if there is one, by the
// probabilities of the kinds, and by whether something is still asked.
func classBy(q *Inquiry, kinds []float64, over bool) (taxa.Class, float64) {
	class, p := likeliestClass(q, kinds)
	switch {
	case p >= q.opts.Required:
	case !over || p < classAt(q.opts.Required):
		return "", 0
	case p < (1-takenRisk*(1-q.opts.Required))*(p+takenForClass(q, kinds, class)):
		return "", 0
	}
	return class, p
}

// takenForClass is the probability of the kinds of other classes for which the likeliest
// of a class is mistaken, or that are mistaken for it.
func takenForClass(q *Inquiry, kinds []float64, class taxa.Class) float64 {
	top, sum := -1, 0.0
	for i, p := range kinds {
		if kind := q.model.kinds[i]; kind != nil && kind.Class == class && (top < 0 || p > kinds[top]) {
			top = i
		}
	}
	for i, p := range kinds {
		if kind := q.model.kinds[i]; kind != nil && kind.Class != class && p > negligible &&
			(isTakenFor(q, kind, q.model.kinds[top]) || isTakenFor(q, q.model.kinds[top], kind)) {
			sum += p
		}
	}
	return sum
}

// isTakenFor reports whether the catalog says that people mistake a kind, or what it
// belongs to, for another.
func isTakenFor(q *Inquiry, kind, other *taxa.Taxon) bool {
	catalog := q.model.key.catalog
	for _, t := range append([]*taxa.Taxon{kind}, catalog.Ancestors(kind.ID)...) {
		if slices.ContainsFunc(t.Mistaken, func(m taxa.Mistaken) bool { return catalog.IsUnder(other.ID, m.Taxon) }) {
			return true
		}
	}
	return false
}

// leaningAt is the probability from which a class is called likely.
const leaningAt = 0.7

// leaningOf is the class that is likely, if there is one.
func leaningOf(q *Inquiry) (taxa.Class, float64) {
	if class, p := likeliestClass(q, q.belief.P()); p >= leaningAt {
		return class, p
	}
	return "", 0
}

// likeliestClass is the tolerance class most probable.
func likeliestClass(q *Inquiry, kinds []float64) (best taxa.Class, most float64) {
	for _, class := range taxa.Classes {
		sum := 0.0
		for i, p := range kinds {
			if kind := q.model.kinds[i]; kind != nil && kind.Class == class {
				sum += p
			}
		}
		if sum > most {
			best, most = class, min(1, sum)
		}
	}
	return best, most
}

// lensSet is what people without a lens cannot part from the end point, and
// where they stop; nil for people with a lens.
type lensSet struct {
	taxa  []string
	taxon string
}

func lensSetOf(q *Inquiry, end string) *lensSet {
	if !q.opts.NoLens {
		return nil
	}
	for _, s := range q.model.key.sound.LensSets {
		if slices.Contains(s.Taxa, end) {
			return &lensSet{s.Taxa, s.NakedEye}
		}
	}
	return nil
}

func rivalsOf(q *Inquiry, top int) []Rival {
	p := q.belief.P()
	var order []int
	for i := range p {
		least := rivalsAbove
		if i >= len(q.model.ends) {
			least = strangersAbove
		}
		if i != top && q.model.kinds[i] != nil && p[i] >= least {
			order = append(order, i)
		}
	}
	sorting.Stable(order, func(a, b int) int { return cmp.Compare(p[b], p[a]) })
	var out []Rival
	for _, i := range order[:min(mostRivals, len(order))] {
		out = append(out, Rival{q.model.kinds[i].ID, p[i], toldApart(q, top, i)})
	}
	return out
}

// toldApart is the best unanswered feature that tells two end points apart.
func toldApart(q *Inquiry, a, b int) *Contrast {
	for _, c := range q.model.Compare(q.model.kinds[a].ID, q.model.kinds[b].ID) {
		if q.belief.Seen(q.model.index[c.Trait.ID]) == 0 && !(q.opts.NoLens && c.Trait.Look == taxa.Lens) {
			return &c
		}
	}
	return nil
}

// seenTraits is of how many traits something was seen.
func seenTraits(q *Inquiry) int {
	n := 0
	for t := range q.model.traits {
		if q.belief.Seen(t) != 0 {
			n++
		}
	}
	return n
}
