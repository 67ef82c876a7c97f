package trial

import (
	"hash/fnv"
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
