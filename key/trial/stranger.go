package trial

import (
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"

	"rillkey/key"
	"rillkey/taxa"
)

// strangers are the taxa of the catalog with nothing beneath them and with traits,
// to which the key does not lead.
func strangers(k *key.Key) []*taxa.Taxon {
	passed := map[string]bool{}
	for _, t := range k.Catalog().Taxa() {
		passed[t.Parent] = true
	}
	var out []*taxa.Taxon
	for _, t := range k.Catalog().Taxa() {
		of := func(end *taxa.Taxon) bool { return k.Catalog().IsUnder(t.ID, end.ID) }
		if !passed[t.ID] && !slices.ContainsFunc(k.Ends(), of) && inTable(k, t) {
			out = append(out, t)
		}
	}
	return out
}

// inTable reports whether the table says anything of a taxon.
func inTable(k *key.Key, t *taxa.Taxon) bool {
	return slices.ContainsFunc(k.Catalog().Vocabulary().Traits(), func(trait *taxa.Trait) bool { return t.States(trait.ID) != nil })
}

// stranger makes an animal one that the key does not lead to, and gives what it
// shows: most are of the catalog, all equally common; the others show what one of
// two kinds shows, trait by trait, so that no catalog holds them.
func (d *draws) stranger(a *animal, h *rand.Rand) func(trait string) []taxa.Weight {
	a.stranger = true
	one := d.strangers[h.IntN(len(d.strangers))]
	if h.Float64() >= d.chimeras {
		a.kind = one
		return one.States
	}
	a.kind = nil
	other := d.ends[h.IntN(len(d.ends))]
	return func(trait string) []taxa.Weight {
		if h.Float64() < 0.5 {
			return one.States(trait)
		}
		return other.States(trait)
	}
}

// twinOverlap is the overlap from which a kind is another's twin: even who reads all that
// needs no lens, and knows both, takes one for the other at least once in ten times.
const twinOverlap = 0.6

// twins counts, of strangers named to an end point, those named for one of their own class
// that hardly anything printed parts from them: the name is as wrong, but nobody could tell.
func (s *Setup) twins(named []Pair) (n int) {
	catalog := s.Key.Catalog()
	for _, pair := range named {
		is, instead := catalog.Taxon(pair.A), catalog.Taxon(pair.B)
		if is != nil && instead != nil && is.Class == instead.Class && s.overlap(is, instead) >= twinOverlap {
			n += pair.Animals
		}
	}
	return n
}

// overlap is how much alike two taxa are to people without a lens: Bhattacharyya's
// coefficient, 0 to 1, of all that is read of the one and of the other, trait by trait as if
// they were independent (Bhattacharyya 1943). Whoever knows all of it and takes the one for as
// common as the other is wrong at least (1 - sqrt(1 - b²))/2 of the time at a coefficient b
// (Kailath 1967; both memory). Lengths, which made-up people do not tell, and traits unknown
// for either say nothing.
func (s *Setup) overlap(a, b *taxa.Taxon) float64 {
	out := 1.0
	for _, t := range s.Key.Catalog().Vocabulary().Traits() {
		shownA, shownB := a.States(t.ID), b.States(t.ID)
		if shownA == nil || shownB == nil || t.Look == taxa.Lens {
			continue
		}
		readings, of := s.Model.Readings(t), 0.0
		for j := range t.States {
			of += math.Sqrt(readAs(t, readings, shownA, j) * readAs(t, readings, shownB, j))
		}
		out *= of
	}
	return out
}

// readAs is the chance that what shows these states is read as state j.
func readAs(t *taxa.Trait, readings [][]float64, shown []taxa.Weight, j int) (p float64) {
	for _, w := range shown {
		p += w.Share * readings[t.State(w.State)][j]
	}
	return p
}

// wrongCell is what all animals of a kind show of a trait although the table says
// otherwise, or empty where the table is right. No table is wrong in that all worms are
// pupae, shed skins or eggs, of which hardly anything else is to be seen.
func (d *draws) wrongCell(kind *taxa.Taxon, t *taxa.Trait, shown []taxa.Weight) string {
	if d.hardship.Cells == 0 || kind == nil || len(shown) >= len(t.States) {
		return ""
	}
	h := fnv.New64a()
	_, _ = h.Write([]byte(kind.ID + " " + t.ID)) // a hash takes anything
	cell := rand.New(rand.NewPCG(d.seed, h.Sum64()))
	if cell.Float64() >= d.hardship.Cells {
		return ""
	}
	var others []string
	for _, s := range t.States {
		if s.Leaves == nil && !slices.ContainsFunc(shown, func(w taxa.Weight) bool { return w.State == s.ID }) {
			others = append(others, s.ID)
		}
	}
	if len(others) == 0 {
		return ""
	}
	return others[cell.IntN(len(others))]
}
