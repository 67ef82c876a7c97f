package key

import (
	"cmp"
	"slices"

	"rillkey/taxa"
	"rillkey/taxa/sorting"
)

// Result is what a walk has come to: a plain value, fit to be kept.
type Result struct {
	// Taxon is the id of the lowest taxon that holds all that is possible, at
	// order or below, or a group the key offers to stop at. It is empty when
	// there is none: the animal is to be set aside for a second look.
	Taxon string
	// Enclosing is the id of the lowest taxon of any rank that holds all that is
	// possible, or empty.
	Enclosing string
	// Possible are the ids of the end points left, in the order of the key; none
	// means that the answers fit nothing together.
	Possible []string
	// Set says that Possible are several that share an end, between which the key
	// cannot tell.
	Set bool
	// Class is the tolerance class that all that is possible share, or empty.
	Class taxa.Class
	// Confidence is the chance that no answer was misread, 0 to 1; see the
	// package comment.
	Confidence float64
	// Doubts are the traits looked at, most often misread first.
	Doubts    []Doubt
	Path      []string // leads taken, "1b", "4?"
	Questions int      // how many couplets were asked
}

// Doubt is a trait that was looked at and may have been misread.
type Doubt struct {
	Answer  string // the answer it was seen through, "4a"; empty for an observation
	Trait   string
	States  []string // as seen
	Misread float64  // share of beginners' answers that are wrong, 0 to 0.5
}

// Result is what the walk has come to, ended or not.
func (w *Walk) Result() Result {
	possible := w.Possible()
	r := Result{
		Possible: ids(possible), Class: w.key.catalog.CommonClass(ids(possible)),
		Confidence: w.confidence(), Doubts: w.doubts(), Path: w.Path(), Questions: w.now.asked,
	}
	left := w.possible()
	r.Set = len(possible) > 1 && slices.ContainsFunc(w.key.shared, left.Subset)
	if t := w.key.catalog.Cover(r.Possible); t != nil {
		r.Enclosing = t.ID
	}
	if t := w.key.name(possible); t != nil {
		r.Taxon = t.ID
	}
	return r
}

func (w *Walk) confidence() float64 {
	p := 1.0
	for _, o := range w.now.seen {
		p *= 1 - w.key.catalog.Vocabulary().Trait(o.trait).Misread
	}
	return p
}

func (w *Walk) doubts() []Doubt {
	out := make([]Doubt, len(w.now.seen))
	for i, o := range w.now.seen {
		out[i] = Doubt{o.answer, o.trait, slices.Clone(o.states), w.key.catalog.Vocabulary().Trait(o.trait).Misread}
	}
	sorting.Stable(out, func(a, b Doubt) int { return cmp.Compare(b.Misread, a.Misread) })
	return out
}

// name is the lowest taxon that holds all of possible and is worth naming.
func (k *Key) name(possible []*taxa.Taxon) *taxa.Taxon {
	cover := k.catalog.Cover(ids(possible))
	if cover == nil {
		return nil
	}
	if len(possible) == 1 || k.nameable(cover) {
		return cover
	}
	for _, up := range k.catalog.Ancestors(cover.ID) {
		if k.nameable(up) {
			return up
		}
	}
	return nil
}

// nameable reports whether a walk may stay at a taxon: at order rank or below, or where
// the key offers it as a stop.
func (k *Key) nameable(t *taxa.Taxon) bool { return k.stops[t.ID] || worthNaming(t) }

// withoutOrders are the taxa at class rank or below it of which the catalog has no
// orders: worms and leeches, snails. They are worth a name as an order is elsewhere.
func (k *Key) withoutOrders() map[string]bool {
	out := map[string]bool{}
	for _, t := range k.catalog.Taxa() {
		out[t.ID] = slices.Index(taxa.Ranks, t.Rank) >= slices.Index(taxa.Ranks, "class")
	}
	for _, t := range k.catalog.Taxa() {
		if t.Rank == "order" {
			for _, up := range k.catalog.Ancestors(t.ID) {
				out[up.ID] = false
			}
		}
	}
	return out
}

// worthNaming reports whether a taxon is at order rank or below it.
func worthNaming(t *taxa.Taxon) bool {
	rank := slices.Index(taxa.Ranks, t.Rank)
	return rank >= slices.Index(taxa.Ranks, "order")
}

func ids(ts []*taxa.Taxon) []string {
	out := make([]string, len(ts))
	for i, t := range ts {
		out[i] = t.ID
	}
	return out
}
