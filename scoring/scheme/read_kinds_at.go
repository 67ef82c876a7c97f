package scheme

import (
	"slices"

	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// everyKind is the one group of a scheme whose kinds are those of the catalog.
const everyKind = "all"

// readKindsAt makes a kind of every taxon of a rank, below kinds_within where
// that is given, and adds the kinds that the file lists. So a catalog that
// learns a family has it counted without a change to the scheme.
func (r *Rulebook) readKindsAt(s *Scheme, top, head *authored.Table) {
	s.KindsAt = head.Str("kinds_at")
	if !slices.Contains(taxa.Ranks, s.KindsAt) {
		head.Fail("kinds_at", "unknown-rank", wording.Sprintf("there is no rank %s", plain.Quote(s.KindsAt)),
			wording.Sprintf("it is one of %s", plain.List(taxa.Ranks)))
	}
	if s.KindsFrom != "" {
		head.Fail("kinds_at", "kinds-from", wording.Text("the kinds are those of another scheme already"),
			wording.Text("keep either kinds_from or kinds_at"))
	}
	within := r.readTaxonIDs(head, "kinds_within")
	s.Groups, s.weight = []Group{{ID: everyKind, Label: wording.Text("kinds of the catalog")}}, map[string]int64{everyKind: s.One()}
	for _, t := range r.catalog.Taxa() {
		if t.Rank == s.KindsAt && r.isWithin(t.ID, within) {
			k := Kind{ID: t.ID, Group: everyKind, Taxa: []string{t.ID}, Status: s.Status}
			k.Label = r.labelOf(k)
			claim(s.listed, t.ID, len(s.Kinds))
			s.Kinds = append(s.Kinds, k)
		}
	}
	if top.Has("kind") {
		r.readKinds(s, top)
	}
	if len(s.Kinds) == 0 && !r.lenient.Unknown {
		head.Fail("kinds_at", "empty", wording.Text("the catalog has no taxon of this rank there"),
			wording.Text("name a rank that animals of the scheme have, or write [kind.…] tables"))
	}
}

func (r *Rulebook) isWithin(id string, within []string) bool {
	return len(within) == 0 || slices.ContainsFunc(within, func(up string) bool { return r.catalog.IsUnder(id, up) })
}
